package web

import (
	"net/http"
	"time"

	"shadewright/render/language"
)

// The language that a phone chose is kept in a cookie of its own, by which
// nothing can be done but read: it needs no signature.
const (
	languageCookie = "language"
	languageDays   = 400 // the most that browsers keep a cookie (RFC 6265bis, 5.5)
)

// speaks returns the language of a phone: its own choice, else the shop's.
func (s *Server) speaks(r *http.Request) language.Language {
	if c, err := r.Cookie(languageCookie); err == nil {
		if l, ok := s.choice(c.Value); ok {
			return l
		}
	}
	return s.opt.Language
}

// choice returns the language that is chosen by a base.
func (s *Server) choice(base string) (language.Language, bool) {
	for _, l := range s.choices {
		if l.Base() == base {
			return l, true
		}
	}
	return language.Language{}, false
}

// setLanguage keeps what a phone chose and brings it back to where it was.
func (s *Server) setLanguage(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.badForm(w, r, err)
		return
	}
	if l, ok := s.choice(r.PostForm.Get("language")); ok {
		http.SetCookie(w, &http.Cookie{
			Name: languageCookie, Value: l.Base(), Path: "/", MaxAge: int(languageDays * 24 * time.Hour / time.Second),
			HttpOnly: true, Secure: s.opt.Secure, SameSite: http.SameSiteLaxMode,
		})
	}
	http.Redirect(w, r, localPath(r.PostForm.Get("to")), http.StatusSeeOther)
}

// heads says what a page is. By its language the worker in a phone tells pages
// that it keeps from those of a language that was chosen since.
func (s *Server) heads(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Content-Language", s.speaks(r).Tag())
}

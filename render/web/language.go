package web

import (
	"net/http"
	"time"

	"shadewright/render/language"
)

// A phone's choice of language is in a cookie of its own. The cookie needs no
// signature, because it gives no access.
const (
	languageCookie = "language"
	languageDays   = 400 // the longest that browsers keep a cookie (RFC 6265bis, 5.5)
)

// speaks returns the language for a phone: its own choice, else the shop's.
func (s *Server) speaks(r *http.Request) language.Language {
	if c, err := r.Cookie(languageCookie); err == nil {
		if l, ok := s.choice(c.Value); ok {
			return l
		}
	}
	return s.opt.Language
}

// choice returns the language with a base tag among the choices.
func (s *Server) choice(base string) (language.Language, bool) {
	for _, l := range s.choices {
		if l.Base() == base {
			return l, true
		}
	}
	return language.Language{}, false
}

// setLanguage stores a phone's choice and returns it to the page it came from.
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

// heads sets the type and the language of a page. The worker in a phone uses
// the language to drop stored pages of an earlier choice.
func (s *Server) heads(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Content-Language", s.speaks(r).Tag())
}

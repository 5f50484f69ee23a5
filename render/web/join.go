package web

import (
	"fmt"
	"net/http"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"shadewright/render/symbol"
	"shadewright/ticket/message"
)

// joinPage asks for the PIN and a name, or only for a name after a scanned join
// code.
type joinPage struct {
	frame
	Code, To, Problem string
	People            []string
}

func (s *Server) showJoin(w http.ResponseWriter, r *http.Request) {
	p := s.joinPage(r, r.URL.Query().Get("to"))
	if code := r.PathValue("code"); code != "" {
		if s.login.joinCodeGood(code) {
			p.Code = code
		} else {
			p.Problem = p.Say("web.join-code-expired")
		}
	}
	s.page(w, r, http.StatusOK, "join.html", p)
}

func (s *Server) joinPage(r *http.Request, to string) *joinPage {
	p := &joinPage{frame: s.outside(r, "web.join"), To: localPath(to), People: s.opt.People}
	if r.Method == http.MethodPost {
		p.Here = "/join?to=" + queryPath(p.To)
	}
	return p
}

// join admits a phone that has the right PIN or a join code.
func (s *Server) join(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.badForm(w, r, err)
		return
	}
	f := r.PostForm
	p := s.joinPage(r, f.Get("to"))
	who, err := name(f.Get("who"))
	if err != nil {
		p.Problem = p.Put(message.FromError(err))
		if p.Code = f.Get("code"); s.login.joinCodeGood(p.Code) {
			p.Here = "/J/" + p.Code
		}
		s.page(w, r, http.StatusUnprocessableEntity, "join.html", p)
		return
	}
	if !s.login.joinCodeGood(f.Get("code")) {
		fits, wait := s.login.attempts.try(remoteAddr(r), func() bool { return s.login.pinFits(f.Get("pin")) })
		switch {
		case wait > 0:
			seconds := int((wait + time.Second - 1) / time.Second)
			w.Header().Set("Retry-After", fmt.Sprint(seconds))
			p.Problem = p.Put(message.Count(seconds, "web.wrong-pins-wait-second", "web.wrong-pins-wait-seconds"))
			s.page(w, r, http.StatusTooManyRequests, "join.html", p)
			return
		case !fits:
			p.Problem = p.Say("web.wrong-pin")
			s.page(w, r, http.StatusForbidden, "join.html", p)
			return
		}
	}
	if err := s.login.admit(w, member{ID: s.opt.NewID().String(), Who: who, Until: s.login.until()}); err != nil {
		s.failed(w, r, err)
		return
	}
	http.Redirect(w, r, p.To, http.StatusSeeOther)
}

// name checks the name of a person or a place in the same way as a mark does.
func name(text string) (string, error) {
	text = oneLine(text)
	const most = 80 // the limit for a name in a mark
	switch {
	case !utf8.ValidString(text) || strings.ContainsFunc(text, unicode.IsControl):
		return "", message.NewError("web.name-not-letters")
	case utf8.RuneCountInString(text) > most:
		return "", message.NewError("web.name-too-long", most)
	}
	return text, nil
}

// homePage is the first page of a phone.
type homePage struct {
	frame
	People []string
	Typed  string
}

func (s *Server) home(w http.ResponseWriter, r *http.Request, _ member) {
	s.page(w, r, http.StatusOK, "home.html", homePage{frame: s.frame(r, "web.tickets"), People: s.opt.People})
}

// find opens the ticket whose code was typed.
func (s *Server) find(w http.ResponseWriter, r *http.Request, _ member) {
	c, rev, err := ticketPath(strings.TrimSpace(r.URL.Query().Get("code")))
	if err != nil {
		s.showMessage(w, r, http.StatusNotFound, "web.not-a-ticket", message.FromError(err))
		return
	}
	http.Redirect(w, r, "/T/"+c.With(rev), http.StatusSeeOther)
}

// setMe changes who uses this phone, and where.
func (s *Server) setMe(w http.ResponseWriter, r *http.Request, me member) {
	var errs [2]error
	me.Who, errs[0] = name(r.PostForm.Get("who"))
	me.Where, errs[1] = name(r.PostForm.Get("where"))
	for _, err := range errs {
		if err != nil {
			s.showMessage(w, r, http.StatusUnprocessableEntity, "web.name-does-not-fit", message.FromError(err))
			return
		}
	}
	if err := s.login.admit(w, me); err != nil {
		s.failed(w, r, err)
		return
	}
	http.Redirect(w, r, "/", http.StatusSeeOther)
}

func (s *Server) leave(w http.ResponseWriter, r *http.Request, _ member) {
	s.login.expel(w)
	http.Redirect(w, r, "/join", http.StatusSeeOther)
}

// letInPage shows a join code.
type letInPage struct {
	frame
	Symbol  symbol.Symbol
	Side    int // side of the symbol with its quiet zone, in modules
	Minutes int
}

// letIn shows a code with which another phone joins.
func (s *Server) letIn(w http.ResponseWriter, r *http.Request, _ member) {
	address := s.opt.Address
	if address == "" {
		address = "http://" + r.Host
		if s.opt.Secure {
			address = "https://" + r.Host
		}
	}
	qr, err := symbol.QR(strings.ToUpper(strings.TrimSuffix(address, "/")+"/J/")+s.login.joinCode(), symbol.Medium)
	if err != nil {
		s.failed(w, r, err)
		return
	}
	p := letInPage{frame: s.frame(r, "web.join-code"), Symbol: qr, Side: qr.Wide + 2*qr.Quiet, Minutes: int(joinFor.Minutes())}
	s.page(w, r, http.StatusOK, "letin.html", p)
}

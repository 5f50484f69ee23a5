package web

import (
	"context"
	"errors"
	"net/http"
	"strings"
	"time"

	"github.com/google/uuid"

	"shadewright/render/language"
	"shadewright/ticket/code"
	"shadewright/ticket/mark"
	"shadewright/ticket/mark/record"
	"shadewright/ticket/message"
)

// shopRecord is the part of the record that the pages use.
type shopRecord interface {
	Mark(context.Context, mark.Mark) (mark.Answer, error)
	Look(context.Context, code.Code, code.Revision) (mark.Answer, error)
	Board(context.Context) (mark.Board, error)
	Changes(ctx context.Context, after int64) (record.Change, error)
}

// Options says how to serve the pages.
type Options struct {
	Record shopRecord
	Key    []byte // signs cookies; at least 32 random bytes, the same at every start
	PIN    string // a new PIN ends all earlier cookies
	Days   int    // life of a cookie
	Secure bool   // served over TLS
	// Address is the address at which phones reach the server, such as
	// http://192.168.1.20:8080. The join code needs it. If it is empty, the
	// join code uses the address of the request that shows it.
	Address  string
	Names    []string          // host names that the server accepts, besides its own addresses
	Holds    []string          // reasons to hold a ticket
	Spoilt   []string          // reasons a panel is spoilt
	People   []string          // names to choose from when joining
	Language language.Language // for phones that have not chosen another
	Comma    bool              // the decimal mark is a comma, as on paper
	Fault    func(error)
	Now      func() time.Time // nil for the clock
	NewID    func() uuid.UUID // nil for random ids
}

// A Server answers every request.
type Server struct {
	opt     Options
	login   *login
	choices []language.Language // languages that a phone may choose
	handler http.Handler
	streams streams
	ending  context.Context // done when the server stops
	end     context.CancelFunc
}

// leastKey is the shortest key for HMAC-SHA256: as long as its output (RFC
// 2104).
const leastKey = 32

// New returns the server of the pages.
func New(opt Options) (*Server, error) {
	if len(opt.Key) < leastKey || opt.PIN == "" || opt.Record == nil {
		return nil, errors.New("web: New needs a record, a PIN and a key of at least 32 bytes")
	}
	if opt.Now == nil {
		opt.Now = time.Now
	}
	if opt.NewID == nil {
		opt.NewID = uuid.New
	}
	if opt.Fault == nil {
		opt.Fault = func(error) {}
	}
	s := &Server{opt: opt, login: newLogin(opt), choices: opt.Language.Choices()}
	s.ending, s.end = context.WithCancel(context.Background())
	s.handler = s.guard(s.routes())
	return s, nil
}

// ServeHTTP answers a request.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) { s.handler.ServeHTTP(w, r) }

// Close ends the boards that update themselves, so that a server can stop.
func (s *Server) Close() { s.end() }

func (s *Server) routes() http.Handler {
	mux := http.NewServeMux()
	in := func(pattern string, h func(http.ResponseWriter, *http.Request, member)) {
		mux.HandleFunc(pattern, s.inside(h))
	}
	for _, t := range []string{"/T/{code}", "/t/{code}"} { // cameras keep the case of a path, people do not
		in("GET "+t, s.showTicket)
		in("POST "+t, s.markTicket)
	}
	for _, j := range []string{"/J/{code}", "/j/{code}"} {
		mux.HandleFunc("GET "+j, s.showJoin)
	}
	mux.HandleFunc("GET /join", s.showJoin)
	mux.HandleFunc("POST /join", s.join)
	mux.HandleFunc("POST /language", s.setLanguage)
	in("GET /{$}", s.home)
	in("POST /me", s.setMe)
	in("POST /leave", s.leave)
	in("GET /find", s.find)
	in("GET /let-in", s.letIn)
	in("GET /board", s.board)
	in("GET /board/changes", s.changes)
	mux.HandleFunc("GET /offline", s.offline)
	mux.HandleFunc("GET /a/{name}", s.asset)
	mux.HandleFunc("GET /worker.js", s.asset) // the scope of a worker is the folder of its address
	mux.HandleFunc("/", func(w http.ResponseWriter, r *http.Request) {
		s.showMessage(w, r, http.StatusNotFound, "web.no-such-page", message.Of("web.scan-or-begin"))
	})
	return mux
}

// mostBody is larger than any of our forms.
const mostBody = 16 << 10

// policy is the content security policy: nothing from other sites, and no
// inline scripts or styles (W3C Content Security Policy Level 3).
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; " +
	"worker-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// guard refuses requests that no phone of the shop sends.
func (s *Server) guard(next http.Handler) http.Handler {
	cross := http.NewCrossOriginProtection() // checks Sec-Fetch-Site, else Origin against Host
	cross.SetDenyHandler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.showMessage(w, r, http.StatusForbidden, "web.other-site", message.Of("web.other-site-help"))
	}))
	next = cross.Handler(next)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer") // addresses contain join codes
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		if !hostAllowed(r, s.opt.Names) {
			http.Error(w, s.opt.Language.Say("web.wrong-host"), http.StatusMisdirectedRequest)
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, mostBody)
		next.ServeHTTP(w, r)
	})
}

// inside passes only requests of phones that joined, and only forms from their
// own pages.
func (s *Server) inside(h func(http.ResponseWriter, *http.Request, member)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		me, ok := s.login.member(r)
		if !ok {
			s.askToJoin(w, r)
			return
		}
		if r.Method == http.MethodPost {
			if err := r.ParseForm(); err != nil {
				s.badForm(w, r, err)
				return
			}
			if !s.login.tokenFits(me, r.PostForm.Get("token")) {
				s.showMessage(w, r, http.StatusForbidden, "web.out-of-date", message.Of("web.out-of-date-help"))
				return
			}
		}
		h(w, r, me)
	}
}

func (s *Server) badForm(w http.ResponseWriter, r *http.Request, err error) {
	var large *http.MaxBytesError
	if errors.As(err, &large) {
		s.showMessage(w, r, http.StatusRequestEntityTooLarge, "web.too-long", message.Of("web.too-long-help"))
		return
	}
	s.showMessage(w, r, http.StatusBadRequest, "web.form-unreadable", message.Of("web.form-unreadable-help"))
}

// askToJoin sends a browser to the page where phones join, and back afterwards.
func (s *Server) askToJoin(w http.ResponseWriter, r *http.Request) {
	if wantsJSON(r) || r.Method != http.MethodGet {
		s.showMessage(w, r, http.StatusUnauthorized, "web.not-joined", message.Of("web.not-joined-help"))
		return
	}
	http.Redirect(w, r, "/join?to="+queryPath(r.URL.Path), http.StatusSeeOther)
}

func wantsJSON(r *http.Request) bool {
	return strings.Contains(r.Header.Get("Accept"), "application/json")
}

// failed answers a request for which the record failed.
func (s *Server) failed(w http.ResponseWriter, r *http.Request, err error) {
	if r.Context().Err() != nil {
		return // the phone went away
	}
	s.opt.Fault(err)
	s.showMessage(w, r, http.StatusServiceUnavailable, "web.record-silent", message.FromError(err))
}

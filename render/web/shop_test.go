package web

import (
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"shadewright/ticket"
	"shadewright/ticket/code"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/mark"
	"shadewright/ticket/mark/record"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

const testPIN = "385201"

// A shop is a server with the sample job in its record.
type shop struct {
	t       testing.TB
	log     *record.Record
	handler *Server
	server  *httptest.Server
	tickets []*mark.Ticket
	faults  chan error
}

var testKey = []byte(strings.Repeat("k", 32))

// openShop serves a new record. change may set options.
func openShop(t testing.TB, change func(*Options)) *shop {
	t.Helper()
	log, err := record.Open(context.Background(), filepath.Join(t.TempDir(), "marks.db"), record.Options{Policy: mark.UsualPolicy(), Poll: 50 * time.Millisecond})
	if err != nil {
		t.Fatal(err)
	}
	s := &shop{t: t, log: log, tickets: sample(t), faults: make(chan error, 100)}
	if _, err := log.Register(context.Background(), s.tickets); err != nil {
		t.Fatal(err)
	}
	opt := Options{
		Record: log, Key: testKey, PIN: testPIN, Days: 30, Holds: []string{"no cloth", "ask the client"}, Spoilt: []string{"cut wrong"}, People: []string{"ann", "bo"},
		Fault: func(err error) { s.faults <- err },
	}
	if change != nil {
		change(&opt)
	}
	if s.handler, err = New(opt); err != nil {
		t.Fatal(err)
	}
	s.server = httptest.NewUnstartedServer(s.handler)
	s.server.Config.RegisterOnShutdown(s.handler.Close)
	s.server.Start()
	t.Cleanup(func() {
		s.handler.Close()
		s.server.Close()
		if err := log.Close(); err != nil {
			t.Error(err)
		}
		close(s.faults)
		for err := range s.faults {
			t.Errorf("fault: %v", err)
		}
	})
	return s
}

// sample returns the registrations of the sample job.
func sample(t testing.TB) []*mark.Ticket { return sampleOf(t, "bunkhouse") }

// sampleOf returns the registrations of one of the sample jobs.
func sampleOf(t testing.TB, job string) []*mark.Ticket {
	t.Helper()
	file, err := jobfile.ReadPath("../../testdata/jobs/"+job+".yaml", jobfile.Options{
		Practice: ticket.Practice{Units: measure.Inches, Style: measure.Usual, Sewing: ticket.Sewing{StitchLength: 5 * measure.Millimetre, Thread: 69, Needle: 18}}, NewID: uuid.New,
	})
	if err != nil {
		t.Fatal(err)
	}
	made, err := ticket.Make(&file.Job, ticket.Options{Route: route.Usual()})
	if err != nil {
		t.Fatal(err)
	}
	ticket.Seal(made, nil)
	var list []*mark.Ticket
	for _, m := range made {
		k, err := mark.TicketOf(m)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, k)
	}
	return list
}

// named returns the first unit of a shade.
func (s *shop) named(shade string) *mark.Ticket {
	s.t.Helper()
	for _, t := range s.tickets {
		if t.Shade == shade {
			return t
		}
	}
	s.t.Fatalf("no shade %s", shade)
	return nil
}

// state returns the state of a ticket.
func (s *shop) state(c code.Code) *mark.State {
	s.t.Helper()
	st, err := s.log.State(context.Background(), c)
	if err != nil || st == nil {
		s.t.Fatalf("state of %s: %v, %v", c, st, err)
	}
	return st
}

// A phone is a browser without scripts.
type phone struct {
	t    testing.TB
	base string
	http *http.Client
}

// stranger returns a phone that has not joined.
func (s *shop) stranger() *phone {
	jar, err := cookiejar.New(nil)
	if err != nil {
		s.t.Fatal(err)
	}
	return &phone{s.t, s.server.URL, &http.Client{Jar: jar, Timeout: 30 * time.Second}}
}

// joined returns a phone that has joined as ann.
func (s *shop) joined() *phone {
	p := s.stranger()
	a := p.post("/join", url.Values{"pin": {testPIN}, "who": {"ann"}})
	if a.status != http.StatusOK || a.path != "/" {
		s.t.Fatalf("joining answers %d at %s: %s", a.status, a.path, a.text)
	}
	return p
}

// An arrival is a page as the phone received it.
type arrival struct {
	status     int
	path, text string
	header     http.Header
}

func (p *phone) do(r *http.Request) arrival {
	p.t.Helper()
	a, err := p.http.Do(r)
	if err != nil {
		p.t.Fatal(err)
	}
	defer a.Body.Close()
	body, err := io.ReadAll(a.Body)
	if err != nil {
		p.t.Fatal(err)
	}
	return arrival{a.StatusCode, a.Request.URL.Path, string(body), a.Header}
}

func (p *phone) request(method, path string, body io.Reader) *http.Request {
	p.t.Helper()
	r, err := http.NewRequest(method, p.base+path, body)
	if err != nil {
		p.t.Fatal(err)
	}
	if body != nil {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	return r
}

func (p *phone) get(path string) arrival { return p.do(p.request("GET", path, nil)) }

func (p *phone) post(path string, f url.Values) arrival {
	return p.do(p.request("POST", path, strings.NewReader(f.Encode())))
}

var (
	formRE   = regexp.MustCompile(`(?s)<form method="post" action="([^"]*)".*?</form>`)
	hiddenRE = regexp.MustCompile(`<input type="hidden" name="([^"]*)" value="([^"]*)">`)
)

// form returns the action and the hidden fields of the form that sends a kind
// of mark.
func (a arrival) form(t testing.TB, kind string) (path string, f url.Values) {
	t.Helper()
	for _, m := range formRE.FindAllStringSubmatch(a.text, -1) {
		f := url.Values{}
		for _, h := range hiddenRE.FindAllStringSubmatch(m[0], -1) {
			f.Set(h[1], h[2])
		}
		if f.Get("kind") == kind || kind == "" {
			return m[1], f
		}
	}
	t.Fatalf("no form sends %q on %s", kind, a.text)
	return "", nil
}

// does sends the form of a page, with more fields filled in.
func (p *phone) does(page arrival, kind string, more ...string) arrival {
	p.t.Helper()
	path, f := page.form(p.t, kind)
	for i := 0; i < len(more); i += 2 {
		f.Set(more[i], more[i+1])
	}
	return p.post(path, f)
}

func wantIn(t testing.TB, a arrival, status int, texts ...string) {
	t.Helper()
	if a.status != status {
		t.Errorf("status %d; want %d: %s", a.status, status, a.text)
	}
	for _, want := range texts {
		if !strings.Contains(a.text, want) {
			t.Errorf("the page does not show %q:\n%s", want, a.text)
		}
	}
}

func pathOf(t *mark.Ticket) string { return fmt.Sprintf("/T/%s-%s", t.Code, t.Revision) }

func hostPort(t testing.TB, base string) (host, port string) {
	t.Helper()
	u, err := url.Parse(base)
	if err != nil {
		t.Fatal(err)
	}
	host, port, err = net.SplitHostPort(u.Host)
	if err != nil {
		t.Fatal(err)
	}
	return host, port
}

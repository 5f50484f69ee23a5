package web

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"
)

// A phone that has not joined reaches only the page to join.
func TestStrangerIsKeptOut(t *testing.T) {
	s := openShop(t, nil)
	p := s.stranger()
	door := pathOf(s.named("door"))
	for _, path := range []string{"/", "/board", "/board?all", "/let-in", "/find?code=x", door} {
		a := p.get(path)
		if a.path != "/join" || !strings.Contains(a.text, "The shop’s PIN") || strings.Contains(a.text, "bunk") {
			t.Errorf("GET %s leads a stranger to %s:\n%s", path, a.path, a.text)
		}
	}
	wantIn(t, p.post(door, url.Values{"kind": {"done"}}), http.StatusUnauthorized, "This phone has not joined")
	r := p.request("GET", "/board/changes?after=0", nil)
	r.Header.Set("Accept", "application/json")
	if a := p.do(r); a.status != http.StatusUnauthorized {
		t.Errorf("a stranger gets updates: %d", a.status)
	}
	if st := s.state(s.named("door").Code); len(st.Steps) != 0 {
		t.Error("a stranger marked a step")
	}
}

// After joining, a phone is at the page it asked for, and never on another
// site.
func TestJoinLeadsBack(t *testing.T) {
	s := openShop(t, nil)
	door := pathOf(s.named("door"))
	tests := []struct{ to, want string }{
		{door, door}, {"", "/"}, {"https://elsewhere.example/", "/"}, {"//elsewhere.example", "/"}, {`/\elsewhere.example`, "/"}, {"board", "/"},
	}
	for _, tt := range tests {
		if a := s.stranger().post("/join", url.Values{"pin": {testPIN}, "to": {tt.to}}); a.status != http.StatusOK || a.path != tt.want {
			t.Errorf("joining for %q leads to %s (%d); want %s", tt.to, a.path, a.status, tt.want)
		}
	}
}

// Wrong PINs cost more and more time, for each sender and for all together.
func TestTriesAreSlowed(t *testing.T) {
	now := time.Date(2027, 2, 1, 12, 0, 0, 0, time.UTC)
	tr := newAttempts(func() time.Time { return now })
	wrong, right := func() bool { return false }, func() bool { return true }
	var waited time.Duration
	for i := range freeAttempts {
		if ok, wait := tr.try("a", wrong); ok || wait != 0 {
			t.Fatalf("attempt %d waits %s", i+1, wait)
		}
	}
	for i := range 5 {
		ok, wait := tr.try("a", right)
		if ok || wait != time.Second<<i {
			t.Fatalf("after %d wrong PINs the right one waits %s, %t; want %s", freeAttempts+i, wait, ok, time.Second<<i)
		}
		now, waited = now.Add(wait), waited+wait
		if ok, wait := tr.try("a", wrong); ok || wait != 0 {
			t.Fatalf("after its wait an attempt waits %s", wait)
		}
	}
	if ok, _ := tr.try("b", right); !ok {
		t.Error("a few wrong PINs of one sender keep out another sender")
	}
	// A million PINs from new senders each time: ten a minute are judged.
	judged := 0
	begin := now
	for i := 0; now.Sub(begin) < 10*time.Minute; i++ {
		if _, wait := tr.try(fmt.Sprint("c", i), func() bool { judged++; return false }); wait > 0 {
			now = now.Add(time.Second)
		}
	}
	if most := 11 * attemptsInAll; judged > most {
		t.Errorf("%d attempts were judged in ten minutes; want at most %d", judged, most)
	}
}

func TestTriesAtOnce(t *testing.T) {
	s := openShop(t, nil)
	var wg sync.WaitGroup
	var mu sync.Mutex
	got := map[int]int{}
	for i := range 40 {
		wg.Go(func() {
			a := s.stranger().post("/join", url.Values{"pin": {fmt.Sprint(100000 + i)}})
			mu.Lock()
			got[a.status]++
			mu.Unlock()
		})
	}
	wg.Wait()
	if got[http.StatusForbidden] != freeAttempts || got[http.StatusTooManyRequests] != 40-freeAttempts {
		t.Errorf("40 wrong PINs at once: %v; want %d judged", got, freeAttempts)
	}
	// A join code still works while PINs are slowed down.
	code := strings.TrimPrefix(joinPath(t, s), "/J/")
	if a := s.stranger().post("/join", url.Values{"code": {code}}); a.path != "/" {
		t.Errorf("a join code leads to %s while PINs are slowed down", a.path)
	}
}

// joinPath returns the address in the join code on the screen.
func joinPath(t *testing.T, s *shop) string {
	t.Helper()
	return "/J/" + s.handler.login.joinCode()
}

func TestJoinCode(t *testing.T) {
	now := time.Now()
	s := openShop(t, func(o *Options) { o.Now = func() time.Time { return now } })
	path := joinPath(t, s)
	for _, p := range []string{path, strings.ToLower(path)} {
		a := s.stranger().get(p)
		if a.status != http.StatusOK || strings.Contains(a.text, "The shop’s PIN") {
			t.Fatalf("GET %s asks for the PIN:\n%s", p, a.text)
		}
		code := regexp.MustCompile(`name="code" value="([^"]*)"`).FindStringSubmatch(a.text)
		if b := s.stranger().post("/join", url.Values{"code": {code[1]}, "who": {"bo"}}); b.path != "/" || !strings.Contains(b.text, `value="bo"`) {
			t.Errorf("a join code leads to %s:\n%s", b.path, b.text)
		}
	}
	bad := path[:len(path)-1] + "A"
	if bad == path {
		bad = path[:len(path)-1] + "B"
	}
	wantIn(t, s.stranger().get(bad), http.StatusOK, "has run out", "The shop’s PIN")
	now = now.Add(joinFor + time.Second)
	wantIn(t, s.stranger().get(path), http.StatusOK, "has run out")
	wantIn(t, s.stranger().post("/join", url.Values{"code": {strings.TrimPrefix(path, "/J/")}}), http.StatusForbidden, "not the shop’s PIN"[:8])
}

// A cookie that was changed, was signed for another shop, or expired admits
// nobody.
func TestCookie(t *testing.T) {
	now := time.Now()
	s := openShop(t, func(o *Options) { o.Now = func() time.Time { return now } })
	p := s.joined()
	base, err := url.Parse(p.base)
	if err != nil {
		t.Fatal(err)
	}
	good := p.http.Jar.Cookies(base)[0].Value
	try := func(value string) bool {
		jar, err := cookiejar.New(nil)
		if err != nil {
			t.Fatal(err)
		}
		jar.SetCookies(base, []*http.Cookie{{Name: "in", Value: value, Path: "/"}})
		q := &phone{t, p.base, &http.Client{Jar: jar}}
		return q.get("/").path == "/"
	}
	if !try(good) {
		t.Fatal("a valid cookie is refused")
	}
	for i := range len(good) {
		bad := []byte(good)
		if bad[i] = 'A'; good[i] == 'A' {
			bad[i] = 'B'
		}
		last := i == len(good)-1 // its two low bits are padding
		if !last && try(string(bad)) {
			t.Errorf("a cookie changed at %d is accepted", i)
		}
	}
	other := newLogin(Options{Key: testKey, PIN: "another1", Days: 30, Now: time.Now})
	if _, ok := other.member(&http.Request{Header: http.Header{"Cookie": {"in=" + good}}}); ok {
		t.Error("a cookie outlives its PIN")
	}
	now = now.AddDate(0, 0, 31)
	if try(good) {
		t.Error("a cookie from 31 days ago is accepted")
	}
}

func TestLeave(t *testing.T) {
	s := openShop(t, nil)
	p := s.joined()
	token := p.get("/")
	_, f := token.form(t, "")
	if a := p.post("/leave", f); a.path != "/join" {
		t.Errorf("leaving leads to %s", a.path)
	}
	if a := p.get("/"); a.path != "/join" {
		t.Error("a phone that left is still in")
	}
}

// Requests for another host, from another site, or far too large are refused.
func TestGuards(t *testing.T) {
	s := openShop(t, func(o *Options) { o.Names = []string{"shop.local"} })
	p := s.joined()
	host, port := hostPort(t, p.base)
	hosts := []struct {
		host string
		ok   bool
	}{
		{host + ":" + port, true}, {"localhost:" + port, true}, {"shop.local:" + port, true}, {"SHOP.LOCAL", true}, {"shop.local.", true},
		{"evil.example", false}, {"evil.example:" + port, false}, {"127.0.0.1.evil.example", false}, {"10.0.0.1", false}, {"[::1]:" + port, false}, {"localhost.evil.example", false},
	}
	for _, tt := range hosts {
		r := p.request("GET", "/join", nil)
		r.Host = tt.host
		if a := p.do(r); (a.status == http.StatusOK) != tt.ok {
			t.Errorf("Host %q answers %d; want admitted %t", tt.host, a.status, tt.ok)
		}
	}

	door := s.named("door")
	path, f := p.get(pathOf(door)).form(t, "done")
	sites := []struct{ name, value string }{
		{"Sec-Fetch-Site", "cross-site"}, {"Sec-Fetch-Site", "same-site"}, {"Origin", "https://evil.example"}, {"Origin", "null"},
	}
	for _, tt := range sites {
		r := p.request("POST", path, strings.NewReader(f.Encode()))
		r.Header.Set(tt.name, tt.value)
		if a := p.do(r); a.status != http.StatusForbidden {
			t.Errorf("%s: %s answers %d", tt.name, tt.value, a.status)
		}
	}
	without := url.Values{"kind": f["kind"], "id": f["id"], "step": f["step"]}
	wantIn(t, p.post(path, without), http.StatusForbidden, "This page is out of date")

	f.Set("words", strings.Repeat("x", mostBody))
	wantIn(t, p.post(path, f), http.StatusRequestEntityTooLarge, "That is too long")
	if st := s.state(door.Code); len(st.Steps) != 0 {
		t.Error("a refused request marked a step")
	}
	if a := p.do(p.request("DELETE", path, nil)); a.status < 400 {
		t.Errorf("DELETE answers %d", a.status)
	}
}

// Every page has the headers that keep out foreign scripts, and no page loads
// anything from another host.
func TestHeadersAndPages(t *testing.T) {
	s := openShop(t, nil)
	p := s.joined()
	outside := regexp.MustCompile(`(?i)(src|href|action|url\()\s*=?\s*["']?(https?:)?//`)
	inline := regexp.MustCompile(`(?i)<script(?:[^>]*[^r]c="[^"]*")?>[^<]|\son[a-z]+="|\sstyle="|<style|javascript:`)
	for _, path := range []string{"/", "/board", "/board?all", "/let-in", "/join", "/offline", "/nowhere", pathOf(s.named("door")), "/a/style.css", "/a/page.js", "/worker.js", "/a/icon.svg"} {
		a := p.get(path)
		h := a.header
		if !strings.HasPrefix(h.Get("Content-Security-Policy"), "default-src 'none'") || strings.Contains(h.Get("Content-Security-Policy"), "unsafe") ||
			h.Get("X-Content-Type-Options") != "nosniff" || h.Get("Referrer-Policy") != "no-referrer" {
			t.Errorf("%s lacks a header: %v", path, h)
		}
		text := strings.ReplaceAll(a.text, `xmlns="http://www.w3.org/2000/svg"`, "")
		if m := outside.FindString(text); m != "" {
			t.Errorf("%s loads from elsewhere: %q", path, m)
		}
		if !strings.HasSuffix(path, ".js") && inline.MatchString(a.text) {
			t.Errorf("%s has inline content: %q", path, inline.FindString(a.text))
		}
	}
	r := p.request("GET", "/a/style.css", nil)
	r.Header.Set("If-None-Match", p.get("/a/style.css").header.Get("ETag"))
	if a := p.do(r); a.status != http.StatusNotModified {
		t.Errorf("an unchanged style is sent again: %d", a.status)
	}
}

// No page contains the PIN or the key.
func TestNoSecretsInPages(t *testing.T) {
	s := openShop(t, nil)
	p := s.joined()
	for _, path := range []string{"/", "/board", "/let-in", "/join", pathOf(s.named("door"))} {
		if a := p.get(path); strings.Contains(a.text, testPIN) || strings.Contains(a.text, string(testKey)) {
			t.Errorf("%s contains a secret", path)
		}
	}
}

// The join code on the screen is complete: its squares are those of the symbol
// for the server's own address.
func TestLetIn(t *testing.T) {
	s := openShop(t, func(o *Options) { o.Address = "http://192.168.1.20:8080" })
	a := s.joined().get("/let-in")
	start := strings.Index(a.text, "<svg")
	end := strings.Index(a.text, "</svg>")
	var svg struct {
		ViewBox string `xml:"viewBox,attr"`
		Rects   []struct {
			X, Y string `xml:"-"`
		} `xml:"g>rect"`
	}
	if err := xml.NewDecoder(bytes.NewReader([]byte(a.text[start : end+6]))).Decode(&svg); err != nil {
		t.Fatal(err)
	}
	// ISO/IEC 18004: a symbol has 17 + 4·version modules, plus 4 on each side.
	var w, h int
	if _, err := fmt.Sscanf(svg.ViewBox, "0 0 %d %d", &w, &h); err != nil || w != h || (w-8-17)%4 != 0 || len(svg.Rects) < 50 {
		t.Errorf("join code of %q with %d rectangles", svg.ViewBox, len(svg.Rects))
	}
}

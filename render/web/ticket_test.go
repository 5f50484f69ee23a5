package web

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"shadewright/ticket/mark"
	"shadewright/ticket/measure"
)

// A ticket from its code to its last step, on a phone without scripts.
func TestTicketIsMarked(t *testing.T) {
	s := openShop(t, nil)
	p := s.joined()
	door := s.named("door")
	a := p.get(pathOf(door))
	// By hand, from the job: 23-3/4 in wide; 70 + 9 + 3/8 + 1-5/16 = 80-11/16 in long.
	wantIn(t, a, http.StatusOK, "<h1>door</h1>", "Next step: Mark direction", "23\u20113/4 × 80\u201111/16\u00a0in", "Rolls to the room side", "hem fold 3/8 in")

	a = p.does(a, "done")
	wantIn(t, a, http.StatusOK, "<strong>DONE</strong>", "Next step: Cut the panel", "Width as cut, inches", "Done, 1 of 17", "by ann")
	again := a

	// The width is off: the page keeps the reading, and the step is not done.
	a = p.does(a, "done", "width", "24")
	wantIn(t, a, http.StatusOK, "<strong>NOT YET</strong>", "too wide by 1/4 in; trim it off one side and measure again", `name="anyway"`, `value="24"`)
	a = p.does(a, "done", "width", "23 3/4")
	wantIn(t, a, http.StatusOK, "<strong>DONE</strong>", "the width is right", "Next step: Square the panel")

	// By hand: √(23.75² + 80.6875²) = 84.11, 84-1/8 to the nearest 1/16, both times.
	a = p.does(a, "done", "first", "84-1/8", "second", "84-1/8")
	wantIn(t, a, http.StatusOK, "square", "Next step: Mark the lines", "84-1/8 in and 84-1/8 in")

	// A page that is out of date marks no other step.
	wantIn(t, p.does(again, "done", "width", "23 3/4"), http.StatusConflict, "<strong>NO</strong>", "Cut the panel was already done")

	a = p.does(p.get(pathOf(door)), "undone")
	wantIn(t, a, http.StatusOK, "<strong>UNDONE</strong>", "Next step: Square the panel")

	a = p.does(a, "held", "reason", "no cloth")
	wantIn(t, a, http.StatusOK, "<strong>HELD</strong>", "Held: no cloth")
	wantIn(t, p.does(a, "released"), http.StatusOK, "<strong>RELEASED</strong>")
	if got := s.state(door.Code); len(got.Steps) != 2 || got.Hold != nil || got.Steps[1].Who != "ann" {
		t.Errorf("state %+v", got)
	}
}

func TestTicketWordsWin(t *testing.T) {
	s := openShop(t, nil)
	p := s.joined()
	a := p.does(p.get(pathOf(s.named("porch"))), "held", "reason", "no cloth", "words", "  rod is\tbent ")
	wantIn(t, a, http.StatusOK, "Held: rod is bent")
	a = p.does(p.get(pathOf(s.named("kitchen"))), "held")
	wantIn(t, a, http.StatusUnprocessableEntity, "<strong>NO</strong>", "a hold needs a reason; say in a few words why")
}

// A form sent twice is one mark, even if the second copy comes later.
func TestTwiceIsOnce(t *testing.T) {
	now := time.Now()
	s := openShop(t, func(o *Options) { o.Now = func() time.Time { now = now.Add(time.Second); return now } })
	p := s.joined()
	door := s.named("door")
	page := p.get(pathOf(door))
	wantIn(t, p.does(page, "done"), http.StatusOK, "<strong>DONE</strong>")
	wantIn(t, p.does(page, "done"), http.StatusOK, "<strong>AGAIN</strong>", "nothing was marked twice")
	if got := s.state(door.Code); len(got.Steps) != 1 {
		t.Errorf("%d steps are done; want 1", len(got.Steps))
	}
}

// A mark that waited in a phone keeps the time when it was made, if that time
// is plausible.
func TestTimeOfPhone(t *testing.T) {
	now := time.Date(2027, 2, 1, 12, 0, 0, 0, time.UTC)
	tests := []struct {
		at   time.Time
		want time.Time
	}{
		{now.Add(-time.Hour), now.Add(-time.Hour)},
		{now.Add(time.Minute), now.Add(time.Minute)},
		{now.Add(time.Hour), now},
		{now.AddDate(0, 0, -8), now},
	}
	for _, tt := range tests {
		f := url.Values{"kind": {"released"}, "id": {uuid.NewString()}, "at": {tt.at.Format(time.RFC3339Nano)}}
		m, err := markOf(f, mark.Mark{Code: "KM46SAXN4E", Time: now}, 0)
		if err != nil || !m.Time.Equal(tt.want) {
			t.Errorf("a phone's time %s becomes %s, %v; want %s", tt.at, m.Time, err, tt.want)
		}
	}
}

// A phone's script sends the time in UTC. Later messages show the time of the
// clock on the shop's wall.
func TestTimeIsOfTheShop(t *testing.T) {
	now := time.Date(2027, 2, 1, 21, 30, 0, 0, time.FixedZone("", -5*3600)) // 2 February, 02:30 UTC
	s := openShop(t, func(o *Options) { o.Now = func() time.Time { return now } })
	p := s.joined()
	page := p.get(pathOf(s.named("door")))
	wantIn(t, p.does(page, "held", "reason", "no cloth", "at", "2027-02-02T02:30:00.000Z"), http.StatusOK, "<strong>HELD</strong>")
	wantIn(t, p.does(page, "done"), http.StatusConflict, "held: no cloth at 9:30\u00a0PM on February 1 by ann")
}

func TestTicketAddresses(t *testing.T) {
	s := openShop(t, nil)
	p := s.joined()
	door := s.named("door")
	tests := []struct {
		path   string
		status int
		text   string
	}{
		{pathOf(door), http.StatusOK, "<h1>door</h1>"},
		{strings.ToLower(pathOf(door)), http.StatusOK, "<h1>door</h1>"},
		{"/T/" + door.Code.Grouped(), http.StatusOK, "<h1>door</h1>"},
		{"/T/" + string(door.Code), http.StatusOK, "<h1>door</h1>"},
		{"/T/" + string(door.Code) + "-2222", http.StatusOK, "revision 2222 was never printed"},
		{"/T/Z3AB4Y9X6N", http.StatusNotFound, "No ticket has this code"},
		{"/T/Z3AB4Y9X6P", http.StatusNotFound, "is mistyped"},
		{"/T/" + strings.Repeat("A", 65), http.StatusNotFound, "much longer than any code"},
		{"/T/..%2f..%2fetc%2fpasswd", http.StatusNotFound, "That is not a ticket"},
		{"/T/%00", http.StatusNotFound, "That is not a ticket"},
		{"/T/<script>", http.StatusNotFound, "&lt;script&gt;"},
		{"/T/", http.StatusNotFound, "This page does not exist"},
		{"/a/..%2fpages%2fjoin.html", http.StatusNotFound, "This page does not exist"},
		{"/find?code=" + strings.ToLower(string(door.Code)), http.StatusOK, "<h1>door</h1>"},
		{"/find?code=nonsense", http.StatusNotFound, "That is not a ticket"},
		{"/nowhere", http.StatusNotFound, "This page does not exist"},
	}
	for _, tt := range tests {
		if a := p.get(tt.path); a.status != tt.status || !strings.Contains(a.text, tt.text) {
			t.Errorf("GET %s = %d; want %d and %q:\n%s", tt.path, a.status, tt.status, tt.text, a.text)
		}
	}
}

// Paper that is not valid cannot be marked from its page.
func TestPaperThatDoesNotCount(t *testing.T) {
	s := openShop(t, nil)
	p := s.joined()
	a := p.get("/T/" + string(s.named("door").Code) + "-2222")
	if strings.Contains(a.text, `value="done"`) {
		t.Error("the page of an unknown revision has a button")
	}
	spoilt := s.named("porch")
	a = p.does(p.get(pathOf(spoilt)), "remade", "reason", "cut wrong")
	wantIn(t, a, http.StatusOK, "<strong>REMADE</strong>", "print the job again for its new ticket "+spoilt.Successor().Grouped())
	a = p.get(pathOf(spoilt))
	wantIn(t, a, http.StatusOK, "this panel was remade")
	if strings.Contains(a.text, `value="done"`) {
		t.Error("the page of a spoilt panel has a button")
	}
}

// The reply to a script.
func TestReply(t *testing.T) {
	s := openShop(t, nil)
	p := s.joined()
	door := s.named("door")
	path, f := p.get(pathOf(door)).form(t, "done")
	send := func(f url.Values) arrival {
		r := p.request("POST", path, strings.NewReader(f.Encode()))
		r.Header.Set("Accept", "application/json")
		return p.do(r)
	}
	a := send(f)
	if want := `{"good":true,"outcome":"taken","message":"DONE  door: Mark direction and strip the donor; next: Cut the panel"}` + "\n"; a.status != http.StatusOK || a.text != want {
		t.Errorf("answer %d %s; want %s", a.status, a.text, want)
	}
	f.Set("id", uuid.NewString())
	wantIn(t, send(f), http.StatusConflict, `"outcome":"already"`)
	f.Set("id", "none")
	wantIn(t, send(f), http.StatusUnprocessableEntity, `"good":false`, "the form has no id of its own")
	f.Set("token", "x")
	wantIn(t, send(f), http.StatusForbidden, "This page is out of date")
}

func FuzzTicketPath(f *testing.F) {
	for _, s := range []string{"KM46SAXN4E-BK24", "km4-6sax-n4e", "", "/../", "HTTP://X/T/KM46SAXN4E", strings.Repeat("-", 70)} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		c, r, err := ticketPath(text)
		if err != nil {
			return
		}
		if e := c.Check(); e != nil {
			t.Errorf("ticketPath(%q) = %s: %v", text, c, e)
		}
		if again, rev, err := ticketPath(c.With(r)); err != nil || again != c || rev != r {
			t.Errorf("%s-%s reads back as %s-%s, %v", c, r, again, rev, err)
		}
	})
}

func FuzzForm(f *testing.F) {
	f.Add("kind=done&step=cut&width=27+1/2&at=2027-02-01T12:00:00Z&id=" + uuid.NewString())
	f.Add("kind=held&reason=a&words=%00&id=x")
	f.Add("first=1e9&second=-1&turns=12%BD&kind=done")
	f.Fuzz(func(t *testing.T, body string) {
		values, err := url.ParseQuery(body)
		if err != nil {
			return
		}
		now := time.Date(2027, 2, 1, 12, 0, 0, 0, time.UTC)
		m, err := markOf(values, mark.Mark{Code: "KM46SAXN4E", Revision: "BK24", Who: "ann", Time: now}, measure.Inches)
		if err != nil || m.Check() != nil {
			return
		}
		switch {
		case m.Code != "KM46SAXN4E" || m.Who != "ann":
			t.Errorf("a form changed the ticket or the person: %+v", m)
		case m.Time.After(now.Add(clockMayErr)) || m.Time.Before(now.Add(-oldestMark)):
			t.Errorf("time %s is far from %s", m.Time, now)
		case m.Kind == mark.Measured:
			t.Error("a form sends a kind that no page has")
		}
	})
}

package web

import (
	"bufio"
	"context"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"shadewright/ticket/mark"
	"shadewright/ticket/message"
)

func TestBoard(t *testing.T) {
	s := openShop(t, func(o *Options) {
		o.Now = func() time.Time { return time.Date(2027, 3, 2, 9, 0, 0, 0, time.UTC) } // a day after the due date
	})
	p := s.joined()
	a := p.get("/board")
	wantIn(t, a, http.StatusOK, "Heron Landing bunkhouse", "0 of 10 finished, 10 late, due March 1", ">bunk-left, unit 1</a>", "waiting, <strong>late</strong>", "0 of 17")

	spoilt := s.named("porch")
	p.does(p.get(pathOf(spoilt)), "remade", "reason", "cut wrong")
	if a := p.get("/board"); strings.Contains(a.text, "t-"+string(spoilt.Code)) {
		t.Error("a spoilt ticket is on the board")
	}
	wantIn(t, p.get("/board?all"), http.StatusOK, "t-"+string(spoilt.Code), "spoilt<br>0 of 17<br>cut wrong")
}

// follow delivers the updates of a board.
func follow(t *testing.T, ctx context.Context, p *phone, path string) <-chan update {
	t.Helper()
	r := p.request("GET", path, nil).WithContext(ctx)
	client := &http.Client{Jar: p.http.Jar}
	a, err := client.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	if a.StatusCode != http.StatusOK || a.Header.Get("Content-Type") != "text/event-stream" {
		t.Fatalf("changes answer %d, %s", a.StatusCode, a.Header.Get("Content-Type"))
	}
	out := make(chan update)
	go func() {
		defer close(out)
		defer a.Body.Close()
		lines := bufio.NewScanner(a.Body)
		lines.Buffer(nil, 1<<20)
		for lines.Scan() {
			if data, ok := strings.CutPrefix(lines.Text(), "data: "); ok {
				var u update
				if json.Unmarshal([]byte(data), &u) == nil {
					out <- u
				}
			}
		}
	}()
	return out
}

func next1(t *testing.T, from <-chan update) update {
	t.Helper()
	select {
	case u, ok := <-from:
		if !ok {
			t.Fatal("the stream ended")
		}
		return u
	case <-time.After(30 * time.Second):
		t.Fatal("no update arrives")
	}
	return update{}
}

func TestBoardChanges(t *testing.T) {
	s := openShop(t, nil)
	p := s.joined()
	b, err := s.log.Board(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	from := follow(t, t.Context(), p, "/board/changes?after="+itoa(b.Seq))
	door := s.named("door")
	p.does(p.get(pathOf(door)), "done")
	u := next1(t, from)
	if len(u.Rows) != 1 || u.Rows[0].Code != string(door.Code) || !strings.Contains(u.Rows[0].HTML, "begun") || u.Jobs[door.Job.String()] == "" {
		t.Errorf("update %+v", u)
	}
	porch := s.named("porch")
	p.does(p.get(pathOf(porch)), "remade", "reason", "cut wrong")
	if u := next1(t, from); len(u.Rows) != 1 || u.Rows[0].HTML != "" || !strings.Contains(u.Jobs[porch.Job.String()], "1 cut again") {
		t.Errorf("update %+v; want its row removed", u)
	}
	// A board that comes back later gets the updates it missed.
	ctx, cancel := context.WithCancel(t.Context())
	if u := next1(t, follow(t, ctx, p, "/board/changes?all&after="+itoa(b.Seq))); len(u.Rows) != 2 && !u.Reload {
		t.Errorf("update %+v; want both", u)
	}
	cancel()
	wantIn(t, p.get("/board/changes?after=-1"), http.StatusBadRequest, "address is wrong")
	// A server that stops ends its boards.
	s.handler.Close()
	select {
	case _, ok := <-from:
		if ok {
			t.Error("a board gets an update after the end")
		}
	case <-time.After(30 * time.Second):
		t.Error("a board does not end")
	}
}

// A board stays open longer than the server allows a request or an answer to
// take.
func TestBoardOutlivesTimeouts(t *testing.T) {
	const limit = 500 * time.Millisecond
	s := openShop(t, nil)
	at := s.down()
	ln, err := net.Listen("tcp", at)
	if err != nil {
		t.Fatal(err)
	}
	s.handler.reopen()
	s.server = httptest.NewUnstartedServer(s.handler)
	if err := s.server.Listener.Close(); err != nil {
		t.Fatal(err)
	}
	s.server.Listener = ln
	s.server.Config.ReadTimeout, s.server.Config.WriteTimeout = limit, limit
	s.server.Start()
	p := s.joined()
	b, err := s.log.Board(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	from := follow(t, t.Context(), p, "/board/changes?after="+itoa(b.Seq))
	// The same limit ends a request that began after the board and never
	// finishes, so by then the board's own time is over, too.
	if err := untilCutOff(t, at); err != nil {
		t.Fatal(err)
	}
	p.does(p.get(pathOf(s.named("door"))), "done")
	if u := next1(t, from); len(u.Rows) != 1 {
		t.Errorf("update %+v", u)
	}
}

// untilCutOff sends half a request and returns when the server ends it.
func untilCutOff(t *testing.T, at string) error {
	t.Helper()
	half, err := net.Dial("tcp", at)
	if err != nil {
		return err
	}
	defer half.Close()
	if _, err := io.WriteString(half, "GET / HTTP/1.1\r\nHost: "); err != nil {
		return err
	}
	_, err = io.Copy(io.Discard, half)
	return err
}

func itoa(n int64) string { b, _ := json.Marshal(n); return string(b) }

// A record that does not answer is reported, and nothing is marked.
func TestRecordFails(t *testing.T) {
	s := openShop(t, nil)
	p := s.joined()
	page := p.get(pathOf(s.named("door")))
	if err := s.log.Close(); err != nil {
		t.Fatal(err)
	}
	wantIn(t, p.does(page, "done"), http.StatusServiceUnavailable, "The record does not answer")
	for len(s.faults) > 0 {
		<-s.faults // the faults are expected
	}
}

func TestRow(t *testing.T) {
	tk := sample(t)[0]
	st := mark.NewState(tk, 1)
	row := rowOf(st.With(mark.Entry{Seq: 2, Mark: mark.Mark{ID: uuid.New(), Kind: mark.Held, Reason: message.ReasonTerm.Term("<b>no cloth")}}), look{})
	var b strings.Builder
	if err := pages.ExecuteTemplate(&b, "row", row); err != nil || !strings.Contains(b.String(), "held<br>0 of 17<br>&lt;b&gt;no cloth") {
		t.Errorf("row %s, %v", b.String(), err)
	}
}

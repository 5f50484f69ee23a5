package screen

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"time"

	"shadewright/ticket/mark"
)

// boardPage is what the board shows.
type boardPage struct {
	frame
	Seq  int64
	All  bool // finished and spoilt tickets too
	Jobs []boardJob
}

type boardJob struct {
	ID, Name, Words string
	Late            bool
	Rows            []boardRow
}

type boardRow struct {
	Code, Name, Stands, Next, Done, Remark string
	Late, Shown                            bool
}

func (s *Screen) board(w http.ResponseWriter, r *http.Request, me session) {
	b, err := s.opt.Record.Board(r.Context())
	if err != nil {
		s.failed(w, r, err)
		return
	}
	p := &boardPage{frame: s.frame(me, "Board"), Seq: b.Seq, All: r.URL.Query().Has("all")}
	p.Board = true
	now := s.opt.Now()
	for _, j := range b.Jobs {
		p.Jobs = append(p.Jobs, jobOf(j, now, p.All))
	}
	// A board of thousands goes out as it is made.
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	if err := pages.ExecuteTemplate(w, "board.html", p); err != nil && r.Context().Err() == nil {
		s.opt.Fault(err)
	}
}

func jobOf(j mark.JobBoard, now time.Time, all bool) boardJob {
	c := j.Counts(now)
	out := boardJob{ID: j.Job.String(), Name: j.Name, Late: c.Late > 0, Words: jobWords(c, j.Due)}
	for _, st := range j.Tickets {
		if row := rowOf(st, now, all); row.Shown {
			out.Rows = append(out.Rows, row)
		}
	}
	return out
}

func jobWords(c mark.Counts, due time.Time) string {
	words := fmt.Sprintf("%d of %d finished", c.Finished, c.All)
	for _, n := range []struct {
		n    int
		word string
	}{{c.Held, "held"}, {c.Late, "late"}, {c.Spoilt, "cut again"}} {
		if n.n > 0 {
			words += fmt.Sprintf(", %d %s", n.n, n.word)
		}
	}
	if !due.IsZero() {
		words += ", due " + due.Format("2 January")
	}
	return words
}

// rowOf puts a ticket on the board; finished and spoilt ones stay off it unless
// all are asked for.
func rowOf(st *mark.State, now time.Time, all bool) boardRow {
	row := boardRow{
		Code: string(st.Ticket.Code), Name: st.Ticket.Name(), Stands: st.Standing(), Late: st.Late(now),
		Done: fmt.Sprintf("%d of %d", len(st.Steps), len(st.Ticket.Route)),
	}
	if n, more := st.Next(); more {
		row.Next = n.Name
	}
	switch {
	case st.Spoilt != nil:
		row.Remark = st.Spoilt.Reason
	case st.Hold != nil:
		row.Remark = st.Hold.Reason
	}
	row.Shown = all || st.Spoilt == nil && !st.Finished()
	return row
}

const (
	mostStreams = 1000                   // boards open at once
	heartbeat   = 20 * time.Second       // finds phones that went away
	settleTime  = 250 * time.Millisecond // so that a burst of marks is one update
)

// An event is one change of the board, made once for every board that waits at
// the same place.
type event struct {
	from, to int64
	all      bool // of a board that shows all
	data     []byte
}

// update is what a board is sent: rows as they now are, empty if they are off
// the board, and the words of the jobs they belong to. Reload says that too much
// changed.
type update struct {
	Seq    int64             `json:"seq"`
	Reload bool              `json:"reload,omitempty"`
	Rows   []updateRow       `json:"rows,omitempty"`
	Jobs   map[string]string `json:"jobs,omitempty"`
}

type updateRow struct {
	Code string `json:"code"`
	Job  string `json:"job"`
	HTML string `json:"html"`
}

// changes sends the changes of the board as they happen (server-sent events,
// HTML Living Standard 9.2).
func (s *Screen) changes(w http.ResponseWriter, r *http.Request, _ session) {
	after, err := strconv.ParseInt(r.URL.Query().Get("after"), 10, 64)
	if last := r.Header.Get("Last-Event-ID"); last != "" {
		after, err = strconv.ParseInt(last, 10, 64)
	}
	if err != nil || after < 0 {
		s.say(w, r, http.StatusBadRequest, "The board was not asked for rightly", "Open it again.")
		return
	}
	if !s.streams.enter() {
		s.say(w, r, http.StatusServiceUnavailable, "Too many boards are open", "Close some, then open it again.")
		return
	}
	defer s.streams.leave()
	ctx, cancel := context.WithCancel(r.Context())
	defer cancel()
	defer context.AfterFunc(s.ending, cancel)()
	w.Header().Set("Content-Type", "text/event-stream")
	all := r.URL.Query().Has("all")
	send := func(text []byte) error {
		c := http.NewResponseController(w)
		if err := c.SetWriteDeadline(time.Now().Add(heartbeat)); err != nil && !errors.Is(err, http.ErrNotSupported) {
			return err
		}
		if _, err := w.Write(text); err != nil {
			return err
		}
		return c.Flush()
	}
	if send([]byte("retry: 2000\n\n")) != nil {
		return
	}
	for {
		e, err := s.await(ctx, after, all)
		switch {
		case err == nil:
			after = e.to
			err = send(e.data)
		case errors.Is(err, context.DeadlineExceeded) && ctx.Err() == nil:
			err = send([]byte(":\n\n"))
		}
		if err != nil {
			return // the phone asks again by itself
		}
		if !sleep(ctx, settleTime) {
			return
		}
	}
}

func sleep(ctx context.Context, d time.Duration) bool {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-t.C:
		return true
	case <-ctx.Done():
		return false
	}
}

// await waits for the board to change after a sequence number.
func (s *Screen) await(ctx context.Context, after int64, all bool) (event, error) {
	beat, cancel := context.WithTimeout(ctx, heartbeat)
	defer cancel()
	c, err := s.opt.Record.Changes(beat, after)
	if err != nil {
		return event{}, err
	}
	s.streams.mu.Lock()
	defer s.streams.mu.Unlock()
	if last := s.streams.last; last.data != nil && last.from == after && last.to == c.Seq && last.all == all {
		return last, nil
	}
	u := update{Seq: c.Seq, Reload: c.All}
	if !c.All {
		if u, err = s.update(ctx, c.Seq, c.Latest, all); err != nil {
			return event{}, err
		}
	}
	body, err := json.Marshal(u)
	if err != nil {
		return event{}, err
	}
	e := event{from: after, to: c.Seq, all: all, data: fmt.Appendf(nil, "id: %d\nevent: board\ndata: %s\n\n", c.Seq, body)}
	s.streams.last = e
	return e, nil
}

func (s *Screen) update(ctx context.Context, seq int64, changed []*mark.State, all bool) (update, error) {
	u := update{Seq: seq, Jobs: map[string]string{}}
	now := s.opt.Now()
	for _, st := range changed {
		row := rowOf(st, now, all)
		var html bytes.Buffer
		if row.Shown {
			if err := pages.ExecuteTemplate(&html, "row", row); err != nil {
				return u, err
			}
		}
		job := st.Ticket.Job.String()
		u.Jobs[job] = ""
		u.Rows = append(u.Rows, updateRow{Code: row.Code, Job: job, HTML: html.String()})
	}
	b, err := s.opt.Record.Board(ctx)
	if err != nil {
		return u, err
	}
	for _, j := range b.Jobs {
		if _, changed := u.Jobs[j.Job.String()]; changed {
			u.Jobs[j.Job.String()] = jobWords(j.Counts(now), j.Due)
		}
	}
	return u, nil
}

func (st *streams) enter() bool {
	st.mu.Lock()
	defer st.mu.Unlock()
	if st.open >= mostStreams {
		return false
	}
	st.open++
	return true
}

func (st *streams) leave() {
	st.mu.Lock()
	defer st.mu.Unlock()
	st.open--
}

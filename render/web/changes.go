package web

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"time"

	"shadewright/render/language"
	"shadewright/ticket/mark"
	"shadewright/ticket/message"
)

const (
	heartbeat  = 20 * time.Second       // detects phones that went away
	settleTime = 250 * time.Millisecond // collects a burst of marks into one update
)

// An update is what the server sends to a board: the changed rows, with empty
// HTML for a row that leaves the board, and the text of their jobs. Reload
// tells the board to load again because too much changed.
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

// changes sends the changes of the board as they happen, as server-sent events
// (HTML Living Standard 9.2).
func (s *Server) changes(w http.ResponseWriter, r *http.Request, _ member) {
	q := r.URL.Query()
	after, err := strconv.ParseInt(q.Get("after"), 10, 64)
	if last := r.Header.Get("Last-Event-ID"); last != "" {
		after, err = strconv.ParseInt(last, 10, 64)
	}
	if err != nil || after < 0 {
		s.showMessage(w, r, http.StatusBadRequest, "web.board-address-wrong", message.Of("web.board-open-again"))
		return
	}
	if !s.streams.enter() {
		s.showMessage(w, r, http.StatusServiceUnavailable, "web.too-many-boards", message.Of("web.too-many-boards-help"))
		return
	}
	defer s.streams.leave()
	ctx, cancel := context.WithCancel(r.Context())
	defer cancel()
	defer context.AfterFunc(s.ending, cancel)()
	w.Header().Set("Content-Type", "text/event-stream")
	if sendOn(w, []byte("retry: 2000\n\n")) != nil {
		return
	}
	lang := s.speaks(r)
	if shown := q.Get("lang"); shown != "" && shown != lang.Tag() {
		// The phone chose another language since it opened the board. If the
		// phone went away, it connects again by itself.
		_ = sendOn(w, eventOf(after, update{Seq: after, Reload: true}))
		return
	}
	s.follow(ctx, w, boardView{after: after, all: q.Has("all"), lang: lang.Tag()}, lang)
}

// follow sends changes until the board is closed.
func (s *Server) follow(ctx context.Context, w http.ResponseWriter, at boardView, lang language.Language) {
	for {
		seq, data, err := s.await(ctx, at, lang)
		switch {
		case err == nil:
			at.after = seq
			err = sendOn(w, data)
		case errors.Is(err, context.DeadlineExceeded) && ctx.Err() == nil:
			err = sendOn(w, []byte(":\n\n"))
		}
		if err != nil {
			return // the phone connects again by itself
		}
		if !sleep(ctx, settleTime) {
			return
		}
	}
}

// sendOn sends a part of a stream. It extends the write deadline, because a
// stream lasts longer than other answers.
func sendOn(w http.ResponseWriter, text []byte) error {
	c := http.NewResponseController(w)
	if err := c.SetWriteDeadline(time.Now().Add(heartbeat)); err != nil && !errors.Is(err, http.ErrNotSupported) {
		return err
	}
	if _, err := w.Write(text); err != nil {
		return err
	}
	return c.Flush()
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

// await waits until the board changes after a place. It returns the number of
// the change and the event to send.
func (s *Server) await(ctx context.Context, at boardView, lang language.Language) (seq int64, data []byte, err error) {
	beat, cancel := context.WithTimeout(ctx, heartbeat)
	defer cancel()
	c, err := s.opt.Record.Changes(beat, at.after)
	if err != nil {
		return 0, nil, err
	}
	at.to = c.Seq
	data, err = s.streams.once(ctx, at, func() ([]byte, error) {
		u := update{Seq: c.Seq, Reload: c.All}
		if !c.All {
			// Other boards may wait for this update, so it is made even if this
			// phone goes away.
			if u, err = s.update(s.ending, c.Seq, c.Latest, look{lang, s.opt.Now(), at.all}); err != nil {
				return nil, err
			}
		}
		return eventOf(c.Seq, u), nil
	})
	return c.Seq, data, err
}

// eventOf encodes an update as a server-sent event.
func eventOf(seq int64, u update) []byte {
	body, err := json.Marshal(u)
	if err != nil {
		panic("web: encode an update: " + err.Error())
	}
	return fmt.Appendf(nil, "id: %d\nevent: board\ndata: %s\n\n", seq, body)
}

func (s *Server) update(ctx context.Context, seq int64, changed []*mark.State, k look) (update, error) {
	u := update{Seq: seq, Jobs: map[string]string{}}
	for _, st := range changed {
		row := rowOf(st, k)
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
			u.Jobs[j.Job.String()] = k.lang.Put(jobWords(j.Counts(k.now), j.Due))
		}
	}
	return u, nil
}

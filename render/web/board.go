package web

import (
	"net/http"
	"time"

	"shadewright/render/language"
	"shadewright/ticket/mark"
	"shadewright/ticket/message"
)

// boardPage is the content of the board.
type boardPage struct {
	frame
	Seq  int64
	All  bool // also show finished and spoilt tickets
	Jobs []boardJob
}

type boardJob struct {
	ID, Name, Words string
	Late            bool
	Rows            []boardRow
}

type boardRow struct {
	language.Language
	Code, Name, Stands, Next, Done, Remark string
	Late, Shown                            bool
}

func (s *Server) board(w http.ResponseWriter, r *http.Request, _ member) {
	b, err := s.opt.Record.Board(r.Context())
	if err != nil {
		s.failed(w, r, err)
		return
	}
	p := &boardPage{frame: s.frame(r, "web.board"), Seq: b.Seq, All: r.URL.Query().Has("all")}
	p.Board = true
	now := s.opt.Now()
	for _, j := range b.Jobs {
		p.Jobs = append(p.Jobs, jobOf(j, look{p.Language, now, p.All}))
	}
	// Send the page while it is being made: a board may have thousands of
	// tickets.
	s.heads(w, r)
	if err := pages.ExecuteTemplate(w, "board.html", p); err != nil && r.Context().Err() == nil {
		s.opt.Fault(err)
	}
}

// A look is how a phone sees the board.
type look struct {
	lang language.Language
	now  time.Time
	all  bool // finished and spoilt tickets too
}

func jobOf(j mark.JobBoard, k look) boardJob {
	c := j.Counts(k.now)
	out := boardJob{ID: j.Job.String(), Name: j.Name, Late: c.Late > 0, Words: k.lang.Put(jobWords(c, j.Due))}
	for _, st := range j.Tickets {
		if row := rowOf(st, k); row.Shown {
			out.Rows = append(out.Rows, row)
		}
	}
	return out
}

func jobWords(c mark.Counts, due time.Time) message.Message {
	words := []message.Message{message.Of("web.count-finished", c.Finished, c.All)}
	if c.Held > 0 {
		words = append(words, message.Of("web.count-held", c.Held))
	}
	if c.Late > 0 {
		words = append(words, message.Of("web.count-late", c.Late))
	}
	if c.Spoilt > 0 {
		words = append(words, message.Of("web.count-remade", c.Spoilt))
	}
	if !due.IsZero() {
		words = append(words, message.Of("web.due", message.At(due, message.DayMonth)))
	}
	return message.Join(", ", words...)
}

// rowOf returns the row of a ticket. Finished and spoilt tickets are hidden
// unless all are requested.
func rowOf(st *mark.State, k look) boardRow {
	row := boardRow{
		Language: k.lang, Code: string(st.Ticket.Code), Name: k.lang.Put(st.Ticket.Called()), Stands: k.lang.Put(st.Stands()), Late: st.Late(k.now),
		Done: k.lang.Say("common.of", len(st.Steps), len(st.Ticket.Route)),
	}
	if n, more := st.Next(); more {
		row.Next = k.lang.Put(n.Message())
	}
	switch {
	case st.Spoilt != nil:
		row.Remark = k.lang.Put(st.Spoilt.Reason.Message())
	case st.Hold != nil:
		row.Remark = k.lang.Put(st.Hold.Reason.Message())
	}
	row.Shown = k.all || st.Spoilt == nil && !st.Finished()
	return row
}

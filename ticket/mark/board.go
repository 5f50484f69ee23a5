package mark

import (
	"cmp"
	"encoding/json"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/google/uuid"

	"shadewright/ticket/message"
)

// A Board is every ticket by job. Jobs are in order of their due date, then their
// name; those without a date come last. Tickets are in the order of their
// registration.
type Board struct {
	Seq  int64 // of the record when the board was read
	Jobs []JobBoard
}

// A JobBoard is the tickets of one job, including spoilt ones.
type JobBoard struct {
	Job     uuid.UUID
	Name    string
	Due     time.Time // the earliest due date of its tickets; zero if none has one
	Tickets []*State
}

// NewBoard sorts states into a board. It keeps the states, which never change.
func NewBoard(seq int64, states []*State) Board {
	states = slices.Clone(states)
	slices.SortFunc(states, func(a, b *State) int { return cmp.Compare(a.First, b.First) })
	b := Board{Seq: seq}
	at := map[uuid.UUID]int{}
	for _, s := range states {
		i, ok := at[s.Ticket.Job]
		if !ok {
			i = len(b.Jobs)
			at[s.Ticket.Job] = i
			b.Jobs = append(b.Jobs, JobBoard{Job: s.Ticket.Job})
		}
		j := &b.Jobs[i]
		j.Name, j.Tickets = s.Ticket.JobName, append(j.Tickets, s)
		if due := s.Ticket.Due; !due.IsZero() && (j.Due.IsZero() || due.Before(j.Due)) {
			j.Due = due
		}
	}
	slices.SortStableFunc(b.Jobs, func(x, y JobBoard) int {
		if x.Due.IsZero() != y.Due.IsZero() {
			if x.Due.IsZero() {
				return 1
			}
			return -1
		}
		return cmp.Or(x.Due.Compare(y.Due), strings.Compare(x.Name, y.Name), strings.Compare(x.Job.String(), y.Job.String()))
	})
	return b
}

// Counts says how many tickets of a job are in each state. Spoilt tickets count
// only in Spoilt.
type Counts struct{ All, Finished, Held, Late, Spoilt int }

// Counts counts the tickets as of now.
func (j JobBoard) Counts(now time.Time) Counts {
	var c Counts
	for _, s := range j.Tickets {
		if s.Spoilt != nil {
			c.Spoilt++
			continue
		}
		c.All++
		if s.Finished() {
			c.Finished++
		}
		if s.Hold != nil {
			c.Held++
		}
		if s.Late(now) {
			c.Late++
		}
	}
	return c
}

// Standing returns one word for a ticket's state: spoilt, held, finished, waiting
// (nothing is done) or begun.
func (s *State) Standing() string { return s.Stands().String() }

// Stands returns the same word for any language.
func (s *State) Stands() message.Message {
	switch {
	case s.Spoilt != nil:
		return message.Of("mark.is-spoilt")
	case s.Hold != nil:
		return message.Of("mark.is-held")
	case s.Finished():
		return message.Of("mark.is-finished")
	case len(s.Steps) == 0:
		return message.Of("mark.waiting")
	}
	return message.Of("mark.begun")
}

// A boardLine is one ticket for programs.
type boardLine struct {
	Job      string      `json:"job"`
	JobID    string      `json:"job_id"`
	Due      string      `json:"due,omitempty"`
	Late     bool        `json:"late"`
	Code     string      `json:"code"`
	Revision string      `json:"revision"`
	Shade    string      `json:"shade"`
	Unit     int         `json:"unit"`
	Of       int         `json:"of"`
	Remake   int         `json:"remake"`
	Standing string      `json:"standing"`
	Done     int         `json:"done"`
	Steps    int         `json:"steps"`
	Next     string      `json:"next,omitempty"`
	Reason   string      `json:"reason,omitempty"`
	Marks    []boardStep `json:"marks"`
}

type boardStep struct {
	Step string  `json:"step"`
	Time string  `json:"time"`
	Took float64 `json:"took_s"` // seconds since the mark before; 0 if unknown
	Who  string  `json:"who,omitempty"`
	At   string  `json:"where,omitempty"`
}

func (s *State) line(now time.Time) boardLine {
	t := s.Ticket
	l := boardLine{
		Job: t.JobName, JobID: t.Job.String(), Late: s.Late(now),
		Code: string(t.Code), Revision: string(t.Revision), Shade: t.Shade, Unit: t.Unit, Of: t.Of, Remake: t.Remake,
		Standing: s.Standing(), Steps: len(t.Route), Marks: make([]boardStep, len(s.Steps)),
	}
	if !t.Due.IsZero() {
		l.Due = t.Due.Format(dateLayout)
	}
	for i, d := range s.Steps {
		l.Marks[i] = boardStep{d.Step, d.Time.Format(time.RFC3339), d.Took.Seconds(), d.Who, d.Where}
		if t.Route.Index(d.Step) >= 0 {
			l.Done++
		}
	}
	if next, more := s.Next(); more {
		l.Next = next.Key
	}
	switch {
	case s.Spoilt != nil:
		l.Reason = s.Spoilt.Reason.String()
	case s.Hold != nil:
		l.Reason = s.Hold.Reason.String()
	}
	return l
}

// WriteJSON writes the board as one document with a ticket on each line, as of now.
func (b Board) WriteJSON(w io.Writer, now time.Time) error {
	enc := newEnclosed(w, `{"seq":`+strconv.FormatInt(b.Seq, 10)+`,"tickets":[`, "]}\n")
	for _, j := range b.Jobs {
		for _, s := range j.Tickets {
			enc.write(s.line(now))
		}
	}
	return enc.close()
}

// WriteCSV writes the board as a table with a ticket on each line, as of now. A
// cell that a spreadsheet would read as a formula gets an apostrophe in front.
func (b Board) WriteCSV(w io.Writer, now time.Time) error {
	t := newTable(w, "job", "job_id", "due", "late", "code", "revision", "shade", "unit", "of", "remake",
		"standing", "done", "steps", "next", "reason", "last_step", "last_time", "last_who", "took_s")
	for _, j := range b.Jobs {
		for _, s := range j.Tickets {
			l := s.line(now)
			var last boardStep
			total := 0.0
			for _, last = range l.Marks {
				total += last.Took
			}
			t.write(l.Job, l.JobID, l.Due, strconv.FormatBool(l.Late), l.Code, l.Revision, l.Shade,
				strconv.Itoa(l.Unit), strconv.Itoa(l.Of), strconv.Itoa(l.Remake), l.Standing,
				strconv.Itoa(l.Done), strconv.Itoa(l.Steps), l.Next, l.Reason,
				last.Step, last.Time, last.Who, strconv.FormatFloat(total, 'f', -1, 64))
		}
	}
	return t.close()
}

// enclosed writes JSON values between a head and a tail, one on each line.
type enclosed struct {
	w          io.Writer
	head, tail string
	err        error
}

func newEnclosed(w io.Writer, head, tail string) *enclosed {
	return &enclosed{w: w, head: head, tail: tail}
}

func (e *enclosed) write(v any) {
	if e.err != nil {
		return
	}
	b, err := json.Marshal(v)
	if err != nil {
		e.err = err
		return
	}
	_, e.err = io.WriteString(e.w, e.head+"\n"+string(b))
	e.head = ","
}

func (e *enclosed) close() error {
	if e.err != nil {
		return e.err
	}
	head := e.head
	if head == "," {
		head = "\n"
	}
	_, err := io.WriteString(e.w, head+e.tail)
	return err
}

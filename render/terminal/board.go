package terminal

import (
	"fmt"
	"io"
	"time"

	"shadewright/ticket/mark"
	"shadewright/ticket/measure"
)

// Board writes the state of every ticket, by job. With steps it lists every
// step that is done instead. It returns the first error of w.
func Board(w io.Writer, b mark.Board, now time.Time, steps bool) error {
	l := &lines{w: w}
	if len(b.Jobs) == 0 {
		l.print("the record has no tickets yet; print a job first\n")
	}
	for i, j := range b.Jobs {
		if i > 0 {
			l.print("\n")
		}
		l.job(j, now)
		if steps {
			l.steps(j)
			continue
		}
		rows := [][]string{{"shade", "code", "status", "done", "next step", "time so far", "remark"}}
		for _, s := range j.Tickets {
			rows = append(rows, ticketRow(s, now))
		}
		l.table(rows)
	}
	return l.err
}

func (l *lines) job(j mark.JobBoard, now time.Time) {
	c := j.Counts(now)
	l.print("%s: %s, %d finished", j.Name, measure.Count(c.All, "ticket"), c.Finished)
	for _, n := range []struct {
		n    int
		word string
	}{{c.Held, "held"}, {c.Late, "late"}, {c.Spoilt, "spoilt"}} {
		if n.n > 0 {
			l.print(", %d %s", n.n, n.word)
		}
	}
	if !j.Due.IsZero() {
		l.print("; due %s", j.Due.Format(time.DateOnly))
	}
	l.print("\n")
}

func ticketRow(s *mark.State, now time.Time) []string {
	next := "-"
	if step, more := s.Next(); more {
		next = step.Name.String()
	}
	var took time.Duration
	for _, d := range s.Steps {
		took += d.Took
	}
	return []string{s.Ticket.Name(), s.Ticket.Code.Grouped(), s.Standing(), fmt.Sprintf("%d/%d", len(s.Steps), len(s.Ticket.Route)), next, Took(took), remark(s, now)}
}

// remark says why a ticket waits, or that it is late.
func remark(s *mark.State, now time.Time) string {
	late := ""
	if s.Late(now) {
		late = "late"
	}
	why := s.Hold
	if s.Spoilt != nil {
		why = s.Spoilt
	}
	if why == nil {
		return late
	}
	text := why.Reason.String()
	if why.Who != "" {
		text += ", by " + why.Who
	}
	if late != "" {
		text = late + "; " + text
	}
	return text
}

func (l *lines) steps(j mark.JobBoard) {
	rows := [][]string{{"shade", "step", "done", "took", "by", "at"}}
	for _, s := range j.Tickets {
		if len(s.Steps) == 0 {
			rows = append(rows, []string{s.Ticket.Name(), "-", "-", "-", "-", "-"})
		}
		for _, d := range s.Steps {
			rows = append(rows, []string{s.Ticket.Name(), d.Step, d.Time.Local().Format("2006-01-02 15:04"), Took(d.Took), dash(d.Who), dash(d.Where)})
		}
	}
	l.table(rows)
}

func dash(s string) string {
	if s == "" {
		return "-"
	}
	return s
}

// Took formats the time that work took: "-" if unknown, else its two largest
// units. Nobody at a bench needs more.
func Took(d time.Duration) string {
	day := 24 * time.Hour
	switch {
	case d <= 0:
		return "-"
	case d < time.Minute:
		return fmt.Sprintf("%d s", max(int(d.Seconds()), 1))
	case d < time.Hour:
		return fmt.Sprintf("%d min", int(d.Minutes()))
	case d < day:
		return fmt.Sprintf("%d h %d min", int(d.Hours()), int(d.Minutes())%60)
	}
	return fmt.Sprintf("%d d %d h", int(d/day), int(d%day/time.Hour))
}

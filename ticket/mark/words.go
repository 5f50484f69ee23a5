package mark

import (
	"fmt"
	"strings"

	"shadewright/ticket/route"
)

// take records the mark. The words after what was done always say what comes
// next, because that is what the reader wants to know.
func (j *judging) take(o Outcome, word, format string, args ...any) Answer {
	entry := Entry{Mark: j.m}
	before := j.s
	j.s = before.With(entry)
	j.s.Last = before.Last // until the store gives a sequence number
	next := ""
	switch j.m.Kind {
	case Done, Undone, Released:
		next = j.nextWords()
	}
	a := j.answer(o, word, format+"%s", append(args, next)...)
	a.Entry = entry
	return a
}

func (j *judging) refuse(o Outcome, format string, args ...any) Answer {
	return j.answer(o, "NO", format, args...)
}

// answer puts a first word that tells good from bad, then the ticket, then the
// rest.
func (j *judging) answer(o Outcome, word, format string, args ...any) Answer {
	return Answer{
		Outcome: o, State: j.s,
		Message: word + "  " + j.s.Ticket.Name() + ": " + fmt.Sprintf(format, args...),
	}
}

func (j *judging) nextWords() string {
	if j.s.Hold != nil || j.s.Spoilt != nil {
		return ""
	}
	if next, more := j.s.Next(); more {
		return "; next: " + next.Name
	}
	return "; every step is done"
}

func asksFor(r route.Reading) string {
	switch r {
	case route.Diagonals:
		return "it asks for both diagonals"
	case route.Width:
		return "it asks for the width"
	case route.Turns:
		return "it asks for the turns of the spring"
	}
	return "it asks for none"
}

func names(steps []route.Step) string {
	words := make([]string, len(steps))
	for i, s := range steps {
		words[i] = s.Name
	}
	return strings.Join(words, ", ")
}

func by(who string) string {
	if who == "" {
		return ""
	}
	return " by " + who
}

func tell(h *Hold) string { return h.Reason + at(h.Time) + by(h.Who) }

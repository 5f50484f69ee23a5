package mark

import (
	"time"

	"shadewright/ticket/phrase"
	"shadewright/ticket/route"
)

// take records the mark. What comes next is said after what was done, because
// that is what the reader wants to know.
func (j *judging) take(o Outcome, verdict phrase.Phrase, text ...phrase.Phrase) Answer {
	entry := Entry{Mark: j.m}
	before := j.s
	j.s = before.With(entry)
	j.s.Last = before.Last // until the store gives a sequence number
	switch j.m.Kind {
	case Done, Undone, Released:
		text = append(text, j.nextWords())
	}
	a := j.answer(o, verdict, text...)
	a.Entry = entry
	return a
}

func (j *judging) refuse(o Outcome, text ...phrase.Phrase) Answer {
	return j.answer(o, phrase.Of("NO"), text...)
}

// answer puts the ticket before what is said of it.
func (j *judging) answer(o Outcome, verdict phrase.Phrase, text ...phrase.Phrase) Answer {
	return Answer{Outcome: o, State: j.s, Verdict: verdict, Text: phrase.Join("", j.s.Ticket.Called(), phrase.Verbatim(": "), phrase.Join("; ", text...))}
}

func (j *judging) nextWords() phrase.Phrase {
	if j.s.Hold != nil || j.s.Spoilt != nil {
		return phrase.Phrase{}
	}
	if next, more := j.s.Next(); more {
		return phrase.Of("next: %s", next.Phrase())
	}
	return phrase.Of("every step is done")
}

func asksFor(r route.Reading) phrase.Phrase {
	switch r {
	case route.Diagonals:
		return phrase.Of("it asks for both diagonals")
	case route.Width:
		return phrase.Of("it asks for the width")
	case route.Turns:
		return phrase.Of("it asks for the turns of the spring")
	}
	return phrase.Of("it asks for none")
}

func names(steps []route.Step) phrase.Phrase {
	words := make([]phrase.Phrase, len(steps))
	for i, s := range steps {
		words[i] = s.Phrase()
	}
	return phrase.Join(", ", words...)
}

// atBy tells the time of day that a clock on the wall showed then, and by whom,
// after what happened then.
func atBy(t time.Time, who string) phrase.Phrase {
	clock, day := phrase.At(t, phrase.Clock), phrase.At(t, phrase.DayMonth)
	if who == "" {
		return phrase.Of(" at %s on %s", clock, day)
	}
	return phrase.Of(" at %s on %s by %s", clock, day, who)
}

func tell(h *Hold) phrase.Phrase { return phrase.Join("", phrase.Known(h.Reason), atBy(h.Time, h.Who)) }

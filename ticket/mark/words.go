package mark

import (
	"time"

	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// take records the mark. The answer says first what was done and then what comes
// next, because the reader wants to know that.
func (j *judging) take(o Outcome, verdict message.Message, text ...message.Message) Answer {
	entry := Entry{Mark: j.m}
	before := j.s
	j.s = before.With(entry)
	j.s.Last = before.Last // until the record assigns a sequence number
	switch j.m.Kind {
	case Done, Undone, Released:
		text = append(text, j.nextWords())
	}
	a := j.answer(o, verdict, text...)
	a.Entry = entry
	return a
}

func (j *judging) refuse(o Outcome, text ...message.Message) Answer {
	return j.answer(o, message.Of("mark.no"), text...)
}

// answer puts the ticket before the text about it.
func (j *judging) answer(o Outcome, verdict message.Message, text ...message.Message) Answer {
	return Answer{Outcome: o, State: j.s, Verdict: verdict, Text: message.Join("", j.s.Ticket.Called(), message.Verbatim(": "), message.Join("; ", text...))}
}

func (j *judging) nextWords() message.Message {
	if j.s.Hold != nil || j.s.Spoilt != nil {
		return message.Message{}
	}
	if next, more := j.s.Next(); more {
		return message.Of("mark.next", next.Message())
	}
	return message.Of("mark.every-step-done")
}

func asksFor(r route.Reading) message.Message {
	switch r {
	case route.Diagonals:
		return message.Of("mark.asks-diagonals")
	case route.Width:
		return message.Of("mark.asks-width")
	case route.Turns:
		return message.Of("mark.asks-turns")
	}
	return message.Of("mark.asks-none")
}

func names(steps []route.Step) message.Message {
	words := make([]message.Message, len(steps))
	for i, s := range steps {
		words[i] = s.Message()
	}
	return message.Join(", ", words...)
}

// atBy adds to what happened when and by whom, with the time of day that a clock on
// the wall showed.
func atBy(t time.Time, who string) message.Message {
	clock, day := message.At(t, message.Clock), message.At(t, message.DayMonth)
	if who == "" {
		return message.Of("mark.at-on", clock, day)
	}
	return message.Of("mark.at-on-by", clock, day, who)
}

func heldSince(h *Hold) message.Message {
	return message.Join("", h.Reason.Message(), atBy(h.Time, h.Who))
}

package scan

import (
	"fmt"
	"time"

	"github.com/google/uuid"

	"shadewright/ticket/code"
	"shadewright/ticket/mark"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// A Desk is a bench with a scanner: it remembers which step is marked, by whom
// and where, and what waits for the next ticket. The zero value marks the next
// step of each ticket and knows nobody.
type Desk struct {
	Step, Who, Where string
	NewID            func() uuid.UUID // nil: random ones
	Bounce           time.Duration    // a ticket read again within it is one scan; zero: 2 s; below zero: never
	Wait             time.Duration    // after which undo, hold and the like are forgotten; zero: 1 min

	armed   Control // Undo, Hold, Release or Remade: for the next ticket
	armedAt time.Time
	lately  mark.Mark // a mark for what is measured on the last ticket; its Code is empty if there is none
	last    code.Code
	lastAt  time.Time
}

// A Deed is what a line asks for: a mark to send, or only words.
type Deed struct {
	Mark mark.Mark // to be sent if Send
	Send bool
	Say  string // to be said if nothing is sent
	Good bool   // which sound goes with Say
}

// Take turns a line read at a moment into a deed.
//
// A scanner held over a ticket reads it more than once. Where each scan marks
// whatever comes next that would mark steps nobody did, so the same ticket is
// taken again only after a while, or after something else was scanned.
func (d *Desk) Take(l Line, now time.Time) Deed {
	if l.Control.Word != "" {
		d.last, d.lately = "", mark.Mark{}
		return d.control(l.Control, now)
	}
	if l.Reading != route.None {
		m, refusal := d.reading(l)
		if d.last = ""; refusal != "" {
			return Deed{Say: refusal}
		}
		m.ID, m.Who, m.Where, m.Time = d.newID(), d.Who, d.Where, now
		return Deed{Send: true, Mark: m}
	}
	d.lately = mark.Mark{}
	if wait := or(d.Wait, time.Minute); d.armed.Word != "" && apart(now, d.armedAt) > wait {
		what := d.armed.Word
		d.armed = Control{}
		return Deed{Say: fmt.Sprintf("NO  %s was scanned more than %s ago and is forgotten; scan it again, or scan the ticket again to mark it", what, wait)}
	}
	bounce := or(d.Bounce, 2*time.Second)
	if l.Code == d.last && apart(now, d.lastAt) < bounce {
		d.lastAt = now
		return Deed{Say: "NO  " + l.Code.Grouped() + ": the same ticket again at once, nothing more was marked; wait a moment if it is meant"}
	}
	d.last, d.lastAt = l.Code, now
	return Deed{Send: true, Mark: d.mark(l, now)}
}

// or returns d, or what is usual if d is zero.
func or(d, usual time.Duration) time.Duration {
	if d == 0 {
		return usual
	}
	return d
}

// apart is how far two moments lie from one another, whichever way a clock
// jumped.
func apart(a, b time.Time) time.Duration { return a.Sub(b).Abs() }

func (d *Desk) newID() uuid.UUID {
	if d.NewID != nil {
		return d.NewID()
	}
	return uuid.New()
}

func (d *Desk) mark(l Line, now time.Time) mark.Mark {
	m := mark.Mark{
		ID: d.newID(), Code: l.Code, Revision: l.Revision, Kind: mark.Done, Step: d.Step,
		Who: d.Who, Where: d.Where, Time: now,
	}
	switch d.armed.Word {
	case Undo:
		m.Kind = mark.Undone
	case Hold:
		m.Kind, m.Step, m.Reason = mark.Held, "", message.ReasonTerm.Term(d.armed.Value)
	case Release:
		m.Kind, m.Step = mark.Released, ""
	case Remade:
		m.Kind, m.Step, m.Reason = mark.Remade, "", message.ReasonTerm.Term(d.armed.Value)
	}
	d.armed = Control{}
	return m
}

func (d *Desk) control(c Control, now time.Time) Deed {
	say := func(format string, args ...any) Deed {
		return Deed{Say: fmt.Sprintf("OK  "+format, args...), Good: true}
	}
	d.armed = Control{}
	switch c.Word {
	case Step:
		d.Step = c.Value
		return say("every ticket now marks: %s", d.Step)
	case Next:
		d.Step = ""
		return say("every ticket now marks its next step")
	case By:
		d.Who = c.Value
		return say("marks are now by %s", d.Who)
	case At:
		d.Where = c.Value
		return say("marks are now made at %s", d.Where)
	case Clear:
		d.Step, d.Who, d.Where = "", "", ""
		return say("forgotten: step, person and place; every ticket marks its next step")
	}
	d.armed, d.armedAt = c, now
	switch c.Word {
	case Undo:
		return say("scan the ticket to undo it on")
	case Release:
		return say("scan the ticket to release")
	case Hold:
		return say("scan the ticket to hold: %s", c.Value)
	}
	return say("scan the ticket whose panel is spoilt: %s", c.Value)
}

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

// A Desk is a bench with a scanner. It remembers which step to mark, by whom and
// where, and what to do with the next ticket. The zero Desk marks the next step of
// each ticket, by nobody in particular.
type Desk struct {
	Step, Who, Where string
	NewID            func() uuid.UUID // nil: random ones
	Bounce           time.Duration    // the same ticket read again within this time counts as one scan; zero: 2 s; below zero: never
	Wait             time.Duration    // after this time, undo, hold and the like are forgotten; zero: 1 min

	pending   Control // Undo, Hold, Release or Remade: for the next ticket
	pendingAt time.Time
	lastMark  mark.Mark // a mark for a reading of the last ticket; its Code is empty if there is none
	last      code.Code
	lastAt    time.Time
}

// An Action is the result of a line: a mark to send, or only words to show.
type Action struct {
	Mark mark.Mark // to send if Send
	Send bool
	Say  string // to show if nothing is sent
	Good bool   // the good sound goes with Say
}

// Take turns a line, read at the moment now, into an action.
//
// A scanner held over a ticket reads it more than once. If each scan marked the
// next step, it would mark steps that nobody did. So Take accepts the same ticket
// again only after a while, or after another scan.
func (d *Desk) Take(l Line, now time.Time) Action {
	if l.Control.Word != "" {
		d.last, d.lastMark = "", mark.Mark{}
		return d.control(l.Control, now)
	}
	if l.Reading != route.None {
		m, refusal := d.reading(l)
		if d.last = ""; refusal != "" {
			return Action{Say: refusal}
		}
		m.ID, m.Who, m.Where, m.Time = d.newID(), d.Who, d.Where, now
		return Action{Send: true, Mark: m}
	}
	d.lastMark = mark.Mark{}
	if wait := or(d.Wait, time.Minute); d.pending.Word != "" && apart(now, d.pendingAt) > wait {
		what := d.pending.Word
		d.pending = Control{}
		return Action{Say: fmt.Sprintf("NO  %s was scanned more than %s ago and no longer counts; scan it again, or scan the ticket again to mark it", what, wait)}
	}
	bounce := or(d.Bounce, 2*time.Second)
	if l.Code == d.last && apart(now, d.lastAt) < bounce {
		d.lastAt = now
		return Action{Say: "NO  " + l.Code.Grouped() + ": scanned twice in a row, so nothing more was marked; to mark another step, wait a moment and scan again"}
	}
	d.last, d.lastAt = l.Code, now
	return Action{Send: true, Mark: d.mark(l, now)}
}

// or returns d, or usual if d is zero.
func or(d, usual time.Duration) time.Duration {
	if d == 0 {
		return usual
	}
	return d
}

// apart returns the time between two moments, whichever way a clock jumped.
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
	switch d.pending.Word {
	case Undo:
		m.Kind = mark.Undone
	case Hold:
		m.Kind, m.Step, m.Reason = mark.Held, "", message.ReasonTerm.Term(d.pending.Value)
	case Release:
		m.Kind, m.Step = mark.Released, ""
	case Remade:
		m.Kind, m.Step, m.Reason = mark.Remade, "", message.ReasonTerm.Term(d.pending.Value)
	}
	d.pending = Control{}
	return m
}

func (d *Desk) control(c Control, now time.Time) Action {
	say := func(format string, args ...any) Action {
		return Action{Say: fmt.Sprintf("OK  "+format, args...), Good: true}
	}
	d.pending = Control{}
	switch c.Word {
	case Step:
		d.Step = c.Value
		return say("each ticket scanned now marks: %s", d.Step)
	case Next:
		d.Step = ""
		return say("each ticket scanned now marks its next step")
	case By:
		d.Who = c.Value
		return say("marks are now made by %s", d.Who)
	case At:
		d.Where = c.Value
		return say("marks are now made at %s", d.Where)
	case Clear:
		d.Step, d.Who, d.Where = "", "", ""
		return say("step, person and place are cleared; each ticket scanned now marks its next step")
	}
	d.pending, d.pendingAt = c, now
	switch c.Word {
	case Undo:
		return say("scan the ticket to undo")
	case Release:
		return say("scan the ticket to release")
	case Hold:
		return say("scan the ticket to hold: %s", c.Value)
	}
	return say("scan the ticket whose panel is spoilt: %s", c.Value)
}

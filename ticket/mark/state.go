package mark

import (
	"slices"
	"time"

	"shadewright/ticket/code"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// A State is where a ticket stands: the result of its registrations and marks. A
// State never changes after it is made, so it may be read without a lock; With and
// Register return a new one.
type State struct {
	Ticket   *Ticket   // as registered last
	Earlier  []*Ticket // other revisions that were registered, each once, oldest first
	Steps    []Doing   // steps that are done, in the order in which they were marked
	Hold     *Hold     // why the ticket waits; nil if it does not
	Spoilt   *Hold     // why it was remade; nil if it was not
	Replaced bool      // the ticket for the new panel is registered
	First    int64     // sequence number of its first registration
	Last     int64     // sequence number of its last change
	since    time.Time // time of the last done or released mark
}

// A Doing is a step that is done.
type Doing struct {
	Step     string
	Seq      int64
	Time     time.Time
	Took     time.Duration // since the ticket's mark before; zero if unknown, as for the first mark
	Who      string
	Where    string
	Revision code.Revision
	Readings Readings
}

// A Hold says why a ticket waits or was remade.
type Hold struct {
	Seq    int64
	Time   time.Time
	Who    string
	Where  string
	Step   string // at which it was noticed; may be empty
	Reason message.Term
}

// NewState returns the state of a ticket registered at a sequence number.
func NewState(t *Ticket, seq int64) *State { return &State{Ticket: t, First: seq, Last: seq} }

// After returns the state of a remade ticket: the steps that have nothing to do with its
// panel stay done, as they were marked on the ticket that it replaces. Whoever has to do
// one again undoes it. was is nil if that ticket is not in the record.
func (s *State) After(was *State) *State {
	if was == nil {
		return s
	}
	n := *s
	for _, d := range was.Steps {
		if _, ok := s.Ticket.Route.Step(d.Step); ok && route.Outlives(d.Step) {
			n.Steps = append(slices.Clip(n.Steps), d)
		}
	}
	return &n
}

// Register returns s after its ticket was printed again.
func (s *State) Register(t *Ticket, seq int64) *State {
	n := *s
	if s.Ticket.Revision != t.Revision {
		n.Earlier = nil
		for _, old := range append(slices.Clip(s.Earlier), s.Ticket) {
			if old.Revision != t.Revision {
				n.Earlier = append(n.Earlier, old.known(t))
			}
		}
	}
	n.Ticket, n.Last = t, seq
	return &n
}

// Replace returns s after the ticket for its new panel was registered.
func (s *State) Replace(seq int64) *State {
	n := *s
	n.Replaced, n.Last = true, seq
	return &n
}

// With returns s after a mark. It accepts any mark, even one that changes nothing,
// because marks were judged before they were recorded.
func (s *State) With(e Entry) *State {
	n := *s
	n.Last = e.Seq
	switch e.Kind {
	case Done:
		if _, done := s.Step(e.Step); !done {
			n.Steps = append(slices.Clip(slices.Clone(s.Steps)), s.doing(e))
			n.since = e.Time
		}
	case Measured: // its reading came after the step was marked
		if i := slices.IndexFunc(s.Steps, func(d Doing) bool { return d.Step == e.Step }); i >= 0 && s.Steps[i].Readings == (Readings{}) {
			n.Steps = slices.Clone(s.Steps)
			n.Steps[i].Readings = e.Readings
		}
	case Undone:
		if n.Spoilt != nil && e.Step == "" {
			n.Spoilt = nil
			break
		}
		n.Steps = slices.DeleteFunc(slices.Clone(s.Steps), func(d Doing) bool { return d.Step == e.Step })
	case Held:
		n.Hold = holdOf(e)
	case Released:
		n.Hold, n.since = nil, e.Time
	case Remade:
		n.Spoilt, n.Hold = holdOf(e), nil
	}
	return &n
}

func holdOf(e Entry) *Hold {
	return &Hold{Seq: e.Seq, Time: e.Time, Who: e.Who, Where: e.Where, Step: e.Step, Reason: e.Reason}
}

// doing times a step from the ticket's mark before. If the clock went back, the
// time is unknown, and the next step counts from the new time.
func (s *State) doing(e Entry) Doing {
	d := Doing{
		Step: e.Step, Seq: e.Seq, Time: e.Time, Who: e.Who, Where: e.Where,
		Revision: e.Revision, Readings: e.Readings,
	}
	if !s.since.IsZero() && e.Time.After(s.since) {
		d.Took = e.Time.Sub(s.since)
	}
	return d
}

// Step returns how a step was done, and whether it was.
func (s *State) Step(key string) (Doing, bool) {
	for _, d := range s.Steps {
		if d.Step == key {
			return d, true
		}
	}
	return Doing{}, false
}

func (s *State) done(key string) bool {
	_, ok := s.Step(key)
	return ok
}

// CutSize returns the greatest size that the panel still has for certain, and whether it is
// cut and not spoilt: the least width and length of the papers from the one it was cut by
// to the newest, because it may have been trimmed to any of them.
func (s *State) CutSize() (size measure.Size, ok bool) {
	d, done := s.Step(route.Cut)
	if !done || s.Spoilt != nil {
		return size, false
	}
	papers := append(slices.Clip(slices.Clone(s.Earlier)), s.Ticket)
	first := max(0, slices.IndexFunc(papers, func(t *Ticket) bool { return t.Revision == d.Revision }))
	size = papers[first].Panel
	for _, t := range papers[first:] {
		size.Width, size.Length = min(size.Width, t.Panel.Width), min(size.Length, t.Panel.Length)
	}
	return size, true
}

// Next returns the first step of the route that is not done. It returns false if
// all are done, or if the ticket was remade.
func (s *State) Next() (route.Step, bool) {
	if s.Spoilt != nil {
		return route.Step{}, false
	}
	return s.Ticket.Route.Next(s.done)
}

// Finished reports whether every step is done.
func (s *State) Finished() bool {
	_, more := s.Ticket.Route.Next(s.done)
	return !more && s.Spoilt == nil
}

// Late reports whether a ticket has work left after its due date, by the calendar
// in now's time zone.
func (s *State) Late(now time.Time) bool {
	due := s.Ticket.Due
	if due.IsZero() || s.Spoilt != nil || s.Finished() {
		return false
	}
	y, m, d := now.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC).After(due)
}

package record

import (
	"context"

	"shadewright/ticket/code"
	"shadewright/ticket/mark"
)

// Registered says what registering did with each ticket.
type Registered struct {
	New     []Reprint // not known before
	Changed []Reprint // known with other values: the earlier paper no longer counts
	Same    []Reprint // the earlier paper stays valid, though what a screen shows may be new
}

// A Reprint is a ticket and its earlier registration.
type Reprint struct {
	Old *mark.Ticket // for a new ticket, that of the spoilt panel, or nil
	New *mark.Ticket
}

// A TakenError is two tickets with the same code.
type TakenError struct{ Old, New *mark.Ticket }

func (e *TakenError) Error() string {
	return "code " + e.New.Code.Grouped() + " of " + e.New.Name() + " is that of " + e.Old.Name() + " in job " + e.Old.JobName +
		" already; give the shade another id and print again"
}

// Register makes tickets known, all or none. A ticket that is known and the same
// changes nothing. One with other values supersedes its earlier paper.
func (l *Record) Register(ctx context.Context, tickets []*mark.Ticket) (Registered, error) {
	tickets, err := normal(tickets)
	if err != nil {
		return Registered{}, err
	}
	var sorted Registered
	err = l.do(ctx, &request{alone: true, work: func(_ context.Context, b *batch) error {
		var err error
		if sorted, err = sort(tickets, b.state); err != nil {
			return err
		}
		for _, t := range tickets {
			switch old := b.state(t.Code); {
			case old == nil:
			case old.Ticket.ID != t.ID: // two of these tickets
				return &TakenError{Old: old.Ticket, New: t}
			case old.Ticket.Equal(t):
				continue
			}
			if err := b.stage(mark.Line{Ticket: t}); err != nil {
				return err
			}
		}
		return nil
	}})
	if err != nil {
		return Registered{}, err // the writer may still be sorting
	}
	return sorted, nil
}

// Compare returns what registering tickets would do, without doing it.
func (l *Record) Compare(ctx context.Context, tickets []*mark.Ticket) (Registered, error) {
	tickets, err := normal(tickets)
	if err != nil {
		return Registered{}, err
	}
	if err := l.refresh(ctx); err != nil {
		return Registered{}, err
	}
	l.mu.RLock()
	defer l.mu.RUnlock()
	return sort(tickets, func(c code.Code) *mark.State { return l.cache.states[c] })
}

// sort separates new tickets, changed ones and unchanged ones.
func sort(tickets []*mark.Ticket, known func(code.Code) *mark.State) (Registered, error) {
	var r Registered
	for _, t := range tickets {
		s := known(t.Code)
		switch {
		case s == nil:
			p := Reprint{New: t}
			if spoilt := known(t.Replaces); t.Replaces != "" && spoilt != nil {
				p.Old = spoilt.Ticket
			}
			r.New = append(r.New, p)
		case s.Ticket.ID != t.ID:
			return Registered{}, &TakenError{Old: s.Ticket, New: t}
		case s.Ticket.Agrees(t):
			r.Same = append(r.Same, Reprint{s.Ticket, t})
		default:
			r.Changed = append(r.Changed, Reprint{Old: s.Ticket, New: t})
		}
	}
	return r, nil
}

package mark

import (
	"slices"

	"shadewright/ticket"
	"shadewright/ticket/code"
	"shadewright/ticket/message"
)

// values returns what the registration keeps of its paper. One that cannot be
// read, of another program, keeps nothing.
func (t *Ticket) values() ticket.Printed {
	p, err := ticket.ReadPrinted(t.Printed)
	if err != nil {
		return ticket.Printed{}
	}
	return p
}

// Changes lists what is not on a later paper as it is on t's. ok is false if too
// little is kept of one of them to tell.
func (t *Ticket) Changes(later *Ticket) (changes []ticket.Change, ok bool) {
	return t.values().Changes(later.values())
}

// ChangedTo tells what is not on a later paper as it is on t's, with a decimal comma
// or a point; nothing if that is not known.
func (t *Ticket) ChangedTo(later *Ticket, comma bool) message.Message {
	changes, ok := t.Changes(later)
	if !ok {
		return message.Message{}
	}
	return ticket.Told(changes, later.values().Style(comma))
}

// Agrees reports whether the paper of a later registration says what t's says, so
// that both are valid: where the revisions differ, the format of the list does, or
// t was registered before there was a list.
func (t *Ticket) Agrees(later *Ticket) bool {
	if t.Revision == later.Revision {
		return true
	}
	changes, ok := t.Changes(later)
	return ok && len(changes) == 0
}

// known returns t after a later registration that agrees with it: t's paper has all
// of the values of the later one, also those that its own format did not keep.
func (t *Ticket) known(later *Ticket) *Ticket {
	if t.values().Format >= later.values().Format || !t.Agrees(later) {
		return t
	}
	n := *t
	n.Printed = later.Printed
	return &n
}

// paper returns the earlier registration of a revision, or nil.
func (s *State) paper(r code.Revision) *Ticket {
	if i := slices.IndexFunc(s.Earlier, func(t *Ticket) bool { return t.Revision == r }); i >= 0 {
		return s.Earlier[i]
	}
	return nil
}

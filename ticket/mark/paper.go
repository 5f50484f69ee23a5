package mark

import (
	"slices"

	"shadewright/ticket"
	"shadewright/ticket/code"
	"shadewright/ticket/message"
)

// values returns the values that the registration keeps of its paper. A list that
// cannot be read, from another program, has none.
func (t *Ticket) values() ticket.Printed {
	p, err := ticket.ReadPrinted(t.Printed)
	if err != nil {
		return ticket.Printed{}
	}
	return p
}

// Changes lists the values of a later paper that differ from t's. ok is false if
// one of the papers keeps too little to compare.
func (t *Ticket) Changes(later *Ticket) (changes []ticket.Change, ok bool) {
	return t.values().Changes(later.values())
}

// ChangedTo describes what changed from t's paper to a later one, with a decimal
// comma or a point. The message is empty if that is unknown.
func (t *Ticket) ChangedTo(later *Ticket, comma bool) message.Message {
	changes, ok := t.Changes(later)
	if !ok {
		return message.Message{}
	}
	return ticket.Describe(changes, later.values().Style(comma))
}

// Agrees reports whether the paper of a later registration says the same as t's, so
// that both are valid. Their revisions may differ because the format of the list
// does, or because t was registered before there was a list.
func (t *Ticket) Agrees(later *Ticket) bool {
	if t.Revision == later.Revision {
		return true
	}
	changes, ok := t.Changes(later)
	return ok && len(changes) == 0
}

// known returns t as it is known after a later registration that agrees with it.
// t's paper then has all values of the later one, including those that its own
// format did not keep.
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

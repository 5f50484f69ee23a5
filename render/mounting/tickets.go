package mounting

import (
	"slices"

	"shadewright/ticket"
	"shadewright/ticket/finding"
	"shadewright/ticket/hang"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// FromTickets returns the sheets for all shades whose brackets were worked out,
// in the order of the tickets. The units of a shade share a sheet. The list is
// empty if there are no such shades.
func FromTickets(tickets []*ticket.Ticket) []Sheet {
	var list []Sheet
	var last *ticket.Shade
	for _, t := range tickets {
		if t.Drilling == nil {
			continue
		}
		code := message.Of("mounting.rev", t.Code.Grouped(), string(t.Revision))
		if n := len(list); n > 0 && last == t.Shade {
			list[n-1].Codes = append(list[n-1].Codes, code)
			continue
		}
		last = t.Shade
		s := Sheet{
			Shade: t.Shade.ID, Place: t.Shade.Place, Codes: []message.Message{code}, Roll: t.Shade.Roll, Drilling: *t.Drilling,
			Mount: t.Shade.Opening.Mount, Stop: stopOf(t), Advice: hang.Fasteners(), Cautions: cautionsOf(t),
		}
		if t.Fastener != nil {
			s.Advice = []hang.Advice{*t.Fastener}
		}
		list = append(list, s)
	}
	return list
}

// stopOf returns why a shade cannot be made as ordered, or an empty message if
// it can. The ticket lists all reasons.
func stopOf(t *ticket.Ticket) message.Message {
	n := 0
	for _, f := range t.Findings {
		if f.Level == finding.Stop {
			n++
		}
	}
	switch n {
	case 0:
		return message.Message{}
	case 1:
		return t.Findings[0].Text
	}
	return message.Of("mounting.more-ticket", t.Findings[0].Text, n-1)
}

// cautionsOf returns the ticket's cautions about drill and ladder.
func cautionsOf(t *ticket.Ticket) []message.Message {
	var list []message.Message
	for _, c := range t.Cautions {
		if slices.Contains([]route.Caution{route.Drilling, route.Ladder, route.EmergencyExit}, c.Key) {
			list = append(list, message.Join(": ", c.Head, c.Text))
		}
	}
	return list
}

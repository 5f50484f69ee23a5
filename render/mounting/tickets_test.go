package mounting

import (
	"strings"
	"testing"

	"github.com/google/uuid"

	"shadewright/render/internal/readback"
	"shadewright/ticket"
	"shadewright/ticket/code"
	"shadewright/ticket/finding"
	"shadewright/ticket/hang"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// ticketsOf returns two units of a shade with brackets and one of a shade
// without.
func ticketsOf(t *testing.T) []*ticket.Ticket {
	t.Helper()
	n := sampleOf(t, "outside")
	shade := &ticket.Shade{ID: "galley", Place: "over the stove", Quantity: 2, Roll: n.site.Roll, Opening: &ticket.Opening{Opening: hang.Opening{Mount: n.site.Mount}}}
	var list []*ticket.Ticket
	for unit := 1; unit <= 2; unit++ {
		tk := &ticket.Ticket{
			Shade: shade, Unit: unit, Of: 2, Code: code.Derive(code.Identity(uuid.UUID{}, "galley", unit, 0)), Revision: "2345",
			Cautions: []ticket.Caution{{Key: route.Ladder, Head: message.Of("ticket.ladder"), Text: message.Of("Firm ground.")}, {Key: route.Needle, Head: message.Of("ticket.needle"), Text: message.Of("Fingers out.")}},
		}
		tk.Drilling = &n.sheet.Drilling
		list = append(list, tk)
	}
	return append(list, &ticket.Ticket{Shade: &ticket.Shade{ID: "bare"}, Unit: 1, Of: 1})
}

func TestFromTickets(t *testing.T) {
	tickets := ticketsOf(t)
	list := FromTickets(tickets)
	if len(list) != 1 {
		t.Fatalf("%d sheets for two units of one shade with brackets; want 1", len(list))
	}
	s := list[0]
	if s.Shade != "galley" || s.Mount != hang.Outside || len(s.Codes) != 2 || s.Codes[0].String() == s.Codes[1].String() || !strings.HasSuffix(s.Codes[1].String(), " rev 2345") {
		t.Errorf("%q, %v mount, codes %q; want galley, outside, one code with its revision for each unit", s.Shade, s.Mount, s.Codes)
	}
	if len(s.Advice) != len(hang.Fasteners()) {
		t.Errorf("advice %v; want all advice, because the material is unknown", s.Advice)
	}
	if got := message.Join("|", s.Cautions...).String(); got != "Ladder: Firm ground." {
		t.Errorf("cautions %q; want the ladder's, not the needle's", got)
	}
	wood, _ := hang.Fasten(hang.Wood)
	tickets[0].Fastener = &wood
	if s := FromTickets(tickets)[0]; len(s.Advice) != 1 || s.Advice[0].Behind != hang.Wood {
		t.Errorf("advice %v; want only the advice for wood", s.Advice)
	}
	if list := FromTickets(tickets[2:]); len(list) != 0 {
		t.Errorf("%d sheets for a shade without brackets", len(list))
	}
}

// A shade that is printed in spite of a stop has the stop on every sheet, and
// no mark moves.
func TestStop(t *testing.T) {
	tickets := ticketsOf(t)
	for _, tk := range tickets {
		tk.Findings = []finding.Finding{
			{Level: finding.Stop, Text: message.Of("the shade would run into the handle by 6 mm")},
			{Level: finding.Stop, Text: message.Of("the spring is too weak")}, {Level: finding.Note, Text: message.Of("snug")},
		}
	}
	list := FromTickets(tickets)
	n := sampleOf(t, "outside")
	opt := optionsFor(t, "letter", n.style)
	doc := readback.Open(t, pdf(t, opt, list...))
	for i := range doc.Pages() {
		words := doc.Marks(i).Words()
		if !strings.Contains(words, "STOP: the shade would run into the handle by 6 mm; 1 more on the ticket") || strings.Contains(words, "snug") {
			t.Errorf("sheet %d does not state the stop:\n%s", i+1, words)
		}
		for _, c := range doc.Crowded(i, 6.3) {
			t.Errorf("sheet %d: %s", i+1, c)
		}
	}
	c := checker{t: t, name: "stop", opt: opt, seen: map[string]int{}}
	c.sheet(list[0])
}

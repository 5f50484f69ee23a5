package cutplan_test

import (
	"testing"

	"shadewright/ticket"
	"shadewright/ticket/cutplan"
	"shadewright/ticket/nest"
)

// A plan that squares the end of the roll first, by hand: 2 in come off, then the section
// of 48-3/4 in, and the roll has given 50-3/4 in.
func TestSquareEnd(t *testing.T) {
	opt := options()
	opt.SquareEnd = 2 * in
	_, plans := plan(t, opt, shadeOf("a", mesh(ticket.Lengthwise), 26*in, 40*in, 2))
	p := plans[0]
	mustHold(t, p)
	first := p.Cuts[0]
	if first.Way != nest.Across || first.At != 2*in || p.Parts[first.From].Kind != cutplan.Roll || p.Parts[first.Near].Kind != cutplan.Scrap {
		t.Errorf("the first cut is %+v; want 2 in across the roll", first)
	}
	if s := p.Parts[p.Sections[0].Part]; p.Used != 50*in+in*3/4 || s.Y != 2*in || s.Length != 48*in+in*3/4 {
		t.Errorf("used %v, section %+v; want 50-3/4 in with a section of 48-3/4 from 2 in on", p.Used, s)
	}
	// A piece on hand is square already.
	opt.Supply.Goods = map[string]ticket.GoodsSupply{"mesh": {OnHand: []ticket.Piece{{Label: "shelf", Width: 54 * in, Length: 60 * in}}}}
	_, plans = plan(t, opt, shadeOf("a", mesh(ticket.Lengthwise), 26*in, 40*in, 2))
	if p := plans[0]; p.Used != 0 || p.Square != 0 || p.Parts[p.Cuts[0].From].Kind == cutplan.Roll {
		t.Errorf("on hand: used %v, squared %v, first cut %+v; want nothing off the roll", p.Used, p.Square, p.Cuts[0])
	}
}

// A panel may hang over the end of the table, and no section is longer than it. By hand:
// a panel of 60 + 8-3/4 in is longer than the table of 48 in; two of 30 + 8-3/4 in, one
// behind the other, would be longer still.
func TestOverhang(t *testing.T) {
	opt := options()
	opt.Table, opt.Overhang = 48*in, true
	job := []ticket.Shade{shadeOf("long", mesh(ticket.Lengthwise), 50*in, 60*in, 1), shadeOf("short", mesh(ticket.Lengthwise), 50*in, 30*in, 3)}
	all, plans := plan(t, opt, job...)
	mustHold(t, plans[0])
	for _, k := range all {
		if k.Stopped() || !k.Plan.Planned() {
			t.Errorf("%s: %v", k.Name(), k.Findings)
		}
	}
	for i, s := range plans[0].Sections {
		if l := plans[0].Parts[s.Part].Length; l > 68*in+in*3/4 {
			t.Errorf("section %d is %v long; the longest panel is 68-3/4 in", i+1, l)
		}
	}
}

package plan

import (
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/render/sheet"
	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// spanish returns the sample in Spanish.
func (s sample) spanish(t testing.TB) sample {
	s.opt.Language = readback.Spanish(t)
	s.opt.Style.Comma = s.opt.Language.Comma()
	return s
}

// own lists the words of the samples.
const own = "Marsh Wren screen cabin batten shelf EUR"

// tried returns the samples, and some more for the other texts of plans and
// buying lists.
func tried(t testing.TB) map[string]sample {
	all := map[string]sample{}
	for name, o := range samples() {
		all[name] = o.make(t)
	}
	spare := samples()["plain, on hand"]
	spare.each, spare.onHand[0].Length = 1, 1600*mm
	none := spare.make(t) // nothing is cut off the roll
	if none.plans[0].Used != 0 {
		t.Fatalf("%v is cut off the roll; want nothing", none.plans[0].Used)
	}
	none.list.Currency = ""
	all["nothing off the roll"] = none
	short := samples()["small, metric"].make(t)
	short.plans[0].Cut, short.plans[0].Proven, short.plans[0].Bound = true, false, 0
	short.list.Lines[0].Price = 0
	all["search cut short"] = short
	long := samples()["small, inches"]
	long.goods = func(g *ticket.Goods) { g.Width, g.Lay = 5000*mm, ticket.AnyWay }
	long.sizes = []measure.Size{{Width: 2500 * mm, Length: 900 * mm}} // a slat longer than its stock length
	all["long slat"] = long.make(t)
	return all
}

func TestMarked(t *testing.T) {
	for name, s := range tried(t) {
		t.Run(name, func(t *testing.T) {
			s.opt.Language = readback.Marked()
			s.open(t).CheckMarked(own)
		})
	}
}

// In Spanish no text overlaps another or is cut off, and the plan needs no more
// paper.
func TestSpanish(t *testing.T) {
	for name, s := range tried(t) {
		for _, paper := range readback.Few([]string{"letter", "a4", "a5"}, 1) {
			t.Run(name+" on "+paper, func(t *testing.T) {
				s.opt.Paper = paperOf(t, paper)
				en, es := s.open(t), s.spanish(t).open(t)
				es.CheckFits(6.2)
				if en.Pages() != es.Pages() {
					t.Errorf("%d sheets; in English %d", es.Pages(), en.Pages())
				}
			})
		}
	}
}

func paperOf(t testing.TB, name string) sheet.Paper {
	t.Helper()
	p, err := sheet.Named(name)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

package template

import (
	"strconv"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// A graduation is a rule's marks: the finest step, and how long the mark of each
// coarser step is.
type graduation struct {
	step   measure.Length
	every  []int            // of steps, coarsest first
	ticks  []measure.Length // their lengths, and that of the finest
	number measure.Length   // what one number counts
	unit   string
}

// Inch rules have binary subdivisions (NIST Handbook 44, 5.52 S.1).
var (
	inches = graduation{measure.Inch / 8, []int{8, 4, 2}, []measure.Length{5 * mm, 7 * mm / 2, 5 * mm / 2, 3 * mm / 2}, measure.Inch, "in"}
	metric = graduation{mm, []int{10, 5}, []measure.Length{5 * mm, 3 * mm, 3 * mm / 2}, measure.Centimetre, "cm"}
)

func graduationOf(s measure.System) graduation {
	if s == measure.Millimetres {
		return metric
	}
	return inches
}

// tick returns how long the mark of the n-th step is, and whether it is numbered.
func (g graduation) tick(n int) (measure.Length, bool) {
	for i, every := range g.every {
		if n%every == 0 {
			return g.ticks[i], i == 0
		}
	}
	return g.ticks[len(g.ticks)-1], false
}

// scale draws a rule along the raw edge, from the left side of the cloth.
func (v view) scale(width measure.Length) {
	g := graduationOf(v.opt.Style.System)
	for n := 0; ; n++ {
		x := measure.Length(n) * g.step
		if x > width {
			break
		}
		length, numbered := g.tick(n)
		v.up(x, 0, -length, fine)
		if numbered {
			v.write(x+mm/2, -length-2*mm, strconv.Itoa(int(x/g.number)), small)
		}
	}
	v.write(-mm, -5*mm, g.unit, page.Face{Size: small.Size, Align: page.End})
}

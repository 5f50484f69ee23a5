package template

import (
	"strconv"

	"shadewright/render/fullscale"
	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// scale draws a ruler along the raw edge, from the left side of the cloth.
func (v view) scale(width measure.Length) {
	g := fullscale.GraduationOf(v.Style.System)
	for n := 0; ; n++ {
		x := measure.Length(n) * g.Step
		if x > width {
			break
		}
		length, numbered := g.Tick(n)
		v.Up(x, 0, -length, page.Fine())
		if numbered {
			v.Write(x+mm/2, -length-2*mm, strconv.Itoa(int(x/g.Number)), small)
		}
	}
	v.Write(-mm, -5*mm, g.Unit, page.Face{Size: small.Size, Align: page.End})
}

package template

import (
	"strings"

	"shadewright/render/page"
	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// A gauge is a paper ruler with a band's lines. It slides along the edge of the
// cloth and replaces the taped band. Bands that differ only in width share a
// gauge.
type gauge struct {
	shape // only the folds are set
	bands []string
}

// gaugeWidth is as much as one hand can hold flat.
const gaugeWidth = 150 * mm

func gauges(list []*band) []*gauge {
	var all []*gauge
	known := map[ticket.Folds]*gauge{}
	for _, b := range list {
		g := known[b.folds]
		if g == nil {
			g = &gauge{shape: shape{folds: b.folds}}
			known[b.folds] = g
			all = append(all, g)
		}
		g.bands = append(g.bands, b.name)
	}
	return all
}

// use says which bands a gauge is for and how to use it.
func (d *drawing) use(g *gauge) string {
	if len(g.bands) == 1 {
		return d.Say("template.use-gauge", g.bands[0])
	}
	return d.Say("template.use-gauges", strings.Join(g.bands, ", "))
}

// gauge draws a gauge with its top left corner at at, in a body of the given
// width.
func (d *drawing) gauge(g *gauge, at page.Point, width measure.Length) {
	width = min(width, gaugeWidth)
	f := g.folds
	v := d.view(g.shape, 0, width, at)
	name, bold := d.Say("template.gauge"), page.Face{Size: 11 * page.Pt, Weight: page.Bold}
	d.Text(page.Point{X: at.X, Y: at.Y + 5*mm}, name, bold)
	aside := max(15*mm, page.Width(name, bold)+3*mm)
	note, face := page.Fit(d.use(g), plain, width-aside, readable)
	if note == d.use(g) {
		d.Text(page.Point{X: at.X + aside, Y: at.Y + 5*mm}, note, face)
	} else { // too long for one line: the gauge is for many bands
		for i, s := range page.Wrap(d.use(g), small, width-aside) {
			d.Text(page.Point{X: at.X + aside, Y: at.Y + 3*mm + measure.Length(i)*33*mm/10}, s, small)
		}
	}
	lines := rules(f)
	// A band wider than the gauge keeps the centre, the right side and their
	// texts off the paper.
	wide := shape{folds: f, width: 2*width + 2*past, slat: [2]measure.Length{0, 2 * width}}
	for i, r := range lines {
		v.Across(r.y, 0, width, r.kind.pen())
		v.label(wide, lines, i)
	}
	top := f.PocketMark + headroom
	for _, x := range []measure.Length{0, width} {
		v.Up(x, 0, top, page.Solid())
	}
	v.Across(top, 0, width, page.Solid())
}

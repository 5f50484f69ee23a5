package template

import (
	"strings"

	"shadewright/render/page"
	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// A gauge is a paper rule with a band's lines, slid along the edge of the cloth
// instead of taping the band together. Bands that differ only in width share it.
type gauge struct {
	shape // only its folds are set
	bands []string
}

// gaugeWidth is as wide as a hand holds flat.
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

// use says which bands a gauge is for, and how it is used.
func (d *drawing) use(g *gauge) string {
	if len(g.bands) == 1 {
		return d.Say("template.band-cut-out-along-outline", g.bands[0])
	}
	return d.Say("template.bands-cut-out-along-outline", strings.Join(g.bands, ", "))
}

// gauge draws a gauge with its top left corner at at, in a body of the width.
func (d *drawing) gauge(g *gauge, at page.Point, width measure.Length) {
	width = min(width, gaugeWidth)
	f := g.folds
	v := d.view(g.shape, 0, width, at)
	name, bold := d.Say("template.gauge"), page.Face{Size: 11 * page.Pt, Weight: page.Bold}
	d.Text(page.Point{X: at.X, Y: at.Y + 5*mm}, name, bold)
	aside := max(15*mm, page.Width(name, bold)+3*mm)
	note, face := page.Fit(d.use(g), plain, width-aside, fair)
	if note == d.use(g) {
		d.Text(page.Point{X: at.X + aside, Y: at.Y + 5*mm}, note, face)
	} else { // it serves many bands
		for i, s := range page.Wrap(d.use(g), small, width-aside) {
			d.Text(page.Point{X: at.X + aside, Y: at.Y + 3*mm + measure.Length(i)*33*mm/10}, s, small)
		}
	}
	lines := rules(f)
	// As of a band that goes on: its centre, its right side and their words fall outside.
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

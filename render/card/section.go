package card

import (
	"math"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// ply is the pen for cloth seen on edge, and apart is the distance between two
// plies. Both are larger than in cloth, so that the plies are visible.
const (
	ply   = 500 * measure.Micrometre
	apart = 1600 * measure.Micrometre
)

// folded draws the finished bottom from the side. Depths are to scale; the
// cloth's thickness is not.
func (m maker) folded(on canvas, r page.Rect) {
	a := m.Shade.Allow
	r.Min.Y += mm
	r.Max.Y -= mm
	depth := max(a.Pocket, 1)
	k := float64(r.Height()-8*mm) / float64(depth)
	scaled := func(l measure.Length) measure.Length { return measure.Length(k * float64(l)) }
	s := section{
		x: r.Min.X + 18*mm, foot: r.Max.Y, top: r.Min.Y,
		pocket: scaled(depth), hem: scaled(min(a.Hem, depth*9/10)), inset: scaled(min(a.StitchInset, depth*8/10)),
	}
	if slat := m.Shade.Slat; slat.Round() {
		s.round, s.slatThick = true, scaled(slat.Diameter)
	} else {
		s.slatThick, s.slatWide = scaled(slat.Thickness), scaled(slat.Width)
	}
	s.slatThick = min(max(s.slatThick, mm), 9*mm)
	s.slatWide = min(s.slatWide, s.pocket-s.inset-mm)
	s.draw(on)

	left := s.x - 4*mm
	dimension(on, left, s.foot, s.foot-s.pocket)
	mid := s.foot - s.pocket/2
	for _, y := range []measure.Length{s.foot, s.foot - s.pocket} {
		on.Line(page.Point{X: left - mm, Y: y}, page.Point{X: s.x - mm, Y: y}, thin)
	}
	right := ending(regular(9 * pt))
	value, number := m.fit(m.units.near(a.Pocket), bold(12*pt), left-5*mm/2-r.Min.X, 8*pt)
	on.Text(page.Point{X: left - 3*mm/2, Y: mid - 4*mm}, m.say("card.pocket"), right)
	on.Text(page.Point{X: left - 3*mm/2, Y: mid + mm}, value, ending(number))
	on.Text(page.Point{X: left - 3*mm/2, Y: mid + 5*mm}, legible(m.units.other(a.Pocket, measure.Nearest), right), right)
	m.nameParts(on, s, r)
}

// nameParts labels the parts of the section, at its right.
func (m maker) nameParts(on canvas, s section, r page.Rect) {
	a := m.Shade.Allow
	x := s.x + s.wide() + 6*mm
	flap := s.rise(apart, s.pocket-s.hem, s.pocket)[0]
	rows := []struct {
		from, y             measure.Length
		name, value, second string
	}{
		{s.x + 2*apart + 5*mm/2, s.foot - s.pocket + s.inset, m.say("card.row-below-fold"), m.units.near(a.StitchInset), m.units.other(a.StitchInset, measure.Nearest)},
		{flap.X, flap.Y - mm, m.say("card.hem"), m.units.near(a.Hem), m.units.other(a.Hem, measure.Nearest)},
		{s.x + s.slatThick/2, s.foot - s.slatHeight()/3, m.say("card.slat"), m.slatSize(), ""},
	}
	var list []callout
	for _, row := range rows {
		list = append(list, callout{y: row.y})
	}
	ys := spread(list, min(12*mm, r.Height()/3), r.Min.Y, r.Max.Y)
	for i, row := range rows {
		y := ys[i]
		on.Polyline([]page.Point{{X: row.from, Y: row.y}, {X: x - 2*mm, Y: y - mm}, {X: x - mm/2, Y: y - mm}}, thin)
		name, f := m.fit(row.name, regular(9*pt), r.Max.X-x, smallest)
		on.Text(page.Point{X: x, Y: y}, name, f)
		value, f := m.fit(row.value, bold(12*pt), r.Max.X-x, 8*pt)
		on.Text(page.Point{X: x, Y: y + 9*mm/2}, value, f)
		small := regular(17 * pt / 2)
		second := legible(row.second, small)
		if w := page.Width(value, f) + 3*mm/2; w+page.Width(second, small) <= r.Max.X-x {
			on.Text(page.Point{X: x + w, Y: y + 9*mm/2}, second, small)
		}
	}
}

// slatSize returns the slat's cross-section as text.
func (m maker) slatSize() string {
	s := m.Shade.Slat
	if s.Round() {
		return "Ø " + m.units.fine().Words(s.Diameter, measure.Nearest).Printed()
	}
	return by(m.units.fine(), s.Width, s.Thickness, measure.Nearest, measure.Nearest)
}

// A section is a folded bottom on the page. The main ply hangs at x, and the
// others are to its right. The hem is turned in between the two plies of the
// pocket.
type section struct {
	x, foot, top        measure.Length
	pocket, hem, inset  measure.Length
	slatThick, slatWide measure.Length
	round               bool
}

func (s section) slatHeight() measure.Length {
	if s.round {
		return s.slatThick
	}
	return s.slatWide
}

// wide returns how far the plies extend to the right of the main one.
func (s section) wide() measure.Length { return s.slatThick + 2*apart }

func (s section) draw(on canvas) {
	pen := page.Pen{Width: ply}
	r := s.wide() / 2
	cloth := []page.Point{{X: s.x, Y: s.top}}
	cloth = append(cloth, arcPoints(s.x+r, s.foot-r, r, math.Pi, 2*math.Pi)...)
	cloth = append(cloth, s.rise(0, 0, s.pocket)...)
	cloth = append(cloth, arcPoints(s.x+apart*3/2, s.foot-s.pocket, apart/2, 0, math.Pi)...)
	flap := s.rise(apart, s.pocket-s.hem, s.pocket)
	for i := len(flap) - 1; i >= 0; i-- {
		cloth = append(cloth, flap[i])
	}
	on.Polyline(cloth, pen)
	s.slat(on)
	y := s.foot - s.pocket + s.inset
	on.Line(page.Point{X: s.x - 2*mm, Y: y}, page.Point{X: s.x + 2*apart + 2*mm, Y: y}, line)
	for _, x := range []measure.Length{s.x - mm, s.x + 2*apart + mm} { // the knots of the two threads
		on.Line(page.Point{X: x, Y: y - mm}, page.Point{X: x, Y: y + mm}, line)
	}
}

// rise returns the back ply, or a ply that lies off inside it, between two
// heights above the bottom. The ply goes around the slat below and lies against
// the others above.
func (s section) rise(off, from, to measure.Length) []page.Point {
	from = max(from, s.wide()/2)
	low := min(s.slatHeight()+s.wide()/4, s.pocket-s.inset-mm/2)
	high := max(s.pocket-s.inset, low+mm/2)
	const steps = 24
	var pts []page.Point
	for i := range steps + 1 {
		h := from + (to-from)*measure.Length(i)/steps
		t := min(max(float64(h-low)/float64(high-low), 0), 1)
		ease := (1 + math.Cos(math.Pi*t)) / 2
		pts = append(pts, page.Point{X: s.x + 2*apart + measure.Length(ease*float64(s.slatThick)) - off, Y: s.foot - h})
	}
	return pts
}

// arcPoints returns points on an arc between two angles, measured from the
// direction of x. Falling angles run counter-clockwise as the reader sees it,
// rising ones clockwise.
func arcPoints(x, y, radius measure.Length, from, to float64) []page.Point {
	const steps = 16
	pts := make([]page.Point, steps+1)
	for i := range pts {
		sin, cos := math.Sincos(from + (to-from)*float64(i)/steps)
		pts[i] = page.Point{X: x + measure.Length(cos*float64(radius)), Y: y - measure.Length(sin*float64(radius))}
	}
	return pts
}

// slat draws the slat in the pocket.
func (s section) slat(on canvas) {
	x := s.x + ply + mm/10
	if s.round {
		r := s.slatThick / 2
		on.Polygon(arcPoints(x+r, s.foot-r-apart/2, r, 0, 2*math.Pi), line)
		return
	}
	foot := s.foot - apart
	b := page.Box(x, foot-s.slatWide, s.slatThick, s.slatWide)
	on.Polygon(b.Corners(), line)
	for y := b.Min.Y + mm; y+mm < b.Max.Y; y += 2 * mm { // hatching for cut wood or metal
		on.Line(page.Point{X: b.Min.X, Y: y + mm}, page.Point{X: b.Max.X, Y: y}, thin)
	}
}

package card

import (
	"cmp"
	"math"
	"slices"

	"shadewright/render/page"
	"shadewright/ticket"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// figureMost is the greatest height of a row of drawings.
const figureMost = 64 * mm

// A figure is one drawing of a row.
type figure struct {
	share measure.Length // width in hundredths of the row
	head  string
	draw  func(on canvas, r page.Rect)
}

// figures draws the lines on the flat panel, the folded bottom, and the way the
// cloth rolls: side by side, or on narrow paper the last two below the first.
func (m maker) figures() []block {
	list := []figure{
		{50, m.say("card.mark-face", m.say("common.good-face-down")), m.flat}, {30, m.say("card.fold-and-sew"), m.folded}, {20, m.say(rollHeads[m.Shade.Roll]), m.rolled},
	}
	if !m.narrow() {
		return []block{m.sideBySide(list)}
	}
	list[0].share, list[1].share, list[2].share = 100, 50, 50
	return []block{m.sideBySide(list[:1]), m.sideBySide(list[1:])}
}

// sideBySide draws figures in a row.
func (m maker) sideBySide(list []figure) block {
	least := m.look.figure
	if m.narrow() && m.look.text == smallest {
		least -= 3 * mm
	}
	return block{headHeight + least, headHeight + figureMost, func(on canvas, r page.Rect, _ unit) {
		w := r.Width() - measure.Length(len(list)-1)*gutter
		cell := r
		for i, f := range list {
			cell.Max.X = cell.Min.X + w*f.share/100
			if i == len(list)-1 {
				cell.Min.X, cell.Max.X = r.Max.X-w*f.share/100, r.Max.X
			}
			f.draw(on, headed(on, cell, f.head))
			cell.Min.X = cell.Max.X + gutter
		}
	}}
}

// rollHeads are the titles that say which way the cloth rolls.
var rollHeads = [...]message.ID{ticket.Standard: "card.roll-standard", ticket.Reverse: "card.roll-reverse"}

// A callout is text beside a drawing, with a thin line to the part that it
// names.
type callout struct {
	y           measure.Length // of the part that it names
	big, second string         // the number in both units
	name, long  string         // long, if set, replaces name where it fits
}

// calloutPitch is the usual distance between two callouts.
const calloutPitch = 13 * mm / 2

// callouts writes texts in a column, each as close to its own y as the
// others allow, with leader lines from the drawing's edge.
func (m maker) callouts(on canvas, list []callout, from measure.Length, column page.Rect) {
	x, right, top, bottom := column.Min.X, column.Max.X, column.Min.Y, column.Max.Y
	number, small := bold(12*pt), regular(17*pt/2)
	list = slices.Clone(list)
	for i := range list {
		list[i].second = legible(list[i].second, small)
	}
	slices.SortStableFunc(list, func(a, b callout) int { return cmp.Compare(a.y, b.y) })
	ys := spread(list, min(calloutPitch, (bottom-top)/measure.Length(len(list))), top, bottom)
	var wide, second measure.Length
	for _, c := range list {
		wide = max(wide, page.Width(c.big, number))
		second = max(second, page.Width(c.second, small))
	}
	for i, c := range list {
		base := ys[i] + number.CapHeight()/2
		on.Polyline([]page.Point{{X: from, Y: c.y}, {X: x - 2*mm, Y: ys[i]}, {X: x - mm/2, Y: ys[i]}}, thin)
		at := page.Point{X: x, Y: base}
		if c.big != "" {
			on.Text(at, c.big, number)
			at.X += wide + 3*mm/2
			on.Text(at, c.second, small)
			at.X += second + 2*mm
		}
		text := c.name
		if c.long != "" && page.Width(c.long, regular(smallest)) <= right-at.X {
			text = c.long
		}
		s, f := m.fit(text, regular(9*pt), right-at.X, smallest)
		on.Text(at, s, f)
	}
}

// spread moves the callouts at least pitch apart, in order, between top and
// bottom.
func spread(list []callout, pitch, top, bottom measure.Length) []measure.Length {
	ys := make([]measure.Length, len(list))
	low := top + pitch/2
	for i, c := range list {
		ys[i] = max(c.y, low)
		low = ys[i] + pitch
	}
	high := bottom - pitch/2
	for i := len(ys) - 1; i >= 0; i-- {
		ys[i] = min(ys[i], high)
		high = ys[i] - pitch
	}
	return ys
}

// flat draws the bottom of the flat panel, with heights to scale: the five
// lines and their distances from the raw edge.
func (m maker) flat(on canvas, r page.Rect) {
	f := m.Folds
	r.Min.Y += mm
	top := max(f.PocketMark, f.Stitch, f.HemMark, f.PocketFold, 1)
	k := float64(r.Height()-9*mm) / float64(top)
	y := func(l measure.Length) measure.Length { return r.Max.Y - 2*mm - measure.Length(k*float64(l)) }
	cloth := page.Box(r.Min.X+9*mm, r.Min.Y+2*mm, min(r.Width()/6, 22*mm), r.Height()-4*mm)
	m.band(on, cloth)
	var list []callout
	for _, l := range []struct {
		at         measure.Length
		pen        page.Pen
		name, long message.ID
	}{
		{f.PocketMark, line, "common.pocket-mark", "card.pocket-mark"},
		{f.Stitch, page.Pen{Width: 400 * measure.Micrometre, Dash: []measure.Length{mm, mm}}, "common.stitch-row", ""},
		{f.PocketFold, page.Pen{Width: line.Width, Dash: []measure.Length{3 * mm, mm}}, "common.pocket-fold", ""},
		{f.HemMark, line, "common.hem-mark", "card.hem-mark"},
		{f.HemFold, page.Pen{Width: line.Width, Dash: []measure.Length{3 * mm, mm}}, "common.hem-fold", ""},
	} {
		on.Line(page.Point{X: cloth.Min.X - mm, Y: y(l.at)}, page.Point{X: cloth.Max.X + mm, Y: y(l.at)}, l.pen)
		c := callout{y: y(l.at), big: m.units.near(l.at), second: m.units.other(l.at, measure.Nearest), name: m.say(l.name)}
		if l.long != "" {
			c.long = m.say(l.long)
		}
		list = append(list, c)
	}
	list = append(list, callout{y: y(0), name: m.say("common.raw-edge")})
	fold := func(from, to, reach measure.Length, name string) {
		x := cloth.Min.X - 2*mm
		turn(on, page.Rect{Min: page.Point{X: x - reach, Y: y(to)}, Max: page.Point{X: x, Y: y(from)}}, name)
	}
	fold(0, f.HemMark, 3*mm, "1")
	fold(f.HemFold, f.PocketMark, 5*mm, "2")
	m.callouts(on, list, cloth.Max.X+mm, page.Rect{Min: page.Point{X: cloth.Max.X + 6*mm, Y: r.Min.Y}, Max: r.Max})
}

// band draws the cloth's raw edge and sides, with a break line at the top.
func (m maker) band(on canvas, r page.Rect) {
	on.Line(page.Point{X: r.Min.X, Y: r.Max.Y}, r.Max, heavy)
	on.Line(r.Min, page.Point{X: r.Min.X, Y: r.Max.Y}, line)
	on.Line(page.Point{X: r.Max.X, Y: r.Min.Y}, r.Max, line)
	mid := (r.Min.X + r.Max.X) / 2
	on.Polyline([]page.Point{r.Min, {X: mid - 2*mm, Y: r.Min.Y}, {X: mid - mm, Y: r.Min.Y - 3*mm/2},
		{X: mid + mm, Y: r.Min.Y + 3*mm/2}, {X: mid + 2*mm, Y: r.Min.Y}, {X: r.Max.X, Y: r.Min.Y}}, thin)
}

// turn draws the path of an edge that is folded up: half an ellipse in r, open to
// the right, with an arrowhead at its upper end, and the number of the fold.
func turn(on canvas, r page.Rect, name string) {
	x, reach := r.Max.X, r.Width()
	mid, half := (r.Min.Y+r.Max.Y)/2, r.Height()/2
	const steps = 24
	pts := make([]page.Point, steps+1)
	for i := range pts {
		sin, cos := math.Sincos(math.Pi * float64(i) / steps)
		pts[i] = page.Point{X: x - measure.Length(sin*float64(reach)), Y: mid + measure.Length(cos*float64(half))}
	}
	on.Polyline(pts, thin)
	arrow(on, pts[steps], page.Point{X: 1, Y: 0})
	on.Text(page.Point{X: x - reach - mm/2, Y: mid + mm}, name, ending(semibold(9*pt)))
}

// arrow paints an arrowhead with its tip at tip, pointing in the direction of
// way.
func arrow(on canvas, tip page.Point, way page.Point) {
	const long, half = 2 * mm, 7 * mm / 10
	d := math.Hypot(float64(way.X), float64(way.Y))
	ux, uy := float64(way.X)/d, float64(way.Y)/d
	at := func(back, side float64) page.Point {
		return page.Point{X: tip.X - measure.Length(back*ux+side*uy), Y: tip.Y - measure.Length(back*uy-side*ux)}
	}
	on.FillPolygon([]page.Point{tip, at(float64(long), float64(half)), at(float64(long), -float64(half))}, page.Black)
}

// dimension draws an upright dimension line between two heights.
func dimension(on canvas, x, from, to measure.Length) {
	on.Line(page.Point{X: x, Y: from}, page.Point{X: x, Y: to}, thin)
	way := page.Point{Y: to - from}
	if way.Y == 0 {
		return
	}
	arrow(on, page.Point{X: x, Y: to}, way)
	arrow(on, page.Point{X: x, Y: from}, page.Point{Y: -way.Y})
}

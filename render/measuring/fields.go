package measuring

import (
	"shadewright/render/page"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A label names a box: its number on the drawing and what is written in it.
type label struct {
	number string
	says   message.ID
}

// tick is the side of a box that is ticked.
const tick = 4500 * measure.Micrometre

var (
	heading  = page.Face{Size: 11 * pt, Weight: page.Bold}
	boxLabel = page.Face{Size: 10 * pt, Weight: page.Semibold}
)

// choice draws a box to tick and its words, and returns where the next may begin.
func (f form) choice(at page.Point, words string, ticked bool) measure.Length {
	box := page.Box(at.X, at.Y-tick+mm/2, tick, tick)
	f.Rect(box, page.Solid())
	if ticked {
		f.Polyline([]page.Point{
			{X: box.Min.X + mm, Y: box.Min.Y + 2*mm}, {X: box.Min.X + 2*mm, Y: box.Max.Y - mm}, {X: box.Max.X + mm, Y: box.Min.Y - mm},
		}, page.Heavy())
	}
	f.Text(page.Point{X: box.Max.X + 2*mm, Y: at.Y}, words, boxLabel)
	return box.Max.X + 2*mm + page.Width(words, boxLabel) + 5*mm
}

// choices draws where the shade is mounted, and the unit of all readings.
func (f form) choices(at page.Point, o Opening) {
	x, y := at.X, at.Y+5*mm
	for _, c := range []struct {
		mount hang.Mount
		says  message.ID
	}{{hang.Inside, "measuring.inside"}, {hang.Outside, "measuring.outside-wall"}, {hang.Ceiling, "measuring.ceiling"}} {
		x = f.choice(page.Point{X: x, Y: y}, f.say(c.says), o.Mount != nil && *o.Mount == c.mount)
	}
	x = max(x+4*mm, f.area.Max.X-32*mm)
	x = f.choice(page.Point{X: x, Y: y}, "in", o.Units == measure.Inches)
	f.choice(page.Point{X: x, Y: y}, "mm", o.Units == measure.Millimetres)
}

// box draws an empty box under its number and words.
func (f form) box(r page.Rect, l label) {
	x := r.Min.X
	if l.number != "" {
		x = f.badge(page.Point{X: r.Min.X + badge, Y: r.Min.Y + badge}, l.number) + mm
	}
	s, face := page.Fit(f.say(l.says), boxLabel, r.Max.X-x, smallest)
	f.Text(page.Point{X: x, Y: r.Min.Y + badge + face.CapHeight()/2}, s, face)
	f.Rect(page.Rect{Min: page.Point{X: r.Min.X, Y: r.Min.Y + 2*badge + mm/2}, Max: r.Max}, page.Solid())
}

// badge is the radius of the disc around a number, the same on the drawing and at the
// box.
const badge = 2500 * measure.Micrometre

// badge draws a number, white on a black disc, and returns where the disc ends.
func (f form) badge(centre page.Point, number string) measure.Length {
	f.Disc(centre, badge, page.Black)
	face := page.Face{Size: 9 * pt, Weight: page.Bold, Gray: page.White, Align: page.Middle}
	f.Text(page.Point{X: centre.X, Y: centre.Y + face.CapHeight()/2}, number, face)
	return centre.X + badge
}

// readings draws the boxes beside the drawing: what is measured at every opening.
func (f form) readings(r page.Rect) {
	columns := [3][]label{
		{{"1", "measuring.width-top"}, {"2", "measuring.width-middle"}, {"3", "measuring.width-bottom"}},
		{{"4", "measuring.height-left"}, {"5", "measuring.height-middle"}, {"6", "measuring.height-right"}},
		{{"7", "measuring.diagonal-first"}, {"8", "measuring.diagonal-second"}, {"9", "measuring.depth"}},
	}
	heads := [3]message.ID{"measuring.widths", "measuring.heights", "measuring.diagonals"}
	wide := (r.Width() - 2*gutter) / 3
	const head = 7 * mm
	high := (r.Height() - head) / 3
	for c, column := range columns {
		x := r.Min.X + measure.Length(c)*(wide+gutter)
		s, face := page.Fit(f.say(heads[c]), heading, wide, smallest)
		f.Text(page.Point{X: x, Y: r.Min.Y + 4500*measure.Micrometre}, s, face)
		for i, l := range column {
			f.box(page.Box(x, r.Min.Y+head+measure.Length(i)*high, wide, high-2*mm), l)
		}
	}
}

// headWidth is the width of the words before a row of boxes.
const headWidth = 32 * mm

// row draws a heading, boxes to tick under it, and boxes to write in beside it.
func (f form) row(at page.Point, head message.ID, ticks []message.ID, labels []label) {
	y := f.rowHead(at, head, 1+min(2, 2-len(ticks)))
	for _, id := range ticks {
		f.choice(page.Point{X: at.X, Y: y}, f.say(id), false)
		y += tick + mm
	}
	f.boxes(at.Add(page.Point{X: headWidth + gutter}), f.area.Max.X, labels)
}

// boxes draws boxes beside one another, from at to the right edge.
func (f form) boxes(at page.Point, right measure.Length, labels []label) {
	wide := (right - at.X - measure.Length(len(labels)-1)*gutter) / measure.Length(len(labels))
	for i, l := range labels {
		f.box(page.Box(at.X+measure.Length(i)*(wide+gutter), at.Y+mm, wide, rowHeight-2*mm), l)
	}
}

// rowHead writes the words before a row, under a line that parts it from the row above,
// and returns the baseline of what may follow.
func (f form) rowHead(at page.Point, id message.ID, most int) measure.Length {
	f.Line(at, page.Point{X: f.area.Max.X, Y: at.Y}, page.Fine())
	y := at.Y + 5*mm
	lines, face := page.Shrink(f.say(id), heading, headWidth, smallest, most)
	for _, line := range lines {
		f.Text(page.Point{X: at.X, Y: y}, line, face)
		y += face.Leading()
	}
	return y + mm
}

// standsOut draws the table of what stands out from the glass or the wall, and returns
// where the next row begins.
func (f form) standsOut(at page.Point) measure.Length {
	const rows, rowHigh, headHigh = 3, 10 * mm, 6 * mm
	y := f.rowHead(at, "measuring.stands-out", 3)
	f.choice(page.Point{X: at.X, Y: y + mm}, f.say("measuring.nothing"), false)
	x := at.X + headWidth + gutter
	room := f.area.Max.X - x
	columns := []struct {
		label
		from, to measure.Length
	}{
		{label{"", "measuring.what"}, 0, room - 82*mm},
		{label{"14", "measuring.how-far-out"}, room - 80*mm, room - 42*mm},
		{label{"15", "measuring.how-far-below"}, room - 40*mm, room},
	}
	for _, c := range columns {
		left := x + c.from
		if c.number != "" {
			left = f.badge(page.Point{X: left + badge, Y: at.Y + mm + badge}, c.number) + mm
		}
		s, face := page.Fit(f.say(c.says), boxLabel, x+c.to-left, smallest)
		f.Text(page.Point{X: left, Y: at.Y + mm + badge + face.CapHeight()/2}, s, face)
		for i := range measure.Length(rows) {
			f.Rect(page.Box(x+c.from, at.Y+mm/2+headHigh+i*rowHigh, c.to-c.from, rowHigh-mm), page.Solid())
		}
	}
	return at.Y + headHigh + rows*rowHigh + mm
}

// fixing draws the box of the bracket, and what the bracket is screwed into.
func (f form) fixing(at page.Point) {
	f.rowHead(at, "measuring.fixing", 3)
	x := at.X + headWidth + gutter
	f.boxes(page.Point{X: x, Y: at.Y}, x+62*mm, []label{{"16", "measuring.bracket"}})
	x += 62*mm + 2*gutter
	f.Text(page.Point{X: x, Y: at.Y + mm + badge + boxLabel.CapHeight()/2}, f.say("measuring.behind"), boxLabel)
	behind := []hang.Behind{hang.Wood, hang.Drywall, hang.AluminiumSkin, hang.SteelSkin}
	second := x
	for i := range 2 {
		y := at.Y + 11*mm + measure.Length(i)*(tick+mm)
		second = max(second, f.choice(page.Point{X: x, Y: y}, f.lang.Put(behind[i].Message()), false))
	}
	for i := range 2 {
		y := at.Y + 11*mm + measure.Length(i)*(tick+mm)
		f.choice(page.Point{X: second, Y: y}, f.lang.Put(behind[i+2].Message()), false)
	}
}

// notes asks for what no box holds, over lines to write on.
func (f form) notes(r page.Rect) {
	f.Line(r.Min, page.Point{X: r.Max.X, Y: r.Min.Y}, page.Fine())
	y := r.Min.Y + 5*mm
	lines, face := page.Shrink(f.say("measuring.notes"), boxLabel, r.Width(), smallest, 2)
	for _, line := range lines {
		f.Text(page.Point{X: r.Min.X, Y: y}, line, face)
		y += face.Leading()
	}
	const line = 9 * mm
	for y += line - 4*mm; y <= r.Max.Y; y += line {
		f.Line(page.Point{X: r.Min.X, Y: y}, page.Point{X: r.Max.X, Y: y}, page.Fine())
	}
}

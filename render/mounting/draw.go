package mounting

import (
	"fmt"

	"shadewright/render/fullscale"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

var (
	plateEdge = page.Pen{Width: 500 * measure.Micrometre}
	hatching  = page.Pen{Width: 150 * measure.Micrometre}

	huge   = page.Face{Size: 28 * page.Pt, Weight: page.Bold}
	large  = page.Face{Size: 16 * page.Pt, Weight: page.Bold}
	medium = page.Face{Size: 13 * page.Pt, Weight: page.Bold}
)

// A view is the window on one piece of an end.
type view struct {
	fullscale.Window
	*leaf
}

// piece draws the piece of an end on a sheet, with its texts.
func (d drawing) piece(l *leaf) {
	x, y := l.xs[l.col], l.ySpan()
	v := view{leaf: l, Window: fullscale.Window{
		Drawing: d.Drawing, X: x, Y: y,
		At: page.Point{X: l.body.Min.X, Y: l.body.Min.Y + top + y.To},
	}}
	v.compass()
	for _, a := range l.end.cut {
		v.hatch(a)
	}
	v.lines()
	for _, p := range l.end.plates {
		v.plate(p)
	}
	v.joints()
	names := v.names()
	v.ties(names)
	v.measures(names)
	v.write(names)
	v.gutter()
	v.jambName()
}

// hatchStep is the spacing of the hatching along either axis.
const hatchStep = 5 * mm

// hatch shades a part that is cut away. The lines start from the origin of the
// view, so that they meet from piece to piece.
func (v view) hatch(a area) {
	x, y := overlapOf(a.x, v.X), overlapOf(a.y, v.Y)
	if x.Extent() <= 0 || y.Extent() <= 0 {
		return
	}
	for c := (x.From - y.To).Round(hatchStep, measure.Up); c <= x.To-y.From; c += hatchStep {
		from, to := max(x.From, y.From+c), min(x.To, y.To+c)
		v.Line(v.Place(from, from-c), v.Place(to, to-c), hatching)
	}
}

func overlapOf(a, b sheet.Span) sheet.Span {
	return sheet.Span{From: max(a.From, b.From), To: min(a.To, b.To)}
}

// lines draws the edges, the axle and the cloth.
func (v view) lines() {
	for _, l := range v.end.view.Lines {
		if v.end.headless(l) {
			continue
		}
		pen := looks[l.Name].pen
		switch {
		case !l.Upright:
			v.Across(l.At, v.end.x.From, v.end.x.To, pen)
		case l.Name == hang.ClothLine:
			v.Up(l.At, 0, v.end.y.From, pen) // the cloth hangs down from the roll
		default:
			v.Up(l.At, v.end.y.To, v.end.y.From, pen)
		}
	}
	if r := v.end.view.Circle / 2; r > 0 && v.Sees(0, 0) {
		v.Circle(v.Place(0, 0), r, fullscale.Dashed())
		x, y := v.rollMark()
		v.Across(y, x, v.X.To, hatching)
	}
}

// arm is the length of each arm of a hole's cross: at least 5 mm, so that the
// cross is at least 10 mm wide, and well past the edge of the hole.
func arm(h hang.Hole) measure.Length { return max(5*mm, h.Diameter/2+3*mm) }

// plate draws a bracket's plate: its outline, holes and axle.
func (v view) plate(p hang.Plate) {
	for _, y := range []measure.Length{p.Min.Y, p.Max.Y} {
		v.Across(y, p.Min.X, p.Max.X, plateEdge)
	}
	for _, x := range []measure.Length{p.Min.X, p.Max.X} {
		v.Up(x, p.Min.Y, p.Max.Y, plateEdge)
	}
	v.Up(p.Axle.X, min(p.Min.Y, p.Axle.Y)-4*mm, max(p.Max.Y, p.Axle.Y)+4*mm, fullscale.Centred())
	if v.Sees(p.Axle.X, p.Axle.Y) {
		v.Diamond(p.Axle.X, p.Axle.Y)
	}
	for i := range p.Holes {
		v.number(p, i)
	}
	for _, h := range p.Holes {
		v.hole(h)
	}
}

// number writes the number of a hole beside it, on bare paper: above it to the
// right, or in the first corner of its cross that is clear of the axle and the
// other holes.
func (v view) number(p hang.Plate, i int) {
	f := page.Face{Size: 9 * page.Pt, Weight: page.Bold}
	words := fmt.Sprint(i + 1)
	h := p.Holes[i]
	w, tall, off := page.Width(words, f), f.CapHeight(), h.Diameter/2+mm
	corners := []hang.Point{{X: off, Y: mm}, {X: -off - w, Y: mm}, {X: off, Y: -mm - tall}, {X: -off - w, Y: -mm - tall}}
	best := corners[0]
	for _, c := range corners {
		a := area{sheet.Span{From: h.At.X + c.X, To: h.At.X + c.X + w}, sheet.Span{From: h.At.Y + c.Y, To: h.At.Y + c.Y + tall}}
		if a.clearOf(p, i) {
			best = c
			break
		}
	}
	x, y := h.At.X+best.X, h.At.Y+best.Y
	if v.Sees(x, y) && v.Sees(x+w, y+tall) {
		v.backed(v.Place(x, y), w, f)
		v.Text(v.Place(x, y), words, f)
	}
}

// clearOf reports whether an area is clear of a plate's upright through the
// axle, of its diamond, and of the crosses of all holes except hole i.
func (a area) clearOf(p hang.Plate, i int) bool {
	x := p.Axle.X
	if a.x.From-mm/2 < x && x < a.x.To+mm/2 || a.meets(p.Axle, 3*mm) {
		return false
	}
	for j, h := range p.Holes {
		if j != i && a.meets(h.At, arm(h)) {
			return false
		}
	}
	return true
}

// meets reports whether an area overlaps the square of half-width r around a
// point.
func (a area) meets(at hang.Point, r measure.Length) bool {
	return a.x.From < at.X+r && at.X-r < a.x.To && a.y.From < at.Y+r && at.Y-r < a.y.To
}

// hole draws a hole with its cross.
func (v view) hole(h hang.Hole) {
	a := arm(h)
	v.Across(h.At.Y, h.At.X-a, h.At.X+a, page.Fine())
	v.Up(h.At.X, h.At.Y-a, h.At.Y+a, page.Fine())
	if !v.Sees(h.At.X, h.At.Y) {
		return
	}
	v.Circle(v.Place(h.At.X, h.At.Y), h.Diameter/2, page.Solid())
}

// stop writes in large letters that the shade cannot be made as ordered.
func (d drawing) stop(l *leaf) {
	if l.shade.Stop.IsZero() {
		return
	}
	words, face := page.Fit(d.Say("mounting.stop", l.shade.Stop), large, l.body.Width()-4*mm, 8*page.Pt)
	bar := page.Box(l.body.Min.X, l.body.Min.Y-stopHeight, l.body.Width(), stopHeight-mm)
	d.Fill(bar, page.Black)
	face.Gray = page.White
	d.Text(page.Point{X: bar.Min.X + 2*mm, Y: bar.Min.Y + (bar.Height()+face.CapHeight())/2}, words, face)
}

// subject writes on one line how the shade hangs and which tickets the sheet
// serves.
func (d drawing) subject(l *leaf) {
	s := l.shade
	words := []message.Message{s.Mount.Message(), message.Of(s.falls())}
	if n := len(s.Codes); n > 1 {
		words = append(words, message.Of("mounting.alike", n))
	}
	words = append(words, message.Join(", ", s.Codes...))
	text, face := page.Fit(d.Language.Put(message.Join(" · ", words...)), fullscale.Plain(), l.body.Width(), 7*page.Pt)
	d.Text(page.Point{X: l.body.Min.X, Y: l.body.Min.Y + 4*mm}, text, face)
}

// falls says where the shade's cloth falls.
func (s *Sheet) falls() message.ID {
	switch {
	case s.Roll == hang.Reverse:
		return "mounting.reverse-roll"
	case s.Mount == hang.Inside:
		return "mounting.standard-roll-glass"
	}
	return "mounting.standard-roll-wall"
}

// titles writes which end is on the sheet, which pin it takes, and the distance
// between the two ends.
func (d drawing) titles(l *leaf) {
	r := l.body
	r.Min.Y += subjectHeight
	base := r.Min.Y + huge.CapHeight() + mm
	var right measure.Length // width of a right-hand title
	var plates []hang.Plate
	if l.end != nil {
		plates = l.end.plates
	}
	for _, p := range plates {
		at, align := r.Min.X, page.Start
		if p.Side == hang.Right {
			at, align = r.Max.X, page.End
		}
		name, pin := d.Say(l.shade.sideName(p)), d.Say(takes[p.Pin])
		d.Text(page.Point{X: at, Y: base}, name, aligned(huge, align))
		d.Text(page.Point{X: at, Y: base + 6*mm}, pin, aligned(medium, align))
		w := max(page.Width(name, huge), page.Width(pin, medium)) + 8*mm
		if p.Side == hang.Right {
			right = w
			continue
		}
		r.Min.X += w
	}
	r.Max.X -= right
	first, second := d.distances(l.shade)
	for i, t := range []struct {
		words string
		face  page.Face
	}{{first, large}, {second, fullscale.Plain()}} {
		words, face := page.Fit(t.words, t.face, r.Width(), 7*page.Pt)
		at := page.Point{X: r.Max.X, Y: base - mm + measure.Length(i)*6*mm}
		face.Align = page.End
		if right > 0 || len(plates) == 0 {
			at.X, face.Align = r.Min.X, page.Start
		}
		d.Text(at, words, face)
	}
}

func aligned(f page.Face, a page.Align) page.Face {
	f.Align = a
	return f
}

// takes says which pin a bracket takes, and what holds the pin.
var takes = map[hang.Pin]message.ID{hang.FlatPin: "mounting.takes-flat-pin-slot", hang.RoundPin: "mounting.takes-round-pin-hole"}

// sideName returns LEFT, or LEFT JAMB for a recess.
func (s *Sheet) sideName(p hang.Plate) message.ID {
	if s.Mount == hang.Inside {
		return [...]message.ID{hang.Left: "mounting.left-jamb", hang.Right: "mounting.right-jamb"}[p.Side]
	}
	return [...]message.ID{hang.Left: "mounting.left-sheet", hang.Right: "mounting.right-sheet"}[p.Side]
}

// compass shows which way is up, and where the room and the glass are.
func (v view) compass() {
	y := v.body.Min.Y + subjectHeight + titleHeight + 4*mm
	left, right := v.body.Min.X, v.body.Min.X+v.X.Extent()
	up := v.Say("mounting.up-way")
	if v.shade.Mount == hang.Ceiling {
		up = v.Say("mounting.to-the-room")
	}
	mid := (left + right) / 2
	w := page.Width(up, fullscale.Strong())
	v.arrow(page.Point{X: mid - w/2 - 3*mm, Y: y - 3*mm}, 0, -1)
	v.Text(page.Point{X: mid, Y: y + fullscale.Strong().CapHeight()/2}, up, aligned(fullscale.Strong(), page.Middle))
	toLeft, toRight := v.sides()
	beside := (right-left)/2 - w/2 - 8*mm // room for an arrow and its text
	if toLeft != "" {
		words, f := page.Fit(v.Say(toLeft), fullscale.Strong(), beside-5*mm, 6*page.Pt)
		v.arrow(page.Point{X: left, Y: y}, -1, 0)
		v.Text(page.Point{X: left + 8*mm, Y: y + f.CapHeight()/2}, words, f)
	}
	if toRight != "" {
		words, f := page.Fit(v.Say(toRight), fullscale.Strong(), beside-2*mm, 6*page.Pt)
		v.arrow(page.Point{X: right, Y: y}, 1, 0)
		v.Text(page.Point{X: right - 8*mm, Y: y + f.CapHeight()/2}, words, aligned(f, page.End))
	}
}

// sides says what is to the left and to the right of a view.
func (v view) sides() (left, right message.ID) {
	e := v.end
	if !e.jamb() {
		if len(e.plates) > 1 {
			return "", ""
		}
		if e.plates[0].Side == hang.Left {
			return "", "mounting.right-bracket"
		}
		return "mounting.left-bracket", ""
	}
	if e.plates[0].Side == hang.Left {
		return "mounting.to-the-room", "mounting.to-the-glass"
	}
	return "mounting.to-the-glass", "mounting.to-the-room"
}

// arrow paints an arrow 6 mm long with its tip at tip, pointing along (dx, dy).
// One of them must be 0 and the other 1 or -1.
func (v view) arrow(tip page.Point, dx, dy measure.Length) {
	at := func(back, side measure.Length) page.Point {
		return page.Point{X: tip.X - back*dx + side*dy, Y: tip.Y - back*dy + side*dx}
	}
	const long, half, shaft = 5 * mm / 2, 3 * mm / 2, mm / 2
	v.FillPolygon([]page.Point{tip, at(long, half), at(long, shaft), at(6*mm, shaft), at(6*mm, -shaft), at(long, -shaft), at(long, -half)}, page.Black)
}

// ups says which way up the side of a pin goes.
var ups = map[hang.Pin]message.ID{hang.FlatPin: "mounting.flat-pin-way-up", hang.RoundPin: "mounting.round-pin-way-up"}

// jambName writes a jamb's name on the part of the paper that stays after the
// waste is cut away.
func (v view) jambName() {
	e := v.end
	if !e.jamb() {
		return
	}
	p := e.plates[0]
	from, to := e.kept()
	mid := (from + to) / 2
	y := e.y.From + 3*mm
	whole := v.Say(ups[p.Pin], message.Of(v.shade.sideName(p)))
	words, face := page.Fit(whole, medium, min(2*(mid-v.X.From-7*mm), 2*(v.X.To-mid), to-from-12*mm), 8*page.Pt)
	if words != whole || !v.Sees(mid, y) {
		return
	}
	w := page.Width(words, face)
	at := v.Place(mid, y)
	v.Fill(page.Box(at.X-w/2-6*mm, at.Y-face.Ascent()-mm/2, w+7*mm, face.Ascent()+face.Descent()+mm), page.White)
	v.Text(at, words, aligned(face, page.Middle))
	v.arrow(page.Point{X: at.X - w/2 - 4*mm, Y: at.Y - 5*mm}, 0, -1)
}

// kept returns the part of a jamb's paper along x that stays after the waste is
// cut away.
func (e *end) kept() (from, to measure.Length) {
	from, to = e.x.From, e.x.To
	for _, a := range e.cut {
		switch {
		case a.x.From == -endless && a.x.To < endless:
			from = max(from, a.x.To)
		case a.x.To == endless && a.x.From > -endless:
			to = min(to, a.x.From)
		}
	}
	return from, to
}

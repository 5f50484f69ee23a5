package mounting

import (
	"shadewright/render/sheet"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

// An end is one connected drawing: a jamb, one end of a wide shade, or both
// ends if the paper is wide enough.
type end struct {
	shade  *Sheet
	view   hang.View
	plates []hang.Plate
	x, y   sheet.Span // the part of the view that must be visible
	cut    []area     // visible waste, to be cut away
	loose  bool       // the glass may be left out: the front edge places the paper
}

// An area is an upright rectangle of a view.
type area struct{ x, y sheet.Span }

const (
	around   = 6 * mm   // margin around the drawing
	leastEnd = 100 * mm // smallest width, for the texts of its measures
	nameBand = 10 * mm  // below a jamb's plate, for the name that stays when the paper is cut
	endless  = measure.Longest
)

// line returns the position of a line of the view.
func (e *end) line(name hang.LineName) (measure.Length, bool) { return lineOf(e.view, name) }

func lineOf(v hang.View, name hang.LineName) (measure.Length, bool) {
	for _, l := range v.Lines {
		if l.Name == name {
			return l.At, true
		}
	}
	return 0, false
}

// jamb reports whether the end is a side of a recess.
func (e *end) jamb() bool { return e.shade.Mount == hang.Inside }

// headless reports whether a line is the head of a recess whose height was not
// given: a head cannot be on the axle or below it.
func (e *end) headless(l hang.Line) bool { return e.jamb() && l.Name == hang.HeadLine && l.At <= 0 }

// ends returns the ends of a shade. A view up to usable wide stays whole; a
// wider one gives one end for each bracket.
func ends(s *Sheet, usable measure.Length, loose bool) []*end {
	var list []*end
	for _, v := range s.Drilling.Views {
		if len(v.Plates) == 1 {
			list = append(list, newEnd(s, v, v.Plates, loose))
			continue
		}
		whole := newEnd(s, v, v.Plates, loose)
		if whole.x.Extent() <= usable {
			list = append(list, whole)
			continue
		}
		for _, p := range v.Plates {
			list = append(list, newEnd(s, v, []hang.Plate{p}, loose))
		}
	}
	return list
}

func newEnd(s *Sheet, v hang.View, plates []hang.Plate, loose bool) *end {
	e := &end{shade: s, view: v, plates: plates, loose: loose}
	var x, y extent
	for _, p := range plates {
		x.take(p.Min.X, p.Max.X, p.Axle.X)
		y.take(p.Min.Y, p.Max.Y, p.Axle.Y)
		for _, h := range p.Holes {
			x.take(h.At.X-arm(h), h.At.X+arm(h))
			y.take(h.At.Y-arm(h), h.At.Y+arm(h))
		}
	}
	if r := v.Circle / 2; r > 0 {
		x.take(-r, r)
		y.take(-r, r)
	}
	for _, l := range v.Lines {
		switch {
		case e.headless(l):
		case !l.Upright:
			y.take(l.At)
		case e.shows(l):
			x.take(l.At)
		}
	}
	e.x = sheet.Span{From: x.low - around, To: x.high + around}
	e.y = sheet.Span{From: y.low - around, To: y.high + around}
	if e.jamb() {
		e.y.From -= nameBand
	}
	e.widen()
	e.cut = e.waste()
	return e
}

// shows reports whether the end must show an upright line. A jamb shows all of
// its lines; on a wall, an end shows the lines that place its own brackets.
func (e *end) shows(l hang.Line) bool {
	switch l.Name {
	case hang.OpeningLeft:
		return e.has(hang.Left)
	case hang.OpeningRight:
		return e.has(hang.Right)
	case hang.GlassLine:
		_, front := e.line(hang.FrontEdge)
		return !front || !e.loose
	case hang.CentreLine:
		return len(e.plates) > 1
	}
	return true
}

func (e *end) has(side hang.Side) bool {
	for _, p := range e.plates {
		if p.Side == side {
			return true
		}
	}
	return false
}

// widen gives a narrow end more paper, toward the other bracket.
func (e *end) widen() {
	more := leastEnd - e.x.Extent()
	if more <= 0 {
		return
	}
	switch {
	case e.jamb() || len(e.plates) > 1:
		e.x.From -= more / 2
		e.x.To += more - more/2
	case e.plates[0].Side == hang.Left:
		e.x.To += more
	default:
		e.x.From -= more
	}
}

// waste returns the parts to cut away so that the paper lies flat against its
// edges: the parts past the head, the front edge and the glass, over the
// opening, or past the wall.
func (e *end) waste() []area {
	all := sheet.Span{From: -endless, To: endless}
	var list []area
	switch e.shade.Mount {
	case hang.Inside:
		before, behind := lower, upper
		if e.plates[0].Side == hang.Right {
			before, behind = upper, lower
		}
		if front, ok := e.line(hang.FrontEdge); ok {
			list = append(list, area{before(front), all})
		}
		if glass, ok := e.line(hang.GlassLine); ok {
			list = append(list, area{behind(glass), all})
		}
		if head, ok := e.line(hang.HeadLine); ok && head > 0 {
			list = append(list, area{all, upper(head)})
		}
	case hang.Outside:
		left, okL := e.line(hang.OpeningLeft)
		right, okR := e.line(hang.OpeningRight)
		top, okT := e.line(hang.OpeningTop)
		if okL && okR && okT {
			list = append(list, area{sheet.Span{From: left, To: right}, lower(top)})
		}
	case hang.Ceiling:
		if wall, ok := e.line(hang.WallLine); ok && wall < 0 {
			list = append(list, area{all, lower(wall)})
		}
	}
	return list
}

// lower is everything below or left of a place; upper is everything above or
// right of it.
func lower(at measure.Length) sheet.Span { return sheet.Span{From: -endless, To: at} }
func upper(at measure.Length) sheet.Span { return sheet.Span{From: at, To: endless} }

// An extent is the smallest range that holds all values given to take.
type extent struct {
	low, high measure.Length
	some      bool
}

func (x *extent) take(list ...measure.Length) {
	for _, l := range list {
		if !x.some {
			x.low, x.high, x.some = l, l, true
		}
		x.low, x.high = min(x.low, l), max(x.high, l)
	}
}

package mounting

import (
	"shadewright/render/sheet"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

// An end is what hangs together on paper: a jamb, one end of a wide shade, or
// both ends where the paper is wide enough.
type end struct {
	shade  *Sheet
	view   hang.View
	plates []hang.Plate
	x, y   sheet.Span // of the view, that must be seen
	cut    []area     // what is cut away, as far as it is seen
	loose  bool       // the glass need not be seen: the front edge places the paper
}

// An area is an upright rectangle of a view.
type area struct{ x, y sheet.Span }

const (
	around   = 6 * mm   // kept free around what is drawn
	leastEnd = 100 * mm // of paper across, for the words on its measures
	nameBand = 10 * mm  // below a jamb's plate, for the name that stays when the paper is cut
	endless  = measure.Longest
)

// line returns where a line of the view lies.
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

// headless reports whether a line says nothing: the head of a recess cannot lie
// on the axle or below, so its height was not given.
func (e *end) headless(l hang.Line) bool { return e.jamb() && l.Name == hang.HeadLine && l.At <= 0 }

// ends returns the ends of a shade whose views may be at most usable wide to be
// drawn whole.
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

// shows reports whether an end must show an upright line: all of a jamb's, of a
// wall's those that its own brackets go by.
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

// widen gives a narrow end more paper, towards the other bracket.
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

// waste returns what must be cut away so that the paper lies flat against the
// edges it goes by: what would lie beyond the head, the front edge and the
// glass, or over the opening, or beyond the wall.
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

// lower is all below a place or left of it, upper all above or right.
func lower(at measure.Length) sheet.Span { return sheet.Span{From: -endless, To: at} }
func upper(at measure.Length) sheet.Span { return sheet.Span{From: at, To: endless} }

// An extent grows to hold what it takes.
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

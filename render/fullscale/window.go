package fullscale

import (
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/measure"
)

// A Window maps a part of a drawing to the paper at full scale and draws only
// that part. The drawing's x runs right and its y up from its own origin. X and
// Y are the visible part, and At is the point of the paper for the drawing's
// point (X.From, 0).
type Window struct {
	Drawing
	At   page.Point
	X, Y sheet.Span
}

// Place returns the point on the paper for a point of the drawing.
func (v Window) Place(x, y measure.Length) page.Point {
	return page.Point{X: v.At.X + x - v.X.From, Y: v.At.Y - y}
}

// Across draws the visible part of a level line from x1 to x2. The dashes start
// at x1, so they continue from piece to piece.
func (v Window) Across(y, x1, x2 measure.Length, pen page.Pen) {
	if a, b, ok := seen(v.X, x1, x2, &pen); ok && within(v.Y, y) {
		v.Line(v.Place(a, y), v.Place(b, y), pen)
	}
}

// Up draws the visible part of an upright line from y1 to y2, also with dashes
// that continue.
func (v Window) Up(x, y1, y2 measure.Length, pen page.Pen) {
	if a, b, ok := seen(v.Y, y1, y2, &pen); ok && within(v.X, x) {
		v.Line(v.Place(x, a), v.Place(x, b), pen)
	}
}

// seen returns the part of the stretch from a to b that lies in s, in the same
// direction, and advances the pen's dashes to its start.
func seen(s sheet.Span, a, b measure.Length, pen *page.Pen) (from, to measure.Length, ok bool) {
	from, to = min(max(a, s.From), s.To), min(max(b, s.From), s.To)
	if len(pen.Dash) > 0 {
		pen.Phase += (from - a).Abs()
	}
	return from, to, from != to
}

// Sees reports whether a point is inside the window or on its edge.
func (v Window) Sees(x, y measure.Length) bool { return within(v.X, x) && within(v.Y, y) }

func within(s sheet.Span, l measure.Length) bool { return s.From <= l && l <= s.To }

// Write draws text at (x, y) if its whole width is visible. Turned text reads
// upward and stands left of x.
func (v Window) Write(x, y measure.Length, s string, f page.Face) {
	left, right := x, x
	switch w := page.Width(s, f); {
	case f.Turn == 90:
		left, right = x-f.Ascent(), x+f.Descent()
	case f.Align == page.Middle:
		left, right = x-w/2, x+w/2
	case f.Align == page.End:
		left = x - w
	default:
		right = x + w
	}
	if left >= v.X.From && right <= v.X.To && within(v.Y, y) {
		v.Text(v.Place(x, y), s, f)
	}
}

// Diamond draws an alignment mark: a diamond with a level line through it.
func (v Window) Diamond(x, y measure.Length) {
	const r = 3 * mm
	v.Polygon([]page.Point{v.Place(x-r, y), v.Place(x, y+r), v.Place(x+r, y), v.Place(x, y-r)}, page.Fine())
	v.Line(v.Place(x-r, y), v.Place(x+r, y), page.Fine())
}

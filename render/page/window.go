package page

import (
	"math"

	"shadewright/ticket/measure"
)

// A surface is what a [Window] lets its drawing through to: a [Page] or a
// [Recorder].
type surface interface {
	Line(from, to Point, pen Pen)
	Fill(r Rect, g Gray)
	FillPolygon(pts []Point, g Gray)
	Text(at Point, s string, f Face)
}

// A Window shows a part of a larger drawing on a page. The drawing keeps its
// own coordinates; lines and areas are cut at the window's edge by arithmetic,
// to the nanometre, because the PDF library cannot clip. A dashed line that
// goes on in the next window goes on in its dashes too. The pen is not cut: a
// line along the edge keeps its whole width.
type Window struct {
	on    surface
	clip  Rect
	shift Point
}

// NewWindow shows the part clip of the drawing so that clip's top left corner
// lies at the point at of the page.
func NewWindow(on surface, clip Rect, at Point) *Window {
	return &Window{on: on, clip: clip, shift: at.Sub(clip.Min)}
}

// Clip returns the part of the drawing that is shown, in its coordinates.
func (w *Window) Clip() Rect { return w.clip }

// At returns where the point p of the drawing lies on the page.
func (w *Window) At(p Point) Point { return p.Add(w.shift) }

// Line draws what of the line lies in the window.
func (w *Window) Line(from, to Point, pen Pen) {
	a, b, ok := clipLine(w.clip, from, to)
	if !ok {
		return
	}
	w.on.Line(w.At(a), w.At(b), pen.after(distance(from, a)))
}

// Rect draws what of the outline of r lies in the window.
func (w *Window) Rect(r Rect, pen Pen) { w.Polygon(r.Corners(), pen) }

// Fill paints what of r lies in the window.
func (w *Window) Fill(r Rect, g Gray) {
	c := Rect{
		Point{max(r.Min.X, w.clip.Min.X), max(r.Min.Y, w.clip.Min.Y)},
		Point{min(r.Max.X, w.clip.Max.X), min(r.Max.Y, w.clip.Max.Y)},
	}
	if c.Width() > 0 && c.Height() > 0 {
		w.on.Fill(Rect{w.At(c.Min), w.At(c.Max)}, g)
	}
}

// Polygon draws what of the closed outline lies in the window.
func (w *Window) Polygon(pts []Point, pen Pen) {
	if len(pts) > 0 {
		w.Polyline(append(pts[:len(pts):len(pts)], pts[0]), pen)
	}
}

// Polyline draws what of the open line through pts lies in the window.
func (w *Window) Polyline(pts []Point, pen Pen) {
	for i := 1; i < len(pts); i++ {
		w.Line(pts[i-1], pts[i], pen)
		pen = pen.after(distance(pts[i-1], pts[i]))
	}
}

// FillPolygon paints what of the polygon lies in the window.
func (w *Window) FillPolygon(pts []Point, g Gray) {
	cut := clipPolygon(w.clip, pts)
	if len(cut) < 3 {
		return
	}
	for i := range cut {
		cut[i] = w.At(cut[i])
	}
	w.on.FillPolygon(cut, g)
}

// Holds reports whether s, set so, lies wholly in the window.
func (w *Window) Holds(at Point, s string, f Face) bool {
	for _, c := range Extent(at, s, f) {
		if !w.clip.contains(c) {
			return false
		}
	}
	return true
}

// Text draws s if the window holds all of it, and nothing otherwise; [Window.Holds]
// tells which.
func (w *Window) Text(at Point, s string, f Face) {
	if w.Holds(at, s, f) {
		w.on.Text(w.At(at), s, f)
	}
}

// Extent returns the corners of the box around s, from the descenders to the
// tops of tall letters, clockwise from the box's own top left.
func Extent(at Point, s string, f Face) [4]Point {
	width := Width(s, f)
	left := -width * measure.Length(f.Align) / 2
	up, down := -f.Ascent(), f.Descent()
	sin, cos := math.Sincos(float64(f.Turn) * math.Pi / 180)
	turn := func(x, y measure.Length) Point {
		dx, dy := float64(x), float64(y)
		return at.Add(Point{measure.Length(math.Round(dx*cos + dy*sin)), measure.Length(math.Round(dy*cos - dx*sin))})
	}
	return [4]Point{turn(left, up), turn(left+width, up), turn(left+width, down), turn(left, down)}
}

// clipLine returns the part of the line from a to b that lies in r, ends
// included. An upright or level line is cut exactly, a slanting one to the
// nearest nanometre.
func clipLine(r Rect, a, b Point) (from, to Point, ok bool) {
	if r.contains(a) && r.contains(b) {
		return a, b, true
	}
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	t0, t1 := 0.0, 1.0
	for _, side := range [4]struct{ along, room float64 }{ // Liang and Barsky, 1984
		{-dx, float64(a.X - r.Min.X)}, {dx, float64(r.Max.X - a.X)},
		{-dy, float64(a.Y - r.Min.Y)}, {dy, float64(r.Max.Y - a.Y)},
	} {
		switch t := side.room / side.along; {
		case side.along == 0 && side.room < 0:
			return a, b, false
		case side.along < 0:
			t0 = max(t0, t)
		case side.along > 0:
			t1 = min(t1, t)
		}
	}
	if t0 > t1 {
		return a, b, false
	}
	at := func(t float64) Point {
		return Point{a.X + measure.Length(math.Round(t*dx)), a.Y + measure.Length(math.Round(t*dy))}
	}
	from, to = a, b
	if t0 > 0 {
		from = at(t0)
	}
	if t1 < 1 {
		to = at(t1)
	}
	return from, to, true
}

// clipPolygon returns the part of the polygon in r (Sutherland and Hodgman,
// 1974). Parts that a dent cuts off from each other stay joined along the edge.
func clipPolygon(r Rect, pts []Point) []Point {
	for _, side := range [4]struct {
		depth func(Point) measure.Length // how far inside
	}{
		{func(p Point) measure.Length { return p.X - r.Min.X }},
		{func(p Point) measure.Length { return r.Max.X - p.X }},
		{func(p Point) measure.Length { return p.Y - r.Min.Y }},
		{func(p Point) measure.Length { return r.Max.Y - p.Y }},
	} {
		var kept []Point
		for i, p := range pts {
			prev := pts[(i+len(pts)-1)%len(pts)]
			dp, dq := side.depth(prev), side.depth(p)
			if dp < 0 != (dq < 0) {
				t := float64(dp) / float64(dp-dq)
				kept = append(kept, Point{
					prev.X + measure.Length(math.Round(t*float64(p.X-prev.X))),
					prev.Y + measure.Length(math.Round(t*float64(p.Y-prev.Y))),
				})
			}
			if dq >= 0 {
				kept = append(kept, p)
			}
		}
		pts = kept
	}
	return pts
}

package page

import (
	"fmt"
	"strings"

	"shadewright/ticket/measure"
)

// A Recorder is a surface for tests. It writes one line for each mark, in exact
// millimetres, so that a drawing can be read and compared as text:
//
//	line 0,320 1200,320 pen 0.25 dash 4 2 +1
//	text 5,320 "fold 1" regular 3.175 middle turn 90
type Recorder struct{ b strings.Builder }

// String returns the lines written so far.
func (r *Recorder) String() string { return r.b.String() }

// Note writes a comment line, such as a heading between pages.
func (r *Recorder) Note(s string) { fmt.Fprintf(&r.b, "# %s\n", s) }

// Line records a straight line.
func (r *Recorder) Line(from, to Point, pen Pen) {
	fmt.Fprintf(&r.b, "line %s %s %s\n", place(from), place(to), stroke(pen))
}

// Rect records an outline.
func (r *Recorder) Rect(b Rect, pen Pen) {
	fmt.Fprintf(&r.b, "rect %s %s %s\n", place(b.Min), place(b.Max), stroke(pen))
}

// Fill records a painted rectangle.
func (r *Recorder) Fill(b Rect, g Gray) {
	fmt.Fprintf(&r.b, "fill %s %s%s\n", place(b.Min), place(b.Max), shade(g))
}

// Polygon records a closed outline.
func (r *Recorder) Polygon(pts []Point, pen Pen) {
	fmt.Fprintf(&r.b, "polygon%s %s\n", places(pts), stroke(pen))
}

// FillPolygon records a painted polygon.
func (r *Recorder) FillPolygon(pts []Point, g Gray) {
	fmt.Fprintf(&r.b, "fillpolygon%s%s\n", places(pts), shade(g))
}

// Polyline records an open line.
func (r *Recorder) Polyline(pts []Point, pen Pen) {
	fmt.Fprintf(&r.b, "polyline%s %s\n", places(pts), stroke(pen))
}

// Circle records a circle.
func (r *Recorder) Circle(centre Point, radius measure.Length, pen Pen) {
	fmt.Fprintf(&r.b, "circle %s radius %s %s\n", place(centre), mm(radius), stroke(pen))
}

// Disc records a painted circle.
func (r *Recorder) Disc(centre Point, radius measure.Length, g Gray) {
	fmt.Fprintf(&r.b, "disc %s radius %s%s\n", place(centre), mm(radius), shade(g))
}

// Text records a line of text.
func (r *Recorder) Text(at Point, s string, f Face) {
	weight := [...]string{"regular", "semibold", "bold"}[f.Weight]
	fmt.Fprintf(&r.b, "text %s %q %s %s %s", place(at), s, weight, mm(f.Size), f.Align)
	if f.Turn != 0 {
		fmt.Fprintf(&r.b, " turn %d", f.Turn)
	}
	fmt.Fprintf(&r.b, "%s\n", shade(f.Gray))
}

func mm(l measure.Length) string { return strings.TrimSuffix(l.String(), " mm") }

func place(p Point) string { return mm(p.X) + "," + mm(p.Y) }

func places(pts []Point) string {
	var b strings.Builder
	for _, p := range pts {
		b.WriteString(" " + place(p))
	}
	return b.String()
}

func stroke(p Pen) string {
	s := "pen " + mm(p.width())
	if len(p.Dash) > 0 {
		s += " dash"
		for _, d := range p.Dash {
			s += " " + mm(d)
		}
		if p.Phase != 0 {
			s += " +" + mm(p.Phase)
		}
	}
	return s + shade(p.Gray)
}

func shade(g Gray) string {
	if g == Black {
		return ""
	}
	return fmt.Sprintf(" gray %d", g)
}

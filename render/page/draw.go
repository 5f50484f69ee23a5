package page

import (
	"fmt"
	"math"

	"github.com/signintech/gopdf"

	"shadewright/ticket/measure"
)

// compression is the zlib level of page content.
const compression = 3

// A Page is one page being drawn.
type Page struct {
	doc    *Document
	number int
	size   measure.Size
	w, h   float64 // in points, as printed in the page's box
}

// Size returns the page's size; its Length is the height.
func (p *Page) Size() measure.Size { return p.size }

// Number returns the page's number in its document, from 1.
func (p *Page) Number() int { return p.number }

// state is what the content stream last said of pen and fill.
type state struct {
	width  float64
	dash   string
	fill   Gray
	stroke Gray
}

const unset = Gray(255)

// blank makes the content stream exist, so that a page without marks is one.
func (p *Page) blank() { p.ink(Black) }

// live reports whether the page may still be drawn on.
func (p *Page) live() bool {
	if p.number != p.doc.pages {
		p.doc.keep(fmt.Errorf("page %d is finished and takes no more marks", p.number))
		return false
	}
	return true
}

// at returns where q is drawn, in points on the library's grid.
func (p *Page) at(q Point) (x, y float64) {
	c := p.doc.info.Correction
	return grid(c.X.of(points(q.X), p.w/2)), grid(c.Y.of(points(q.Y), p.h/2))
}

// ink sets the shade of what is filled.
func (p *Page) ink(g Gray) {
	if s := &p.doc.state; s.fill != g {
		s.fill = g
		p.doc.pdf.SetGrayFill(float64(g) / 100)
	}
}

// take sets the pen.
func (p *Page) take(pen Pen) {
	s, pdf := &p.doc.state, &p.doc.pdf
	if s.stroke != pen.Gray {
		s.stroke = pen.Gray
		pdf.SetGrayStroke(float64(pen.Gray) / 100)
	}
	if w := grid(points(pen.width())); s.width != w {
		s.width = w
		pdf.SetLineWidth(w)
	}
	dash, phase := dashes(pen)
	var key string
	if len(dash) > 0 {
		key = fmt.Sprintf("%.2f %.2f", dash, phase)
	}
	if s.dash != key {
		s.dash = key
		pdf.SetCustomLineType(dash, phase)
	}
}

// dashes returns the pen's pattern on the library's grid, and how far into that
// very pattern the line begins: counted in the rounded pattern, a line that is
// cut into tiles goes on where it stopped.
func dashes(pen Pen) ([]float64, float64) {
	if len(pen.Dash) == 0 {
		return nil, 0
	}
	dash := make([]float64, 0, 2*len(pen.Dash))
	period := 0.0
	for _, d := range pen.Dash {
		v := max(grid(points(d)), 0.01)
		dash = append(dash, v)
		period += v
	}
	if len(dash)%2 == 1 { // an odd pattern repeats with ink and gap exchanged
		dash = append(dash, dash...)
		period *= 2
	}
	phase := math.Mod(points(pen.Phase), period)
	if phase < 0 {
		phase += period
	}
	return dash, grid(phase)
}

// Line draws a straight line.
func (p *Page) Line(from, to Point, pen Pen) {
	if !p.live() {
		return
	}
	p.take(pen)
	x1, y1 := p.at(from)
	x2, y2 := p.at(to)
	p.doc.pdf.Line(x1, y1, x2, y2)
}

// Rect draws the outline of r, the pen's middle on its edge.
func (p *Page) Rect(r Rect, pen Pen) {
	if !p.live() {
		return
	}
	p.take(pen)
	p.rect(r, "D")
}

// Fill paints r without an outline. Rectangles that share an edge leave no gap.
func (p *Page) Fill(r Rect, g Gray) {
	if !p.live() {
		return
	}
	p.ink(g)
	p.rect(r, "F")
}

func (p *Page) rect(r Rect, style string) {
	x1, y1 := p.at(r.Min)
	x2, y2 := p.at(r.Max)
	p.doc.pdf.RectFromUpperLeftWithStyle(x1, y1, x2-x1, y2-y1, style)
}

// Polygon draws the closed outline through pts.
func (p *Page) Polygon(pts []Point, pen Pen) {
	if !p.live() {
		return
	}
	p.take(pen)
	p.doc.pdf.Polygon(p.path(pts), "D")
}

// FillPolygon paints the inside of the outline through pts.
func (p *Page) FillPolygon(pts []Point, g Gray) {
	if !p.live() {
		return
	}
	p.ink(g)
	p.doc.pdf.Polygon(p.path(pts), "F")
}

func (p *Page) path(pts []Point) []gopdf.Point {
	path := make([]gopdf.Point, len(pts))
	for i, q := range pts {
		path[i].X, path[i].Y = p.at(q)
	}
	return path
}

// Polyline draws the open line through pts; dashes run on around its corners.
func (p *Page) Polyline(pts []Point, pen Pen) {
	if len(pen.Dash) == 0 && len(pts) > 2 {
		// There and back again closes the path without a closing stroke, and
		// joins the corners.
		back := append([]Point(nil), pts...)
		for i := len(pts) - 2; i > 0; i-- {
			back = append(back, pts[i])
		}
		p.Polygon(back, pen)
		return
	}
	for i := 1; i < len(pts); i++ {
		p.Line(pts[i-1], pts[i], pen)
		pen = pen.after(distance(pts[i-1], pts[i]))
	}
}

// Curve draws a cubic Bézier curve with the control points c1 and c2.
func (p *Page) Curve(from, c1, c2, to Point, pen Pen) {
	if !p.live() {
		return
	}
	p.take(pen)
	x0, y0 := p.at(from)
	x1, y1 := p.at(c1)
	x2, y2 := p.at(c2)
	x3, y3 := p.at(to)
	p.doc.pdf.Curve(x0, y0, x1, y1, x2, y2, x3, y3, "D")
}

// Arc draws part of a circle, from the angle start through sweep, both in
// degrees counter-clockwise from the direction of x.
func (p *Page) Arc(centre Point, radius measure.Length, start, sweep float64, pen Pen) {
	p.Polyline(arc(centre, radius, start, sweep), pen)
}

// Circle draws a circle.
func (p *Page) Circle(centre Point, radius measure.Length, pen Pen) {
	p.Polygon(circle(centre, radius), pen)
}

// Disc paints a circle.
func (p *Page) Disc(centre Point, radius measure.Length, g Gray) {
	p.FillPolygon(circle(centre, radius), g)
}

func circle(centre Point, radius measure.Length) []Point {
	pts := arc(centre, radius, 0, 360)
	return pts[:len(pts)-1]
}

// flat is how far the chords that stand for a circle stray from it.
const flat = 5 * measure.Micrometre

// arc returns points on an arc so close that its chords stray less than [flat].
func arc(centre Point, radius measure.Length, start, sweep float64) []Point {
	r := float64(radius)
	step := 2 * math.Acos(1-math.Min(float64(flat)/math.Max(r, 1), 1))
	n := max(int(math.Ceil(math.Abs(sweep)*math.Pi/180/step)), 1)
	pts := make([]Point, n+1)
	for i := range pts {
		sin, cos := math.Sincos((start + sweep*float64(i)/float64(n)) * math.Pi / 180)
		pts[i] = Point{
			X: centre.X + measure.Length(math.Round(r*cos)),
			Y: centre.Y - measure.Length(math.Round(r*sin)),
		}
	}
	return pts
}

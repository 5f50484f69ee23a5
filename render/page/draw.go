package page

import (
	"fmt"
	"math"

	"shadewright/ticket/measure"
)

// A Page is one page being drawn.
type Page struct {
	doc    *Document
	number int
	size   measure.Size
	height mil // of the page box
}

// Size returns the page's size; its Length is the height.
func (p *Page) Size() measure.Size { return p.size }

// Number returns the page's number in its document, from 1.
func (p *Page) Number() int { return p.number }

// content returns the page's content, or nil if the page is finished.
func (p *Page) content() *content {
	if p.number != p.doc.pages {
		p.doc.keep(fmt.Errorf("page %d is finished and takes no more marks", p.number))
		return nil
	}
	return &p.doc.content
}

// at returns q as PDF coordinates, from the lower left corner, corrected for
// the printer.
func (p *Page) at(q Point) (x, y mil) {
	f := p.doc.info.Correction.On(p.size)
	return mils(stretched(q.X, p.size.Width, f.X)), p.height - mils(stretched(q.Y, p.size.Length, f.Y))
}

// Line draws a straight line.
func (p *Page) Line(from, to Point, pen Pen) {
	if c := p.content(); c != nil {
		c.setPen(pen)
		c.begin('S')
		p.move(c, from)
		p.line(c, to)
	}
}

func (p *Page) move(c *content, q Point) {
	x, y := p.at(q)
	c.op("m", x, y)
}

func (p *Page) line(c *content, q Point) {
	x, y := p.at(q)
	c.op("l", x, y)
}

// Rect draws the outline of r, with the middle of the pen on the edge.
func (p *Page) Rect(r Rect, pen Pen) {
	if c := p.content(); c != nil {
		c.setPen(pen)
		c.begin('S')
		p.rect(c, r)
	}
}

// Fill paints r without an outline. Rectangles that share an edge leave no gap.
func (p *Page) Fill(r Rect, g Gray) {
	if c := p.content(); c != nil {
		c.setFill(g)
		c.begin('f')
		p.rect(c, r)
	}
}

// rect appends r with positive sides, so that all rectangles turn the same way.
func (p *Page) rect(c *content, r Rect) {
	x1, y1 := p.at(r.Min)
	x2, y2 := p.at(r.Max)
	c.op("re", min(x1, x2), min(y1, y2), max(x1, x2)-min(x1, x2), max(y1, y2)-min(y1, y2))
}

// Polygon draws the closed outline through pts.
func (p *Page) Polygon(pts []Point, pen Pen) {
	if c := p.content(); c != nil && len(pts) > 1 {
		c.setPen(pen)
		c.begin('S')
		p.path(c, pts)
		c.op("h")
	}
}

// Polyline draws the open line through pts. Dashes continue around its corners.
func (p *Page) Polyline(pts []Point, pen Pen) {
	if c := p.content(); c != nil && len(pts) > 1 {
		c.setPen(pen)
		c.begin('S')
		p.path(c, pts)
	}
}

// FillPolygon paints the inside of the outline through pts.
func (p *Page) FillPolygon(pts []Point, g Gray) {
	if c := p.content(); c != nil && len(pts) > 2 {
		c.setFill(g)
		c.finish() // a path of its own: a shape that turns the other way would cut a hole
		c.begin('f')
		p.path(c, pts)
		c.finish()
	}
}

func (p *Page) path(c *content, pts []Point) {
	for i, q := range pts {
		if i == 0 {
			p.move(c, q)
		} else {
			p.line(c, q)
		}
	}
}

func (p *Page) curve(c *content, c1, c2, to Point) {
	x1, y1 := p.at(c1)
	x2, y2 := p.at(c2)
	x3, y3 := p.at(to)
	c.op("c", x1, y1, x2, y2, x3, y3)
}

// Circle draws a circle.
func (p *Page) Circle(centre Point, radius measure.Length, pen Pen) {
	if c := p.content(); c != nil {
		c.setPen(pen)
		c.begin('S')
		p.round(c, centre, radius)
		c.op("h")
	}
}

// Disc paints a circle.
func (p *Page) Disc(centre Point, radius measure.Length, g Gray) {
	if c := p.content(); c != nil {
		c.setFill(g)
		c.finish()
		c.begin('f')
		p.round(c, centre, radius)
		c.finish()
	}
}

// round appends a circle as eight Bézier curves, which deviate from it by less
// than 5 millionths of the radius.
func (p *Page) round(c *content, centre Point, radius measure.Length) {
	const n, step = 8, math.Pi / 4
	pull := 4.0 / 3 * math.Tan(step/4) // length of the control arms for radius 1
	at := func(i int, along float64) Point {
		sin, cos := math.Sincos(float64(i) * step)
		r := float64(radius)
		return Point{
			centre.X + measure.Length(math.Round(r*(cos-along*sin))),
			centre.Y - measure.Length(math.Round(r*(sin+along*cos))),
		}
	}
	p.move(c, at(0, 0))
	for i := range n {
		p.curve(c, at(i, pull), at(i+1, -pull), at(i+1, 0))
	}
}

// Package vector is a drawing surface for files that a cutting machine or a
// projector reads: SVG and DXF at true scale, in layers. It has no pages and
// applies no printer correction: one unit of the file is always one millimetre.
//
// Coordinates are exact lengths from the top left corner with y down, as on a
// page, and are written in millimetres to the nanometre. The caller chooses
// what to draw and on which layer, but all letters go on the layer "words".
package vector

import (
	"strconv"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// Words is the name of the layer with all letters.
const Words = "words"

// A Picture is a drawing in layers. It has the drawing methods of a page.
type Picture struct {
	title  string
	size   measure.Size
	layers []layer
	now    int
}

type layer struct {
	name   string
	shapes []shape
}

type what uint8

const (
	outline what = iota // a line through points, closed or open
	filled
	circle
	disc
	letters
)

type shape struct {
	what
	points []page.Point
	closed bool
	radius measure.Length
	pen    page.Pen
	gray   page.Gray
	text   string
	face   page.Face
}

// New returns an empty picture.
func New(title string, size measure.Size) *Picture {
	p := &Picture{title: title, size: size}
	p.Layer("drawing")
	return p
}

// Layer selects the layer for the following shapes and creates it if needed.
// Its name must consist of small letters and dashes.
func (p *Picture) Layer(name string) {
	for i, l := range p.layers {
		if l.name == name {
			p.now = i
			return
		}
	}
	p.layers = append(p.layers, layer{name: name})
	p.now = len(p.layers) - 1
}

func (p *Picture) add(s shape) {
	l := &p.layers[p.now]
	l.shapes = append(l.shapes, s)
}

// on adds a shape to the named layer and then returns to the current one.
func (p *Picture) on(name string, s shape) {
	before := p.now
	p.Layer(name)
	p.add(s)
	p.now = before
}

// Line draws a straight line.
func (p *Picture) Line(from, to page.Point, pen page.Pen) {
	p.add(shape{what: outline, points: []page.Point{from, to}, pen: pen})
}

// Rect draws the outline of r.
func (p *Picture) Rect(r page.Rect, pen page.Pen) { p.Polygon(r.Corners(), pen) }

// Polygon draws the closed outline through pts.
func (p *Picture) Polygon(pts []page.Point, pen page.Pen) {
	p.add(shape{what: outline, points: append([]page.Point(nil), pts...), closed: true, pen: pen})
}

// Fill paints r.
func (p *Picture) Fill(r page.Rect, g page.Gray) { p.FillPolygon(r.Corners(), g) }

// FillPolygon paints the inside of the outline through pts.
func (p *Picture) FillPolygon(pts []page.Point, g page.Gray) {
	p.add(shape{what: filled, points: append([]page.Point(nil), pts...), closed: true, gray: g})
}

// Circle draws a circle.
func (p *Picture) Circle(centre page.Point, radius measure.Length, pen page.Pen) {
	p.add(shape{what: circle, points: []page.Point{centre}, radius: radius, pen: pen})
}

// Disc paints a circle. It belongs to the words layer, because a number stands
// on it.
func (p *Picture) Disc(centre page.Point, radius measure.Length, g page.Gray) {
	p.on(Words, shape{what: disc, points: []page.Point{centre}, radius: radius, gray: g})
}

// Text writes a line of letters.
func (p *Picture) Text(at page.Point, s string, f page.Face) {
	if s != "" {
		p.on(Words, shape{what: letters, points: []page.Point{at}, text: s, face: f})
	}
}

// mm returns a length in millimetres, exactly.
func mm(l measure.Length) string { return strconv.FormatFloat(l.Millimetres(), 'f', -1, 64) }

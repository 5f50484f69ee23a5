// Package vector is a drawing surface for files that a cutter or a projector
// takes: SVG and DXF at true scale, in layers. It draws no page and corrects no
// printer: what is 100 mm is 100 units of the file, and a unit is a millimetre.
//
// Coordinates are exact lengths from the top left corner, y down, as on a page;
// they are written in millimetres to the nanometre. The caller decides what is
// drawn and on which layer; letters always go on the layer words.
package vector

import (
	"strconv"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// Words is the layer that all letters are on.
const Words = "words"

// A Picture is a drawing kept in layers. It has the methods of a page's canvas.
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
	outline what = iota // through points, closed or not
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

// Layer makes what is drawn from now on part of a layer. The name is of small
// letters and dashes.
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

// on adds a shape to another layer than the present one.
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

// Disc paints a circle. It is part of the words: a number stands on it.
func (p *Picture) Disc(centre page.Point, radius measure.Length, g page.Gray) {
	p.on(Words, shape{what: disc, points: []page.Point{centre}, radius: radius, gray: g})
}

// Text writes letters.
func (p *Picture) Text(at page.Point, s string, f page.Face) {
	if s != "" {
		p.on(Words, shape{what: letters, points: []page.Point{at}, text: s, face: f})
	}
}

// mm returns a length in millimetres, exactly.
func mm(l measure.Length) string { return strconv.FormatFloat(l.Millimetres(), 'f', -1, 64) }

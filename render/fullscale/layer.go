package fullscale

import (
	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// A Layered canvas keeps its shapes in layers, for a cutting machine or a
// projector.
type Layered interface {
	Canvas
	// Layer selects the layer for the following shapes. Its name must consist
	// of small letters and dashes.
	Layer(name string)
}

// ByPen is a canvas that puts each stroke on the layer of its pen. The fields
// name the layers of this package's pens, and the layer of solid circles.
type ByPen struct {
	Layered
	Heavy, Solid, Dashed, Broken, Centred, Fine, Circles string
}

func (c *ByPen) layer(pen page.Pen) {
	name := c.Fine
	for _, l := range []struct {
		pen  page.Pen
		name string
	}{{page.Heavy(), c.Heavy}, {page.Solid(), c.Solid}, {Dashed(), c.Dashed}, {Broken(), c.Broken}, {Centred(), c.Centred}} {
		if l.pen.Width == pen.Width && len(l.pen.Dash) == len(pen.Dash) {
			name = l.name
		}
	}
	c.Layer(name)
}

// Line draws a straight line.
func (c *ByPen) Line(from, to page.Point, pen page.Pen) {
	c.layer(pen)
	c.Layered.Line(from, to, pen)
}

// Rect draws the outline of r.
func (c *ByPen) Rect(r page.Rect, pen page.Pen) {
	c.layer(pen)
	c.Layered.Rect(r, pen)
}

// Polygon draws the closed outline through pts.
func (c *ByPen) Polygon(pts []page.Point, pen page.Pen) {
	c.layer(pen)
	c.Layered.Polygon(pts, pen)
}

// Circle draws a circle. A dashed circle is not a hole, so it goes on the layer
// of its pen.
func (c *ByPen) Circle(centre page.Point, radius measure.Length, pen page.Pen) {
	c.Layer(c.Circles)
	if len(pen.Dash) > 0 {
		c.layer(pen)
	}
	c.Layered.Circle(centre, radius, pen)
}

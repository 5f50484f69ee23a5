package page

import (
	"shadewright/ticket/measure"
)

// Pt is a typographic point, 1/72 in, to the nearest nanometre. Use it for type
// sizes and pens only, never for lengths that somebody cuts to.
const Pt measure.Length = 352_778

// A Point is a place on a page: x right and y down from the top left corner.
type Point struct{ X, Y measure.Length }

// Add returns p moved by q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns p moved back by q.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// A Rect is an upright rectangle; Min is its top left corner.
type Rect struct{ Min, Max Point }

// Box returns the rectangle of the given size whose top left corner is at (x, y).
func Box(x, y, width, height measure.Length) Rect {
	return Rect{Point{x, y}, Point{x + width, y + height}}
}

// Width returns the rectangle's extent along x.
func (r Rect) Width() measure.Length { return r.Max.X - r.Min.X }

// Height returns the rectangle's extent along y.
func (r Rect) Height() measure.Length { return r.Max.Y - r.Min.Y }

// Inset returns r with every side moved inward by d.
func (r Rect) Inset(d measure.Length) Rect {
	return Rect{Point{r.Min.X + d, r.Min.Y + d}, Point{r.Max.X - d, r.Max.Y - d}}
}

// Corners returns the corners clockwise from the top left.
func (r Rect) Corners() []Point {
	return []Point{r.Min, {r.Max.X, r.Min.Y}, r.Max, {r.Min.X, r.Max.Y}}
}

// A Gray is a shade from 0 (black ink) to 100 (bare paper).
type Gray uint8

// The two ends of the scale.
const (
	Black Gray = 0
	White Gray = 100
)

// A Pen strokes a line. A zero Width means [Hairline], the thinnest stroke that
// survives a copier. Dash alternates ink and gap; empty means solid. Phase is
// how far into the pattern the line begins.
type Pen struct {
	Width measure.Length
	Dash  []measure.Length
	Phase measure.Length
	Gray  Gray
}

// Hairline is 0.2 mm, five dots of a 600 dpi printer.
const Hairline = 200 * measure.Micrometre

// Fine is a solid pen for dimensions and scales beside a drawing.
func Fine() Pen { return Pen{Width: 250 * measure.Micrometre} }

// Solid is a solid pen for most lines.
func Solid() Pen { return Pen{Width: 350 * measure.Micrometre} }

// Heavy is a solid pen for edges.
func Heavy() Pen { return Pen{Width: 700 * measure.Micrometre} }

func (p Pen) width() measure.Length {
	if p.Width <= 0 {
		return Hairline
	}
	return p.Width
}

// A mil is a thousandth of a PDF unit: 1/72,000 in, 0.35 µm. Page content is
// written in whole mils.
type mil int64

// mils rounds l to the nearest mil, halves upward. One inch is 25,400,000 nm
// and 72,000 mils, so 3175 nm are 9 mils.
func mils(l measure.Length) mil {
	n := 2*9*int64(l) + 3175
	q := n / (2 * 3175)
	if n%(2*3175) < 0 {
		q--
	}
	return mil(q)
}

// fromMils returns m to the nearest nanometre. Converting the result back gives
// m again.
func fromMils(m mil) measure.Length {
	n := 2*3175*int64(m) + 9
	q := n / (2 * 9)
	if n%(2*9) < 0 {
		q--
	}
	return measure.Length(q)
}

// A Correction undoes the error of one printer: the factor that stretches
// lengths on each axis, about the middle of the page, so that they print true.
// A factor of zero, like [measure.One], leaves its axis alone. X runs across
// upright paper and Y down it, as the printer was measured. A page wider than
// high goes through the printer turned, so its axes are swapped.
type Correction struct{ X, Y measure.Factor }

// On returns the correction for the axes of a page of the given size.
func (c Correction) On(size measure.Size) Correction {
	if size.Width > size.Length {
		c.X, c.Y = c.Y, c.X
	}
	return c
}

// stretched returns v, on an axis of the given extent, moved so that the
// printer puts it in the right place.
func stretched(v, extent measure.Length, f measure.Factor) measure.Length {
	if f == 0 || f == measure.One {
		return v
	}
	return v + (f - measure.One).Of(v-extent/2)
}

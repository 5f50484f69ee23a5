package page

import (
	"math"
	"slices"
	"strconv"

	"shadewright/fonts"
	"shadewright/ticket/measure"
)

// A content is the stream of operators that draws a page (ISO 32000-1, 8.2). It
// writes only changes: pen, grey and face stay set until replaced. Consecutive
// marks with the same pen or grey share one path, so areas that touch show no
// seam.
type content struct {
	b      []byte
	open   byte // the operator that will paint the current path: S, f or 0 for none
	pieces int  // of the current path

	width  mil // of the pen; 0 until a pen is set
	stroke Gray
	fill   Gray
	dash   []mil
	phase  mil
	face   fonts.Weight
	size   mil // of the type; 0 until a face is set
}

// mostPieces limits the length of a path for printers with little memory.
const mostPieces = 200

func (c *content) reset() {
	*c = content{b: c.b[:0], dash: c.dash[:0]} // every page starts with black
}

// num appends a number and a space.
func (c *content) num(v mil) {
	b := c.b
	if v < 0 {
		b = append(b, '-')
		v = -v
	}
	b = strconv.AppendInt(b, int64(v/1000), 10)
	if f := v % 1000; f != 0 {
		b = append(b, '.', byte('0'+f/100), byte('0'+f/10%10), byte('0'+f%10))
		for b[len(b)-1] == '0' {
			b = b[:len(b)-1]
		}
	}
	c.b = append(b, ' ')
}

// op appends the operands and then the operator.
func (c *content) op(operator string, operands ...mil) {
	for _, v := range operands {
		c.num(v)
	}
	c.b = append(c.b, operator...)
	c.b = append(c.b, '\n')
}

// finish paints the current path, if there is one.
func (c *content) finish() {
	if c.open != 0 {
		c.b = append(c.b, c.open, '\n')
		c.open, c.pieces = 0, 0
	}
}

// begin starts another piece of a path that operator will paint.
func (c *content) begin(operator byte) {
	if c.open != operator || c.pieces >= mostPieces {
		c.finish()
		c.open = operator
	}
	c.pieces++
}

// setFill sets the grey for fills and text.
func (c *content) setFill(g Gray) {
	if c.fill != g {
		c.finish()
		c.fill = g
		c.op("g", mil(g)*10)
	}
}

// setPen sets the pen for strokes.
func (c *content) setPen(pen Pen) {
	if c.stroke != pen.Gray {
		c.finish()
		c.stroke = pen.Gray
		c.op("G", mil(pen.Gray)*10)
	}
	if w := max(mils(pen.width()), 1); c.width != w {
		c.finish()
		c.width = w
		c.op("w", w)
	}
	c.setDash(pen)
}

// setDash sets the pen's dash pattern. The phase is computed in the rounded
// pattern, so a line split across tiles continues where the previous tile
// stopped.
func (c *content) setDash(pen Pen) {
	if len(pen.Dash) == 0 && len(c.dash) == 0 {
		return
	}
	var buf [8]mil
	dash, period := buf[:0], mil(0)
	for _, d := range pen.Dash {
		v := max(mils(d), 1)
		dash = append(dash, v)
		period += v
	}
	if len(dash)%2 == 1 {
		period *= 2 // an odd pattern repeats with ink and gap swapped
	}
	var phase mil
	if period > 0 {
		phase = (mils(pen.Phase)%period + period) % period
	}
	if slices.Equal(dash, c.dash) && phase == c.phase {
		return
	}
	c.finish()
	c.dash, c.phase = append(c.dash[:0], dash...), phase
	c.b = append(c.b, '[')
	for _, v := range dash {
		c.num(v)
	}
	c.b = append(c.b, ']')
	c.op("d", phase)
}

// font sets the face. Call it only inside a text object.
func (c *content) font(w fonts.Weight, size mil) {
	if c.face == w && c.size == size {
		return
	}
	c.face, c.size = w, size
	c.b = append(c.b, '/', 'F', byte('1'+w), ' ')
	c.op("Tf", size)
}

// turn appends the first four numbers of a text matrix, a rotation. Six
// decimals keep the far end of a 5 m line within 5 µm.
func (c *content) turn(cos, sin float64) {
	for _, v := range [4]float64{cos, sin, -sin, cos} {
		c.b = strconv.AppendFloat(c.b, math.Round(v*1e6)/1e6, 'f', -1, 64)
		c.b = append(c.b, ' ')
	}
}

// show appends kerned text. The face must have a glyph for every rune.
func (c *content) show(text string, w fonts.Weight) {
	const hex = "0123456789ABCDEF"
	c.b = append(c.b, '[', '<')
	last := rune(-1)
	for _, r := range text {
		if k := w.Kern(last, r); k != 0 {
			c.b = append(c.b, '>')
			c.b = strconv.AppendInt(c.b, -int64(k), 10)
			c.b = append(c.b, '<')
		}
		last = r
		g, _ := w.Glyph(r)
		i := g.Index
		c.b = append(c.b, hex[i>>12], hex[i>>8&15], hex[i>>4&15], hex[i&15])
	}
	c.b = append(c.b, ">]TJ\n"...)
}

// fromPoints converts points to mils.
func fromPoints(pt float64) mil { return mil(pt*1000 + 0.5) }

// points converts l to points, the unit in which text is measured.
func points(l measure.Length) float64 { return float64(l) * 72 / float64(measure.Inch) }

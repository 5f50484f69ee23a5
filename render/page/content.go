package page

import (
	"math"
	"slices"
	"strconv"

	"shadewright/fonts"
	"shadewright/ticket/measure"
)

// A content is the stream of operators that draws a page (ISO 32000-1, 8.2).
// It says only what changes: pen, shade and face stay until another is taken.
// Marks that follow each other with the same pen or shade share one path, which
// leaves no seams between touching areas.
type content struct {
	b      []byte
	open   byte // the operator that will paint the path begun: S, f or none
	pieces int  // of that path

	width  mil // of the pen; 0 if none was taken
	stroke Gray
	fill   Gray
	dash   []mil
	phase  mil
	face   fonts.Weight
	size   mil // of the type; 0 if none was set
}

// mostPieces bounds a path, for printers of small memory.
const mostPieces = 200

func (c *content) reset() {
	*c = content{b: c.b[:0], dash: c.dash[:0]} // a page begins in black
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

// op appends the operator after its operands.
func (c *content) op(operator string, operands ...mil) {
	for _, v := range operands {
		c.num(v)
	}
	c.b = append(c.b, operator...)
	c.b = append(c.b, '\n')
}

// finish paints the path begun.
func (c *content) finish() {
	if c.open != 0 {
		c.b = append(c.b, c.open, '\n')
		c.open, c.pieces = 0, 0
	}
}

// begin makes ready for a piece of a path that operator will paint.
func (c *content) begin(operator byte) {
	if c.open != operator || c.pieces >= mostPieces {
		c.finish()
		c.open = operator
	}
	c.pieces++
}

// ink takes the shade of what is filled.
func (c *content) ink(g Gray) {
	if c.fill != g {
		c.finish()
		c.fill = g
		c.op("g", mil(g)*10)
	}
}

// take takes a pen.
func (c *content) take(pen Pen) {
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
	c.pattern(pen)
}

// pattern sets the pen's dashes. How far into the pattern the line begins is
// counted in the rounded pattern, so a line that is cut into tiles goes on where
// it stopped.
func (c *content) pattern(pen Pen) {
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
		period *= 2 // an odd pattern repeats with ink and gap exchanged
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

// font takes a face; it is for use in a text object.
func (c *content) font(w fonts.Weight, size mil) {
	if c.face == w && c.size == size {
		return
	}
	c.face, c.size = w, size
	c.b = append(c.b, '/', 'F', byte('1'+w), ' ')
	c.op("Tf", size)
}

// turn appends the first four numbers of a text matrix, a rotation. Six
// decimals keep the end of a 5 m line within 5 µm.
func (c *content) turn(cos, sin float64) {
	for _, v := range [4]float64{cos, sin, -sin, cos} {
		c.b = strconv.AppendFloat(c.b, math.Round(v*1e6)/1e6, 'f', -1, 64)
		c.b = append(c.b, ' ')
	}
}

// show appends text that the face has glyphs for, kerned.
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

// fromPoints returns pt points in mils.
func fromPoints(pt float64) mil { return mil(pt*1000 + 0.5) }

// points returns l in PDF units, for text, which is measured in them.
func points(l measure.Length) float64 { return float64(l) * 72 / float64(measure.Inch) }

package page

import (
	"fmt"
	"math"

	"shadewright/fonts"
	"shadewright/ticket/measure"
)

// The weights of type.
const (
	Regular  = fonts.Regular
	Semibold = fonts.Semibold
	Bold     = fonts.Bold
)

// An Align says which part of the text lies at the given point.
type Align uint8

const (
	Start  Align = iota // the text begins at the point
	Middle              // the middle of the text is at the point
	End                 // the text ends at the point
)

// String returns the word that a Recorder writes.
func (a Align) String() string { return [...]string{"start", "middle", "end"}[a] }

// A Face says how text is set. A zero Weight is regular, a zero Gray black.
type Face struct {
	Weight fonts.Weight
	Size   measure.Length // of the type, for example 10*Pt
	Align  Align
	Turn   int // degrees counter-clockwise about the given point
	Gray   Gray
}

// units returns n thousandths of the type size.
func (f Face) units(n measure.Length) measure.Length { return f.Size * n / fonts.Em }

// CapHeight returns the height of capitals and figures.
func (f Face) CapHeight() measure.Length { return f.units(fonts.CapHeight) }

// Ascent returns the height of tall small letters above the baseline.
func (f Face) Ascent() measure.Length { return f.units(fonts.Ascent) }

// Descent returns the depth of letters below the baseline.
func (f Face) Descent() measure.Length { return f.units(fonts.Descent) }

// Leading returns the usual distance from one baseline to the next.
func (f Face) Leading() measure.Length { return f.units(1250) }

// Text draws one line of text with its baseline through at. Digits around a
// fraction slash (U+2044) become a fraction; line breaks and tabs become
// spaces.
func (p *Page) Text(at Point, s string, f Face) {
	c := p.content()
	if c == nil {
		return
	}
	if f.Size <= 0 {
		p.doc.keep(fmt.Errorf("text %.40q has the size %v; use a size above zero", s, f.Size))
		return
	}
	l := line{runs: p.doc.runs[:0]}
	l.set(s, f)
	p.doc.runs = l.runs
	if len(l.runs) == 0 {
		return
	}
	c.setFill(f.Gray)
	c.finish()
	x, y := p.at(at)
	b := baseline{x: float64(x), y: float64(y), cos: 1, start: l.before(f.Align)}
	if f.Turn != 0 {
		b.sin, b.cos = math.Sincos(float64(f.Turn%360) * math.Pi / 180)
	}
	for _, r := range l.runs {
		if r.missing != 0 {
			p.substitute(c, b, r)
		} else {
			p.run(c, b, r)
		}
	}
}

// A baseline is the position of a line of text: its alignment point in mils,
// its direction, and how far before that point the text begins, in points.
type baseline struct{ x, y, sin, cos, start float64 }

// at returns the point dx points along the line and dy points above it.
func (b baseline) at(dx, dy float64) (x, y mil) {
	dx, dy = (dx-b.start)*1000, dy*1000
	return mil(math.Round(b.x + dx*b.cos - dy*b.sin)), mil(math.Round(b.y + dx*b.sin + dy*b.cos))
}

// run draws one run.
func (p *Page) run(c *content, b baseline, r run) {
	p.doc.embed(r.text, r.weight)
	c.b = append(c.b, "BT\n"...)
	c.font(r.weight, fromPoints(r.size))
	x, y := b.at(r.dx, r.dy)
	if b.sin == 0 && b.cos == 1 {
		c.op("Td", x, y)
	} else {
		c.turn(b.cos, b.sin)
		c.op("Tm", x, y)
	}
	c.show(r.text, r.weight)
	c.b = append(c.b, "ET\n"...)
}

// substitute draws a box around the code point of a rune without a glyph.
func (p *Page) substitute(c *content, b baseline, r run) {
	p.doc.missing[r.missing] = true
	h := r.size * fonts.CapHeight / fonts.Em
	gap := r.size * boxGap / fonts.Em
	c.setPen(Pen{Width: measure.Length(r.size / 20 * float64(Pt)), Gray: c.fill})
	c.begin('S')
	for i, q := range [4][2]float64{{gap, 0}, {r.width - gap, 0}, {r.width - gap, h}, {gap, h}} {
		x, y := b.at(r.dx+q[0], q[1])
		if i == 0 {
			c.op("m", x, y)
		} else {
			c.op("l", x, y)
		}
	}
	c.op("h")
	c.finish()
	code := fmt.Sprintf("%04X", r.missing)
	half := (len(code) + 1) / 2
	size := h * 0.5
	for i, row := range []string{code[:half], code[half:]} {
		units, _ := Semibold.Measure(row) // the face has every hexadecimal digit
		w := float64(units) * size / fonts.Em
		p.run(c, b, run{text: row, weight: Semibold, size: size,
			dx: r.dx + (r.width-w)/2, dy: h*0.56 - float64(i)*h*0.43})
	}
}

// boxGap is the room on each side of that box, in font units.
const boxGap = 40

// Width returns the length of s along its baseline.
func Width(s string, f Face) measure.Length {
	l := line{bare: true}
	l.set(s, f)
	return measure.Length(math.Ceil(l.width * float64(measure.Inch) / 72))
}

// Extent returns the corners of the box around s, from the descenders to the
// tops of tall letters, clockwise from the box's own top left corner.
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

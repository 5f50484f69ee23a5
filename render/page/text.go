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
	Middle              // its middle is there
	End                 // it ends there
)

// String returns the word used in drawings written as text.
func (a Align) String() string { return [...]string{"start", "middle", "end"}[a] }

// A Face says how text is set. The zero Weight is regular, the zero Gray black.
type Face struct {
	Weight fonts.Weight
	Size   measure.Length // of the type: 10*Pt
	Align  Align
	Turn   int // degrees counter-clockwise about the given point
	Gray   Gray
}

// units returns n thousandths of the type size.
func (f Face) units(n measure.Length) measure.Length { return f.Size * n / fonts.Em }

// CapHeight returns the height of a capital or a figure.
func (f Face) CapHeight() measure.Length { return f.units(fonts.CapHeight) }

// Ascent returns the height of tall small letters above the baseline.
func (f Face) Ascent() measure.Length { return f.units(fonts.Ascent) }

// Descent returns the depth of letters below the baseline.
func (f Face) Descent() measure.Length { return f.units(fonts.Descent) }

// Leading returns the usual distance from one baseline to the next.
func (f Face) Leading() measure.Length { return f.units(1250) }

// Text draws s with its baseline through at. Digits around a fraction slash
// (U+2044) are set as a fraction. Line breaks and tabs are spaces; s is one line.
func (p *Page) Text(at Point, s string, f Face) {
	if !p.live() {
		return
	}
	line := set(s, f)
	if len(line.runs) == 0 {
		return
	}
	p.ink(f.Gray)
	x, y := p.at(at)
	if f.Turn != 0 {
		p.doc.pdf.Rotate(float64(f.Turn), x, y)
		defer p.doc.pdf.RotateReset()
	}
	left := x - line.before(f.Align)
	for _, r := range line.runs {
		if r.missing != 0 {
			p.substitute(r, left, y)
			continue
		}
		p.run(r, grid(left+r.dx), grid(y-r.dy))
	}
}

// run draws one run with the library.
func (p *Page) run(r run, x, y float64) {
	pdf := &p.doc.pdf
	p.doc.keep(pdf.SetFont(r.weight.String(), "", r.size))
	pdf.SetXY(x, y)
	p.doc.keep(pdf.Text(r.text))
}

// substitute draws a box with the code point of a rune that has no glyph.
func (p *Page) substitute(r run, left, y float64) {
	p.doc.missing[r.missing] = true
	pdf := &p.doc.pdf
	p.take(Pen{Width: max(length(r.size/20), 100*measure.Micrometre), Gray: p.doc.state.fill})
	h := r.size * fonts.CapHeight / fonts.Em
	gap := r.size * boxGap / fonts.Em
	pdf.RectFromUpperLeftWithStyle(grid(left+r.dx+gap), grid(y-h), grid(r.width-2*gap), grid(h), "D")
	code := fmt.Sprintf("%04X", r.missing)
	half := (len(code) + 1) / 2
	size := h * 0.5
	for i, row := range []string{code[:half], code[half:]} {
		w := float64(advances(row, Semibold)) * size / fonts.Em
		x := left + r.dx + (r.width-w)/2
		base := y - h*0.56 + float64(i)*h*0.43
		p.run(run{text: row, weight: Semibold, size: size}, grid(x), grid(base))
	}
}

// boxGap is the room on each side of a substitute's box, in font units.
const boxGap = 40

// Width returns how much room s takes along its baseline.
func Width(s string, f Face) measure.Length {
	return measure.Length(math.Ceil(set(s, f).width * float64(measure.Inch) / 72))
}

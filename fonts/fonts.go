// Package fonts holds the typefaces of the printed pages and what must be known
// to set them: which runes they draw and how far each advances.
//
// The faces are Source Sans 3 in three weights, under the SIL Open Font License
// that lies beside them, unchanged. Distances are in thousandths of the type
// size, which is what the fonts themselves count in; a test checks that.
package fonts

import (
	_ "embed" // the faces
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

//go:embed SourceSans3-Regular.ttf
var regular []byte

//go:embed SourceSans3-Semibold.ttf
var semibold []byte

//go:embed SourceSans3-Bold.ttf
var bold []byte

// A Weight is one of the embedded faces. The zero Weight is Regular.
type Weight uint8

// The weights, lightest first.
const (
	Regular Weight = iota
	Semibold
	Bold
)

// Weights lists every face.
var Weights = [...]Weight{Regular, Semibold, Bold}

// Em is the number of font units in the type size.
const Em = 1000

// Heights above the baseline that all weights share, in font units. Descent is
// below it.
const (
	CapHeight = 660 // of H
	Ascent    = 750 // of d and of accents on small letters; capitals' accents rise higher
	Descent   = 205 // of p and g
	Figure    = 650 // of 0
	Slash     = 668 // top of the fraction slash
)

// String returns the face's PostScript name.
func (w Weight) String() string {
	return [...]string{"SourceSans3-Regular", "SourceSans3-Semibold", "SourceSans3-Bold"}[w]
}

// Heavier returns the next heavier weight, or w if there is none. Small figures
// are set in it so that their strokes match the text around them.
func (w Weight) Heavier() Weight { return min(w+1, Bold) }

// Data returns the face as a TrueType file. It must not be changed.
func (w Weight) Data() []byte { return [...][]byte{regular, semibold, bold}[w] }

// A Glyph is a shape of a face: its number in the font, and how far it moves
// the pen, in font units.
type Glyph struct{ Index, Advance uint16 }

// Glyph returns the glyph of r and whether the face has one. Runes beyond the
// basic plane are refused: the page library cannot map them.
func (w Weight) Glyph(r rune) (Glyph, bool) {
	t := tables[w]()
	var g Glyph
	switch {
	case uint32(r) < quick:
		g = t.quick[r]
	case r <= 0xFFFF:
		g = t.look(r)
	}
	return g, g.Index != 0 // glyph 0 stands for none
}

// quick is the end of the runes that are looked up once, at first use: Latin,
// Greek and Cyrillic.
const quick = 0x0530

// A table holds the glyphs of a face.
type table struct {
	quick [quick]Glyph
	rest  sync.Map // rune → Glyph
	face  *sfnt.Font
}

var tables = [len(Weights)]func() *table{
	sync.OnceValue(func() *table { return newTable(regular) }),
	sync.OnceValue(func() *table { return newTable(semibold) }),
	sync.OnceValue(func() *table { return newTable(bold) }),
}

func newTable(data []byte) *table {
	f, err := sfnt.Parse(data)
	if err != nil {
		panic("fonts: embedded face: " + err.Error())
	}
	t := &table{face: f}
	var buf sfnt.Buffer
	for r := range t.quick {
		t.quick[r] = glyph(f, &buf, rune(r))
	}
	return t
}

func (t *table) look(r rune) Glyph {
	if g, ok := t.rest.Load(r); ok {
		return g.(Glyph)
	}
	var buf sfnt.Buffer
	g := glyph(t.face, &buf, r)
	t.rest.Store(r, g)
	return g
}

// glyph reads the font. A damaged table reads as no glyph, and shows on the page
// as one.
func glyph(f *sfnt.Font, buf *sfnt.Buffer, r rune) Glyph {
	index, err := f.GlyphIndex(buf, r)
	if err != nil || index == 0 {
		return Glyph{}
	}
	a, err := f.GlyphAdvance(buf, index, fixed.I(Em), font.HintingNone)
	if err != nil {
		return Glyph{}
	}
	return Glyph{uint16(index), uint16(a.Round())}
}

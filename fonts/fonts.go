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

// Advance returns how far the glyph of r moves the pen, in font units, and
// whether the face has a glyph for r. Runes beyond the basic plane are refused:
// the page library cannot map them.
func (w Weight) Advance(r rune) (int, bool) {
	t := tables[w]()
	var a int16
	switch {
	case uint32(r) < quick:
		a = t.quick[r]
	case r <= 0xFFFF:
		a = t.look(r)
	default:
		return 0, false
	}
	return int(max(a, 0)), a >= 0
}

// quick is the end of the runes whose advances are looked up once, at first
// use: Latin, Greek and Cyrillic.
const quick = 0x0530

// A table holds the advances of a face; -1 stands for no glyph.
type table struct {
	quick [quick]int16
	rest  sync.Map // rune → int16
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
		t.quick[r] = advance(f, &buf, rune(r))
	}
	return t
}

func (t *table) look(r rune) int16 {
	if a, ok := t.rest.Load(r); ok {
		return a.(int16)
	}
	var buf sfnt.Buffer
	a := advance(t.face, &buf, r)
	t.rest.Store(r, a)
	return a
}

func advance(f *sfnt.Font, buf *sfnt.Buffer, r rune) int16 {
	g, err := f.GlyphIndex(buf, r)
	if err != nil || g == 0 {
		return -1 // a damaged table reads as no glyph, and shows on the page as one
	}
	a, err := f.GlyphAdvance(buf, g, fixed.I(Em), font.HintingNone)
	if err != nil {
		return -1
	}
	return int16(a.Round())
}

// Package fonts holds the typeface of the printed pages and the facts needed to
// set it: which runes each face has glyphs for, their widths, the kerning of
// pairs, and the outlines of glyphs.
//
// The faces are Source Sans 3 in three weights, unchanged, under the SIL Open
// Font License in LICENSE.md. Distances are in thousandths of the type size,
// the unit of the fonts themselves; a test checks that.
package fonts

import (
	_ "embed" // for the faces
	"sync"
	"sync/atomic"

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

// Count is the number of weights.
const Count = int(Bold) + 1

// Weights returns every weight.
func Weights() [Count]Weight { return [...]Weight{Regular, Semibold, Bold} }

// Em is the number of font units in the type size.
const Em = 1000

// Heights above the baseline in font units, measured in the weight where they
// are greatest; the other weights are within 12 of it. Descent is the depth
// below the baseline.
const (
	CapHeight = 656 // of H
	Ascent    = 712 // of d; accents on capitals are higher
	Descent   = 225 // of g
	Figure    = 650 // of 0
	Slash     = 668 // of the fraction slash
)

// String returns the face's PostScript name.
func (w Weight) String() string {
	return [...]string{"SourceSans3-Regular", "SourceSans3-Semibold", "SourceSans3-Bold"}[w]
}

// Heavier returns the next heavier weight, or w if there is none. Small figures
// use it so that their strokes match the text around them.
func (w Weight) Heavier() Weight { return min(w+1, Bold) }

// Data returns the face as a TrueType file. Do not change the bytes.
func (w Weight) Data() []byte { return [...][]byte{regular, semibold, bold}[w] }

// A Glyph is the index of a shape in its face, and the width it advances in
// font units.
type Glyph struct{ Index, Advance uint16 }

// Glyph returns the glyph of r and whether the face has one. It has none beyond
// the basic plane, which the page library cannot map.
func (w Weight) Glyph(r rune) (Glyph, bool) { return tables[w]().glyph(r) }

func (t *table) glyph(r rune) (Glyph, bool) {
	var g Glyph
	switch {
	case uint32(r) < quick:
		g = t.quick[r]
	case r <= 0xFFFF:
		g = t.look(r)
	}
	return g, g.Index != 0 // glyph 0 means no glyph
}

// Measure returns the width of kerned text in font units, up to the first rune
// without a glyph, and the number of bytes up to there.
func (w Weight) Measure(text string) (width, n int) {
	t := tables[w]()
	last := rune(-1)
	for i, r := range text {
		g, ok := t.glyph(r)
		if !ok {
			return width, i
		}
		width += int(g.Advance) + t.kerning(last, r)
		last = r
	}
	return width, len(text)
}

// quick is the end of the runes that are looked up once, on first use, and then
// kept in an array: Latin, Greek and Cyrillic.
const quick = 0x0530

// Kern returns how far to move the right glyph, in font units, compared with
// the left glyph's advance: negative is closer. A negative rune stands for the
// beginning or the end of a line.
func (w Weight) Kern(left, right rune) int { return tables[w]().kerning(left, right) }

func (t *table) kerning(left, right rune) int {
	if left < 0 || right < 0 {
		return 0
	}
	if left >= ascii || right >= ascii {
		pair := [2]rune{left, right}
		if k, ok := t.pairs.Load(pair); ok {
			return k.(int)
		}
		k := t.kern(left, right)
		t.pairs.Store(pair, k)
		return k
	}
	slot := &t.close[left*ascii+right]
	if k := slot.Load(); k != 0 {
		return int(k - known)
	}
	k := t.kern(left, right)
	slot.Store(int32(k) + known)
	return k
}

// Pairs of runes below ascii have their kerning in an array; known marks the
// pairs in it that have been looked up.
const (
	ascii = 128
	known = 1 << 16
)

// A table holds the glyphs of a face.
type table struct {
	quick  [quick]Glyph
	rest   sync.Map                    // rune → Glyph
	close  [ascii * ascii]atomic.Int32 // kerning of ASCII pairs
	pairs  sync.Map                    // [2]rune → int, kerning of the other pairs
	shapes sync.Map                    // uint16 → *Shape
	face   *sfnt.Font
}

// kern reads the kerning of a pair from the font; a pair that the font does not
// list has 0.
func (t *table) kern(left, right rune) int {
	var buf sfnt.Buffer
	l, errL := t.face.GlyphIndex(&buf, left)
	r, errR := t.face.GlyphIndex(&buf, right)
	if errL != nil || errR != nil || l == 0 || r == 0 {
		return 0
	}
	k, err := t.face.Kern(&buf, l, r, fixed.I(Em), font.HintingNone)
	if err != nil { // usually sfnt.ErrNotFound: most pairs have no kerning
		return 0
	}
	return k.Round()
}

var tables = [Count]func() *table{
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
		t.quick[r] = read(f, &buf, rune(r))
	}
	return t
}

func (t *table) look(r rune) Glyph {
	if g, ok := t.rest.Load(r); ok {
		return g.(Glyph)
	}
	var buf sfnt.Buffer
	g := read(t.face, &buf, r)
	t.rest.Store(r, g)
	return g
}

// read reads a glyph from the font. A damaged font table gives no glyph, which
// shows on the page as a box.
func read(f *sfnt.Font, buf *sfnt.Buffer, r rune) Glyph {
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

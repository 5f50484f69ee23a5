package fonts

import (
	"crypto/sha256"
	"fmt"
	"os"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// The faces and the licence are those of the package source-sans 3.52.0, byte
// for byte. The licence forbids changing a face and keeping its name.
func TestUnchanged(t *testing.T) {
	licence, err := os.ReadFile("LICENSE.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range []struct {
		name string
		data []byte
		sum  string // sha256sum of the files in the package's archive
	}{
		{"LICENSE.md", licence, "56af9b9c6715597e458284a474dc118a50a4150e9d547c70f7b4a33c3e6a9328"},
		{"Regular", Regular.Data(), "4644c81b86ec9caaa76b634889968ed3c4f4f52f054855933acc7c2b21e53b0f"},
		{"Semibold", Semibold.Data(), "a3f4f8dcf343a8f24dc61951de93f3ba1558b15cd250ba24af8a40e957081b7d"},
		{"Bold", Bold.Data(), "9214b9d95e4231c609802815c2646c98174e2102d0d37f88978a7f8e71006e6a"},
	} {
		if got := fmt.Sprintf("%x", sha256.Sum256(f.data)); got != f.sum {
			t.Errorf("%s has the sum %s; want %s", f.name, got, f.sum)
		}
	}
}

// covered lists the Unicode blocks that the pages print, including names in
// Latin, Greek and Cyrillic letters.
var covered = []struct{ from, to rune }{
	{0x0020, 0x007E}, {0x00A0, 0x00FF}, {0x0100, 0x017F}, // Latin: basic, supplement, extended A
	{0x01CD, 0x01DC}, {0x01E6, 0x01E7}, {0x01EA, 0x01EB}, {0x01F4, 0x01F5}, {0x01F8, 0x0201}, // extended B: pinyin, Sami, Serbo-Croat
	{0x0218, 0x021B}, {0x021E, 0x021F}, {0x0226, 0x0227}, // Romanian and others
	{0x1E80, 0x1E85}, {0x1E9E, 0x1E9E}, {0x1EA0, 0x1EF9}, // Welsh, capital ß, Vietnamese
	{0x0384, 0x038A}, {0x038C, 0x038C}, {0x038E, 0x03A1}, {0x03A3, 0x03CE}, // Greek, monotonic
	{0x0400, 0x045F}, {0x0490, 0x0493}, {0x0496, 0x049B}, {0x04A2, 0x04A3}, {0x04AE, 0x04B3}, {0x04BA, 0x04BB}, {0x04D8, 0x04D9}, {0x04E2, 0x04E3}, {0x04E8, 0x04E9}, {0x04EE, 0x04EF}, // Cyrillic
	{0x2009, 0x200A}, {0x202F, 0x202F}, {0x2010, 0x2015}, {0x2018, 0x201E}, {0x2020, 0x2022}, {0x2026, 0x2026}, {0x2032, 0x2033}, {0x2039, 0x203A}, // spaces, dashes, quotes, primes
	{0x2044, 0x2044}, {0x2150, 0x215E}, {0x2070, 0x2071}, {0x2074, 0x2079}, {0x2080, 0x2089}, // fractions, raised and lowered figures
	{0x20AC, 0x20AC}, {0x2116, 0x2116}, {0x2122, 0x2122},
	{0x2190, 0x2199}, {0x2212, 0x2212}, {0x2215, 0x2215}, {0x221A, 0x221A}, {0x221E, 0x221E}, {0x2248, 0x2248}, {0x2260, 0x2260}, {0x2264, 0x2265},
	{0x25A0, 0x25A1}, {0x25B2, 0x25B3}, {0x25B6, 0x25B6}, {0x25BC, 0x25BD}, {0x25C0, 0x25C0}, {0x25CB, 0x25CB}, {0x25CF, 0x25CF},
	{0x2610, 0x2611}, {0x2713, 0x2713}, {0x2717, 0x2717}, // boxes to tick
}

func TestCoverage(t *testing.T) {
	for _, w := range Weights() {
		for _, b := range covered {
			for r := b.from; r <= b.to; r++ {
				if _, ok := w.Glyph(r); !ok {
					t.Errorf("%v has no glyph for %U %c", w, r, r)
				}
			}
		}
		for _, r := range []rune{-1, '⌀', '日', '✂', '\uFFFD', '😀', 0x110000} {
			if g, ok := w.Glyph(r); ok {
				t.Errorf("%v has glyph %d for %U; want none", w, g.Index, r)
			}
		}
	}
}

// All weights have glyphs for the same runes, so a rune missing in one is
// missing in all.
func TestWeightsAlike(t *testing.T) {
	for r := rune(0); r < 0x2800; r++ {
		_, ok := Regular.Glyph(r)
		for _, w := range []Weight{Semibold, Bold} {
			if _, got := w.Glyph(r); got != ok {
				t.Errorf("%U: Regular has a glyph: %t; %v has one: %t", r, ok, w, got)
			}
		}
	}
}

// The heights match the outlines.
func TestHeights(t *testing.T) {
	for _, w := range Weights() {
		f, err := sfnt.Parse(w.Data())
		if err != nil {
			t.Fatal(err)
		}
		if got := f.UnitsPerEm(); got != Em {
			t.Errorf("%v has %d units to the em; want %d", w, got, Em)
		}
		for _, c := range []struct {
			r   rune
			top int
		}{{'H', CapHeight}, {'0', Figure}, {fractionSlash, Slash}, {'d', Ascent}, {'h', Ascent}} {
			if _, top := extent(t, f, c.r); top > c.top || top < c.top-12 {
				t.Errorf("%v: %c rises to %d; want %d, at most 12 less", w, c.r, top, c.top)
			}
		}
		for _, r := range "gpqyj" {
			if bottom, _ := extent(t, f, r); bottom > Descent {
				t.Errorf("%v: %c falls to %d, below Descent %d", w, r, bottom, Descent)
			}
		}
	}
}

const fractionSlash = '⁄'

// extent returns how far the outline of r reaches below and above the baseline.
func extent(t *testing.T, f *sfnt.Font, r rune) (below, above int) {
	t.Helper()
	var buf sfnt.Buffer
	g, err := f.GlyphIndex(&buf, r)
	if err != nil {
		t.Fatal(err)
	}
	b, _, err := f.GlyphBounds(&buf, g, fixed.I(Em), font.HintingNone)
	if err != nil {
		t.Fatal(err)
	}
	return b.Max.Y.Round(), -b.Min.Y.Round()
}

func TestKern(t *testing.T) {
	for _, w := range Weights() {
		// In any text face, T and o move closer and two upright stems do not.
		if k := w.Kern('T', 'o'); k >= 0 || k < -150 {
			t.Errorf("%v: To is kerned by %d; want it closer by up to 150", w, k)
		}
		if k := w.Kern('H', 'H'); k != 0 {
			t.Errorf("%v: HH is kerned by %d; want 0", w, k)
		}
		// Figures have no kerning, so that they line up in columns.
		for a := '0'; a <= '9'; a++ {
			for b := '0'; b <= '9'; b++ {
				if k := w.Kern(a, b); k != 0 {
					t.Errorf("%v: %c%c is kerned by %d; want 0", w, a, b, k)
				}
			}
		}
		if k := w.Kern(-1, 'T'); k != 0 {
			t.Errorf("%v: the beginning of a line is kerned by %d", w, k)
		}
		if a, b := w.Kern('Т', 'о'), w.Kern('Т', 'о'); a != b || a >= 0 {
			t.Errorf("%v: Cyrillic То is kerned by %d, then by %d; want it closer, the same both times", w, a, b)
		}
	}
}

func TestHeavier(t *testing.T) {
	for w, want := range map[Weight]Weight{Regular: Semibold, Semibold: Bold, Bold: Bold} {
		if got := w.Heavier(); got != want {
			t.Errorf("%v.Heavier() = %v; want %v", w, got, want)
		}
	}
}

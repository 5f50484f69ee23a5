package page

import (
	"math/big"
	"testing"
	"unicode"

	"golang.org/x/text/unicode/norm"
	"pgregory.net/rapid"

	"shadewright/fonts"
	"shadewright/ticket/measure"
)

func TestMils(t *testing.T) {
	for _, c := range []struct {
		l    measure.Length
		want mil
	}{
		{measure.Inch, 72_000}, {-measure.Inch, -72_000}, {3175, 9}, {0, 0},
		{210 * measure.Millimetre, 595_276}, // ISO 216 A4: 595.2756 points
		{297 * measure.Millimetre, 841_890},
		{200 * measure.Inch, 14_400_000}, // the longest page
	} {
		if got := mils(c.l); got != c.want {
			t.Errorf("mils(%v) = %d; want %d", c.l, got, c.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.Int64Range(-int64(measure.Longest), int64(measure.Longest)).Draw(t, "l")
		exact := big.NewRat(9*l, 3175)
		off := exact.Sub(exact, new(big.Rat).SetInt64(int64(mils(measure.Length(l)))))
		if off.Abs(off).Cmp(big.NewRat(1, 2)) > 0 {
			t.Fatalf("mils(%d) is off by %v", l, off)
		}
	})
}

// Text that isPlain accepts needs no cleaning: it is composed, visible and has
// glyphs.
func TestPlain(t *testing.T) {
	for r := rune(0); r < 0x3000; r++ {
		if !isPlain(string(r)) {
			continue
		}
		if got := norm.NFC.String(string(r)); got != string(r) || unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Mn, r) {
			t.Errorf("%U counts as plain", r)
		}
		for _, w := range fonts.Weights() {
			if _, ok := w.Glyph(r); !ok {
				t.Errorf("%U counts as plain, but %v has no glyph", r, w)
			}
		}
	}
	if isPlain("a\xff") || isPlain("e\u0301") || !isPlain("café 31\u20095\u20448") {
		t.Error("broken bytes and loose marks are not plain; composed letters are")
	}
}

func TestNum(t *testing.T) {
	for _, c := range []struct {
		v    mil
		want string
	}{
		{0, "0 "}, {1, "0.001 "}, {-1, "-0.001 "}, {1000, "1 "}, {-1000, "-1 "}, {12_340, "12.34 "}, {595_276, "595.276 "}, {100_100, "100.1 "}, {-20_050, "-20.05 "},
	} {
		var b content
		if b.num(c.v); string(b.b) != c.want {
			t.Errorf("num(%d) writes %q; want %q", c.v, b.b, c.want)
		}
	}
}

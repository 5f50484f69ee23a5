package page_test

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/signintech/gopdf"
	"pgregory.net/rapid"

	"shadewright/fonts"
	"shadewright/render/internal/readback"
	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// The given point is the start, middle or end of the baseline at every angle.
func TestTextPlace(t *testing.T) {
	const s = "Hamburg"
	type put struct {
		at   page.Point
		face page.Face
	}
	var puts []put
	pdf := draw(t, page.Info{}, a4, func(p *page.Page) {
		for i, turn := range []int{0, 90, -90, 180, 30, 450} {
			for j, align := range []page.Align{page.Start, page.Middle, page.End} {
				q := put{page.Point{X: measure.Length(40+60*j) * mm, Y: measure.Length(40+40*i) * mm},
					page.Face{Size: 14 * page.Pt, Align: align, Turn: turn}}
				puts = append(puts, q)
				p.Text(q.at, s, q.face)
			}
		}
	})
	texts := readback.Open(t, pdf).Marks(0).Texts
	if len(texts) != len(puts) {
		t.Fatalf("%d texts; want %d", len(texts), len(puts))
	}
	width := page.Width(s, page.Face{Size: 14 * page.Pt}).Millimetres()
	for i, q := range puts {
		got := texts[i]
		sin, cos := math.Sincos(float64(q.face.Turn) * math.Pi / 180)
		before := width * float64(q.face.Align) / 2
		want := readback.Point{X: q.at.X.Millimetres() - before*cos, Y: q.at.Y.Millimetres() + before*sin}
		if math.Hypot(got.At.X-want.X, got.At.Y-want.Y) > 0.003 {
			t.Errorf("%+v begins at %v; want %v", q, got.At, want)
		}
		if math.Hypot(got.Turn.X-cos, got.Turn.Y+sin) > 1e-5 || got.Text != s || !near(got.Size, q.face.Size, tolerance) {
			t.Errorf("%+v is drawn as %+v", q, got)
		}
	}
}

// The widths agree with those of the library, apart from kerning, and with the
// ink that PDFium finds.
func TestWidth(t *testing.T) {
	var pdf gopdf.GoPdf
	pdf.Start(gopdf.Config{Unit: gopdf.UnitPT, PageSize: gopdf.Rect{W: 100, H: 100}})
	pdf.AddPage()
	for _, w := range fonts.Weights() {
		if err := pdf.AddTTFFontData(w.String(), w.Data()); err != nil {
			t.Fatal(err)
		}
		if err := pdf.SetFont(w.String(), "", 100); err != nil {
			t.Fatal(err)
		}
		for r := rune(0x20); r < 0x2714; r++ {
			g, ok := w.Glyph(r)
			if !ok {
				continue
			}
			got, err := pdf.MeasureTextWidth(string(r))
			if err != nil {
				t.Fatal(err)
			}
			if want := float64(g.Advance) / 10; math.Abs(got-want) > 1e-9 {
				t.Fatalf("%v: the library gives %U the width %v; the font says %v", w, r, got, want)
			}
		}
	}

	for _, s := range []string{"HTo AV LTaH", "H11\u2044" + "16H", "HНиколай ΗH"} {
		face := page.Face{Size: 40 * page.Pt, Weight: page.Semibold}
		texts := readback.Open(t, draw(t, page.Info{}, a4, func(p *page.Page) {
			p.Text(page.Point{X: 10 * mm, Y: 50 * mm}, s, face)
			p.Text(page.Point{X: 10 * mm, Y: 90 * mm}, "H", face)
		})).Marks(0).Texts
		h := texts[len(texts)-1]
		bearing := h.Min.X - 10 // the ink of H begins and ends this far from the glyph's edges
		ink := texts[len(texts)-2].Max.X - texts[0].Min.X
		if want := page.Width(s, face).Millimetres() - 2*bearing; math.Abs(ink-want) > 0.06 {
			t.Errorf("%q: the ink is %.3f mm wide; Width less the bearings of H says %.3f", s, ink, want)
		}
	}
}

// The numerator ends level with the top of the slash, the denominator stands on
// the baseline, and each part stays readable text.
func TestFraction(t *testing.T) {
	s := measure.Usual(measure.Inches).Words(31*inch+11*inch/16, measure.Nearest).Typeset()
	face := page.Face{Size: 40 * page.Pt}
	texts := readback.Open(t, draw(t, page.Info{}, a4, func(p *page.Page) {
		p.Text(page.Point{X: 10 * mm, Y: 50 * mm}, s, face)
	})).Marks(0).Texts
	var parts []string
	for _, x := range texts {
		parts = append(parts, strings.TrimSpace(x.Text))
	}
	if want := []string{"31", "11", "⁄", "16", "in"}; !slices.Equal(parts, want) {
		t.Fatalf("%q is drawn as %q; want %q", s, parts, want)
	}
	whole, upper, slash, lower := texts[0], texts[1], texts[2], texts[3]
	if math.Abs(upper.Min.Y-slash.Min.Y) > 0.2 {
		t.Errorf("the numerator ends at %.2f, the slash at %.2f", upper.Min.Y, slash.Min.Y)
	}
	if lower.At.Y != whole.At.Y || slash.At.Y != whole.At.Y || upper.At.Y >= whole.At.Y {
		t.Errorf("baselines are %v, %v, %v, %v", whole.At.Y, upper.At.Y, slash.At.Y, lower.At.Y)
	}
	if r := upper.Size / whole.Size; r < 0.6 || r > 0.7 || lower.Size != upper.Size {
		t.Errorf("the figures are %.2f of the type size; want about two thirds", r)
	}
	if upper.Max.X > slash.Max.X || lower.Min.X < slash.Min.X || upper.Max.X > lower.Min.X {
		t.Errorf("the figures overlap: the numerator ends at %v, the denominator begins at %v", upper.Max.X, lower.Min.X)
	}
	for _, s := range []string{"\u2044", "3\u2044", "\u20444", "a\u2044b", "3 \u2044 4"} {
		d := page.New(page.Info{})
		d.Add(a4).Text(page.Point{X: 10 * mm, Y: 50 * mm}, s, face)
		b, err := d.Bytes()
		if err != nil {
			t.Fatal(err)
		}
		if got := readback.Open(t, b).Marks(0).Texts; len(got) != 1 || got[0].Text != s {
			t.Errorf("%q is not a fraction, but it is drawn as %+v", s, got)
		}
	}
}

func TestMissing(t *testing.T) {
	d := page.New(page.Info{})
	p := d.Add(a4)
	p.Text(page.Point{X: 10 * mm, Y: 50 * mm}, "a日b本c😀", page.Face{Size: 20 * page.Pt})
	if got := string(d.Missing()); got != "日本😀" {
		t.Errorf("Missing = %q; want 日本😀", got)
	}
	b, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	m := readback.Open(t, b).Marks(0)
	if len(m.Lines) != 3*4 {
		t.Errorf("%d lines; want three boxes", len(m.Lines))
	}
	var parts []string
	for _, x := range m.Texts {
		parts = append(parts, x.Text)
	}
	// Code points: Unicode charts, 日 U+65E5, 本 U+672C, 😀 U+1F600.
	if want := []string{"a", "65", "E5", "b", "67", "2C", "c", "1F6", "00"}; !slices.Equal(parts, want) {
		t.Errorf("drawn as %q; want %q", parts, want)
	}
	for _, x := range m.Texts[1:3] {
		for _, l := range m.Lines[:4] {
			if l.From.X == l.To.X && x.Min.X < l.From.X && l.From.X < x.Max.X {
				t.Errorf("%q crosses its box at %v", x.Text, l.From.X)
			}
		}
	}
}

// Text that needs cleaning is drawn cleaned.
func TestClean(t *testing.T) {
	for _, c := range []struct{ in, want, src string }{
		{"e\u0301", "é", "NFC, Unicode annex 15"},
		{"Ω", "Ω", "the ohm sign is the letter omega, NFC"},
		{"a\tb\nc\r", "a b c", "tabs and line breaks are spaces"},
		{"a\u00adb\u200bc\u200dd\ufeff\u202e", "abcd", "format characters, Unicode category Cf, have no shape"},
		{"⌀ 1", "Ø 1", "the faces lack U+2300; the letter looks alike"},
		{"ǆ ‴", "dž ′′′", "NFKC: U+01C6 is d, ž; U+2034 is three primes"},
		{"a\xffb", "a", "a broken byte is U+FFFD, which the faces lack"},
	} {
		b := draw(t, page.Info{}, a4, func(p *page.Page) {
			p.Text(page.Point{X: 10 * mm, Y: 50 * mm}, c.in, page.Face{Size: 20 * page.Pt})
		})
		if got := readback.Open(t, b).Marks(0).Texts; len(got) == 0 || got[0].Text != c.want {
			t.Errorf("%q is drawn as %+v; want %q (%s)", c.in, got, c.want, c.src)
		}
	}
}

// Ready-made fractions look like all others and keep clear of neighbouring
// figures. The equal strings are worked out by hand from the decompositions in
// the Unicode charts.
func TestReadyFraction(t *testing.T) {
	for _, c := range []struct{ in, same string }{
		{"½ in", "1\u20442 in"},
		{"31⅝ in", "31\u20095\u20448 in"},
		{"⅞½", "7\u20448\u20091\u20442"},
		{"½2", "1\u20442\u20092"},
		{"⅐", "1\u20447"},
	} {
		of := func(s string) []byte {
			return draw(t, page.Info{}, a4, func(p *page.Page) { p.Text(page.Point{X: 10 * mm, Y: 50 * mm}, s, page.Face{Size: 20 * page.Pt}) })
		}
		if !bytes.Equal(of(c.in), of(c.same)) {
			t.Errorf("%q is not drawn as %q", c.in, c.same)
		}
	}
}

// Any text can be drawn, measured, wrapped and fitted without an error.
func FuzzText(f *testing.F) {
	for _, s := range []string{"", "31\u20095\u20448\u00a0in", "日本", "\xff\xfe", "\u0301", "a\u2044\u20441\u20442", "\U0010ffff", "\x00"} {
		f.Add(s, 0)
		f.Add(s, 37)
	}
	f.Fuzz(func(t *testing.T, s string, turn int) {
		d := page.New(page.Info{Title: s})
		face := page.Face{Size: 9 * page.Pt, Turn: turn, Align: page.End}
		d.Add(a4).Text(page.Point{X: 100 * mm, Y: 100 * mm}, s, face)
		if page.Width(s, face) < 0 {
			t.Errorf("Width(%q) is negative", s)
		}
		if _, err := d.Bytes(); err != nil {
			t.Errorf("%q: %v", s, err)
		}
		for _, l := range page.Wrap(s, face, 20*mm) {
			if !utf8.ValidString(l) {
				t.Errorf("Wrap(%q) gives the broken line %q", s, l)
			}
		}
		page.Fit(s, face, 20*mm, 6*page.Pt)
	})
}

var line = page.Face{Size: 10 * page.Pt}

func TestWrap(t *testing.T) {
	wide := func(s string) measure.Length { return page.Width(s, line) }
	for _, c := range []struct {
		in    string
		width measure.Length
		want  []string
	}{
		{"fold raw edge up", wide("fold raw"), []string{"fold raw", "edge up"}},
		{"fold raw edge up", wide("fold raw edge up"), []string{"fold raw edge up"}},
		{"fold  raw ", wide("fold"), []string{"fold", "raw"}},
		{"one\ntwo\n\nthree", 100 * mm, []string{"one", "two", "", "three"}},
		{"side-hem and tube", wide("side-"), []string{"side-", "hem", "and", "tube"}},
		{"cut 31-5/8 in", wide("cut 31-"), []string{"cut", "31-5/8", "in"}},
		{"cut 31\u20095\u20448\u00a0in now", wide("cut 31\u20095\u20448"), []string{"cut", "31\u20095\u20448\u00a0in", "now"}},
		{"abcdefgh", wide("abc"), []string{"abc", "def", "gh"}},
		{"x abcdefgh", wide("abc"), []string{"x", "abc", "def", "gh"}},
		{"", 10 * mm, []string{""}},
		{"ab", 0, []string{"a", "b"}},
	} {
		if got := page.Wrap(c.in, line, c.width); !slices.Equal(got, c.want) {
			t.Errorf("Wrap(%q, %v) = %q; want %q", c.in, c.width, got, c.want)
		}
	}
}

// No line is wider than asked, except a line of a single rune, and no letter is
// lost.
func TestWrapLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringMatching(`[a-zA-Zé0-9 ⁄/\-]{0,80}`).Draw(t, "s")
		width := measure.Length(rapid.Int64Range(0, int64(60*mm)).Draw(t, "width"))
		var kept string
		for _, l := range page.Wrap(s, line, width) {
			if page.Width(l, line) > width && utf8.RuneCountInString(l) > 1 {
				t.Fatalf("line %q is wider than %v", l, width)
			}
			kept += l
		}
		if squeeze := func(s string) string { return strings.ReplaceAll(s, " ", "") }; squeeze(kept) != squeeze(s) {
			t.Fatalf("Wrap(%q) keeps %q", s, kept)
		}
	})
}

func TestFit(t *testing.T) {
	face := page.Face{Size: 12 * page.Pt}
	long := strings.Repeat("lower bunk, lake side ", 10) // 220 runes
	for _, c := range []struct {
		in    string
		width measure.Length
		cut   bool
		size  measure.Length // zero: between the other two sizes
	}{
		{"bunk", 50 * mm, false, 12 * page.Pt},
		{"lower bunk, lake side", 30 * mm, false, 0},
		{long, 60 * mm, true, 7 * page.Pt},
	} {
		got, f := page.Fit(c.in, face, c.width, 7*page.Pt)
		if w := page.Width(got, f); w > c.width {
			t.Errorf("Fit(%.30q) is %v wide; want at most %v", c.in, w, c.width)
		}
		if strings.HasSuffix(got, "…") != c.cut || !c.cut && got != c.in {
			t.Errorf("Fit(%.30q) = %q", c.in, got)
		}
		if f.Size != c.size && (c.size != 0 || f.Size >= face.Size || f.Size <= 7*page.Pt) {
			t.Errorf("Fit(%.30q) takes size %v; want %v", c.in, f.Size, c.size)
		}
		if c.cut { // one more word would not fit
			more := strings.TrimSuffix(got, "…") + c.in[len(got)-len("…"):][:6] + "…"
			if page.Width(more, f) <= c.width {
				t.Errorf("Fit cuts %q, though %q fits", got, more)
			}
		}
	}
	if got := page.Cut("abc", face, 0); got != "…" {
		t.Errorf("Cut to nothing = %q; want …", got)
	}
}

// The box of turned text turns with it. By hand: a turn of 90°
// counter-clockwise moves what is right of the point to above it, and what is
// above the point to its left.
func TestExtent(t *testing.T) {
	f := page.Face{Size: 10 * mm}
	o := page.Point{X: 50 * mm, Y: 60 * mm}
	w := page.Width("abc", f)
	level := page.Extent(o, "abc", f)
	if want := [4]page.Point{{X: o.X, Y: o.Y - f.Ascent()}, {X: o.X + w, Y: o.Y - f.Ascent()}, {X: o.X + w, Y: o.Y + f.Descent()}, {X: o.X, Y: o.Y + f.Descent()}}; level != want {
		t.Errorf("level: %v; want %v", level, want)
	}
	f.Turn, f.Align = 90, page.End
	up := page.Extent(o, "abc", f)
	if want := [4]page.Point{{X: o.X - f.Ascent(), Y: o.Y + w}, {X: o.X - f.Ascent(), Y: o.Y}, {X: o.X + f.Descent(), Y: o.Y}, {X: o.X + f.Descent(), Y: o.Y + w}}; up != want {
		t.Errorf("upward: %v; want %v", up, want)
	}
}

package template

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// longest is the longest page of a PDF: 14,400 units of 1/72 in (ISO 32000-1,
// Annex C).
const longest = 200 * 25.4

func rollOptions(t testing.TB, width measure.Length, opt Options) Options {
	t.Helper()
	p, err := sheet.OnRoll(width)
	if err != nil {
		t.Fatal(err)
	}
	opt.Paper = p
	return opt
}

// On roll paper, too, every line of every band stands where the arithmetic puts
// it, in every width that copy shops have. One side of every page is as long as
// the roll is wide.
func TestLinesOnRoll(t *testing.T) {
	for name, width := range map[string]measure.Length{
		"24 in": 24 * in, "30 in": 30 * in, "36 in": 36 * in, "610 mm": 610 * mm, "914 mm": 914 * mm, "8-1/2 in": 17 * in / 2,
	} {
		opt := rollOptions(t, width, optionsFor(t, "letter"))
		doc := readback.Open(t, pdf(t, opt))
		sheets, err := lay(Both.of(bands(job(t))), opt)
		if err != nil {
			t.Fatal(err)
		}
		if doc.Pages() != len(sheets) || doc.AsksForScale() {
			t.Errorf("%s: %d pages for %d sheets; asks for scaling: %v", name, doc.Pages(), len(sheets), doc.AsksForScale())
		}
		strips := 0
		for i, s := range sheets {
			if w, h := doc.Size(i); math.Abs(h-width.Millimetres()) > 0.005 || w > longest {
				t.Errorf("%s: sheet %d is %.3f × %.3f mm", name, i+1, w, h)
			}
			marks := doc.Marks(i)
			for _, it := range s.items {
				if it.strip != nil {
					strips++
					checkStrip(t, fmt.Sprintf("roll of %s, sheet %d", name, i+1), marks, it)
					checkInside(t, "roll of "+name, marks, it, opt)
				}
			}
		}
		if strips != 3 {
			t.Errorf("%s: %d strips; want 3, a band in one piece each", name, strips)
		}
	}
}

// A roll of 36 in holds the four pieces below each other, and the sheet is as
// long as the longest needs. By hand: the band is 120 in wide and continues 20
// mm past either side; add 11 mm of ruler and 1/2 in of margin twice: 120 +
// 51/25.4 + 1 = 123.008, and the next half inch is 123-1/2.
func TestRollIsShort(t *testing.T) {
	doc := readback.Open(t, pdf(t, rollOptions(t, 36*in, optionsFor(t, "letter"))))
	if w, h := doc.Size(0); doc.Pages() != 1 || math.Abs(w-123.5*25.4) > 0.005 || math.Abs(h-36*25.4) > 0.005 {
		t.Errorf("%d sheets, the first of %.3f × %.3f mm; want one of 123-1/2 × 36 in", doc.Pages(), w, h)
	}
	for _, c := range doc.Crowded(0, 12.6) {
		t.Error(c)
	}
	text := doc.Marks(0).Words()
	for _, want := range []string{"Band A for bunk, bunk-2", "Band B for galley", "Band C for hall", "Cut the bands apart", "cut here"} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet does not have %q", want)
		}
	}
	for _, no := range []string{"joint", "strip 1"} {
		if strings.Contains(text, no) {
			t.Errorf("the sheet has %q for bands in one piece", no)
		}
	}
	const arm = 20 / 72.0 * 25.4
	for _, m := range doc.Marks(0).Texts {
		if strings.HasPrefix(m.Text, "Band ") && math.Abs(m.Size-arm) > 0.01 {
			t.Errorf("%q is %.1f mm high; want 20 points", m.Text, m.Size)
		}
	}
}

// Cuts run between the pieces and never through one.
func TestRollCuts(t *testing.T) {
	shades := []ticket.Shade{shadeOf("a", 30*in, 40*in), shadeOf("b", 31*in, 40*in), shadeOf("c", 32*in, 40*in), shadeOf("d", 66*in, 40*in), shadeOf("e", 12*in, 40*in)}
	opt := rollOptions(t, 24*in, optionsFor(t, "letter"))
	list := tickets(t, shades...)
	doc := readback.Open(t, pdfOf(t, list, opt))
	sheets, err := lay(Both.of(bands(list)), opt)
	if err != nil {
		t.Fatal(err)
	}
	level, upright := 0, 0
	for i, s := range sheets {
		for _, l := range doc.Marks(i).Lines {
			if len(l.Dash) != 6 {
				continue
			}
			if l.From.Y == l.To.Y {
				level++
			} else {
				upright++
			}
			for _, it := range s.items {
				width, tall := gaugeWidth, measure.Length(0)
				if it.strip != nil {
					width, tall = it.strip.to-it.strip.from, it.strip.band.height()
				} else {
					tall = it.gauge.height()
				}
				a, b := it.at, page.Point{X: it.at.X + width, Y: it.at.Y + tall}
				if max(l.From.X, l.To.X) > a.X.Millimetres() && min(l.From.X, l.To.X) < b.X.Millimetres() &&
					max(l.From.Y, l.To.Y) > a.Y.Millimetres() && min(l.From.Y, l.To.Y) < b.Y.Millimetres() {
					t.Errorf("sheet %d: a cut from %v to %v runs through the piece at %v", i+1, l.From, l.To, a)
				}
			}
		}
	}
	if level == 0 || upright == 0 {
		t.Errorf("%d cuts across and %d upright; want some of both", level, upright)
	}
}

// A band of 250 in is longer than any page. It gets two strips of equal length
// that share the overlap. Taped at the joint, its sides are 250 in apart.
func TestRollSplits(t *testing.T) {
	wide := shadeOf("hangar", 250*in, 60*in)
	wide.Goods.Width = 300 * in
	list := tickets(t, wide)
	for name, c := range map[string]page.Correction{"true": {}, "corrected": {X: 1_003_000, Y: 1_004_000}} {
		opt := rollOptions(t, 36*in, optionsFor(t, "letter"))
		opt.Correction, opt.Printer = c, map[bool]string{true: "plotter"}[c.X != 0]
		doc := readback.Open(t, pdfOf(t, list, opt))
		var sum float64
		strips := 0
		for i := range doc.Pages() {
			w, h := doc.Size(i)
			if w > longest || h > longest {
				t.Errorf("%s: page of %.1f × %.1f mm", name, w, h)
			}
			m := doc.Marks(i)
			for _, s := range paperStrips(m) {
				sum += s.right - s.left
				strips++
			}
			if text := m.Words(); !strings.Contains(text, "joint A1 of strip 2") || !strings.Contains(text, "trim here: joint A1") {
				t.Errorf("%s: the joint is not on both strips", name)
			}
		}
		want := 250 * 25.4
		if c.X != 0 {
			want *= 1.004 // along the roll: down the upright sheet
		}
		if strips != 2 || math.Abs(sum-want) > 0.02 {
			t.Errorf("%s: %d strips taped together are %.3f mm wide; want 2 and %.3f", name, strips, sum, want)
		}
	}
}

// A correction stretches a sheet about its middle, by 8 mm at each end of 160
// in. All marks still lie between the margins. Along the roll the correction is
// the factor measured down the upright sheet. The check square of 1-1/2 in is
// 38.1 × 1.004 along and 38.1 × 0.997 across, by hand 38.2524 and 37.9857 mm.
func TestRollCorrection(t *testing.T) {
	opt := rollOptions(t, 24*in, optionsFor(t, "letter"))
	opt.Printer, opt.Correction = "plotter", page.Correction{X: 997_000, Y: 1_004_000}
	list := tickets(t, shadeOf("hall", 160*in, 60*in))
	doc := readback.Open(t, pdfOf(t, list, opt))
	m := doc.Marks(0)
	w, h := doc.Size(0)
	for _, c := range doc.Crowded(0, 12.6) {
		t.Error(c)
	}
	for _, l := range m.Lines {
		for _, p := range []readback.Point{l.From, l.To} {
			if p.X < 12.69 || p.X > w-12.69 || p.Y < 12.69 || p.Y > h-12.69 {
				t.Errorf("a line reaches %v, outside the margins of a sheet of %.1f × %.1f mm", p, w, h)
			}
		}
	}
	var sides []float64
	for _, l := range m.Lines {
		if l.From.X == l.To.X && math.Abs(math.Abs(l.From.Y-l.To.Y)-37.9857) < 0.02 {
			sides = append(sides, l.From.X)
		}
	}
	if len(sides) != 2 || math.Abs(math.Abs(sides[0]-sides[1])-38.2524) > 0.02 {
		t.Errorf("no check square of 38.252 × 37.986 mm; upright lines of that height at %v", sides)
	}
	if text := m.Words(); !strings.Contains(text, "corrected for printer 'plotter': 0.9970 × 1.0040") {
		t.Error("the sheet does not state its correction")
	}
}

// A plotter may turn a sheet that is shorter than the roll is wide, and the two
// corrections would go on the wrong axes. The template therefore makes such a
// sheet longer than the roll is wide. A correction that is equal on both axes
// wastes no paper that way. By hand, for a panel 12 in wide: 12 + 51/25.4 + 1 =
// 15.008, times 1.004 with both margins kept 15.064, and the next half inch is
// 15-1/2.
func TestRollAxes(t *testing.T) {
	list := tickets(t, shadeOf("pane", 12*in, 30*in))
	for name, tt := range map[string]struct {
		c    page.Correction
		long float64 // in inches
	}{
		"true":     {page.Correction{}, 15.5},
		"even":     {page.Correction{X: 1_004_000, Y: 1_004_000}, 15.5},
		"uneven":   {page.Correction{X: 997_000, Y: 1_004_000}, 36.5},
		"one axis": {page.Correction{Y: 1_004_000}, 36.5},
		"of one":   {page.Correction{X: measure.One}, 15.5},
	} {
		opt := rollOptions(t, 36*in, optionsFor(t, "letter"))
		opt.Printer, opt.Correction = "plotter", tt.c
		doc := readback.Open(t, pdfOf(t, list, opt))
		if w, h := doc.Size(0); doc.Pages() != 1 || math.Abs(w-tt.long*25.4) > 0.005 || math.Abs(h-36*25.4) > 0.005 {
			t.Errorf("%s: %d sheets, the first of %.1f × %.1f mm; want one %.1f in long", name, doc.Pages(), w, h, tt.long)
		}
	}
}

func TestRollTooNarrow(t *testing.T) {
	for _, c := range []struct {
		width measure.Length
		style measure.System
		want  string
	}{
		// 50 mm of heading, and 26 mm around 3 in of folds: 152.2 mm, 5.992 in;
		// 6 in less 1/2 in twice.
		{6 * in, measure.Inches, "template: roll paper 6 in wide is too narrow: the heading and a band take 6 in of its width, and the margins leave 5 in; use a wider roll of paper, or sheets"},
		{152 * mm, measure.Millimetres, "template: roll paper 152 mm wide is too narrow: the heading and a band take 152 mm of its width, and the margins leave 126.5 mm; use a wider roll of paper, or sheets"},
	} {
		opt := rollOptions(t, c.width, optionsFor(t, "letter"))
		opt.Style = measure.Usual(c.style)
		if _, err := Document(tickets(t, shadeOf("bunk", 25*in, 37*in)), Both, opt); err == nil || err.Error() != c.want {
			t.Errorf("%v\nwant %s", err, c.want)
		}
	}
}

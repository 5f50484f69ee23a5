package calibration

import (
	"math"
	"strings"
	"testing"

	"shadewright/render/fullscale"
	"shadewright/render/internal/readback"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/measure"
)

func optionsFor(t testing.TB, paper string, u measure.System) fullscale.Options {
	t.Helper()
	p, err := sheet.Named(paper)
	if err != nil {
		t.Fatal(err)
	}
	in := measure.Inch
	return fullscale.Options{Paper: p, Style: measure.Usual(u), Printer: "office", Correction: page.Correction{X: 1_010_000, Y: 1_020_000},
		Margins: sheet.Margins{Left: in / 4, Right: in / 4, Top: in / 4, Bottom: in / 2}}
}

// By hand: letter 215.9 − 2 × 6.35 − 2 × 4 = 195.2 mm, 7-1/2 in of half inches;
// 279.4 − 6.35 − 12.7 − 46 − 8 = 206.35, 8 in. A4 210 − 12.7 − 8 = 189.3, 180 mm;
// 297 − 19.05 − 54 = 223.95, 220 mm.
func TestRulers(t *testing.T) {
	for _, tt := range []struct {
		paper string
		u     measure.System
		want  Pair
	}{
		{"letter", measure.Inches, Pair{measure.Inch * 15 / 2, 8 * measure.Inch}},
		{"a4", measure.Millimetres, Pair{180 * mm, 220 * mm}},
	} {
		if got, err := Rulers(optionsFor(t, tt.paper, tt.u)); err != nil || got != tt.want {
			t.Errorf("%s: %v, %v; want %v", tt.paper, got, err, tt.want)
		}
	}
	o := optionsFor(t, "letter", measure.Inches)
	var err error
	if o.Paper, err = sheet.Sized(120*mm, 120*mm); err != nil {
		t.Fatal(err)
	}
	// By hand, to 1/16 in: 120 mm = 4.724 in, 4-3/4; 100 mm = 3.937 in, 3-15/16.
	const small = "calibration: paper of 4-3/4 in × 4-3/4 in is too small to measure a printer; use paper with room for rulers of at least 3-15/16 in"
	if _, err := Rulers(o); err == nil || err.Error() != small {
		t.Errorf("small paper: %v; want %s", err, small)
	}
}

// The rulers in the PDF have the stated length, whatever correction is set.
func TestDocument(t *testing.T) {
	o := optionsFor(t, "letter", measure.Inches)
	want, err := Rulers(o)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := Document(o, "shadewright calibrate")
	if err != nil {
		t.Fatal(err)
	}
	data, err := doc.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	var across, down float64 // the longest level and upright line
	for _, l := range readback.Open(t, data).Marks(0).Lines {
		if dx, dy := math.Abs(l.To.X-l.From.X), math.Abs(l.To.Y-l.From.Y); dy < 0.001 {
			across = math.Max(across, dx)
		} else if dx < 0.001 {
			down = math.Max(down, dy)
		}
	}
	if math.Abs(across-want.Across.Millimetres()) > 0.001 || math.Abs(down-want.Down.Millimetres()) > 0.001 {
		t.Errorf("the rulers are %.4f and %.4f mm; want %v and %v", across, down, want.Across, want.Down)
	}
}

// By hand: 250/249.2 = 1.003210, 200/200.32 = 0.998403.
func TestCorrect(t *testing.T) {
	got, err := Correct(Pair{250 * mm, 200 * mm}, Pair{249_200 * measure.Micrometre, 200_320 * measure.Micrometre})
	if want := (page.Correction{X: 1_003_210, Y: 998_403}); err != nil || got != want {
		t.Errorf("Correct = %v, %v; want %v", got, err, want)
	}
}

// The ratios of a page that a print dialog fits to other paper follow from the
// paper sizes.
func TestCorrectRefuses(t *testing.T) {
	for _, tt := range []struct {
		x, y float64
		want string
		src  string
	}{
		{0.940741, 0.940741, "most likely because an A4 page was fitted to letter paper", "279.4 / 297"},
		{0.972673, 0.972673, "most likely because a letter page was fitted to A4 paper", "210 / 215.9"},
		{0.909091, 0.909091, "margins of 1/2 in", "(792 − 2·36) / 792 points"},
		{0.941176, 0.941176, "margins of 1/4 in", "(612 − 2·18) / 612 points"},
		{0.960784, 0.960784, "margins of 1/6 in", "(612 − 2·12) / 612 points"},
		{0.98, 0.98, "the print dialog has scaled the page", "above the limit, no known ratio"},
		{1.06299, 1.06299, "enlarged from letter to the length of A4 paper", "297 / 279.4"},
		{0.97, 1, "the two readings do not agree; measure both again", "a slip in one reading"},
		{25.4, 25.4, "which is outside the range of any printer; check the numbers and their units", "inches for millimetres"},
	} {
		measured := Pair{measure.FromMillimetres(250 * tt.x), measure.FromMillimetres(200 * tt.y)}
		_, err := Correct(Pair{250 * mm, 200 * mm}, measured)
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%.4f across, %.4f down: %v; want %q (%s)", tt.x, tt.y, err, tt.want, tt.src)
		}
	}
}

package template

import (
	"strings"
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// A printer that prints 99.5 mm for 100 is corrected: the square is drawn
// 100/99.5 = 1.005025 times larger, about the middle of the page.
func TestCorrection(t *testing.T) {
	opt := optionsFor(t, "a4")
	opt.Printer = "office"
	opt.Correction = page.Correction{X: 1_005_025, Y: 995_025}
	doc := readback.Open(t, pdf(t, opt))
	m := doc.Marks(0)
	fx, fy := 1.005025, 0.995025
	x := func(v float64) float64 { return 105 + (v-105)*fx }
	y := func(v float64) float64 { return 148.5 + (v-148.5)*fy }
	if !m.Level(y(6.85), x(210-6.35-40), x(210-6.35)) || !m.Upright(x(210-6.35), y(6.85), y(46.85)) {
		t.Error("the check square is not corrected")
	}
	if text := m.Words(); !strings.Contains(text, "corrected for printer 'office': 1.0050 × 0.9950") {
		t.Errorf("the sheet does not state its correction:\n%s", text)
	}
}

// The sheet states a correction even without the name of a printer, and states
// nothing without a correction.
func TestCorrectionWithoutName(t *testing.T) {
	for _, tt := range []struct {
		c    page.Correction
		want string
	}{
		{page.Correction{X: 1_004_000}, "corrected: 1.0040 × 1.0000"},
		{page.Correction{X: measure.One, Y: 997_000}, "corrected: 1.0000 × 0.9970"},
		{page.Correction{X: measure.One, Y: measure.One}, ""},
		{page.Correction{}, ""},
	} {
		opt := optionsFor(t, "a4")
		opt.Correction = tt.c
		if text := readback.Open(t, pdf(t, opt)).Marks(0).Words(); !strings.Contains(text, tt.want) || tt.want == "" && strings.Contains(text, "corrected") {
			t.Errorf("%v: the sheet does not have %q:\n%s", tt.c, tt.want, text)
		}
	}
}

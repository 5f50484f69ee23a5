package calibration

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// The limits for a printer's error; common practice, no source. A print dialog
// changes lengths by at least 2.7 % (see causes).
const (
	mostOff   = 0.015 // error of one axis of a printer
	mostApart = 0.01  // difference between the axes of a page scaled as a whole
	alike     = 0.004 // difference between a measured ratio and the ratio of a dialog
)

// causes lists the ratios at which print dialogs scale a page. The first two
// follow from the sizes of ISO 216 and ANSI/ASME Y14.1 paper: 279.4/297 and
// 210/215.9. The next three follow from the margins in the CUPS project's
// sample printer descriptions (file sample.drv): letter paper of 612 × 792
// points, fitted between margins of 18/36, 18/18 or 12/12 points. The last two
// are the enlargements 215.9/210 and 297/279.4.
var causes = []struct {
	ratio float64
	what  string
}{
	{0.940741, "an A4 page was fitted to letter paper"},
	{0.972673, "a letter page was fitted to A4 paper"},
	{0.909091, "a letter page was fitted to its printable part, with margins of 1/2 in"},
	{0.941176, "a letter page was fitted to its printable part, with margins of 1/4 in"},
	{0.960784, "a letter page was fitted to its printable part, with margins of 1/6 in"},
	{1.028095, "a page was enlarged from A4 to the width of letter paper"},
	{1.062992, "a page was enlarged from letter to the length of A4 paper"},
}

// Correct compares the measured lengths of the two rulers with their true
// lengths and returns the correction for both axes. It refuses readings that no
// printer produces and names the likely cause.
func Correct(should, measured Pair) (page.Correction, error) {
	x, y := ratio(measured.Across, should.Across), ratio(measured.Down, should.Down)
	if within(measured, should) {
		return page.Correction{X: factor(should.Across, measured.Across), Y: factor(should.Down, measured.Down)}, nil
	}
	if swapped := (Pair{measured.Down, measured.Across}); should.Across != should.Down && within(swapped, should) {
		return page.Correction{}, errors.New("the two readings are swapped; give the ruler along the top of the sheet to --across and the ruler along its left side to --down")
	}
	read := fmt.Sprintf("the ruler across printed at %s of its length and the ruler down at %s", percent(x), percent(y))
	switch found := likely((x + y) / 2); {
	case math.Min(x, y) < 0.5 || math.Max(x, y) > 2:
		return page.Correction{}, fmt.Errorf("%s, which is outside the range of any printer; check the numbers and their units, and check that you measured the sheet for the current paper: its rulers are %s (%s) across and %s (%s) down", read,
			measure.Usual(measure.Inches).Format(should.Across), should.Across, measure.Usual(measure.Inches).Format(should.Down), should.Down)
	case math.Abs(x-y) > mostApart:
		return page.Correction{}, fmt.Errorf("%s: the two readings do not agree; measure both again, from heavy mark to heavy mark", read)
	case found != "":
		return page.Correction{}, fmt.Errorf("%s: the print dialog has scaled the page, most likely because %s; print the sheet again at 100 %%, actual size, on the paper in the settings", read, found)
	}
	return page.Correction{}, fmt.Errorf("%s: a printer is off by at most %s, so the print dialog has scaled the page; print the sheet again at 100 %%, actual size", read, percent(mostOff))
}

// within reports whether the readings fit a printer that is slightly off.
func within(measured, should Pair) bool {
	return math.Abs(ratio(measured.Across, should.Across)-1) <= mostOff && math.Abs(ratio(measured.Down, should.Down)-1) <= mostOff
}

func ratio(a, b measure.Length) float64 { return float64(a) / float64(b) }

func percent(v float64) string { return fmt.Sprintf("%.1f %%", v*100) }

// likely returns the known causes of a page scaled by r, or "".
func likely(r float64) string {
	var found []string
	for _, c := range causes {
		if math.Abs(r-c.ratio) < alike {
			found = append(found, c.what)
		}
	}
	return strings.Join(found, " or ")
}

// factor returns should/measured to the nearest millionth.
func factor(should, measured measure.Length) measure.Factor {
	return measure.Factor(math.Round(float64(should) / float64(measured) * float64(measure.One)))
}

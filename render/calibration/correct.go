package calibration

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// Limits on what a printer is taken to be off by; common practice, no source. A
// print dialog takes at least 2.7 % (see causes).
const (
	mostOff   = 0.015 // of a printer that is used as it is
	mostApart = 0.01  // between the axes of a page that was scaled as a whole
	alike     = 0.004 // how near a ratio is to one that a dialog makes
)

// causes are the ratios at which print dialogs scale a page. The first two follow
// from the sizes of ISO 216 and ANSI/ASME Y14.1 paper: 279.4/297 and 210/215.9;
// the others from the margins in the CUPS project's sample printer descriptions
// (file sample.drv): letter of 612 × 792 points fitted into what lies between
// 18/36, 18/18 or 12/12 points. 297/279.4 and 215.9/210 are the same, enlarged.
var causes = []struct {
	ratio float64
	what  string
}{
	{0.940741, "an A4 page was fitted to letter paper"},
	{0.972673, "a letter page was fitted to A4 paper"},
	{0.909091, "a letter page was fitted to what the printer can print of it, with margins of 1/2 in"},
	{0.941176, "a letter page was fitted to what the printer can print of it, with margins of 1/4 in"},
	{0.960784, "a letter page was fitted to what the printer can print of it, with margins of 1/6 in"},
	{1.028095, "a page was enlarged from A4 to the width of letter paper"},
	{1.062992, "a page was enlarged from letter to the length of A4 paper"},
}

// Correct returns by how much lengths on each axis must be stretched to come out
// as long as they should be, from what was measured of the two rulers. A reading
// that no printer makes is refused, with its likely cause.
func Correct(should, measured Pair) (page.Correction, error) {
	x, y := ratio(measured.Across, should.Across), ratio(measured.Down, should.Down)
	if within(measured, should) {
		return page.Correction{X: factor(should.Across, measured.Across), Y: factor(should.Down, measured.Down)}, nil
	}
	if swapped := (Pair{measured.Down, measured.Across}); should.Across != should.Down && within(swapped, should) {
		return page.Correction{}, errors.New("the two readings have changed places: --across is the ruler along the top of the sheet, --down the one along its left side")
	}
	read := fmt.Sprintf("across came out at %s and down at %s of its length", percent(x), percent(y))
	switch found := likely((x + y) / 2); {
	case math.Min(x, y) < 0.5 || math.Max(x, y) > 2:
		return page.Correction{}, fmt.Errorf("%s, which no printer does; check the numbers, their units, and that the sheet was printed for the paper that is set: %s (%s) across, %s (%s) down", read,
			measure.Usual(measure.Inches).Format(should.Across), should.Across, measure.Usual(measure.Inches).Format(should.Down), should.Down)
	case math.Abs(x-y) > mostApart:
		return page.Correction{}, fmt.Errorf("%s: the two do not agree; measure both again, from heavy mark to heavy mark", read)
	case found != "":
		return page.Correction{}, fmt.Errorf("%s: the print dialog has scaled the page, most likely because %s; print the sheet again at 100 %%, actual size, on the paper that is set", read, found)
	}
	return page.Correction{}, fmt.Errorf("%s: more than the %s that a printer is off by, so the print dialog has scaled the page; print the sheet again at 100 %%, actual size", read, percent(mostOff))
}

// within reports whether readings are those of a printer that is a little off.
func within(measured, should Pair) bool {
	return math.Abs(ratio(measured.Across, should.Across)-1) <= mostOff && math.Abs(ratio(measured.Down, should.Down)-1) <= mostOff
}

func ratio(a, b measure.Length) float64 { return float64(a) / float64(b) }

func percent(v float64) string { return fmt.Sprintf("%.1f %%", v*100) }

// likely returns what makes a page come out at a ratio, or "".
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

package template

import (
	"testing"

	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// The paper lies as takes fewer sheets, upright where that is a tie. By hand, on
// letter: upright leaves 215.9 − 12.7 − 11 = 192.2 mm by 279.4 − 19.05 − 50 =
// 210.35 mm, on its side 279.4 − 25.4 − 11 = 243 mm by 215.9 − 12.7 − 50 = 153.2 mm.
// A band takes its width and 40 mm by its pocket mark and 26 mm.
func TestWayOfPaper(t *testing.T) {
	for _, c := range []struct {
		pocket    measure.Length
		landscape bool
		sheets    int
		src       string
	}{
		{5 * in / 4, false, 2, "102.2 mm high: upright two rows, strips of 126 mm in two; on its side one row, gauge and strip"},
		{2 * in, true, 2, "140.3 mm high: upright one row, gauge and two strips of 126 mm; on its side gauge and strip of 240 mm"},
	} {
		s := shadeOf("bunk", 200*mm, 900*mm)
		s.Allow.Pocket = c.pocket
		all, err := ticket.Make(&ticket.Job{Name: "Heron Landing", Style: measure.Usual(measure.Inches), Shades: []ticket.Shade{s}}, ticket.Options{})
		if err != nil {
			t.Fatal(err)
		}
		sheets, err := lay(bands(all), optionsFor(t, "letter"))
		if err != nil {
			t.Fatal(err)
		}
		if size := sheets[0].Size; len(sheets) != c.sheets || (size.Width > size.Length) != c.landscape {
			t.Errorf("pocket %v: %d sheets of %v × %v; want %d, on its side: %t (%s)", c.pocket, len(sheets), size.Width, size.Length, c.sheets, c.landscape, c.src)
		}
	}
}

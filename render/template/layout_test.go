package template

import (
	"strings"
	"testing"

	"shadewright/render/fullscale"
	"shadewright/render/internal/readback"
	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// The template turns the paper the way that takes fewer sheets, upright if both
// take the same number. By hand, on letter: upright leaves 215.9 − 12.7 − 11 =
// 192.2 mm by 279.4 − 19.05 − 50 = 210.35 mm; on its side leaves 279.4 − 25.4 −
// 11 = 243 mm by 215.9 − 12.7 − 50 = 153.2 mm. A band needs its width plus 40
// mm, by its pocket mark plus 26 mm.
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
		sheets, err := lay(Both.of(bands(all)), optionsFor(t, "letter"))
		if err != nil {
			t.Fatal(err)
		}
		if size := sheets[0].Size; len(sheets) != c.sheets || (size.Width > size.Length) != c.landscape {
			t.Errorf("pocket %v: %d sheets of %v × %v; want %d, on its side: %t (%s)", c.pocket, len(sheets), size.Width, size.Length, c.sheets, c.landscape, c.src)
		}
	}
}

// Both strips at a joint carry its number, and diamonds at the same height.
func TestJoints(t *testing.T) {
	doc := readback.Open(t, pdf(t, optionsFor(t, "letter")))
	var all string
	for i := range doc.Pages() {
		all += doc.Marks(i).Words()
	}
	if !strings.Contains(all, "joint A1 of strip 2") || !strings.Contains(all, "trim here: joint A1") {
		t.Errorf("joint A1 is not on both of its strips:\n%s", all)
	}
	top := 80 * mm
	for n := 1; n < 5; n++ {
		a, b := fullscale.JointMarks(n, top), fullscale.JointMarks(n+1, top)
		for i := range a {
			if (a[i] - b[i]).Abs() < 3*mm {
				t.Errorf("joints %d and %d have diamonds at %s and %s; a strip in the wrong order would match", n, n+1, a[i], b[i])
			}
			if a[i] < 0 || a[i] > top {
				t.Errorf("joint %d has a diamond at %s of %s", n, a[i], top)
			}
		}
	}
}

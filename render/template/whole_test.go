package template

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// byLayer records the lines of each layer.
type byLayer struct {
	page.Recorder
	now   string
	lines map[string][]string
}

func (l *byLayer) Layer(name string) { l.now = name }

func (l *byLayer) Line(from, to page.Point, _ page.Pen) {
	l.lines[l.now] = append(l.lines[l.now], fmt.Sprintf("%v,%v %v,%v", from.X, from.Y, to.X, to.Y))
}

// The band of a panel of 25 in with the usual folds, by hand from its top left
// corner: 20 mm to the cloth's left side and 635 more to its right side. The
// raw edge is 8 + 5 + 3 in = 89.2 mm down. Above it are the hem fold at 12.7,
// the hem mark at 25.4, the pocket fold at 44.45, the stitch row at 73.025 and
// the pocket mark at 76.2.
func TestWhole(t *testing.T) {
	all := Wholes(job(t), Options{Style: measure.Usual(measure.Inches)})
	if len(all) != 3 || all[0].For != "bunk, bunk-2" {
		t.Fatalf("bands %+v", all)
	}
	w := all[0]
	if w.Size != (measure.Size{Width: 675 * mm, Length: 102*mm + mm/5}) {
		t.Errorf("the band is %v × %v", w.Size.Width, w.Size.Length)
	}
	got := &byLayer{lines: map[string][]string{}}
	w.Draw(got)
	for layer, want := range map[string][]string{
		"fold-lines": {"0 mm,76.5 mm 675 mm,76.5 mm", "0 mm,44.75 mm 675 mm,44.75 mm"},
		"mark-lines": {"0 mm,63.8 mm 675 mm,63.8 mm", "0 mm,13 mm 675 mm,13 mm"},
		"stitch-row": {"0 mm,16.175 mm 675 mm,16.175 mm"},
		"cloth-edge": {"0 mm,89.2 mm 675 mm,89.2 mm", "20 mm,89.2 mm 20 mm,8 mm", "655 mm,89.2 mm 655 mm,8 mm"},
		"centre":     {"337.5 mm,89.2 mm 337.5 mm,8 mm"},
		"slat-ends":  {"23.175 mm,44.75 mm 23.175 mm,16.175 mm", "651.825 mm,44.75 mm 651.825 mm,16.175 mm"},
	} {
		have := slices.Clone(got.lines[layer])
		slices.Sort(have)
		slices.Sort(want)
		if !slices.Equal(have, want) {
			t.Errorf("%s: %q; want %q", layer, have, want)
		}
	}
	if n := len(got.lines["scale"]); n != 201 { // eighths of 25 in, including both ends
		t.Errorf("%d marks of the scale; want 201", n)
	}
	if words := got.String(); !strings.Contains(words, "Band A for bunk, bunk-2") || strings.Contains(words, "strip 1") {
		t.Errorf("the text is\n%s", words)
	}
}

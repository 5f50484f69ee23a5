package mounting

import (
	"testing"

	"shadewright/render/fullscale"
	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// holes counts the circles of each layer by their radius.
type holes struct {
	page.Recorder
	now   string
	radii map[string]map[measure.Length]int
}

func (h *holes) Layer(name string) { h.now = name }

func (h *holes) Circle(_ page.Point, radius measure.Length, _ page.Pen) {
	if h.radii[h.now] == nil {
		h.radii[h.now] = map[measure.Length]int{}
	}
	h.radii[h.now][radius]++
}

// The layer holes has the holes of the brackets and nothing else: an inside
// mount with the sample bracket has two of 4 mm and one of 3 mm at each end.
// The roll is dashed and on another layer.
func TestDrawHoles(t *testing.T) {
	s := samples(t)[0]
	if s.name != "inside" {
		t.Fatalf("the first sample is %s", s.name)
	}
	h := &holes{radii: map[string]map[measure.Length]int{}}
	opt := optionsFor(t, "a3", s.style)
	if err := Draw([]Sheet{s.sheet}, opt, func(string, measure.Size) fullscale.Layered { return h }); err != nil {
		t.Fatal(err)
	}
	got := h.radii["holes"]
	if len(got) != 2 || got[2*mm] != 4 || got[mm*3/2] != 2 {
		t.Errorf("holes by radius: %v; want 4 of 2 mm and 2 of 1.5 mm", got)
	}
	if len(h.radii["hidden"]) != 1 {
		t.Errorf("dashed circles: %v; want the roll alone", h.radii["hidden"])
	}
	opt.Margins.Left = 500 * mm
	if err := Draw([]Sheet{s.sheet}, opt, func(string, measure.Size) fullscale.Layered { return h }); err == nil {
		t.Error("Draw does not report paper without room")
	}
}

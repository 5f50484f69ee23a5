package plan

import (
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/render/sheet"
)

// Half a sheet of A4 is too narrow for the list of cuts when upright, so the
// plan turns it on its side: 210 × 148 mm (ISO 216), with every cut on it.
func TestOnItsSide(t *testing.T) {
	s := samples()["small, metric"].make(t)
	p, err := sheet.Named("a5")
	if err != nil {
		t.Fatal(err)
	}
	s.opt.Paper = p
	doc := readback.Open(t, s.pdf(t))
	for i := range doc.Pages() {
		if w, h := doc.Size(i); w < 209.9 || w > 210.1 || h < 147.9 || h > 148.1 {
			t.Errorf("sheet %d is %.1f × %.1f mm; want 210 × 148", i+1, w, h)
		}
		for _, c := range doc.Crowded(i, 6) {
			t.Errorf("sheet %d: %s", i+1, c)
		}
	}
}

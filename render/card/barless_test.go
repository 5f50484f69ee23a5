package card

import (
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/render/sheet"
)

// Barless counts exactly the labels on which a laser scanner finds no bar code.
func TestBarless(t *testing.T) {
	all := made(t, jobOf(inches(), hard()...))[:2]
	for name, g := range grids(t) {
		opt := Options{Margins: sheet.Even(3 * mm), Insist: true, Code128: true}
		n, err := Barless(all, g, opt)
		if err != nil {
			t.Fatal(name, err)
		}
		doc, err := Tags(all, g, opt)
		d := readback.Open(t, printed(t, doc, err))
		bars := 0
		for i := range d.Pages() {
			for _, c := range d.Codes(i, 300) {
				if c.Kind != "QR" {
					bars++
				}
			}
		}
		if want := 4*len(all) - bars; n != want {
			t.Errorf("%s: Barless returns %d labels; %d of %d have no bar code", name, n, want, 4*len(all))
		}
		opt.Code128 = false
		if n, err := Barless(all, g, opt); n != 0 || err != nil {
			t.Errorf("%s: Barless returns %d labels though no bar codes are requested, %v", name, n, err)
		}
	}
}

package template

import (
	"fmt"
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// On a band so narrow that both sides are on one strip, no texts overlap, none
// runs past the cloth's right side, and no instruction is left out.
func TestNarrowBands(t *testing.T) {
	for _, hem := range []measure.Length{0, in / 2} {
		var shades []ticket.Shade
		for w := 4 * in; w <= 12*in; w += in {
			s := shadeOf(fmt.Sprint("w", len(shades)), w, 20*in)
			s.Allow.SideHem = hem
			shades = append(shades, s)
		}
		for _, opt := range []Options{
			optionsFor(t, "letter"), optionsFor(t, "a4"), optionsFor(t, "tabloid"), spanish(t, optionsFor(t, "letter")), spanish(t, optionsFor(t, "a4")),
		} {
			list := tickets(t, shades...)
			sheets, err := lay(Both.of(bands(list)), opt)
			if err != nil {
				t.Fatal(err)
			}
			doc := readback.Open(t, pdfOf(t, list, opt))
			for i, s := range sheets {
				where := fmt.Sprintf("%s, hem %s, %s sheet %d", opt.Language.Tag(), hem, opt.Paper.Name, i+1)
				for _, c := range doc.Crowded(i, 6.3) {
					t.Errorf("%s: %s", where, c)
				}
				for _, it := range s.items {
					if it.strip != nil {
						checkInside(t, where, doc.Marks(i), it, opt)
					}
				}
			}
		}
	}
}

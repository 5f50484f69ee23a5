package template

import (
	"fmt"
	"testing"

	"shadewright/render/internal/proof"
	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// On a band so narrow that both sides are on one strip, no words lie over others
// or run on over the cloth's right side, and none of the acts is left out.
func TestNarrowBands(t *testing.T) {
	for _, hem := range []measure.Length{0, in / 2} {
		var shades []ticket.Shade
		for w := 4 * in; w <= 12*in; w += in {
			s := shadeOf(fmt.Sprint("w", len(shades)), w, 20*in)
			s.Allow.SideHem = hem
			shades = append(shades, s)
		}
		for _, paper := range []string{"letter", "a4", "tabloid"} {
			opt := optionsFor(t, paper)
			list := tickets(t, shades...)
			sheets, err := lay(bands(list), opt)
			if err != nil {
				t.Fatal(err)
			}
			doc := proof.Open(t, pdfOf(t, list, opt))
			for i, s := range sheets {
				where := fmt.Sprintf("hem %s, %s sheet %d", hem, paper, i+1)
				for _, c := range doc.Crowded(i, 6.3) {
					t.Errorf("%s: %s", where, c)
				}
				for _, it := range s.items {
					if it.strip != nil {
						checkInside(t, where, doc.Marks(i), it)
					}
				}
			}
		}
	}
}

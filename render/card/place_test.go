package card

import (
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/render/sheet"
	"shadewright/ticket"
)

// The ticket of each unit states that unit's own place on the cut plan.
func TestPlace(t *testing.T) {
	all := made(t, jobOf(inches(), usual()))
	all[0].Plan = ticket.PlanPlace{Goods: "mesh", Section: 1, Cuts: []int{1, 2, 3, 7}}
	all[1].Plan = ticket.PlanPlace{Goods: "mesh", On: "shelf-3", Cuts: []int{12, 13}}
	doc, err := Tickets(all, Options{Paper: paper(t, "letter"), Margins: sheet.Even(6 * mm)})
	d := readback.Open(t, printed(t, doc, err))
	for i, want := range []string{"Cut plan: section 1, cuts 1–3 and 7", "Cut plan: piece on hand shelf-3, cuts 12 and 13"} {
		found := false
		for _, w := range d.Marks(i).Texts {
			found = found || w.Text == want
		}
		if !found {
			t.Errorf("page %d lacks %q", i+1, want)
		}
	}
}

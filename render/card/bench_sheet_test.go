package card

import (
	"fmt"
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/render/sheet"
	"shadewright/ticket/mark/scan"
	"shadewright/ticket/route"
)

// oddShop is a shop with the longest and oddest that may be on its sheet.
func oddShop() Shop {
	return Shop{
		Route:  route.Usual(),
		People: []string{"Ann", "jörg ß"}, Places: []string{"table 2"},
		Holds:  []string{"ask the client, she may want it in another colour"},
		Spoilt: []string{"cut wrong"},
	}
}

// oddControls are the contents of its codes.
func oddControls() map[string]bool {
	all := map[string]bool{}
	for _, s := range route.Usual() {
		all[scan.Control{Word: scan.Step, Value: s.Key}.String()] = true
	}
	for _, c := range []scan.Control{
		{Word: scan.Next}, {Word: scan.Undo}, {Word: scan.Release}, {Word: scan.Clear},
		{Word: scan.Hold, Value: "ask the client, she may want it in another colour"}, {Word: scan.Remade, Value: "cut wrong"},
		{Word: scan.By, Value: "ann"}, {Word: scan.By, Value: "jörg ß"}, {Word: scan.At, Value: "table 2"},
	} {
		all[c.String()] = true
	}
	return all
}

// Every code of the sheet is read from the paper by another library, on each
// paper and with bar codes or without.
func TestBenchSheetReads(t *testing.T) {
	for _, paper := range []string{"letter", "a4"} {
		for _, bars := range []bool{false, true} {
			t.Run(fmt.Sprint(paper, bars), func(t *testing.T) {
				p, err := sheet.Named(paper)
				if err != nil {
					t.Fatal(err)
				}
				want := oddControls()
				doc, err := Bench(oddShop(), Options{Paper: p, Code128: bars})
				if err != nil {
					t.Fatal(err)
				}
				data, err := doc.Bytes()
				if err != nil {
					t.Fatal(err)
				}
				pdf := readback.Open(t, data)
				qr := map[string]bool{}
				for n := range pdf.Pages() {
					for _, c := range pdf.Codes(n, 200) {
						if !want[c.Text] {
							t.Errorf("page %d: %s %q is not on the sheet", n+1, c.Kind, c.Text)
						}
						if c.Kind == "QR" {
							qr[c.Text] = true
						}
					}
				}
				for content := range want {
					if !qr[content] {
						t.Errorf("no symbol reads %q", content)
					}
				}
			})
		}
	}
}

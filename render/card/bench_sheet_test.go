package card

import (
	"fmt"
	"testing"

	"shadewright/render/internal/proof"
	"shadewright/render/sheet"
	"shadewright/ticket/mark/scan"
	"shadewright/ticket/route"
)

// benchGroups returns a sheet with the longest and oddest that may be on it.
func benchGroups() (groups []BenchGroup, contents map[string]bool) {
	contents = map[string]bool{}
	add := func(name string, controls ...scan.Control) {
		g := BenchGroup{Name: name}
		for _, c := range controls {
			g.Codes = append(g.Codes, BenchCode{Says: string(c.Word) + " " + c.Value, Content: c.String()})
			contents[c.String()] = true
		}
		groups = append(groups, g)
	}
	var steps []scan.Control
	for _, s := range route.Usual() {
		steps = append(steps, scan.Control{Word: scan.Step, Value: s.Key})
	}
	add("Steps", steps...)
	add("Next ticket", scan.Control{Word: scan.Undo}, scan.Control{Word: scan.Release}, scan.Control{Word: scan.Hold, Value: "ask the client, she may want it in another colour"})
	add("People", scan.Control{Word: scan.By, Value: "ann"}, scan.Control{Word: scan.By, Value: "jörg ß"})
	return groups, contents
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
				groups, want := benchGroups()
				doc, err := Bench(groups, Options{Paper: p, Code128: bars})
				if err != nil {
					t.Fatal(err)
				}
				data, err := doc.Bytes()
				if err != nil {
					t.Fatal(err)
				}
				pdf := proof.Open(t, data)
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

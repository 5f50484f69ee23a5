package bench

import (
	"fmt"
	"strings"
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/render/language"
	"shadewright/render/sheet"
	"shadewright/ticket/mark/scan"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

// oddShop returns a shop with the longest and strangest names that a sheet may
// have.
func oddShop() Shop {
	return Shop{
		Route:  route.Usual(),
		People: []string{"Ann", "jörg ß"}, Places: []string{"table 2"},
		Holds:  []string{"ask the client, she may want it in another colour"},
		Spoilt: []string{"cut wrong"},
	}
}

// oddControls returns the contents of its codes.
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

// Another library reads every code of the sheet from the paper, on each paper,
// with and without bar codes.
func TestBenchSheetReads(t *testing.T) {
	for _, name := range []string{"letter", "a4"} {
		for _, bars := range []bool{false, true} {
			t.Run(fmt.Sprint(name, bars), func(t *testing.T) {
				want := oddControls()
				pdf := printed(t, oddShop(), Options{Paper: paper(t, name), Code128: bars})
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
						t.Errorf("no symbol has the content %q", content)
					}
				}
			})
		}
	}
}

// printed draws a sheet and reads it back.
func printed(t *testing.T, shop Shop, opt Options) *readback.Document {
	t.Helper()
	doc, err := Document(shop, opt)
	if err != nil {
		t.Fatal(err)
	}
	data, err := doc.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return readback.Open(t, data)
}

func paper(t *testing.T, name string) sheet.Paper {
	t.Helper()
	p, err := sheet.Named(name)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Every word of the bench sheet is translated, except the contents of its
// codes.
func TestEveryWordOfTheBenchSheetIsTranslated(t *testing.T) {
	shop := oddShop()
	shop.People, shop.Places = []string{"nn"}, []string{"tbl 2"}
	shop.Holds = []string{"ask the client", "dry cln"} // the program's own text, and one of the shop's
	d := printed(t, shop, Options{Paper: paper(t, "letter"), Language: readback.Marked()})
	for _, w := range readback.Unmarked(d.Title()) {
		t.Errorf("the title has %q, which did not pass through the language", w)
	}
	for i := range d.Pages() {
		for _, w := range readback.Unmarked(d.Marks(i).Words()) {
			if w != strings.ToUpper(w) {
				t.Errorf("page %d has %q, which did not pass through the language", i+1, w)
			}
		}
	}
}

// The longest texts of each language fit.
func TestLanguagesFit(t *testing.T) {
	for _, lang := range language.All() {
		for _, bars := range []bool{false, true} {
			p := paper(t, "a4")
			d := printed(t, oddShop(), Options{Paper: p, Code128: bars, Language: lang})
			for i := range d.Pages() {
				d.Marks(i).Clean(t, i, p, sheet.Margins{})
			}
		}
	}
}

func TestSmallPaper(t *testing.T) {
	const want = "paper 60 mm × 60 mm is too small for the bench sheet: the margins leave 36 mm × 38 mm, but 88 mm × 43 mm is needed; use a5, letter, a4 or larger"
	p, err := sheet.Sized(60*mm, 60*mm)
	if err != nil {
		t.Fatal(err)
	}
	_, err = Document(oddShop(), Options{Paper: p, Style: measure.Usual(measure.Millimetres)})
	if err == nil || err.Error() != want {
		t.Errorf("got %v; want %s", err, want)
	}
}

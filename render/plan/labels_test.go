package plan

import (
	"strings"
	"testing"
	"unicode"

	"shadewright/render/flow"
	"shadewright/render/internal/readback"
)

// The name and the size of every panel stand whole on the drawing, at 7 pt or more, as
// PDFium reads them. The list of cuts joins
// a name and its size in one text, so it does not count here.
func TestLabelsReadable(t *testing.T) {
	for name, o := range samples() {
		for _, paper := range readback.Few([]string{"a4", "letter", "legal"}, 2) {
			s := o.make(t)
			s.opt.Paper = paperOf(t, paper)
			on, err := On(s.opt)
			if err != nil {
				t.Fatal(err)
			}
			b := readback.Bytes(t, flow.Document("cut plan", Sheets(on, s.plans, s.table)), nil)
			doc := readback.Open(t, b)
			var texts []readback.Text
			for i := range doc.Pages() {
				texts = append(texts, doc.Marks(i).Texts...)
			}
			for _, p := range s.plans {
				for _, k := range p.Panels {
					z := k.Size()
					for _, want := range []string{k.Ticket.Name(), on.Size(z.Width, z.Length)} {
						if !readable(texts, bare(want)) {
							t.Errorf("%s on %s: %s: %q is not on the drawing at 7 pt or more", name, paper, k.Ticket.Name(), want)
						}
					}
				}
			}
		}
	}
}

// readable reports whether the words stand somewhere in type of at least 7 pt. PDFium
// reads a fraction in parts; its digits are smaller than the type that they belong to.
func readable(texts []readback.Text, words string) bool {
	for i := range texts {
		if texts[i].Size < 7*25.4/72-0.01 { // mm
			continue
		}
		got := ""
		for k := i; k < len(texts) && len(got) < len(words); k++ {
			got += bare(texts[k].Text)
		}
		if got == words {
			return true
		}
	}
	return false
}

// bare returns a text without spaces: PDFium puts some of its own around a fraction.
func bare(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return -1
		}
		return r
	}, s)
}

package readback

import (
	"regexp"
	"strings"
	"testing"

	"shadewright/render/language"
)

// Spanish returns Spanish, the language with the longest texts.
func Spanish(t testing.TB) language.Language {
	t.Helper()
	l, err := language.Named("es")
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// coded matches sizes, codes and revisions, which may look like words.
var coded = regexp.MustCompile(`\S*\d\S*|\b[A-Z]{3}-[A-Z]{4}-[A-Z]{3}\b`)

// CheckMarked fails the test for each word of a document, drawn in the language
// [Marked], that did not pass through the language. Own lists words that stay
// as they are.
func (d *Document) CheckMarked(own ...string) {
	d.t.Helper()
	own = append(strings.Fields(strings.Join(own, " ")), "min") // minutes, the same in every language
	for _, w := range Unmarked(d.Title(), own...) {
		d.t.Errorf("the title has %q, which did not pass through the language", w)
	}
	for i := range d.Pages() {
		for _, w := range Unmarked(coded.ReplaceAllString(d.Marks(i).Words(), " "), own...) {
			d.t.Errorf("page %d has %q, which did not pass through the language", i+1, w)
		}
	}
}

// CheckFits fails the test for texts that overlap, are closer than margin to
// the edge of the paper, or are cut off with an ellipsis. Own lists the
// program's own texts that end in an ellipsis.
func (d *Document) CheckFits(margin float64, own ...string) {
	d.t.Helper()
	for i := range d.Pages() {
		for _, c := range d.Crowded(i, margin) {
			d.t.Errorf("page %d: %s", i+1, c)
		}
		for _, t := range d.Marks(i).Texts {
			if !strings.HasSuffix(t.Text, "…") {
				continue
			}
			known := false
			for _, o := range own {
				known = known || strings.HasSuffix(t.Text, o)
			}
			if !known {
				d.t.Errorf("page %d: %q is cut off", i+1, t.Text)
			}
		}
	}
}

package intake

import (
	"slices"
	"testing"
)

// The sheet says 3 for the boathouse, which has 2 + 1, and 5 in all, where the rows
// have 4 in all and 1 since the total before. By hand.
func TestTotals(t *testing.T) {
	res, err := readSheet(t, "sections.csv", optionsFor(t, "bunkhouse", 0))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"row 2 heads a section: the shades below it are in Boathouse",
		"row 5 is a total, so it was left out",
		"row 8 is a total, so it was left out; it says 5, and the rows above it have 4: look for a row that is missing or counted twice",
	} {
		if !slices.Contains(res.Notes, want) {
			t.Errorf("the notes %q lack %q", res.Notes, want)
		}
	}
}

// A job made like another keeps the parts that no shade uses yet.
func TestUnusedPartsAreKept(t *testing.T) {
	res, err := readSheet(t, "sections.csv", optionsFor(t, "bunkhouse", 0))
	if err != nil {
		t.Fatal(err)
	}
	parts := res.File.Parts
	if _, ok := parts.Rollers["stairs"]; !ok {
		t.Errorf("the roller stairs is gone; left are %v", parts.Rollers)
	}
	if _, ok := parts.Brackets["wall"]; !ok {
		t.Errorf("the bracket wall is gone; left are %v", parts.Brackets)
	}
	if len(parts.Goods) != 3 || len(parts.Slats) != 4 {
		t.Errorf("%d goods and %d slats; the sample has 3 and 4", len(parts.Goods), len(parts.Slats))
	}
}

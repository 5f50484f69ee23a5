package message

import "testing"

// testTexts are part of the catalogue while this package's tests run. The tests use
// them, so that a new wording of the program's own texts breaks no test here.
var testTexts = texts{
	"test.one":    {"one", "uno"},
	"test.and":    {"%s and %s", "%[2]s y %[1]s"}, // turned round, as a translator may
	"test.hem":    {"the hem of %s", "el dobladillo de %s"},
	"test.more":   {"10 %% more", "un 10 %% más"},
	"test.share":  {"%d %% more", "un %d %% más"},
	"test.full":   {"at 100 %, no less", "al 100 %, no menos"},
	"test.shade":  {"%d shade of %s", "%d cortina de %s"},
	"test.shades": {"%d shades of %s", "%d cortinas de %s"},
	"test.turned": {"%[2]s, and %[1]d", "%[1]d: %[2]s"},
	"test.quoted": {"%q is not a length", "%q no es una medida"},
}

func init() { parts = append(parts, testTexts) }

// An id is in one table only, or a change of its row could have no effect.
func TestNoIDTwice(t *testing.T) {
	seen := map[ID]bool{}
	for _, part := range parts {
		for id := range part {
			if seen[id] {
				t.Errorf("two tables have a text %q", id)
			}
			seen[id] = true
		}
	}
	if len(seen) < 800 {
		t.Errorf("the catalogue has %d texts; the program has more", len(seen))
	}
}

// An id that the catalogue lacks is shown with its arguments.
func TestUnknownID(t *testing.T) {
	if got, want := Of("card.not-yet-made", "7 mm", Of("test.one"), 2).String(), "card.not-yet-made (7 mm, one, 2)"; got != want {
		t.Errorf("%q; want %q", got, want)
	}
}

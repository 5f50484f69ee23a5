package readback

import (
	"slices"
	"testing"

	"shadewright/ticket/message"
)

func TestUnmarked(t *testing.T) {
	l := Marked()
	shown := l.Put(message.Of("the hem of %s, left", "12 mm")) + " pocket of bunk-left 250 mm ABC"
	// By hand: of the words that bypassed the language, "pocket" and "bunk" are
	// not in the list of own words; "of" and "mm" are too short to count.
	if got, want := Unmarked(shown, "abc", "left"), []string{"pocket", "bunk"}; !slices.Equal(got, want) {
		t.Errorf("Unmarked(%q) = %q; want %q", shown, got, want)
	}
}

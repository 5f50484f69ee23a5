package pseudo

import (
	"slices"
	"testing"

	"shadewright/ticket/message"
)

func TestUnmarked(t *testing.T) {
	m := message.Of("the slat of %s needs %s, and %s", "Bunk", "43 in", message.Verbatim("more cloth"))
	if got, want := Put(m), "thé slát óf Bunk nééds 43 in, ánd more cloth"; got != want {
		t.Errorf("Put = %q; want %q", got, want)
	}
	// "in" is shorter than three letters; "cloth" has its vowel, "bunk" is own.
	if got, want := Unmarked(Put(m), "bunk"), []string{"more", "cloth"}; !slices.Equal(got, want) {
		t.Errorf("Unmarked = %q; want %q", got, want)
	}
}

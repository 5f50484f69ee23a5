package finding

import (
	"slices"
	"testing"

	"shadewright/ticket/phrase"
)

func TestSort(t *testing.T) {
	f := []Finding{
		{Level: Note, Text: phrase.Of("a")}, {Level: Stop, Text: phrase.Of("b")}, {Level: Caution, Text: phrase.Of("c")},
		{Level: Note, Text: phrase.Of("d")}, {Level: Stop, Text: phrase.Of("e")}, {Level: Caution, Text: phrase.Of("f")},
	}
	Sort(f)
	var got []string
	for _, x := range f {
		got = append(got, x.Level.String()+" "+x.Text.String())
	}
	// By hand: worst first, each level in the order found.
	want := []string{"stop b", "stop e", "caution c", "caution f", "note a", "note d"}
	if !slices.Equal(got, want) {
		t.Errorf("Sort: got %q; want %q", got, want)
	}
}

func TestUnknownLevel(t *testing.T) {
	if got := Level(9).String(); got != "unknown level" {
		t.Errorf("Level(9) = %q; want a word, not a panic", got)
	}
}

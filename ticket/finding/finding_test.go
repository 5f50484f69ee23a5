package finding

import (
	"slices"
	"testing"

	"shadewright/ticket/message"
)

func TestSort(t *testing.T) {
	f := []Finding{
		{Level: Note, Text: message.Of("a")}, {Level: Stop, Text: message.Of("b")}, {Level: Caution, Text: message.Of("c")},
		{Level: Unchecked, Text: message.Of("u")}, {Level: Note, Text: message.Of("d")}, {Level: Stop, Text: message.Of("e")}, {Level: Caution, Text: message.Of("f")},
	}
	Sort(f)
	var got []string
	for _, x := range f {
		got = append(got, x.Level.String()+" "+x.Text.String())
	}
	// By hand: worst first, and each level in its order.
	want := []string{"stop b", "stop e", "caution c", "caution f", "unchecked u", "note a", "note d"}
	if !slices.Equal(got, want) {
		t.Errorf("Sort: got %q; want %q", got, want)
	}
}

// The word for a person is the word for a program, but as a text in the catalogue.
func TestLevelMessage(t *testing.T) {
	for _, l := range []Level{Note, Unchecked, Caution, Stop} {
		if p := l.Message(); p.String() != l.String() || p.ID == "" {
			t.Errorf("%s is said %q", l, p)
		}
	}
}

func TestEqual(t *testing.T) {
	f := Finding{Level: Stop, Field: "slat", Text: message.Of("needs %s", "43 mm"), Remedy: message.Of("use %d", 2)}
	same := f
	same.Text = message.Of("needs %s", message.Verbatim("43 mm"))
	other := f
	other.Remedy = message.Of("use %d", 3)
	if !f.Equal(same) || f.Equal(other) {
		t.Errorf("Equal: %v for the same words, %v for another remedy; want true, false", f.Equal(same), f.Equal(other))
	}
}

func TestUnknownLevel(t *testing.T) {
	if got := Level(9).String(); got != "unknown level" {
		t.Errorf("Level(9) = %q; want a word, not a panic", got)
	}
}

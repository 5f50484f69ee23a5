package form

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The distances were counted by hand.
func TestNearest(t *testing.T) {
	keys := []string{"finished", "width", "length", "hem", "stitch_inset", "mm", "in"}
	tests := []struct{ word, want, why string }{
		{"finised", "finished", "one letter left out"},
		{"finnished", "finished", "one too many"},
		{"lenght", "length", "two swapped"},
		{"wdith", "width", "two swapped in a short word"},
		{"Stitch-Inset", "stitch_inset", "capitals and a dash do not count"},
		{"stitch inset", "stitch_inset", "nor does a space"},
		{"hemm", "hem", "one of four letters"},
		{"hemmed", "", "three of six letters are too many"},
		{"cm", "", "a two-letter word is never guessed at"},
		{"MM", "mm", "but for its capitals"},
		{"", "", "the empty word is near to no word"},
		{"breite", "", "another word"},
		{strings.Repeat("x", 1000), "", "too long to be meant"},
	}
	for _, tt := range tests {
		if got := Nearest(tt.word, keys); got != tt.want {
			t.Errorf("Nearest(%q) = %q; want %q (%s)", tt.word, got, tt.want, tt.why)
		}
	}
}

func TestDistanceIsSymmetric(t *testing.T) {
	word := rapid.StringMatching(`[a-d]{0,8}`)
	rapid.Check(t, func(t *rapid.T) {
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		d := distance(a, b)
		switch {
		case d != distance(b, a):
			t.Fatalf("distance(%q, %q) = %d and back %d", a, b, d, distance(b, a))
		case (d == 0) != (a == b), d > max(len(a), len(b)), d < max(len(a), len(b))-min(len(a), len(b)):
			t.Fatalf("distance(%q, %q) = %d", a, b, d)
		}
	})
}

// A message stays short, however many words there are to choose from.
func TestSuggest(t *testing.T) {
	var many []string
	for i := range 10_000 {
		many = append(many, fmt.Sprintf("roller-number-%d", i))
	}
	for _, tt := range []struct {
		known []string
		want  string
	}{
		{nil, "there are no rollers"},
		{[]string{"donor", "porch"}, "the rollers are donor, porch"},
		{[]string{"donor", "bambo"}, "did you mean bambo?"},
	} {
		if got := Suggest("bamboo", "rollers", tt.known); got != tt.want {
			t.Errorf("Suggest(%q) = %q; want %q", tt.known, got, tt.want)
		}
	}
	if got := Suggest("bamboo", "rollers", many); !strings.HasSuffix(got, ", roller-number-19 and 9980 more") {
		t.Errorf("Suggest among 10,000 = %q", got)
	}
}

func TestProblemString(t *testing.T) {
	f := Fault{"is negative", "write a length above zero"}
	for _, tt := range []struct {
		p    Problem
		want string
	}{
		{Problem{File: "job.yaml", Line: 7, Field: "allow.hem", Value: "-1/2", Fault: f}, `job.yaml:7: allow.hem: "-1/2" is negative; write a length above zero`},
		{Problem{File: "job.yaml", Fault: Fault{Problem: "is empty"}}, `job.yaml: is empty`},
		{Problem{File: "job.yaml", Line: 1, Value: "a\tb\u202e", Fault: f}, `job.yaml:1: "a\tb\u202e" is negative; write a length above zero`},
		{Problem{File: "job.yaml", Line: 1, Value: strings.Repeat("é", 61), Fault: f}, `job.yaml:1: "` + strings.Repeat("é", 60) + `…" is negative; write a length above zero`},
	} {
		if got := tt.p.String(); got != tt.want {
			t.Errorf("got  %s\nwant %s", got, tt.want)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"a: 1\n", "a: [\n", "- &x {b: *x}\n", "\t", "a: |\n  x\n", "a: \"\\x\"", "%YAML 9.9\n", "? [a]\n: b\n", "{a: 4,5}", "a: *b*", "---\n---\n", "a:\n b\n  c: d\n- e"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		top, bad := Parse("f", data)
		if top == nil && len(bad) == 0 {
			t.Fatal("neither a node nor a problem")
		}
		if top != nil && top.Shape != Keys && top.Shape != Blank {
			t.Fatalf("the top %s", top.Shape)
		}
	})
}

package jobfile

import (
	"strings"
	"testing"

	"shadewright/ticket/form"
)

// kept is a job with remarks of its owner.
const kept = `# the hut
job: Hut   # short
id: 5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31
units: in

goods:
  mesh: {kind: coated-mesh, width: 58, lay: any}   # the last roll

rollers:
  donor: {tube: 1-1/8, shortest: 20, longest: 36, count: 3}
slats:
  flat: {width: 1, thickness: 3/32}

# from the door round
shades:
  - id: left
    goods: mesh
    roller: donor
    slat: flat
    finished: {width: 27-1/2, length: 40}   # measured twice

  # the crank is new
  - id: right
    goods: mesh
    roller: donor
    slat: flat
    finished: {width: 26, length: 37}
`

// A new key stands where the table has it, and nothing else changes. The wanted texts
// were written by hand.
func TestRevise(t *testing.T) {
	for _, tt := range []struct {
		path, value string
		old, new    string
	}{
		{"client", "the ferry", "9c31\n", "9c31\nclient: the ferry\n"},
		{"paper", "a4", "units: in\n", "units: in\npaper: a4\n"},
		{"goods mesh thickness", "0.6 mm", "width: 58,", "width: 58, thickness: 0.6 mm,"},
		{"rollers donor spring", "trial", ", count", ", spring: trial, count"},
		{"rollers spare tube", "1-1/4", "count: 3}\n", "count: 3}\n  spare: {tube: 1-1/4}\n"},
		{"shades left quantity", "2", "    finished: {width: 27-1/2", "    quantity: 2\n    finished: {width: 27-1/2"},
		{"shades right place", "the door", "- id: right\n", "- id: right\n    place: the door\n"},
		{"shades right", "", "\n  # the crank is new\n  - id: right\n    goods: mesh\n    roller: donor\n    slat: flat\n    finished: {width: 26, length: 37}\n", ""},
	} {
		top, bad := form.Parse("hut.yaml", []byte(kept))
		if bad != nil {
			t.Fatal(bad)
		}
		var v *form.Node
		if tt.value != "" {
			v = form.TextNode(tt.value)
		}
		if strings.Count(kept, tt.old) != 1 {
			t.Fatalf("%s: %q stands there %d times", tt.path, tt.old, strings.Count(kept, tt.old))
		}
		got, err := Revise("hut.yaml", []byte(kept), top.With(v, strings.Fields(tt.path)...), Options{})
		if want := strings.Replace(kept, tt.old, tt.new, 1); err != nil || string(got) != want {
			t.Errorf("%s: %v\n%s\nwant\n%s", tt.path, err, got, want)
		}
	}
}

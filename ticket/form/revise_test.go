package form

import (
	"bytes"
	"errors"
	"strings"
	"testing"
)

// lake is a file as a person keeps it. The tests change it with the functions below.
const lake = `# Lean-to by the lake
job: Lean-to   # short
goods:
  mesh: {kind: coated-mesh, width: 58,   # the roll
    thickness: 0.6 mm}

  # for the door
  canvas:
    kind: canvas
    width: 60 # narrow

shades:
  # from the door round

  - id: left
    note: "the \"left\" one"   # quoted
    finished: {width: 27-1/2, length: 40}
    # end of left

  # the crank is new
  - id: middle
    note: |
      first line
      second line
    finished:
      # measured twice
      width: 30   # wide
      length: 41

  - id: right
    opening:
      widths: [34-7/16, 34-3/8, 34-1/2]   # top, middle, bottom
      obstructions:
        - {name: crank, proud: 1}
        - name: handle
          proud: 2
# that is all
`

// change returns a copy of a node with another value at a path of keys and of labels of
// items; a nil value removes it. It does not use the code under test.
func change(n *Node, v *Node, path ...string) *Node {
	if len(path) == 0 {
		return v
	}
	out := &Node{Shape: n.Shape, Text: n.Text}
	found := false
	for _, e := range n.Entries {
		if e.Key == path[0] {
			found = true
			e.Value = change(e.Value, v, path[1:]...)
			if e.Value == nil {
				continue
			}
		}
		out.Entries = append(out.Entries, e)
	}
	for _, item := range n.Items {
		if l := item.At("id"); l != nil && l.Text == path[0] || item.At("name") != nil && item.At("name").Text == path[0] {
			found = true
			if item = change(item, v, path[1:]...); item == nil {
				continue
			}
		}
		out.Items = append(out.Items, item)
	}
	if !found && n.Shape == List {
		out.Items = append(out.Items, v)
	} else if !found {
		out.Entries = append(out.Entries, Entry{Key: path[0], Value: change(&Node{Shape: Keys}, v, path[1:]...)})
	}
	return out
}

func text1(s string) *Node { return &Node{Shape: Plain, Text: s} }

func group1(pairs ...string) *Node {
	n := &Node{Shape: Keys}
	for i := 0; i < len(pairs); i += 2 {
		n.Entries = append(n.Entries, Entry{Key: pairs[i], Value: text1(pairs[i+1])})
	}
	return n
}

// Each case replaces a part of the file, and nothing else changes. All texts were
// written by hand.
func TestRevise(t *testing.T) {
	for _, tt := range []struct {
		path     string
		value    *Node
		old, new string // old is the part of the file that changes
	}{
		{"job", text1("Boathouse"), "job: Lean-to ", "job: Boathouse "},
		{"client", text1("the ferry"), "# that is all\n", "# that is all\n\nclient: the ferry\n"},
		{"goods/mesh/width", text1("59-1/2"), "width: 58,", "width: 59-1/2,"},
		{"goods/mesh/lay", text1("any"), "0.6 mm}", "0.6 mm, lay: any}"},
		{"goods/mesh/thickness", nil, "    thickness: 0.6 mm}", "    }"},
		{"goods/mesh/kind", nil, "{kind: coated-mesh, width", "{width"},
		{"goods/mesh", nil, "  mesh: {kind: coated-mesh, width: 58,   # the roll\n    thickness: 0.6 mm}\n\n", ""},
		{"goods/canvas", nil, "\n  # for the door\n  canvas:\n    kind: canvas\n    width: 60 # narrow\n", ""},
		{"goods/canvas/width", text1("61"), "width: 60 #", "width: 61 #"},
		{"goods/lining", group1("kind", "blackout-lining", "width", "72"), "narrow\n", "narrow\n\n  lining: {kind: blackout-lining, width: 72}\n"},
		{"goods/canvas", text1("none"), "  canvas:\n    kind: canvas\n    width: 60 # narrow\n", "  canvas: none\n"},
		{"shades/left/note", text1("plain: now"), `"the \"left\" one" `, `"plain: now" `},
		{"shades/left/note", nil, "    note: \"the \\\"left\\\" one\"   # quoted\n", ""},
		{"shades/left/finished/width", text1("27-3/4"), "width: 27-1/2", "width: 27-3/4"},
		{"shades/left/finished", group1("width", "1", "length", "2"), "{width: 27-1/2, length: 40}", "{width: 1, length: 2}"},
		{"shades/left/roll", text1("reverse"), "    # end of left\n", "    # end of left\n    roll: reverse\n"},
		{"shades/left", nil, "  - id: left\n    note: \"the \\\"left\\\" one\"   # quoted\n    finished: {width: 27-1/2, length: 40}\n    # end of left\n\n", ""},
		{"shades/middle", nil, "  # the crank is new\n  - id: middle\n    note: |\n      first line\n      second line\n    finished:\n      # measured twice\n      width: 30   # wide\n      length: 41\n\n", ""},
		{"shades/middle/note", text1("one line"), "note: |\n      first line\n      second line\n", "note: one line\n"},
		{"shades/middle/finished/width", text1("30-1/8"), "width: 30 ", "width: 30-1/8 "},
		{"shades/middle/id", text1("centre"), "id: middle", "id: centre"},
		{"shades/right", nil, "\n  - id: right\n    opening:\n      widths: [34-7/16, 34-3/8, 34-1/2]   # top, middle, bottom\n      obstructions:\n        - {name: crank, proud: 1}\n        - name: handle\n          proud: 2\n", ""},
		{"shades/porch", group1("id", "porch", "note", "two\nlines"), "          proud: 2\n", "          proud: 2\n\n  - id: porch\n    note: |-\n      two\n      lines\n"},
		{"shades/right/opening/widths", &Node{Shape: List, Items: []*Node{text1("34-7/16"), text1("34"), text1("34-1/2")}}, "34-3/8", "34"},
		{"shades/right/opening/widths", &Node{Shape: List, Items: []*Node{text1("34-3/8"), text1("34-1/2")}}, "34-7/16, ", ""},
		{"shades/right/opening/obstructions/crank/proud", text1("1-1/2"), "proud: 1}", "proud: 1-1/2}"},
		{"shades/right/opening/obstructions", text1("none"), "obstructions:\n        - {name: crank, proud: 1}\n        - name: handle\n          proud: 2\n", "obstructions: none\n"},
		{"shades/right/opening/obstructions/handle", nil, "        - name: handle\n          proud: 2\n", ""},
	} {
		for _, form := range []struct{ name, eol, mark string }{{"", "\n", ""}, {"Windows ", "\r\n", "\ufeff"}} {
			as := func(s string) string { return form.mark + strings.ReplaceAll(s, "\n", form.eol) }
			in := as(lake)
			n, bad := Parse("lake.yaml", []byte(in))
			if bad != nil {
				t.Fatal(bad)
			}
			if strings.Count(lake, tt.old) != 1 {
				t.Fatalf("%s: the file has %q %d times", tt.path, tt.old, strings.Count(lake, tt.old))
			}
			want := as(strings.Replace(lake, tt.old, tt.new, 1))
			got, err := Revise("lake.yaml", []byte(in), change(n, tt.value, strings.Split(tt.path, "/")...))
			if err != nil || string(got) != want {
				t.Errorf("%s%s: %v\n%s", form.name, tt.path, err, firstDifference(string(got), want))
			}
		}
	}
}

func firstDifference(got, want string) string {
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range g {
		if i >= len(w) || g[i] != w[i] {
			return "got " + strings.Join(g[i:min(i+6, len(g))], "\n") + "\nwant " + strings.Join(w[min(i, len(w)):min(i+6, len(w))], "\n")
		}
	}
	return "want more: " + strings.Join(w[len(g):], "\n")
}

// Without a change every byte stays.
func TestReviseNothing(t *testing.T) {
	for _, in := range []string{lake, "", "# only\r\n", "\ufeffa: 1", "a: {b: 1,}\n...\n"} {
		n, bad := Parse("a.yaml", []byte(in))
		if bad != nil {
			t.Fatal(bad)
		}
		if got, err := Revise("a.yaml", []byte(in), n); err != nil || !bytes.Equal(got, []byte(in)) {
			t.Errorf("%q: %v, %q", in, err, got)
		}
	}
}

// What cannot be changed safely is refused with its place, and with what to do.
func TestReviseByHand(t *testing.T) {
	for _, tt := range []struct{ in, path, value, want string }{
		{"a: 1\n? b\n: 2\n", "a", "3", "j.yaml:2: has a form that Shadewright cannot change safely; change it in a text editor"},
		{"a: [b: 1]\n", "a", "3", "j.yaml:1: has a form that Shadewright cannot change safely; change it in a text editor"},
		{"a: 1\n...\n", "b", "2", "j.yaml:3: has a form that Shadewright cannot change safely; add b there in a text editor"},
	} {
		n, bad := Parse("j.yaml", []byte(tt.in))
		if bad != nil {
			t.Fatal(bad)
		}
		_, err := Revise("j.yaml", []byte(tt.in), change(n, text1(tt.value), tt.path))
		if !errors.Is(err, ErrByHand) || err.Error() != tt.want {
			t.Errorf("%q: %v; want %s", tt.in, err, tt.want)
		}
	}
}

// With follows keys and the names of items, and leaves the node it starts from alone.
func TestWith(t *testing.T) {
	n, bad := Parse("lake.yaml", []byte(lake))
	if bad != nil {
		t.Fatal(bad)
	}
	before := change(n, text1("Lean-to"), "job") // a deep copy of what is on the path
	for _, tt := range []struct {
		value *Node
		path  string
	}{
		{text1("1"), "shades/left/finished/width"},
		{text1("1"), "shades/right/opening/obstructions/crank/proud"},
		{group1("id", "porch"), "shades/porch"},
		{text1("any"), "goods/mesh/lay"},
		{group1("kind", "canvas"), "goods/duck"},
		{nil, "shades/middle"},
		{nil, "goods/canvas/width"},
	} {
		path := strings.Split(tt.path, "/")
		got := n.With(tt.value, path...)
		if !sameNodes(got, change(n, tt.value, path...)) {
			t.Errorf("%s: %+v", tt.path, got)
		}
		if at := got.Get(path...); tt.value == nil != (at == nil) || at != nil && !sameNodes(at, tt.value) {
			t.Errorf("%s: Get gives %+v", tt.path, at)
		}
	}
	if out := n.With(nil, "goods", "mesh").With(nil, "goods", "canvas"); out.At("goods") != nil {
		t.Error("an empty group stays")
	}
	if !sameNodes(n, before) {
		t.Error("the node changed")
	}
}

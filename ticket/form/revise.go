package form

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// ErrByHand says that only a person can safely change the file: its form is one
// that [Revise] does not handle.
var ErrByHand = errors.New("has a form that Shadewright cannot change safely")

// Revise returns the text of a file changed so that [Parse] reads it as want. It
// changes as few values, entries and items as possible. All other bytes stay: comments,
// empty lines, order, quotes, braces, line ends and byte order mark.
//
// Take want from Parse and change copies of its nodes, as [Node.With] does. The order of want's keys matters only for new keys: a new key goes behind
// the nearest key above it in want. A new item goes where it stands in want. Groups in a
// list are known again by their key id or name.
//
// An entry that goes takes with it the comments inside it, behind it, and directly
// above it without an empty line between. Comments above the first entry of a group stay.
//
// The error is a [Problems] if the file cannot be read as YAML. It wraps [ErrByHand], and
// says where the file must be changed and how, if that cannot be done without risk to the
// rest of the file. Revise writes no file; after an error the file is as it was.
func Revise(file string, data []byte, want *Node) ([]byte, error) {
	return revise(file, data, want, false)
}

// Edit changes or adds the value at a path of keys and returns the new text, as
// [Revise] does. A new key goes to the start of a group, on a line of its own.
func Edit(file string, data []byte, path []string, value string) ([]byte, error) {
	before, bad := Parse(file, data)
	if bad != nil {
		return nil, bad
	}
	want, line := with(before, path, value)
	if want != nil && len(want.Entries) > len(before.Entries) { // a new group goes to the end of the file
		want.Entries = append(want.Entries[1:], want.Entries[0])
	}
	if want == nil {
		return nil, byHand(file, line, strings.Join(path, "."), "write "+value+" there in a text editor")
	}
	return revise(file, data, want, true)
}

// byHand returns an error that says where to change the file, and how.
func byHand(file string, line int, field, how string) error {
	if line > 0 {
		file = fmt.Sprintf("%s:%d", file, line)
	}
	if field != "" {
		file += ": " + field
	}
	return fmt.Errorf("%s: %w; %s", file, ErrByHand, how)
}

// mostSteps is the most changes of one run: more than a file can have values.
const mostSteps = MaxBytes

func revise(file string, data []byte, want *Node, spread bool) ([]byte, error) {
	before, bad := Parse(file, data)
	if bad != nil {
		return nil, bad
	}
	text, mark := strings.CutPrefix(string(data), "\ufeff")
	for range mostSteps {
		if sameNodes(before, want) {
			if mark {
				text = "\ufeff" + text
			}
			return []byte(text), nil
		}
		e := &editor{layout: newLayout(text), spread: spread}
		top, ok := e.top(before)
		if !ok {
			return nil, byHand(file, e.lost, "", "change it in a text editor")
		}
		s := e.first(top, want)
		if s.lost {
			return nil, byHand(file, e.lineOf(s.from)+1, s.field, s.how)
		}
		out := text[:s.from] + s.text + text[s.to:]
		after, bad := Parse(file, []byte(out))
		if expected := swapped(before, s.old, s.new); bad != nil || !sameNodes(after, expected) {
			return nil, byHand(file, e.lineOf(s.from)+1, s.field, s.how)
		}
		text, before = out, after
	}
	return nil, fmt.Errorf("%s: %w; change it in a text editor", file, ErrByHand)
}

// A step is one change of a text, and what it makes of the nodes.
type step struct {
	from, to int    // the bytes that go
	text     string // what comes in their place
	old, new *Node  // the node that the step changes, before and after

	lost       bool   // the step cannot be made
	field, how string // where it stands and what a person would do
}

// within adds a key or position in front of the step's field.
func (s *step) within(at string) *step {
	if !strings.HasPrefix(s.field, "[") {
		at = join(at, s.field)
	} else {
		at += s.field
	}
	s.field = strings.TrimSuffix(at, ".")
	return s
}

// An editor finds the steps from a text to a node.
type editor struct {
	*layout
	spread bool // write new groups in lines
}

// first returns the first step from a place to a node that differs from it.
func (e *editor) first(p *place, want *Node) *step {
	switch {
	case p == nil:
		return e.begin(want)
	case p.node.Shape == Keys && want.Shape == Keys && len(p.inside) > 0 && len(want.Entries) > 0:
		return e.firstKey(p, want)
	case p.node.Shape == List && want.Shape == List && len(p.inside) > 0 && len(want.Items) > 0:
		return e.firstItem(p, want)
	}
	return e.replace(p, want)
}

// begin adds to a file that has only comments.
func (e *editor) begin(want *Node) *step {
	var b strings.Builder
	for _, entry := range want.Entries {
		b.WriteString(e.entry(entry.Key, entry.Value, 0))
	}
	return &step{from: len(e.text), to: len(e.text), text: e.ended(len(e.text)) + b.String(), new: want, how: "write it in a text editor"}
}

func (e *editor) firstKey(p *place, want *Node) *step {
	for i, old := range p.node.Entries {
		if v := want.At(old.Key); v != nil && !sameNodes(old.Value, v) {
			return e.first(p.inside[i], v).within(old.Key)
		}
	}
	above := -1 // the entry that the next new key goes behind
	for _, entry := range want.Entries {
		at := slices.IndexFunc(p.node.Entries, func(o Entry) bool { return o.Key == entry.Key })
		if at >= 0 {
			above = at
			continue
		}
		s := e.insert(p, above+1, entry.Key, entry.Value)
		s.old, s.new = p.node, &Node{Shape: Keys, Entries: append(slices.Clone(p.node.Entries), entry)}
		s.how = "add " + scalarText(entry.Key) + " there in a text editor"
		return s
	}
	for i, old := range p.node.Entries {
		if want.At(old.Key) == nil {
			s := e.remove(p, i)
			s.old, s.new = p.node, &Node{Shape: Keys, Entries: slices.Delete(slices.Clone(p.node.Entries), i, i+1)}
			s.how = "remove it in a text editor"
			return s.within(old.Key)
		}
	}
	return e.replace(p, want)
}

func (e *editor) firstItem(p *place, want *Node) *step {
	pairs := align(p.node.Items, want.Items)
	for _, pair := range pairs {
		if i, j := pair[0], pair[1]; i >= 0 && j >= 0 && !sameNodes(p.node.Items[i], want.Items[j]) {
			return e.first(p.inside[i], want.Items[j]).within(fmt.Sprintf("[%d]", i+1))
		}
	}
	at := 0
	for _, pair := range pairs {
		i, j := pair[0], pair[1]
		if i >= 0 {
			at = i + 1
			continue
		}
		s := e.insert(p, at, "", want.Items[j])
		s.old, s.new = p.node, &Node{Shape: List, Items: slices.Insert(slices.Clone(p.node.Items), at, want.Items[j])}
		s.how = "add the new one there in a text editor"
		return s
	}
	for _, pair := range pairs {
		if i := pair[0]; pair[1] < 0 {
			s := e.remove(p, i)
			s.old, s.new = p.node, &Node{Shape: List, Items: slices.Delete(slices.Clone(p.node.Items), i, i+1)}
			s.how = "remove it in a text editor"
			return s.within(fmt.Sprintf("[%d]", i+1))
		}
	}
	return e.replace(p, want)
}

// swapped returns a copy of n in which one node has become another. A nil old is the
// whole.
func swapped(n, old, become *Node) *Node {
	if n == old || old == nil {
		return become
	}
	out := &Node{Shape: n.Shape, Text: n.Text}
	for _, e := range n.Entries {
		e.Value = swapped(e.Value, old, become)
		out.Entries = append(out.Entries, e)
	}
	for _, item := range n.Items {
		out.Items = append(out.Items, swapped(item, old, become))
	}
	return out
}

// with returns a copy of n that has the value at a path. It returns nil and a line if a
// value stands where the path needs a group.
func with(n *Node, path []string, value string) (out *Node, line int) {
	if len(path) == 0 {
		if n != nil && n.Shape != Plain && n.Shape != Blank {
			return nil, n.Line
		}
		return &Node{Shape: Plain, Text: value}, 0
	}
	if n != nil && n.Shape != Keys && n.Shape != Blank {
		return nil, n.Line
	}
	out = &Node{Shape: Keys}
	if n != nil {
		out.Entries = slices.Clone(n.Entries)
	}
	at := slices.IndexFunc(out.Entries, func(e Entry) bool { return e.Key == path[0] })
	if at < 0 {
		in, _ := with(nil, path[1:], value)
		return &Node{Shape: Keys, Entries: append([]Entry{{Key: path[0], Value: in}}, out.Entries...)}, 0
	}
	in, line := with(out.Entries[at].Value, path[1:], value)
	if in == nil {
		return nil, line
	}
	out.Entries[at].Value = in
	return out, 0
}

// sameNodes reports whether two nodes have the same content, whatever the order of
// keys.
func sameNodes(a, b *Node) bool {
	if a.Shape != b.Shape || a.Text != b.Text || len(a.Entries) != len(b.Entries) || len(a.Items) != len(b.Items) {
		return false
	}
	for _, e := range a.Entries {
		if v := b.At(e.Key); v == nil || !sameNodes(e.Value, v) {
			return false
		}
	}
	for i := range a.Items {
		if !sameNodes(a.Items[i], b.Items[i]) {
			return false
		}
	}
	return true
}

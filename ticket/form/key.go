package form

import (
	"strings"

	"shadewright/ticket/measure"
)

// A Key describes one thing that may be filled in.
type Key struct {
	Name     string
	Kind     Kind
	Required bool
	Or       string // the key that may stand in its place, one of the two and never both; the first of them is Required
	Doc      string // one sentence on what it means
	Example  string // a value as it is written, for messages and editors
	Default  string // what holds if it is left out, in words; empty if nothing does

	// Into returns where the value goes: a pointer of the type that Kind
	// fills, inside the value that the group's own Into returned.
	Into func(group any) any
}

// At makes an Into from a function that picks a field of a T.
func At[T, V any](pick func(*T) *V) func(any) any {
	return func(group any) any { return pick(group.(*T)) }
}

// A Kind says how a value is written: one of [Length], [Text], [Word], [Whole],
// [Quantity], [Number], [Date], [UUID], [Lengths], [Pair], [Group], [Either],
// [Named] and [ListOf].
type Kind interface {
	// read fills into from n, or adds problems. No problem means that it is filled.
	read(r *Reader, n *Node, k Key, field string, into any)
	// schema returns what JSON Schema says of the kind.
	schema() map[string]any
}

// A Scalar is a kind that is written as one text.
type Scalar interface {
	Kind
	// Set reads a text into the value that into points at. A bare number is in
	// the given units. It returns nil, or why the text will not do.
	Set(text string, units measure.System, into any) *Fault
}

// A Reader collects the values and the problems of one file.
type Reader struct {
	File string
	// Units is what a bare number means. While it is undeclared, lengths are
	// judged by their form alone and none is filled in: where the units are
	// missing that is the one problem to tell.
	Units measure.System

	problems Problems
}

// Add notes a problem.
func (r *Reader) Add(line int, field, value string, f Fault) {
	r.problems = append(r.problems, Problem{File: r.File, Line: line, Field: field, Value: value, Fault: f})
}

// Join notes problems found elsewhere in the same file.
func (r *Reader) Join(ps Problems) { r.problems = append(r.problems, ps...) }

// Problems returns what was noted, in the order of the lines, or nil.
func (r *Reader) Problems() Problems { return r.problems.sorted() }

// A FileGroup is a group as it stands in a file, for checks that concern more
// than one of its values.
type FileGroup struct {
	Field string // the keys that lead to it
	node  *Node
}

// Line returns the line of a key, or that of the group if the key is not there.
func (rec FileGroup) Line(key string) int {
	for _, e := range rec.node.Entries {
		if e.Key == key {
			return e.Line
		}
	}
	return rec.node.Line
}

// Has reports whether a key is there.
func (rec FileGroup) Has(key string) bool { return rec.node.At(key) != nil }

// Group returns the record of a group within, if it is there and is one.
func (rec FileGroup) Group(key string) (FileGroup, bool) {
	n := rec.node.At(key)
	if n == nil || n.Shape != Keys {
		return FileGroup{}, false
	}
	return FileGroup{Field: join(rec.Field, key), node: n}, true
}

// Text returns the text at a key, or "".
func (rec FileGroup) Text(key string) string {
	if n := rec.node.At(key); n != nil {
		return n.Text
	}
	return ""
}

func join(field, key string) string {
	if field == "" {
		return key
	}
	return field + "." + key
}

// Read fills into from the keys of n. Keys are read in the order of the table,
// so that one may decide how the next is read.
func (r *Reader) Read(n *Node, field string, keys []Key, into any) FileGroup {
	meant := r.unknown(n, field, keys)
	for _, k := range keys {
		v := n.At(k.Name)
		switch {
		case v != nil && k.Or != "" && k.Required && n.At(k.Or) != nil:
			r.Add(FileGroup{node: n}.Line(k.Or), field, "", Fault{"has both " + k.Name + " and " + k.Or, "keep one of them"})
			r.One(v, k, field, into)
		case v != nil:
			r.One(v, k, field, into)
		case k.Required && !meant[k.Name] && !meant[k.Or] && n.At(k.Or) == nil:
			r.Add(n.Line, join(field, k.Name), "", Fault{"is missing", missingFix(k)})
		}
	}
	return FileGroup{Field: field, node: n}
}

// One fills a single key of a group.
func (r *Reader) One(v *Node, k Key, field string, group any) {
	if v.Shape == Blank {
		r.Add(v.Line, join(field, k.Name), "", Fault{"has no value", blankFix(k)})
		return
	}
	k.Kind.read(r, v, k, join(field, k.Name), k.Into(group))
}

func missingFix(k Key) string {
	fix := "write for example " + k.Name + ": " + k.Example
	if k.Or != "" {
		fix += ", or " + k.Or + " in its place"
	}
	return fix
}

func blankFix(k Key) string {
	fix := "write for example " + k.Name + ": " + k.Example
	if !k.Required {
		fix += ", or take the line out"
	}
	return fix
}

// unknown reports the keys that the table does not have, and returns those
// that were meant by them: they are not missing as well.
func (r *Reader) unknown(n *Node, field string, keys []Key) (meant map[string]bool) {
	names := make([]string, len(keys))
	for i, k := range keys {
		names[i] = k.Name
	}
	for _, e := range n.Entries {
		if known(keys, e.Key) {
			continue
		}
		if strings.Contains(e.Key, ":") {
			r.Add(e.Line, field, "", Fault{"unknown key " + Quote(e.Key), "put a space after the colon"})
			continue
		}
		if near := Nearest(e.Key, names); near != "" {
			if meant == nil {
				meant = make(map[string]bool)
			}
			meant[near] = true
		}
		r.Add(e.Line, field, "", Fault{"unknown key " + Quote(e.Key), Suggest(e.Key, "keys", names)})
	}
	return meant
}

func known(keys []Key, name string) bool {
	for i := range keys {
		if keys[i].Name == name {
			return true
		}
	}
	return false
}

// shape reports a value of the wrong shape.
func (r *Reader) shape(n *Node, k Key, field string) {
	r.Add(n.Line, field, n.Text, Fault{n.Shape.String(), "write for example " + k.Name + ": " + k.Example})
}

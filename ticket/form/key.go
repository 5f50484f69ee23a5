package form

import (
	"strings"

	"shadewright/ticket/measure"
)

// A Key describes one line that a person may fill in.
type Key struct {
	Name     string
	Kind     Kind
	Required bool
	Or       string // another key that may replace this one; a file has one of the two, and the first of them in the table is Required
	Doc      string // one sentence on what it means
	Example  string // a value as a person writes it, for messages and editors
	Default  string // in words, the value if the key is left out; empty if there is none

	// Into returns a pointer to the value, of the type that Kind fills. It lies
	// inside the value that Into of the surrounding group returned.
	Into func(group any) any
}

// At makes an Into from a function that returns a field of a T.
func At[T, V any](pick func(*T) *V) func(any) any {
	return func(group any) any { return pick(group.(*T)) }
}

// A Kind says how to write a value: one of [Length], [Text], [Word], [Whole],
// [Quantity], [Number], [Money], [Date], [UUID], [Paper], [Lengths], [Pair],
// [Group], [Either], [Named] and [ListOf].
type Kind interface {
	// read fills into from n, or else adds problems.
	read(r *Reader, n *Node, k Key, field string, into any)
	// schema returns the JSON Schema of the kind.
	schema() map[string]any
}

// A Scalar is a kind that is written as a single text.
type Scalar interface {
	Kind
	// Set reads a text into the value that into points to. A bare number is in the
	// given units. It returns nil, or what is wrong with the text.
	Set(text string, units measure.System, into any) *Fault
}

// A Reader collects the values and the problems of one file.
type Reader struct {
	File string
	// Units is the unit of a bare number. If it is Undeclared, the reader checks
	// the form of lengths but fills none: the missing units are then the only
	// problem to report.
	Units measure.System

	problems Problems
}

// Add adds a problem.
func (r *Reader) Add(line int, field, value string, f Fault) {
	r.problems = append(r.problems, Problem{File: r.File, Line: line, Field: field, Value: value, Fault: f})
}

// Join adds problems found elsewhere in the same file.
func (r *Reader) Join(ps Problems) { r.problems = append(r.problems, ps...) }

// Problems returns all problems in the order of their lines, or nil.
func (r *Reader) Problems() Problems { return r.problems.sorted() }

// A FileGroup is a group as it stands in a file, for checks across several of its
// values.
type FileGroup struct {
	Field string // the keys that lead to it, with dots between
	node  *Node
}

// Line returns the line of a key, or the line of the group if the key is not there.
func (rec FileGroup) Line(key string) int {
	for _, e := range rec.node.Entries {
		if e.Key == key {
			return e.Line
		}
	}
	return rec.node.Line
}

// Has reports whether the group has a key.
func (rec FileGroup) Has(key string) bool { return rec.node.At(key) != nil }

// Group returns an inner group. It returns false if the key is
// missing or is not a group.
func (rec FileGroup) Group(key string) (FileGroup, bool) {
	n := rec.node.At(key)
	if n == nil || n.Shape != Keys {
		return FileGroup{}, false
	}
	return FileGroup{Field: join(rec.Field, key), node: n}, true
}

// Text returns the text of a key, or "".
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

// Read fills into from the keys of n. It reads keys in the order of the table, so
// one key may decide how a later one is read.
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
		fix += ", or " + k.Or + " instead"
	}
	return fix
}

func blankFix(k Key) string {
	fix := "write for example " + k.Name + ": " + k.Example
	if !k.Required {
		fix += ", or remove the line"
	}
	return fix
}

// unknown reports keys that the table does not have. It returns the keys that they
// were meant to be, which Read then does not report as missing.
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

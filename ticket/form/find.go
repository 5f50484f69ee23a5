package form

import (
	"strings"

	"shadewright/ticket/measure"
)

// Inner returns the keys of a kind's groups, or nil if it has no groups.
func Inner(k Kind) []Key {
	if g, ok := k.(interface{ inner() []Key }); ok {
		return g.inner()
	}
	return nil
}

func (g Group) inner() []Key     { return g.Keys }
func (e Either) inner() []Key    { return e.Group.Keys }
func (m Named[V]) inner() []Key  { return m.Group.Keys }
func (l ListOf[V]) inner() []Key { return l.Group.Keys }

// Choices returns the words that a kind allows, or nil if it is not limited to
// words.
func Choices(k Kind) []string {
	if c, ok := k.(interface{ choices() []string }); ok {
		return c.choices()
	}
	return nil
}

func (k Word[V]) choices() []string { return k.Words }

// A Field is one text of a form. The path goods.width stands for the width of any
// goods.
type Field struct {
	Key
	Kind  Scalar // of the text; for [Either] the kind of its text, and for [Lengths] the kind of one length
	place any    // where Set puts the value
}

// Find returns the field at a path of keys with dots between, for a form that fills
// into. The path has no names or positions of items.
func Find(keys []Key, path string, into any) (Field, bool) {
	name, rest, more := strings.Cut(path, ".")
	for _, k := range keys {
		if k.Name != name {
			continue
		}
		if more {
			in, ok := k.Kind.(interface{ blank(at any) any })
			if !ok {
				return Field{}, false
			}
			return Find(Inner(k.Kind), rest, in.blank(k.Into(into)))
		}
		switch kind := k.Kind.(type) {
		case Lengths:
			return Field{k, kind.Each, new(measure.Length)}, true
		case Either:
			return Field{k, kind.Text, kind.Word(k.Into(into))}, true
		case Scalar:
			return Field{k, kind, k.Into(into)}, true
		}
	}
	return Field{}, false
}

// Check returns what is wrong with a text for this field, or nil.
func (f Field) Check(text string, units measure.System) *Fault {
	return f.Kind.Set(text, units, f.place)
}

func (g Group) blank(at any) any  { return at }
func (e Either) blank(at any) any { return at }
func (m Named[V]) blank(any) any  { return new(V) }
func (l ListOf[V]) blank(any) any { v := l.New(); return &v }

package form

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/google/uuid"

	"shadewright/ticket/measure"
)

// A Writer turns values back into the file that a [Reader] reads them from.
type Writer struct {
	// Units is the unit of a bare number.
	Units measure.System
	// Choose decides how to write a key; nil means always [Usual].
	Choose func(k Key, group, base any) Choice
}

// A Choice says whether to write a key.
type Choice uint8

const (
	Usual    Choice = iota // only if its value differs from the default
	InFull                 // always, with everything in it
	LeaveOut               // never
)

// A writable is a kind that can be written, as can every kind in this package.
type writable interface {
	// node returns the node for the value that into points to, or nil to leave it
	// out. base points to the value that a reader assumes if the key is left out; a
	// nil base means that there is none.
	node(w *Writer, into, base any) *Node
}

// Node returns the group that the table describes. It leaves out keys whose values
// equal those of base.
func (w *Writer) Node(keys []Key, into, base any) *Node {
	n := &Node{Shape: Keys}
	for _, k := range keys {
		if v := w.one(k, into, base); v != nil {
			n.Entries = append(n.Entries, Entry{Key: k.Name, Value: v})
		}
	}
	return n
}

func (w *Writer) one(k Key, group, base any) *Node {
	kind, ok := k.Kind.(writable)
	if !ok {
		panic(fmt.Sprintf("form: key %s has a kind that cannot be written", k.Name))
	}
	choice := Usual
	if w.Choose != nil {
		choice = w.Choose(k, group, base)
	}
	switch {
	case choice == LeaveOut:
		return nil
	case base == nil || k.Required || choice == InFull:
		return kind.node(w, k.Into(group), nil)
	}
	return kind.node(w, k.Into(group), k.Into(base))
}

// plainNode returns a text, or nil if the text is empty or into equals base.
func plainNode(text string, into, base any) *Node {
	if text == "" || base != nil && reflect.DeepEqual(into, base) {
		return nil
	}
	return &Node{Shape: Plain, Text: text}
}

// node writes a length without a unit if it is exact in the units of the file, else
// with the other unit.
func (l Length) node(w *Writer, into, base any) *Node {
	v := *into.(*measure.Length)
	if v < l.Least {
		return nil // zero where zero is an error: leave it out
	}
	return plainNode(LengthText(v, w.Units), into, base)
}

// LengthText writes a length so that a file in these units reads it back unchanged.
// Where a bare number means inches, it writes 27-1/2, 31.7 or 600 mm.
func LengthText(v measure.Length, u measure.System) string {
	if u == measure.Inches && v%(measure.Inch/64) != 0 {
		for _, decimals := range []measure.Length{10, 100, 1000} {
			if v*decimals%measure.Inch == 0 {
				return strconv.FormatFloat(v.Inches(), 'f', -1, 64)
			}
		}
	}
	if u == measure.Undeclared {
		return v.Exact(u)
	}
	return strings.TrimSuffix(v.Exact(u), " "+u.String())
}

func (q Quantity[V]) node(_ *Writer, into, base any) *Node {
	v := *into.(*V)
	if v < q.Least {
		return nil
	}
	return plainNode(q.Show(v), into, base)
}

func (m Number) node(_ *Writer, into, base any) *Node {
	v := *into.(*float64)
	if v < m.Least.Float() {
		return nil
	}
	return plainNode(strconv.FormatFloat(v, 'f', -1, 64), into, base)
}

func (Money) node(_ *Writer, into, base any) *Node {
	v := *into.(*measure.Money)
	return plainNode(strconv.FormatFloat(float64(v)/float64(measure.Unit), 'f', -1, 64), into, base)
}

func (l Lengths) node(w *Writer, into, base any) *Node {
	all := *into.(*[]measure.Length)
	if len(all) == 0 || base != nil && reflect.DeepEqual(into, base) {
		return nil
	}
	n := &Node{Shape: List}
	for i := range all {
		n.Items = append(n.Items, l.Each.node(w, &all[i], nil))
	}
	return n
}

func (Text) node(_ *Writer, into, base any) *Node {
	return plainNode(*into.(*string), into, base)
}

func (k Word[V]) node(_ *Writer, into, base any) *Node {
	for _, word := range k.Words {
		if v, ok := k.Parse(word); ok && reflect.DeepEqual(v, *into.(*V)) {
			return plainNode(word, into, base)
		}
	}
	return nil
}

func (k Whole) node(_ *Writer, into, base any) *Node {
	v := *into.(*int)
	if k.Any != "" && v == 0 {
		return plainNode(k.Any, into, base)
	}
	if v < k.Least {
		return nil
	}
	text := strconv.Itoa(v)
	if k.Percent {
		text += " %"
	}
	return plainNode(text, into, base)
}

func (Date) node(_ *Writer, into, base any) *Node {
	t := *into.(*time.Time)
	if t.IsZero() {
		return nil
	}
	return plainNode(t.Format(time.DateOnly), into, base)
}

func (UUID) node(_ *Writer, into, base any) *Node {
	id := *into.(*uuid.UUID)
	if id == uuid.Nil {
		return nil
	}
	return plainNode(id.String(), into, base)
}

func (Paper) node(w *Writer, into, base any) *Node {
	s := *into.(*PaperChoice)
	if s.Name != "" || s == (PaperChoice{}) {
		return plainNode(s.Name, into, base)
	}
	if s.Roll > 0 {
		return plainNode("roll-"+strings.ReplaceAll(s.Roll.Exact(w.Units), " ", ""), into, base)
	}
	return plainNode(s.Width.Exact(w.Units)+" x "+s.Height.Exact(w.Units), into, base)
}

func (g Group) node(w *Writer, into, base any) *Node {
	n := w.Node(g.Keys, into, base)
	if len(n.Entries) == 0 {
		return nil
	}
	return n
}

// node writes the text if there is one, else the group.
func (e Either) node(w *Writer, into, base any) *Node {
	if base != nil && reflect.DeepEqual(into, base) {
		return nil
	}
	if kind, ok := e.Text.(writable); ok {
		var word any
		if base != nil {
			word = e.Word(base)
		}
		if n := kind.node(w, e.Word(into), word); n != nil && !(base != nil && n.Text == "0") {
			return n
		}
	}
	if base != nil && w.same(e.Group.Keys, into, base) {
		return nil
	}
	return e.Group.node(w, into, base)
}

// same reports whether two groups have the same values for all keys.
func (w *Writer) same(keys []Key, a, b any) bool {
	return !slices.ContainsFunc(keys, func(k Key) bool { return !reflect.DeepEqual(k.Into(a), k.Into(b)) })
}

// node writes the groups in the order of their names.
func (m Named[V]) node(w *Writer, into, _ any) *Node {
	all := *into.(*map[string]V)
	if len(all) == 0 {
		return nil
	}
	n := &Node{Shape: Keys}
	for _, name := range slices.Sorted(maps.Keys(all)) {
		v, base := all[name], *new(V)
		n.Entries = append(n.Entries, Entry{Key: name, Value: w.Node(m.Group.Keys, &v, &base)})
	}
	return n
}

func (l ListOf[V]) node(w *Writer, into, _ any) *Node {
	all := *into.(*[]V)
	if len(all) == 0 {
		if l.None != "" && all != nil {
			return plainNode(l.None, into, nil)
		}
		return nil
	}
	n := &Node{Shape: List}
	for i := range all {
		base := l.New()
		n.Items = append(n.Items, w.Node(l.Group.Keys, &all[i], &base))
	}
	return n
}

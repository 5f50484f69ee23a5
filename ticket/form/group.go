package form

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// A Group is a value with keys of its own. It fills the value that its Into
// returned.
type Group struct {
	Keys []Key
	Each func(r *Reader, rec FileGroup, into any) // checks the whole group; may be nil
}

func (g Group) read(r *Reader, n *Node, k Key, field string, into any) {
	if n.Shape != Keys {
		r.shape(n, k, field)
		return
	}
	rec := r.Read(n, field, g.Keys, into)
	if g.Each != nil {
		g.Each(r, rec, into)
	}
}

// Either is written as one text or as a group: a paper by its name or by its two
// sides. The group fills the value that Into returned, and the text fills the part
// of it that Word returns.
type Either struct {
	Text  Scalar
	Word  func(group any) any
	Group Group
}

func (e Either) read(r *Reader, n *Node, k Key, field string, into any) {
	if n.Shape == Plain {
		e.Text.read(r, n, k, field, e.Word(into))
		return
	}
	e.Group.read(r, n, k, field, into)
}

// Named is a set of groups, each under a name. It fills a *map[string]V.
type Named[V any] struct {
	Name  Text // which names are allowed
	Group Group
	Each  func(r *Reader, rec FileGroup, name string, v *V) // checks one group; may be nil
}

func (m Named[V]) read(r *Reader, n *Node, k Key, field string, into any) {
	if n.Shape != Keys {
		r.shape(n, k, field)
		return
	}
	out := make(map[string]V, len(n.Entries))
	for _, e := range n.Entries {
		var name string
		var v V
		if f := m.Name.Set(e.Key, r.Units, &name); f != nil {
			r.Add(e.Line, field, e.Key, *f)
			continue
		}
		at := join(field, name)
		switch e.Value.Shape {
		case Keys:
			rec := r.Read(e.Value, at, m.Group.Keys, &v)
			if m.Each != nil {
				m.Each(r, rec, name, &v)
			}
		case Blank:
			r.Add(e.Line, at, "", Fault{"has no value", "write its keys under it, indented"})
		default:
			r.Add(e.Line, at, e.Value.Text, Fault{e.Value.Shape.String(), "write its keys under it, indented"})
		}
		out[name] = v
	}
	*into.(*map[string]V) = out
}

// ListOf is a list of groups. It fills a *[]V. New returns an item before any key
// is read.
type ListOf[V any] struct {
	Group Group
	Label string // the key whose text names an item in messages
	Least int    // the least number of items
	Most  int    // the most items; zero for no limit
	None  string // a word for a list known to be empty; it fills an empty slice that is not nil
	New   func() V
	Each  func(r *Reader, rec FileGroup, v *V) // checks one item; may be nil
}

func (l ListOf[V]) read(r *Reader, n *Node, k Key, field string, into any) {
	if l.None != "" && n.Shape == Plain && strings.EqualFold(n.Text, l.None) {
		*into.(*[]V) = []V{}
		return
	}
	if n.Shape != List {
		fix := "start each item with a dash, as in " + k.Example
		if l.None != "" {
			fix += ", or write " + l.None
		}
		r.Add(n.Line, field, n.Text, Fault{n.Shape.String(), fix})
		return
	}
	if len(n.Items) == 0 && l.Least > 0 {
		r.Add(n.Line, field, "", Fault{"is empty", "write for example " + k.Name + ": " + k.Example})
	}
	if l.Most > 0 && len(n.Items) > l.Most || len(n.Items) > 0 && len(n.Items) < l.Least {
		r.Add(n.Line, field, "", Fault{fmt.Sprintf("has %d items", len(n.Items)), "write " + l.many() + ", as in " + k.Example})
	}
	out := make([]V, 0, len(n.Items))
	for i, item := range n.Items {
		at := l.field(field, i, item)
		if item.Shape != Keys {
			r.Add(item.Line, at, item.Text, Fault{item.Shape.String(), "write keys, as in " + k.Example})
			continue
		}
		v := l.New()
		rec := r.Read(item, at, l.Group.Keys, &v)
		if l.Each != nil {
			l.Each(r, rec, &v)
		}
		out = append(out, v)
	}
	*into.(*[]V) = out
}

func (l ListOf[V]) many() string {
	switch {
	case l.Least == l.Most:
		return strconv.Itoa(l.Least)
	case l.Most == 0:
		return fmt.Sprintf("at least %d", l.Least)
	}
	return fmt.Sprintf("%d to %d", l.Least, l.Most)
}

var label = regexp.MustCompile(`^[0-9A-Za-z]([0-9A-Za-z._-]{0,62}[0-9A-Za-z_-])?$`)

// field names an item by its label, or by its position, counted from 1.
func (l ListOf[V]) field(field string, i int, item *Node) string {
	if n := item.At(l.Label); n != nil && label.MatchString(n.Text) {
		return join(field, n.Text)
	}
	return fmt.Sprintf("%s[%d]", field, i+1)
}

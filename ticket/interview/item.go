package interview

import (
	"strings"

	"shadewright/ticket/form"
	"shadewright/ticket/measure"
)

// An item is a question as data. Its place in the job file is its path below the
// group that asks it.
type item struct {
	path   string
	schema string // its field in the table of the job file; empty if it is not in the file
	ask    string // %s is the name of the group's part
	help   string
	more   string

	optional bool
	skip     string              // what passing over leaves unchecked
	instead  func(*group) string // what is tried in place of a value that is not known; nil: nothing
	length   bool                // the answer is one length or several
	least    int                 // of several lengths
	names    []string
	parts    []string // the keys of several lengths that are not a list
	example  [2]string
	words    []word
	free     bool
	alias    map[string]string

	when  func(*group) bool
	def   func(*group) string
	also  func(g *group, text string) string
	load  func(*group) (string, bool) // the answer in a job file; nil: the value at path
	write func(g *group, text string) // nil: at path
	tidy  func(*Interview, string) (string, error)
	say   func(string) string
}

// A word is a choice: what the person reads, and what the job file holds.
type word struct{ said, file string }

func same(words ...string) []word {
	out := make([]word, len(words))
	for i, w := range words {
		out[i] = word{w, w}
	}
	return out
}

func always(text string) func(*group) string { return func(*group) string { return text } }

// several reports whether the answer is more than one length.
func (it *item) several() bool { return len(it.names) > 0 }

// eg returns an example of an answer.
func (it *item) eg(u measure.System) string {
	if u == measure.Millimetres {
		return it.example[1]
	}
	return it.example[0]
}

// inFile turns an answer into the word of the job file.
func (it *item) inFile(text string) string {
	for _, w := range it.words {
		if w.said == text {
			return w.file
		}
	}
	return text
}

// toSay turns a word of the job file into an answer.
func (it *item) toSay(text string) string {
	for _, w := range it.words {
		if w.file == text {
			return w.said
		}
	}
	return text
}

// asInFile stands for a value of a job file that no answer can express, such as two
// different selvages. It stays as it is until another answer replaces it.
const asInFile = "as in the file"

// node returns the value for the job file.
func (it *item) node(text string) *form.Node {
	if !it.several() {
		return plain(it.inFile(text))
	}
	texts, _ := measure.Split(text) // it was checked
	if len(it.parts) == 0 {
		list := &form.Node{Shape: form.List}
		for _, t := range texts {
			list.Items = append(list.Items, plain(t))
		}
		return list
	}
	n := keysNode()
	for i, t := range texts {
		setAt(n, it.parts[i], plain(t))
	}
	return n
}

// fromNode returns the answer that a value of a job file stands for.
func (it *item) fromNode(n *form.Node) string {
	switch {
	case n.Shape == form.Plain && !it.several():
		return it.toSay(n.Text)
	case n.Shape == form.List && it.several() && len(it.parts) == 0:
		return joined(n.Items)
	case n.Shape == form.Keys && len(it.parts) > 0:
		var all []*form.Node
		for _, p := range it.parts {
			all = append(all, n.At(p))
		}
		return joined(all)
	}
	return asInFile
}

func joined(all []*form.Node) string {
	texts := make([]string, len(all))
	for i, n := range all {
		if n == nil || n.Shape != form.Plain {
			return asInFile
		}
		texts[i] = n.Text
	}
	return strings.Join(texts, "; ")
}

func plain(text string) *form.Node { return &form.Node{Shape: form.Plain, Text: text} }
func keysNode() *form.Node         { return &form.Node{Shape: form.Keys} }

// at returns the value at a path of keys, or nil.
func at(n *form.Node, path string) *form.Node {
	for _, key := range strings.Split(path, ".") {
		if n == nil {
			return nil
		}
		n = n.At(key)
	}
	return n
}

// textAt returns the text at a path of keys, or "".
func textAt(n *form.Node, path string) string {
	if v := at(n, path); v != nil {
		return v.Text
	}
	return ""
}

// setAt puts a value at a path of keys, and makes the groups on the way. A nil value
// removes the key, and a group that it leaves empty.
func setAt(n *form.Node, path string, v *form.Node) {
	key, rest, deeper := strings.Cut(path, ".")
	was := n.At(key)
	switch {
	case deeper && v == nil && (was == nil || was.Shape != form.Keys):
		return
	case deeper:
		if was == nil || was.Shape != form.Keys {
			was = keysNode()
		}
		setAt(was, rest, v)
		if v = was; len(was.Entries) == 0 {
			v = nil
		}
	}
	for i := range n.Entries {
		if n.Entries[i].Key != key {
			continue
		}
		if v == nil {
			n.Entries = append(n.Entries[:i], n.Entries[i+1:]...)
		} else {
			n.Entries[i].Value = v
		}
		return
	}
	if v != nil {
		n.Entries = append(n.Entries, form.Entry{Key: key, Value: v})
	}
}

// clone copies a node; nil becomes an empty group.
func clone(n *form.Node) *form.Node {
	if n == nil {
		return keysNode()
	}
	c := *n
	c.Entries, c.Items = nil, nil
	for _, e := range n.Entries {
		e.Value = clone(e.Value)
		c.Entries = append(c.Entries, e)
	}
	for _, i := range n.Items {
		c.Items = append(c.Items, clone(i))
	}
	return &c
}

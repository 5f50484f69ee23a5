package form

import (
	"fmt"
	"slices"

	"go.yaml.in/yaml/v3"
)

// A Shape is the kind of value at a place in a file.
type Shape uint8

const (
	Blank Shape = iota // a key without a value
	Plain              // one text
	Keys               // keys with their values
	List               // values one below another, each after a dash
)

// String returns the shape in the words of a message.
func (s Shape) String() string {
	return [...]string{"has no value", "is one value", "is a group of keys", "is a list"}[s]
}

// A Node is the value at a place in a file.
type Node struct {
	Shape   Shape
	Line    int     // counted from 1
	Text    string  // of a plain node
	Quoted  bool    // the text is in quotes or in a block
	Entries []Entry // of keys, in the order of the file, without duplicates
	Items   []*Node // of a list
	flow    bool    // written in { } or [ ]
}

// An Entry is a key and its value.
type Entry struct {
	Key   string
	Line  int
	Value *Node
}

// At returns the value of a key, or nil.
func (n *Node) At(key string) *Node {
	i := slices.IndexFunc(n.Entries, func(e Entry) bool { return e.Key == key })
	if i < 0 {
		return nil
	}
	return n.Entries[i].Value
}

// deepest is the most levels of groups inside groups; no form needs more than four.
const deepest = 8

// A tree converts the library's nodes to ours and refuses YAML features that a form
// does not use. A refused part becomes nil or blank.
type tree struct {
	file     string
	problems Problems
}

func (t *tree) refuse(n *yaml.Node, value, problem, fix string) {
	t.problems = append(t.problems, Problem{File: t.file, Line: n.Line, Value: value, Fault: Fault{problem, fix}})
}

func (t *tree) node(n *yaml.Node, depth int) *Node {
	out := &Node{Line: n.Line, flow: n.Style&yaml.FlowStyle != 0}
	switch {
	case n.Kind == yaml.AliasNode:
		t.refuse(n, "*"+n.Value, "is a reference", "write the value itself; put text that starts with * in quotes")
		return nil
	case n.Anchor != "":
		t.refuse(n, "&"+n.Anchor, "is a reference mark", "leave it out; put text that starts with & in quotes")
		return nil
	case n.Style&yaml.TaggedStyle != 0:
		t.refuse(n, n.Tag, "is a type mark", "leave it out; put text that starts with ! in quotes")
		return nil
	case depth > deepest:
		t.refuse(n, "", "has too many groups inside each other", "check the indentation and the brackets")
		return nil
	}
	switch n.Kind {
	case yaml.MappingNode:
		out.Shape = Keys
		out.Entries = t.entries(n, depth)
	case yaml.SequenceNode:
		out.Shape = List
		for _, c := range n.Content {
			if item := t.node(c, depth+1); item != nil {
				out.Items = append(out.Items, item)
			}
		}
	default:
		out.Quoted = n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) != 0
		if n.Tag != "!!null" || out.Quoted {
			out.Shape, out.Text = Plain, n.Value
		}
	}
	return out
}

func (t *tree) entries(n *yaml.Node, depth int) []Entry {
	var out []Entry
	first := make(map[string]int, len(n.Content)/2)
	for i := 0; i+1 < len(n.Content); i += 2 {
		k, v := n.Content[i], n.Content[i+1]
		switch {
		case k.Kind != yaml.ScalarNode:
			t.refuse(k, "", "has a key that is not a word", "write key: value")
			continue
		case k.Tag == "!!merge":
			t.refuse(k, "<<", "merges another group", "write the keys themselves")
			continue
		}
		key := t.node(k, depth)
		if key == nil {
			continue
		}
		if key.Text == "" {
			t.refuse(k, "", "has a key without a name", "write key: value")
			continue
		}
		value := t.node(v, depth+1)
		if i > 0 && n.Style&yaml.FlowStyle != 0 && v.Tag == "!!null" && '0' <= key.Text[0] && key.Text[0] <= '9' {
			t.splitAtComma(n.Content[i-2], n.Content[i-1], key.Text)
			continue
		}
		if line, twice := first[key.Text]; twice {
			t.refuse(k, key.Text, fmt.Sprintf("appears twice, first on line %d", line), "keep one of them")
			continue
		}
		first[key.Text] = k.Line
		if value != nil {
			out = append(out, Entry{Key: key.Text, Line: k.Line, Value: value})
		}
	}
	return out
}

// splitAtComma reports a decimal comma inside { }, where a comma ends the value: YAML reads
// {width: 31,625} as the width 31 and a key 625.
func (t *tree) splitAtComma(key, value *yaml.Node, rest string) {
	t.problems = append(t.problems, Problem{File: t.file, Line: key.Line, Field: key.Value, Value: value.Value + "," + rest,
		Fault: Fault{"is cut off at its comma", "inside { } write a point, or put the number in quotes"}})
}

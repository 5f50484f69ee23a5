package form

import "slices"

// TextNode returns a node that holds one text.
func TextNode(text string) *Node { return &Node{Shape: Plain, Text: text} }

// With returns a copy of n that has a value at a path. A step of the path is a key, or in a
// list the id or name of an item. With adds a key that is missing at the end of its group,
// and a whole item, but not one that the path leads into, at the end of its list; it
// returns n unchanged if the path leads through a text or into an item that is missing. A
// nil value removes what is at the path, together with a group or list that becomes empty
// by it. The copy shares what it did not change; see [Revise] for writing it.
func (n *Node) With(value *Node, path ...string) *Node {
	if out := n.with(value, path); out != nil {
		return out
	}
	return &Node{Shape: Keys, Line: n.Line}
}

func (n *Node) with(value *Node, path []string) *Node {
	if len(path) == 0 {
		return value
	}
	switch n.Shape {
	case Keys, Blank:
		return n.withKey(value, path)
	case List:
		return n.withItem(value, path)
	}
	return n
}

func (n *Node) withKey(value *Node, path []string) *Node {
	out := &Node{Shape: Keys, Line: n.Line, Entries: slices.Clone(n.Entries)}
	at := slices.IndexFunc(n.Entries, func(e Entry) bool { return e.Key == path[0] })
	var in *Node
	switch {
	case at >= 0:
		in = n.Entries[at].Value.with(value, path[1:])
	case value == nil:
		return n
	default:
		in = (&Node{Shape: Keys}).with(value, path[1:])
		out.Entries = append(out.Entries, Entry{Key: path[0], Value: in})
		return out
	}
	if in != nil {
		out.Entries[at].Value = in
		return out
	}
	if out.Entries = slices.Delete(out.Entries, at, at+1); len(out.Entries) == 0 {
		return nil
	}
	return out
}

func (n *Node) withItem(value *Node, path []string) *Node {
	out := &Node{Shape: List, Line: n.Line, Items: slices.Clone(n.Items)}
	at := slices.IndexFunc(n.Items, func(item *Node) bool { return item.known(path[0]) })
	if at < 0 {
		if len(path) == 1 && value != nil {
			out.Items = append(out.Items, value)
		}
		return out
	}
	if in := n.Items[at].with(value, path[1:]); in != nil {
		out.Items[at] = in
		return out
	}
	if out.Items = slices.Delete(out.Items, at, at+1); len(out.Items) == 0 {
		return nil
	}
	return out
}

// known reports whether an item has the id or name.
func (n *Node) known(label string) bool {
	for _, key := range labels {
		if v := n.At(key); v != nil && v.Shape == Plain {
			return v.Text == label
		}
	}
	return false
}

// Get returns the node at a path as [Node.With] follows it, or nil.
func (n *Node) Get(path ...string) *Node {
	for _, step := range path {
		switch n.Shape {
		case Keys:
			n = n.At(step)
		case List:
			i := slices.IndexFunc(n.Items, func(item *Node) bool { return item.known(step) })
			if i < 0 {
				return nil
			}
			n = n.Items[i]
		default:
			return nil
		}
		if n == nil {
			return nil
		}
	}
	return n
}

package form

import "slices"

// Ordered returns a copy of a group with its keys in the order of a table, and unknown
// keys last. So [Revise] puts a new key where the table has it.
func Ordered(n *Node, table []Key) *Node {
	if n.Shape != Keys {
		return n
	}
	at := func(e Entry) int {
		if i := slices.IndexFunc(table, func(k Key) bool { return k.Name == e.Key }); i >= 0 {
			return i
		}
		return len(table)
	}
	out := *n
	out.Entries = slices.Clone(n.Entries)
	slices.SortStableFunc(out.Entries, func(a, b Entry) int { return at(a) - at(b) })
	for i, e := range out.Entries {
		if k := at(e); k < len(table) {
			out.Entries[i].Value = orderedValue(e.Value, table[k].Kind)
		}
	}
	return &out
}

// orderedValue orders the groups of a value: of one group, of named groups, or of a list.
func orderedValue(n *Node, kind Kind) *Node {
	inner := Inner(kind)
	if inner == nil {
		return n
	}
	out := *n
	switch _, named := kind.(interface{ named() }); {
	case n.Shape == List:
		out.Items = slices.Clone(n.Items)
		for i, item := range out.Items {
			out.Items[i] = Ordered(item, inner)
		}
	case named && n.Shape == Keys:
		out.Entries = slices.Clone(n.Entries)
		for i, e := range out.Entries {
			out.Entries[i].Value = Ordered(e.Value, inner)
		}
	default:
		return Ordered(n, inner)
	}
	return &out
}

func (m Named[V]) named() {}

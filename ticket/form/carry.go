package form

import "slices"

// Carry returns base with the changes that lead from one node to another. Where from and
// to are alike, base stays as it is.
func Carry(base, from, to *Node) *Node {
	switch {
	case base == nil || from == nil || to == nil:
		return to
	case sameNodes(from, to):
		return base
	case base.Shape == Keys && from.Shape == Keys && to.Shape == Keys:
		return carryKeys(base, from, to)
	case base.Shape == List && from.Shape == List && to.Shape == List && len(base.Items) == len(from.Items) && len(to.Items) >= len(from.Items):
		out := &Node{Shape: List, Line: base.Line, Items: slices.Clone(to.Items)}
		for i := range base.Items {
			out.Items[i] = Carry(base.Items[i], from.Items[i], to.Items[i])
		}
		return out
	}
	return to
}

func carryKeys(base, from, to *Node) *Node {
	out := &Node{Shape: Keys, Line: base.Line}
	for _, e := range base.Entries {
		was, is := from.At(e.Key), to.At(e.Key)
		if was != nil && is == nil {
			continue // removed
		}
		if is != nil {
			e.Value = Carry(e.Value, was, is)
		}
		out.Entries = append(out.Entries, e)
	}
	for _, e := range to.Entries {
		if base.At(e.Key) == nil && from.At(e.Key) == nil {
			out.Entries = append(out.Entries, e)
		} else if was := from.At(e.Key); base.At(e.Key) == nil && !sameNodes(was, e.Value) {
			out.Entries = append(out.Entries, e)
		}
	}
	return out
}

// Same reports whether two nodes hold the same, whatever the order of their keys and the
// look of their text.
func (n *Node) Same(other *Node) bool { return sameNodes(n, other) }

package form

import "slices"

// align pairs the items of two lists, -1 for none. Equal items and groups with the same
// id or name go together first, then items that stand at the same place between those.
func align(old, want []*Node) [][2]int {
	var out [][2]int
	head := 0
	for head < len(old) && head < len(want) && sameItem(old[head], want[head]) {
		out = append(out, [2]int{head, head})
		head++
	}
	var tail [][2]int
	i, j := len(old), len(want)
	for i > head && j > head && sameItem(old[i-1], want[j-1]) {
		i, j = i-1, j-1
		tail = append(tail, [2]int{i, j})
	}
	slices.Reverse(tail)
	return append(append(out, middle(old, want, [2]int{head, i}, [2]int{head, j})...), tail...)
}

// mostMiddle is the most pairs of items that align compares.
const mostMiddle = 1 << 22

// middle finds the longest common sequence of the items between two ends.
func middle(old, want []*Node, a, b [2]int) [][2]int {
	n, m := a[1]-a[0], b[1]-b[0]
	if n*m > mostMiddle {
		return unmatched(old, want, a, b)
	}
	best := make([][]int, n+1)
	for i := range best {
		best[i] = make([]int, m+1)
	}
	for i := n - 1; i >= 0; i-- {
		for j := m - 1; j >= 0; j-- {
			best[i][j] = max(best[i+1][j], best[i][j+1])
			if sameItem(old[a[0]+i], want[b[0]+j]) {
				best[i][j] = max(best[i][j], best[i+1][j+1]+1)
			}
		}
	}
	var out [][2]int
	fromI, fromJ := 0, 0
	for i, j := 0, 0; i < n && j < m; {
		switch {
		case sameItem(old[a[0]+i], want[b[0]+j]) && best[i][j] == best[i+1][j+1]+1:
			out = append(out, unmatched(old, want, [2]int{a[0] + fromI, a[0] + i}, [2]int{b[0] + fromJ, b[0] + j})...)
			out = append(out, [2]int{a[0] + i, b[0] + j})
			i, j = i+1, j+1
			fromI, fromJ = i, j
		case best[i][j] == best[i+1][j]:
			i++
		default:
			j++
		}
	}
	return append(out, unmatched(old, want, [2]int{a[0] + fromI, a[1]}, [2]int{b[0] + fromJ, b[1]})...)
}

// unmatched pairs items that are not the same. One becomes the other if neither has a
// label, or if they differ in little but the label; else one goes and the other comes.
func unmatched(old, want []*Node, a, b [2]int) [][2]int {
	var out [][2]int
	i, j := a[0], b[0]
	for ; i < a[1] && j < b[1] && similar(old[i], want[j]); i, j = i+1, j+1 {
		out = append(out, [2]int{i, j})
	}
	for ; i < a[1]; i++ {
		out = append(out, [2]int{i, -1})
	}
	for ; j < b[1]; j++ {
		out = append(out, [2]int{-1, j})
	}
	return out
}

func sameItem(a, b *Node) bool {
	if l := itemLabel(a); l != "" {
		return l == itemLabel(b)
	}
	return sameNodes(a, b)
}

// similar reports whether one item is probably the other, changed.
func similar(a, b *Node) bool {
	if itemLabel(a) == "" || itemLabel(b) == "" {
		return itemLabel(a) == itemLabel(b)
	}
	same := 0
	for _, e := range a.Entries {
		if v := b.At(e.Key); v != nil && sameNodes(e.Value, v) {
			same++
		}
	}
	return 2*same > max(len(a.Entries), len(b.Entries))
}

// labels are the keys by which a group in a list is known.
var labels = []string{"id", "name"}

// itemLabel returns the text by which a group in a list is known.
func itemLabel(n *Node) string {
	for _, key := range labels {
		if v := n.At(key); v != nil && v.Shape == Plain {
			return key + " " + v.Text
		}
	}
	return ""
}

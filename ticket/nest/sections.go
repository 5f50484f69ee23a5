package nest

import "math"

// never is the height of a layout that does not exist.
const never = math.MaxInt64

// lowest returns the least height of roll that holds the set in one section, or
// never.
func (x *exact) lowest(set int32) int64 {
	h := int64(never)
	for _, o := range x.outlines(set) {
		if o.w <= x.p.bins[0].w {
			h = min(h, o.h)
		}
	}
	return h
}

// eachPart calls f for every part of the set, from the empty one to the whole,
// until f returns false. It returns false if the work ran out.
func (x *exact) eachPart(set int32, f func(a int32) bool) bool {
	digits, part := x.count(set), make([]int32, len(x.kinds))
	for a := int32(0); ; {
		if x.work--; x.work < 0 {
			return false
		}
		if !f(a) {
			return true
		}
		i := 0
		for ; i < len(part); i++ {
			b := x.kinds[i].base
			if part[i] < digits[i] {
				part[i]++
				a += b
				break
			}
			a -= part[i] * b
			part[i] = 0
		}
		if i == len(part) {
			return true
		}
	}
}

// count returns the digits of a set: how many items of each kind it has.
func (x *exact) count(set int32) []int32 {
	d := make([]int32, len(x.kinds))
	for i := range x.kinds {
		q := int32(len(x.kinds[i].items)) + 1
		d[i] = set % q
		set /= q
	}
	return d
}

// A goal is the result of an exact search: the roll's height, and the set that lies
// on the roll and on each piece of stock.
type goal struct {
	height int64
	sets   []int32 // by bin
}

// solve returns the least height, using only the stock for which use is true. ok is
// false if the work ran out; height is never if there is no layout.
func (x *exact) solve(use []bool) (g goal, ok bool) {
	n := len(x.area)
	roll, ok := x.sections()
	if !ok {
		return g, false
	}
	// on[b][s] is the part of set s that bin b takes when bins 1 to b hold all of
	// s, or -1 if they cannot hold it.
	on := make([][]int32, len(x.p.bins))
	for b := range on {
		on[b] = make([]int32, n)
		for s := range on[b] {
			on[b][s] = -1
			if s == 0 {
				on[b][s] = 0
			}
		}
		if b == 0 {
			continue
		}
		for s := int32(1); int(s) < n; s++ {
			if on[b-1][s] >= 0 {
				on[b][s] = 0
			} else if use[b] && !x.eachPart(s, func(a int32) bool {
				if on[b-1][s-a] >= 0 && x.fits(a, x.p.bins[b]) {
					on[b][s] = a
				}
				return on[b][s] < 0
			}) {
				return g, false
			}
		}
	}
	g = goal{height: never, sets: make([]int32, len(x.p.bins))}
	all, last := int32(n-1), on[len(on)-1]
	for s := int32(0); s <= all; s++ {
		if last[s] >= 0 && roll[all-s] < g.height {
			g.height, g.sets[0] = roll[all-s], all-s
		}
	}
	if g.height == never {
		return g, true
	}
	for b, s := len(on)-1, all-g.sets[0]; b > 0; b-- {
		g.sets[b] = on[b][s]
		s -= on[b][s]
	}
	return g, true
}

func (x *exact) fits(set int32, b bin) bool {
	for _, o := range x.outlines(set) {
		if o.w <= b.w && o.h <= b.h {
			return true
		}
	}
	return false
}

// sections returns for each set the least height of roll that holds it.
func (x *exact) sections() ([]int64, bool) {
	best := make([]int64, len(x.area))
	for s := range best {
		best[s] = x.lowest(int32(s))
	}
	best[0] = 0
	if x.p.bins[0].tall >= x.under {
		return best, true
	}
	for s := int32(1); int(s) < len(best); s++ {
		if !x.eachPart(s, func(a int32) bool {
			if a > 0 && a < s {
				if h := x.lowest(a); h < never && best[s-a] < never {
					best[s] = min(best[s], h+best[s-a])
				}
			}
			return true
		}) {
			return nil, false
		}
	}
	return best, true
}

// A maker builds the layout that an exact search found.
type maker struct {
	x    *exact
	t    *tree
	next []int // by kind: how many of its items are laid
	roll []int64
}

// tree returns the layout of a goal.
func (x *exact) tree(g goal) *tree {
	x.work = math.MaxInt64 // bounded all the same: the search has already been through these sets
	m := &maker{x: x, t: newTree(x.p.items, append([]bin(nil), x.p.bins...)), next: make([]int, len(x.kinds))}
	m.t.bins[0].h = g.height
	m.roll, _ = x.sections() // cannot fail: the work has no limit
	for left := g.sets[0]; left > 0; {
		left -= m.section(left)
	}
	for b := 1; b < len(g.sets); b++ {
		if g.sets[b] > 0 {
			m.attach(int32(b), m.build(g.sets[b], x.p.bins[b].w, x.p.bins[b].h))
			m.t.settle(int32(b))
		}
	}
	return m.t
}

// section lays one section of the set and returns the set that it holds.
func (m *maker) section(set int32) (taken int32) {
	x := m.x
	x.eachPart(set, func(a int32) bool {
		if h := x.lowest(a); a > 0 && h < never && m.roll[set-a] < never && h+m.roll[set-a] == m.roll[set] {
			m.attach(0, m.build(a, x.p.bins[0].w, h))
			m.t.settle(0)
			taken = a
		}
		return taken == 0
	})
	return taken
}

// attach puts n below p, or the children of n instead if both are rows or both
// stacks.
func (m *maker) attach(p, n int32) {
	t := m.t
	if t.nodes[n].kind != t.nodes[p].kind {
		t.link(p, n)
		return
	}
	for d := t.nodes[n].down; d != none; d = t.nodes[n].down {
		t.unlink(d)
		t.link(p, d)
	}
	t.discard(n)
}

// build lays a set inside w × h, where it is known to fit, and returns the node.
func (m *maker) build(set int32, w, h int64) int32 {
	x := m.x
	for i := range x.kinds {
		if x.kinds[i].base == set {
			return m.single(i, w, h)
		}
	}
	made := none
	x.eachPart(set, func(a int32) bool {
		b := set - a
		if a == 0 || a > b {
			return true
		}
		for _, p := range x.outlines(a) {
			for _, q := range x.outlines(b) {
				switch {
				case p.w+q.w <= w && max(p.h, q.h) <= h:
					made = m.join(row, m.build(a, p.w, p.h), m.build(b, q.w, q.h))
				case max(p.w, q.w) <= w && p.h+q.h <= min(h, x.p.bins[0].limit):
					made = m.join(stack, m.build(a, p.w, p.h), m.build(b, q.w, q.h))
				default:
					continue
				}
				return false
			}
		}
		return true
	})
	return made
}

func (m *maker) single(kind int, w, h int64) int32 {
	k := &m.x.kinds[kind]
	it := k.items[m.next[kind]]
	m.next[kind]++
	s := 0
	for k.shapes[s].w > w || k.shapes[s].h > h {
		s++
	}
	return m.t.newLeaf(it, int8(s))
}

func (m *maker) join(kind int8, a, b int32) int32 {
	n := m.t.newSplit(kind)
	m.attach(n, a)
	m.attach(n, b)
	m.t.measure(n)
	return n
}

package nest

// A shape is the outline of an item as it may lie.
type shape struct {
	w, h   int64
	blank  int64 // h before it was rounded up to a repeat
	turned bool
}

// An item is one rectangle to lay, with its allowance, in the one or two ways it
// may lie.
type item struct {
	shapes []shape
	area   float64
	long   int64 // longer side
	narrow int64 // width of its narrowest shape
	flat   int64 // height of its lowest shape
	kind   int32 // items of one kind have the same shapes
}

// A bin is a rectangle to lay items in: the roll up to some length, or a piece of
// stock.
type bin struct {
	w, h  int64
	limit int64 // greatest height of a stack
	tall  int64 // greatest height of one item
}

// none stands for no node.
const none = int32(-1)

// The kinds of node.
const (
	gone  = int8(iota) // not part of a layout
	leaf               // one item
	row                // its children lie side by side, x grows
	stack              // its children lie one after another, y grows
)

// A node is a rectangle of a layout. It stores only the least outline that its
// items need, so the free cloth around them remains available to any item.
type node struct {
	w, h       int64   // least outline
	area       float64 // of its items
	up, down   int32   // parent and first child
	next, prev int32   // siblings
	item       int32
	leaves     int32
	kind       int8
	shape      int8
}

// A tree is a guillotine layout: rows of stacks of rows and so on. The first nodes,
// one for each bin, are the stacks of sections of the bins and are never removed.
type tree struct {
	items []item
	bins  []bin
	nodes []node
	free  []int32
	where []int32 // by item: its leaf, or none if it is not laid
}

func newTree(items []item, bins []bin) *tree {
	t := &tree{items: items, bins: bins}
	t.nodes = make([]node, len(bins)+2*len(items)+2)
	t.free = make([]int32, 0, len(t.nodes))
	t.where = make([]int32, len(items))
	t.clear()
	return t
}

// clear takes all items off.
func (t *tree) clear() {
	t.free = t.free[:0]
	for i := len(t.nodes) - 1; i >= len(t.bins); i-- {
		t.free = append(t.free, int32(i))
	}
	for i := range t.bins {
		t.nodes[i] = node{up: none, down: none, next: none, prev: none, item: none, kind: stack}
	}
	for i := range t.where {
		t.where[i] = none
	}
}

// copyFrom makes t the same layout as s. Both must have the same items.
func (t *tree) copyFrom(s *tree) {
	copy(t.bins, s.bins)
	copy(t.nodes, s.nodes)
	t.free = append(t.free[:0], s.free...)
	copy(t.where, s.where)
}

func (t *tree) clone() *tree {
	c := newTree(t.items, append([]bin(nil), t.bins...))
	c.copyFrom(t)
	return c
}

func (t *tree) take() int32 {
	n := t.free[len(t.free)-1]
	t.free = t.free[:len(t.free)-1]
	return n
}

// link makes n the first child of p.
func (t *tree) link(p, n int32) {
	old := t.nodes[p].down
	t.nodes[n].up, t.nodes[n].prev, t.nodes[n].next = p, none, old
	if old != none {
		t.nodes[old].prev = n
	}
	t.nodes[p].down = n
}

func (t *tree) unlink(n int32) {
	v := &t.nodes[n]
	if v.prev != none {
		t.nodes[v.prev].next = v.next
	} else {
		t.nodes[v.up].down = v.next
	}
	if v.next != none {
		t.nodes[v.next].prev = v.prev
	}
	v.up, v.prev, v.next = none, none, none
}

// replace puts m in the place of n among its siblings.
func (t *tree) replace(n, m int32) {
	v := t.nodes[n]
	u := &t.nodes[m]
	u.up, u.prev, u.next = v.up, v.prev, v.next
	if v.prev != none {
		t.nodes[v.prev].next = m
	} else {
		t.nodes[v.up].down = m
	}
	if v.next != none {
		t.nodes[v.next].prev = m
	}
	w := &t.nodes[n]
	w.up, w.prev, w.next = none, none, none
}

// measure computes n's size from its children.
func (t *tree) measure(n int32) {
	v := &t.nodes[n]
	var w, h int64
	var area float64
	var leaves int32
	if v.kind == row {
		for c := v.down; c != none; {
			u := &t.nodes[c]
			w += u.w
			h = max(h, u.h)
			area += u.area
			leaves += u.leaves
			c = u.next
		}
	} else {
		for c := v.down; c != none; {
			u := &t.nodes[c]
			h += u.h
			w = max(w, u.w)
			area += u.area
			leaves += u.leaves
			c = u.next
		}
	}
	v.w, v.h, v.area, v.leaves = w, h, area, leaves
}

// settle measures n and all nodes above it. It returns the lowest of these nodes
// whose outline did not change: outside that node, nothing has gained room.
func (t *tree) settle(n int32) int32 {
	same := none
	for ; n != none; n = t.nodes[n].up {
		v := &t.nodes[n]
		w, h := v.w, v.h
		t.measure(n)
		if same == none && (v.w == w && v.h == h || v.up == none) {
			same = n
		}
	}
	return same
}

// room returns the size that node n may grow to, and its bin. ok is false if n is
// no longer part of the layout.
func (t *tree) room(n int32) (fr frame, b int32, ok bool) {
	v := &t.nodes[n]
	if v.kind == gone {
		return fr, 0, false
	}
	if v.up == none {
		if int(n) >= len(t.bins) {
			return fr, 0, false
		}
		return frame{n, t.bins[n].w, t.bins[n].h}, n, true
	}
	fr, b, ok = t.room(v.up)
	u := &t.nodes[v.up]
	bn := &t.bins[b]
	switch {
	case u.kind == row:
		fr.aw += v.w - u.w
	case int(v.up) < len(t.bins):
		fr.ah = min(bn.tall, fr.ah-u.h+v.h)
	default:
		fr.ah = min(fr.ah, bn.limit) - u.h + v.h
	}
	fr.n = n
	return fr, b, ok
}

// discard frees n for reuse.
func (t *tree) discard(n int32) {
	t.nodes[n].kind = gone
	t.free = append(t.free, n)
}

// newLeaf returns a leaf for the item, which the caller must link.
func (t *tree) newLeaf(it int32, s int8) int32 {
	n := t.take()
	sh := t.items[it].shapes[s]
	t.nodes[n] = node{w: sh.w, h: sh.h, area: t.items[it].area, up: none, down: none, next: none, prev: none, item: it, leaves: 1, kind: leaf, shape: s}
	t.where[it] = n
	return n
}

// A place is where an item may go. If at is a row or stack and some is zero, the
// item becomes a child of at. If at is a leaf, leaf and item go into a new row or
// stack, of the other kind than the leaf's parent. If some is not zero, the item
// goes after (in a row) or beside (in a stack) some children of at: the first ones
// with a height (in a row) or width (in a stack) of at most room.
type place struct {
	at    int32
	shape int8
	some  int16
	room  int64
}

// insert lays the item at p.
func (t *tree) insert(it int32, p place) {
	l := t.newLeaf(it, p.shape)
	switch {
	case p.some > 0:
		t.link(t.gather(p), l)
	case t.nodes[p.at].kind == leaf:
		t.link(t.wrap(p.at), l)
	default:
		t.link(p.at, l)
	}
	t.settle(t.nodes[l].up)
}

// other returns the kind that the children of a row or stack may have.
func other(kind int8) int8 { return row + stack - kind }

// newSplit returns an empty row or stack, which the caller must link.
func (t *tree) newSplit(kind int8) int32 {
	n := t.take()
	t.nodes[n] = node{up: none, down: none, next: none, prev: none, item: none, kind: kind}
	return n
}

// wrap replaces n with a new row or stack that holds n, and returns that.
func (t *tree) wrap(n int32) int32 {
	g := t.newSplit(other(t.nodes[t.nodes[n].up].kind))
	t.replace(n, g)
	t.link(g, n)
	t.measure(g)
	return g
}

// gather moves the children that p names into a new row or stack of the same kind,
// and puts that into a new child of p.at, which it returns.
func (t *tree) gather(p place) int32 {
	kind := t.nodes[p.at].kind
	group, child := t.newSplit(kind), t.newSplit(other(kind))
	left := p.some
	for c := t.nodes[p.at].down; left > 0; {
		u := &t.nodes[c]
		d := c
		c = u.next
		if kind == row && u.h <= p.room || kind == stack && u.w <= p.room {
			t.unlink(d)
			t.link(group, d)
			left--
		}
	}
	t.measure(group)
	t.link(child, group)
	t.measure(child)
	t.link(p.at, child)
	return child
}

// remove takes the subtree n out of the layout; n must not be a bin. It appends the
// items of the subtree to pool, and returns pool and the node that [tree.settle]
// returns.
func (t *tree) remove(n int32, pool []int32) ([]int32, int32) {
	p := t.nodes[n].up
	t.unlink(n)
	pool = t.release(n, pool)
	for int(p) >= len(t.bins) && t.nodes[p].down == none {
		q := t.nodes[p].up
		t.unlink(p)
		t.discard(p)
		p = q
	}
	if int(p) >= len(t.bins) {
		if c := t.nodes[p].down; t.nodes[c].next == none {
			p = t.collapse(p, c)
		}
	}
	return pool, t.settle(p)
}

// collapse removes p, which is not a bin and has the single child c, and returns
// the node from which to settle. If c is of the kind of p's parent, the parent
// takes over c's children.
func (t *tree) collapse(p, c int32) int32 {
	g := t.nodes[p].up
	t.unlink(c)
	t.replace(p, c)
	t.discard(p)
	if t.nodes[c].kind != t.nodes[g].kind {
		return g
	}
	t.unlink(c)
	for d := t.nodes[c].down; d != none; d = t.nodes[c].down {
		t.unlink(d)
		t.link(g, d)
	}
	t.discard(c)
	return g
}

// release frees the nodes of the unlinked subtree n.
func (t *tree) release(n int32, pool []int32) []int32 {
	v := &t.nodes[n]
	if v.kind == leaf {
		pool = append(pool, v.item)
		t.where[v.item] = none
	}
	for c := v.down; c != none; {
		next := t.nodes[c].next
		pool = t.release(c, pool)
		c = next
	}
	t.discard(n)
	return pool
}

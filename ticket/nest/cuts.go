package nest

import (
	"cmp"
	"slices"

	"shadewright/ticket/measure"
)

// A cutter turns a layout into parts and the cuts that make them.
type cutter struct {
	t    *tree
	o    Order
	plan *Plan
	part []int // by item: its index in Plan.Parts
}

// writePlan fills in the plan from a complete layout. Items stand in the order of the
// order's pieces, copies together.
func (t *tree) writePlan(o Order, plan *Plan) {
	c := &cutter{t: t, o: o, plan: plan, part: make([]int, len(t.items))}
	c.roll()
	for b := 1; b < len(t.bins); b++ {
		if t.nodes[b].down != none {
			c.stock(int32(b))
		}
	}
	c.pieces()
	for _, p := range plan.Parts {
		if p.Kind == Offcut {
			plan.Offcuts = append(plan.Offcuts, p)
		}
	}
	slices.SortStableFunc(plan.Offcuts, func(a, b Part) int {
		return cmp.Or(cmp.Compare(b.Width.Times(b.Length), a.Width.Times(a.Length)), cmp.Compare(b.Width, a.Width))
	})
	if l := o.Roll.Length; l > 0 && plan.Used > l {
		plan.Short = plan.Used - l
	}
}

// spare returns how much can be taken off the far end of node n if it has the
// length l. It is not zero only where lengths were rounded up to a repeat, or l is
// more than the node needs.
func (t *tree) spare(n int32, l int64) int64 {
	v := &t.nodes[n]
	switch v.kind {
	case leaf:
		return l - t.items[v.item].shapes[v.shape].blank
	case row:
		least := l
		for d := v.down; d != none; d = t.nodes[d].next {
			least = min(least, t.spare(d, l))
		}
		return least
	}
	var most int64
	for d := v.down; d != none; d = t.nodes[d].next {
		most = max(most, t.spare(d, t.nodes[d].h))
	}
	return l - v.h + most
}

// used returns the length that the layout of bin b uses.
func (t *tree) used(b int32) int64 { return t.nodes[b].h - t.spare(b, t.nodes[b].h) }

// children returns n's children in the order of cutting, the one with the earliest
// piece in the list first. In a stack, the child that can be shortened most comes
// last.
func (c *cutter) children(n int32) []int32 {
	var k []int32
	for d := c.t.nodes[n].down; d != none; d = c.t.nodes[d].next {
		k = append(k, d)
	}
	slices.SortFunc(k, func(a, b int32) int { return cmp.Compare(c.lowest(a), c.lowest(b)) })
	if c.t.nodes[n].kind == stack && c.o.Roll.Repeat > 0 && len(k) > 0 {
		last := 0
		for i, d := range k {
			if c.t.spare(d, c.t.nodes[d].h) > c.t.spare(k[last], c.t.nodes[k[last]].h) {
				last = i
			}
		}
		d := k[last]
		copy(k[last:], k[last+1:])
		k[len(k)-1] = d
	}
	return k
}

// lowest returns the item below n that comes first in the list.
func (c *cutter) lowest(n int32) int32 {
	v := &c.t.nodes[n]
	if v.kind == leaf {
		return v.item
	}
	low := int32(len(c.t.items))
	for d := v.down; d != none; d = c.t.nodes[d].next {
		low = min(low, c.lowest(d))
	}
	return low
}

// add appends a part and returns its index.
func (c *cutter) add(p Part) int {
	p.Piece = -1
	c.plan.Parts = append(c.plan.Parts, p)
	return len(c.plan.Parts) - 1
}

// split cuts part i and returns the near and the far part. The caller sets the kind
// of the near one; the far one is an offcut unless it is cut again.
func (c *cutter) split(i int, way Way, at int64) (near, far int) {
	p := c.plan.Parts[i]
	c.plan.Parts[i].Kind = ToCut
	a, b := p, p
	a.Kind, b.Kind = ToCut, Offcut
	d := measure.Length(at)
	if way == Along {
		a.Width, b.X, b.Width = d, p.X+d, p.Width-d
	} else {
		a.Length, b.Y = d, p.Y+d
		if p.On != OnRoll || p.Length > 0 {
			b.Length = p.Length - d
		} else {
			b.Kind = Rest
		}
	}
	near, far = c.add(a), c.add(b)
	c.plan.Cuts = append(c.plan.Cuts, Cut{From: i, Way: way, At: d, Near: near, Far: far})
	return near, far
}

// roll cuts one section after the other off the roll, and cuts each section up.
func (c *cutter) roll() {
	c.plan.Used = measure.Length(c.t.used(0))
	rest := c.add(Part{On: OnRoll, Width: c.o.Roll.Width, Kind: Rest})
	left := c.plan.Used
	k := c.children(0)
	for i, d := range k {
		l := measure.Length(c.t.nodes[d].h)
		if i == len(k)-1 {
			l = left
		}
		var section int
		section, rest = c.split(rest, Across, int64(l))
		c.up(d, section)
		left -= l
	}
}

// stock cuts up the piece of stock that is bin b.
func (c *cutter) stock(b int32) {
	i := int(b) - 1
	c.plan.OnHand = append(c.plan.OnHand, i)
	s := c.o.OnHand[i]
	c.up(b, c.add(Part{On: i, Width: s.Width, Length: s.Length}))
}

// up cuts part i up into the items of node n.
func (c *cutter) up(n int32, i int) {
	v := c.t.nodes[n]
	if v.kind == leaf {
		c.trim(v, i)
		return
	}
	k := c.children(n)
	for j, d := range k {
		way, at, size := Along, c.t.nodes[d].w, int64(c.plan.Parts[i].Width)
		if v.kind == stack {
			way, at, size = Across, c.t.nodes[d].h, int64(c.plan.Parts[i].Length)
			if j == len(k)-1 { // nothing follows that must begin at a repeat: one cut less
				at -= c.t.spare(d, at)
			}
		}
		if at >= size {
			c.plan.Parts[i].Kind = ToCut
			c.up(d, i)
			return
		}
		var near int
		near, i = c.split(i, way, at)
		c.up(d, near)
	}
}

// trim cuts part i down to the item of the leaf v, the larger offcut first.
func (c *cutter) trim(v node, i int) {
	sh := c.t.items[v.item].shapes[v.shape]
	p := c.plan.Parts[i]
	side, end := p.Width-measure.Length(sh.w), p.Length-measure.Length(sh.blank)
	ways := [2]Way{Across, Along}
	if side.Times(p.Length) > end.Times(p.Width) {
		ways = [2]Way{Along, Across}
	}
	for _, way := range ways {
		switch {
		case way == Across && end > 0:
			i, _ = c.split(i, Across, sh.blank)
		case way == Along && side > 0:
			i, _ = c.split(i, Along, sh.w)
		}
	}
	c.plan.Parts[i].Kind = Ready
	c.part[v.item] = i
}

// pieces lists the order's pieces in their places.
func (c *cutter) pieces() {
	a := c.o.Roll.Allowance
	it := 0
	for i, p := range c.o.Pieces {
		for k := range p.Quantity {
			n := c.t.where[it]
			part := c.part[it]
			b := &c.plan.Parts[part]
			b.Piece = len(c.plan.Pieces)
			c.plan.Pieces = append(c.plan.Pieces, Placed{
				Piece: i, Copy: k, On: b.On, X: b.X + a, Y: b.Y + a,
				Width: b.Width - 2*a, Length: b.Length - 2*a,
				Turned: c.t.items[it].shapes[c.t.nodes[n].shape].turned, Part: part,
			})
			it++
		}
	}
}

package nest

import (
	"math"
	"slices"
	"sync/atomic"
)

// An outline is the size of a rectangle that holds some items in a guillotine
// layout.
type outline struct{ w, h int64 }

// mostSets limits the memory of an exact search, which keeps a list for every set
// of items.
const mostSets = 1 << 18

// An exact search finds the shortest layout. From the smallest set of items up, it
// builds all outlines that hold just that set, except those that enclose a smaller
// one. Items of one kind are interchangeable, so a set is a count for each kind;
// these counts are the digits of the set's number, in a mixed base.
type exact struct {
	p      *problem
	kinds  []exactKind
	under  int64   // only layouts lower than this are of interest
	work   int64   // steps that remain
	waste  float64 // the most that a layout of interest can waste, and a little for rounding
	widest int64   // the greatest width of an outline
	first  []int32 // by set: where its list starts in all
	all    []outline
	area   []float64
	alone  bool      // there is no stock, so cloth beside a lone outline is waste
	list   []outline // outlines of the set being built
	digits []int32   // counts of the set being built
	part   []int32   // counts of one part of that set
}

type exactKind struct {
	items  []int32
	shapes []shape
	base   int32 // number of the set that holds just one of these items
	narrow int64 // width of the narrowest shape
}

// newExact returns a search for layouts lower than under. It returns nil if the
// sets of items are too many, or for stock that it cannot handle.
func newExact(p *problem, under, work int64) *exact {
	x := &exact{p: p, under: under, work: work, alone: len(p.bins) == 1}
	for _, b := range p.bins[1:] {
		if b.h != b.tall || b.h > p.bins[0].limit {
			return nil // stock with a broken repeat at its end, or longer than the table
		}
	}
	for i := range p.items {
		im := &p.items[i]
		for int(im.kind) >= len(x.kinds) {
			x.kinds = append(x.kinds, exactKind{})
		}
		k := &x.kinds[im.kind]
		k.items, k.shapes = append(k.items, int32(i)), im.shapes
		k.narrow = math.MaxInt64
		for _, s := range im.shapes {
			k.narrow = min(k.narrow, s.w)
		}
	}
	sets := int64(1)
	for i := range x.kinds {
		x.kinds[i].base = int32(sets)
		if sets *= int64(len(x.kinds[i].items) + 1); sets > mostSets {
			return nil
		}
	}
	x.widest = p.bins[0].w
	for _, b := range p.bins[1:] {
		x.widest = max(x.widest, b.w)
		x.waste += float64(float64(b.w) * float64(b.h))
	}
	x.waste += float64(float64(p.bins[0].w) * float64(under-p.unit))
	var total float64
	for i := range p.items {
		total += p.items[i].area
	}
	x.waste += float64(total*(slack-1)) - total
	x.first = make([]int32, sets+1)
	x.area = make([]float64, sets)
	x.digits, x.part = make([]int32, len(x.kinds)), make([]int32, len(x.kinds))
	return x
}

func (x *exact) outlines(set int32) []outline { return x.all[x.first[set]:x.first[set+1]] }

// find returns the best layout that is lower than under, on as little stock as will
// do. Its height is never if there is no such layout. ok is false if the work ran
// out.
func (x *exact) find(stop *atomic.Bool) (g goal, ok bool) {
	if !x.run(stop) {
		return g, false
	}
	use := make([]bool, len(x.p.bins))
	for b := range use {
		use[b] = true
	}
	if g, ok = x.solve(use); !ok || g.height >= x.under {
		return goal{height: never}, ok
	}
	for b := len(use) - 1; b > 0; b-- {
		use[b] = false
		less, ok := x.solve(use)
		if !ok {
			return g, false
		}
		if less.height == g.height {
			g = less
		} else {
			use[b] = true
		}
	}
	return g, true
}

// run builds the lists of all sets. It returns false if the work ran out.
func (x *exact) run(stop *atomic.Bool) bool {
	for set := int32(1); int(set) < len(x.area); set++ {
		for i := range x.digits { // the next set: count its digits up
			if x.digits[i]++; int(x.digits[i]) <= len(x.kinds[i].items) {
				break
			}
			x.digits[i] = 0
		}
		if stop.Load() || !x.build(set) {
			return false
		}
		x.all = append(x.all, x.list...)
		x.first[set+1] = int32(len(x.all))
		if len(x.all) > 1<<24 {
			return false
		}
	}
	return true
}

// build makes the list of one set. It returns false if the work ran out.
func (x *exact) build(set int32) bool {
	x.list = x.list[:0]
	var area float64
	n, only, beside := int32(0), 0, int64(math.MaxInt64)
	for i, d := range x.digits {
		k := &x.kinds[i]
		area += float64(float64(d) * x.p.items[k.items[0]].area)
		if n += d; d > 0 {
			only = i
		}
		if int(d) < len(k.items) {
			beside = min(beside, k.narrow)
		}
	}
	x.area[set] = area
	c := corner{x: x, area: area}
	c.full = math.MaxInt64
	if x.alone && beside < math.MaxInt64 {
		c.full = x.p.bins[0].w - beside
	} else if x.alone {
		c.full = -1
	}
	if n == 1 {
		for _, s := range x.kinds[only].shapes {
			c.add(s.w, s.h, x.p.bins[0].tall)
		}
		return true
	}
	return x.parts(set, &c)
}

// parts joins the outlines of the two parts, for every way to divide the set in
// two.
func (x *exact) parts(set int32, c *corner) bool {
	clear(x.part)
	a := int32(0)
	for {
		i := 0
		for ; i < len(x.part); i++ { // the next part: count up, each digit at most the set's
			b := x.kinds[i].base
			if x.part[i] < x.digits[i] {
				x.part[i]++
				a += b
				break
			}
			a -= x.part[i] * b
			x.part[i] = 0
		}
		x.work--
		if b := set - a; i == len(x.part) || a > b {
			return x.work > 0
		} else if p, q := x.outlines(a), x.outlines(b); len(p) > 0 && len(q) > 0 {
			x.work -= int64(len(p) + len(q))
			c.rows(p, q)
			c.stacks(p, q)
		}
	}
}

// A corner collects the outlines of one set.
type corner struct {
	x    *exact
	area float64
	full int64 // nothing fits beside an outline wider than this
}

// rows adds every outline of p with one of q beside it. Both lists run from narrow
// and high to wide and low.
func (c *corner) rows(p, q []outline) {
	tall := c.x.p.bins[0].tall
	for i, j := 0, 0; ; {
		a, b := p[i], q[j]
		if a.w+b.w > c.x.widest {
			return
		}
		c.add(a.w+b.w, max(a.h, b.h), tall)
		if a.h >= b.h {
			if i++; i == len(p) {
				return
			}
			if a.h == b.h {
				if j++; j == len(q) {
					return
				}
			}
		} else if j++; j == len(q) {
			return
		}
	}
}

// stacks adds every outline of p with one of q after it.
func (c *corner) stacks(p, q []outline) {
	limit := c.x.p.bins[0].limit
	for i, j := len(p)-1, len(q)-1; ; {
		a, b := p[i], q[j]
		if a.h+b.h >= c.x.under {
			return
		}
		c.add(max(a.w, b.w), a.h+b.h, limit)
		if a.w >= b.w {
			if i--; i < 0 {
				return
			}
			if a.w == b.w {
				if j--; j < 0 {
					return
				}
			}
		} else if j--; j < 0 {
			return
		}
	}
}

// add puts an outline into the list unless it is of no use.
func (c *corner) add(w, h, limit int64) {
	x := c.x
	if w > x.widest || h >= x.under || h > limit {
		return
	}
	if w > c.full {
		w = x.widest
	}
	if float64(w)*float64(h) > c.area+x.waste {
		return
	}
	l := x.list
	i, _ := slices.BinarySearchFunc(l, w, func(o outline, w int64) int { return int(min(1, max(-1, o.w-w))) })
	if i > 0 && l[i-1].h <= h || i < len(l) && l[i].w == w && l[i].h <= h {
		return
	}
	j := i // drops the outlines from i on that are no lower
	for j < len(l) && l[j].h >= h {
		j++
	}
	x.list = slices.Replace(l, i, j, outline{w, h})
}

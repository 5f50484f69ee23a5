package nest

import (
	"math"
	"math/bits"
	"math/rand/v2"
	"slices"
	"sync/atomic"
)

// A worker looks for shorter and shorter layouts. It takes some items off, lays
// them again where they leave the most useful cloth, and keeps the change unless it
// leaves much more unlaid than before.
type worker struct {
	p              *problem
	t, keep, best  *tree
	pool, kept     []int32
	f              finder
	rng            *rand.Rand
	goal           int64   // the most height that the roll may have
	bestH          int64   // height of best
	hand, keptHand float64 // area of the items in pool and in kept
	mean           float64 // mean area of an item
	place          []int32 // by item: its index in a window
	parts          []int32 // where items were just taken off
	keys           []float64
	stop           *atomic.Bool // true when the search must end
}

func newWorker(p *problem, seed uint64) *worker {
	items, bins := p.items, p.bins
	w := &worker{
		p:     p,
		t:     newTree(items, append([]bin(nil), bins...)),
		rng:   rand.New(rand.NewPCG(seed, 0x5ade)),
		bestH: math.MaxInt64,
	}
	w.f.rng = seed<<1 | 1 // must not be zero
	w.keep, w.best = w.t.clone(), w.t.clone()
	var area float64
	for i := range items {
		area += items[i].area
		w.pool = append(w.pool, int32(i))
	}
	w.mean = area / float64(len(items))
	w.keys = make([]float64, len(items))
	return w
}

// first lays all items for the first time, in the least height that has room for
// them all.
func (w *worker) first() {
	w.goal = w.p.low
	for i := range w.t.items {
		for _, s := range w.t.items[i].shapes {
			w.goal = max(w.goal, s.h)
		}
	}
	w.t.bins[0].h = w.goal
	for {
		w.refill(0, nil)
		if len(w.pool) == 0 {
			break
		}
		w.goal += max(w.goal/16, 1)
		w.t.bins[0].h = w.goal
	}
	w.record()
}

// record saves a complete layout as the best.
func (w *worker) record() {
	w.bestH = w.t.nodes[0].h
	w.best.copyFrom(w.t)
}

// adopt takes over a complete layout.
func (w *worker) adopt(t *tree) {
	w.t.copyFrom(t)
	w.pool = w.pool[:0]
	w.record()
}

// refill lays the items of the pool, sorted in the given way, in some parts of the
// layout or, if parts is nil, anywhere.
func (w *worker) refill(by int, parts []int32) {
	w.order(by)
	n := 0
	for _, it := range w.pool {
		if w.f.find(w.t, it, parts) {
			w.t.insert(it, w.f.at)
		} else {
			w.pool[n] = it
			n++
		}
	}
	w.pool = w.pool[:n]
}

func (w *worker) order(by int) {
	for _, it := range w.pool {
		im := &w.t.items[it]
		sh := im.shapes[0]
		var k float64
		switch by {
		case 0:
			k = im.area
		case 1:
			k = float64(im.long)
		case 2:
			k = float64(sh.w)
		case 3:
			k = float64(sh.h)
		default:
			k = w.rng.Float64()
		}
		w.keys[it] = k
	}
	p := w.pool
	if len(p) > 40 {
		sortByKey(p, w.keys)
		return
	}
	for i := 1; i < len(p); i++ {
		for j := i; j > 0 && less(p[j], p[j-1], w.keys); j-- {
			p[j], p[j-1] = p[j-1], p[j]
		}
	}
}

func (w *worker) handArea() float64 {
	var a float64
	for _, it := range w.pool {
		a += w.t.items[it].area
	}
	return a
}

// aim lowers the goal and takes off the items that no longer fit.
func (w *worker) aim(goal int64) {
	w.goal = goal
	w.t.bins[0].h = goal
	for w.t.nodes[0].h > goal {
		n := int32(0)
		for w.t.nodes[n].kind != leaf {
			n = w.tallest(n)
		}
		w.pool, _ = w.t.remove(n, w.pool)
	}
}

// tallest returns the highest child of a row, or a random child of a stack.
func (w *worker) tallest(n int32) int32 {
	v := &w.t.nodes[n]
	best, k := v.down, uint64(0)
	for c := v.down; c != none; c = w.t.nodes[c].next {
		if v.kind == row {
			if w.t.nodes[c].h > w.t.nodes[best].h {
				best = c
			}
			continue
		}
		k++
		if w.f.noise()%k == 0 {
			best = c
		}
	}
	return best
}

func (w *worker) save() {
	w.keep.copyFrom(w.t)
	w.kept = append(w.kept[:0], w.pool...)
	w.keptHand = w.hand
}

func (w *worker) restore() {
	w.t.copyFrom(w.keep)
	w.pool = append(w.pool[:0], w.kept...)
	w.hand = w.keptHand
}

// Heat is an area: how much more than before a step may leave in the pool. It falls
// from hot, in mean item areas, to hot/(1+cooling). The explicit float64
// conversions stop the compiler from fusing a product with a sum, which gives other
// bits on some machines.
const (
	hot     = 0.1
	cooling = 2.3
)

// run searches until the work is done or the height cannot be less. The search
// cools down as its share of the whole work goes from from to to.
func (w *worker) run(work int64, from, to float64) {
	if w.bestH <= w.p.low {
		return
	}
	if len(w.pool) == 0 {
		w.aim(w.bestH - w.p.unit)
	}
	w.hand = w.handArea()
	w.save()
	start := w.f.work
	for w.f.work-start < work && !w.stop.Load() {
		done := from + float64((to-from)*float64(w.f.work-start)/float64(work))
		if w.step(w.mean*hot/(1+float64(done*cooling))) && len(w.pool) == 0 {
			w.record()
			if w.bestH <= w.p.low {
				return
			}
			w.aim(w.bestH - w.p.unit)
			w.hand = w.handArea()
			w.save()
		}
	}
}

// step takes some items off and lays the pool again. It reports whether it kept the
// result: always if less area is left in the pool, else with a chance that grows
// with the heat.
func (w *worker) step(heat float64) bool {
	w.ruin()
	w.f.skip = 10
	parts := w.parts
	if w.rng.IntN(4) == 0 || len(parts) == 0 {
		parts = nil
	}
	w.refill(w.rng.IntN(5), parts)
	w.hand = w.handArea()
	w.f.work += int64(len(w.t.nodes)) / 4
	if w.hand > w.keptHand+float64(heat*w.patience()) {
		w.restore()
		return false
	}
	w.save()
	return true
}

// patience returns a random number with a mean of about 1 and a nearly exponential
// distribution. It takes the whole and the fractional part of a binary logarithm,
// because math.Log differs between machines.
func (w *worker) patience() float64 {
	r := w.rng.Uint64() | 1
	k := bits.LeadingZeros64(r)
	part := float64(r<<k<<1>>11) / (1 << 53)
	return math.Ln2 * (float64(k) + 1 - part)
}

// dropStock tries to lay everything in the height of the best layout without the
// stock that is bin b.
func (w *worker) dropStock(b int, work int64) {
	w.t.copyFrom(w.best)
	w.pool = w.pool[:0]
	w.t.bins[b] = bin{}
	for n := w.t.nodes[b].down; n != none; n = w.t.nodes[b].down {
		w.pool, _ = w.t.remove(n, w.pool)
	}
	w.aim(w.bestH)
	w.hand = w.handArea()
	w.save()
	for start := w.f.work; w.f.work-start < work && len(w.pool) > 0 && !w.stop.Load(); {
		w.step(w.mean * hot / (1 + cooling))
	}
	if len(w.pool) == 0 && w.t.used(0) <= w.best.used(0) {
		w.record()
	}
}

// ruin takes some items off.
func (w *worker) ruin() {
	t := w.t
	w.parts = w.parts[:0]
	want := 1 + w.rng.IntN(16)
	for tries := 0; want > 0 && tries < 20; tries++ {
		it := w.rng.IntN(len(t.items))
		n := t.where[it]
		if n == none {
			continue
		}
		// Move up while the subtree is small enough.
		for int(t.nodes[n].up) >= len(t.bins) && int(t.nodes[t.nodes[n].up].leaves) <= want && w.rng.IntN(4) != 0 {
			n = t.nodes[n].up
		}
		want -= int(t.nodes[n].leaves)
		w.f.work += int64(t.nodes[n].leaves)
		var part int32
		w.pool, part = t.remove(n, w.pool)
		w.parts = w.addPart(part)
	}
}

func less(a, b int32, keys []float64) bool {
	return keys[a] > keys[b] || keys[a] == keys[b] && a < b
}

func sortByKey(p []int32, keys []float64) {
	slices.SortFunc(p, func(a, b int32) int {
		if less(a, b, keys) {
			return -1
		}
		return 1
	})
}

// addPart adds a node to the parts, unless it lies inside one of them.
func (w *worker) addPart(part int32) []int32 {
	for n := part; n != none; n = w.t.nodes[n].up {
		if slices.Contains(w.parts, n) {
			return w.parts
		}
	}
	return append(w.parts, part)
}

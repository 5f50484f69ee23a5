package nest

import (
	"math/bits"
	"slices"
)

// unit returns the greatest common divisor of the items' heights. Every height of a
// layout is a sum of such heights, so it is a multiple of unit.
func unit(items []item) int64 {
	var g int64
	for i := range items {
		for _, s := range items[i].shapes {
			for a := s.h; a != 0; {
				g, a = a, g%a
			}
		}
	}
	return g
}

// lowest returns a lower bound for the height of any layout: by area, by the items
// that cannot lie side by side, and by the highest item. It raises the bound to a
// height that the items can add up to.
func lowest(p *problem) int64 {
	w := p.bins[0].w
	area := weigher{uint64(w), func(x int64) uint64 { return uint64(x) }}
	low := area.bound(p, func(b bin) uint64 { return uint64(b.w) })
	if len(p.bins) == 1 {
		low = max(low, highest(p.items))
	}
	if !slices.ContainsFunc(p.bins, func(b bin) bool { return b.w > w }) {
		for _, f := range weighers(p) {
			low = max(low, f.bound(p, func(bin) uint64 { return f.full }))
		}
	}
	return p.reach(low)
}

// highest returns the height of the highest item, each item lying the way that
// makes it lowest.
func highest(items []item) int64 {
	var high int64
	for i := range items {
		h := items[i].shapes[0].h
		for _, s := range items[i].shapes {
			h = min(h, s.h)
		}
		high = max(high, h)
	}
	return high
}

// A weigher is a dual feasible function: it gives each width a weight so that items
// side by side on the roll never weigh more than full.
type weigher struct {
	full   uint64
	weight func(int64) uint64
}

// bound returns the height of roll that the items need by weight, less what the
// stock can hold. Each item lies the way that weighs least.
func (f weigher) bound(p *problem, stock func(bin) uint64) int64 {
	var sum wide
	for i := range p.items {
		var least wide
		for k, s := range p.items[i].shapes {
			if v := product(f.weight(s.w), uint64(s.h)); k == 0 || v.less(least) {
				least = v
			}
		}
		sum = sum.plus(least)
	}
	for _, b := range p.bins[1:] {
		v := product(stock(b), uint64(b.tall))
		if !v.less(sum) {
			return 0
		}
		sum = sum.minus(v)
	}
	q, r := bits.Div64(sum.hi, sum.lo, f.full) // no item weighs more than full, so q fits in 64 bits
	if r > 0 {
		q++
	}
	return int64(q)
}

// mostWeighers limits the number of thresholds, which bounds the time.
const mostWeighers = 200

// weighers returns dual feasible functions of three families: see Fekete,
// Schepers, "New classes of fast lower bounds for bin packing problems",
// Mathematical Programming 91 (2001), and Carlier, Clautiaux, Moukrim, "New
// reduction procedures and lower bounds for the two-dimensional bin packing
// problem with fixed orientation", Computers & Operations Research 34 (2007).
func weighers(p *problem) []weigher {
	w := p.bins[0].w
	var all []weigher
	for k := int64(1); k <= 20; k++ {
		all = append(all, weigher{uint64(k * w), func(x int64) uint64 { return shares(x, w, k) }})
	}
	for _, t := range thresholds(p) {
		all = append(all,
			weigher{uint64(w), func(x int64) uint64 { return ends(x, w, t) }},
			weigher{uint64(2 * (w / t)), func(x int64) uint64 { return steps(x, w, t) }})
	}
	return all
}

// thresholds returns every item width, or what it leaves beside it on the roll if
// that is less. None exceeds half of the roll's width.
func thresholds(p *problem) []int64 {
	var t []int64
	w := p.bins[0].w
	for i := range p.items {
		for _, s := range p.items[i].shapes {
			if x := min(s.w, w-s.w); x > 0 {
				t = append(t, x)
			}
		}
	}
	slices.Sort(t)
	t = slices.Compact(t)
	return t[:min(len(t), mostWeighers)]
}

// shares is Fekete and Schepers' u(k), times k·w. It rounds a width down to
// (k+1)ths of w, and leaves a width that is a whole number of them as it is.
func shares(x, w, k int64) uint64 {
	if n := (k + 1) * x; n%w != 0 {
		return uint64(n / w * w)
	}
	return uint64(k * x)
}

// ends counts a width above w−t as the whole width, and a width below t as nothing.
func ends(x, w, t int64) uint64 {
	switch {
	case x > w-t:
		return uint64(w)
	case x < t:
		return 0
	}
	return uint64(x)
}

// steps counts a width in steps of t, doubled. A width below half of w is rounded
// down; a wider one counts as the whole less the steps that fit beside it.
func steps(x, w, t int64) uint64 {
	switch {
	case 2*x > w:
		return uint64(2 * (w/t - (w-x)/t))
	case 2*x == w:
		return uint64(w / t)
	}
	return uint64(2 * (x / t))
}

// wide is a 128-bit number: a weight times a height does not fit in 64 bits.
type wide struct{ hi, lo uint64 }

func product(a, b uint64) wide {
	hi, lo := bits.Mul64(a, b)
	return wide{hi, lo}
}

func (a wide) less(b wide) bool { return a.hi < b.hi || a.hi == b.hi && a.lo < b.lo }

func (a wide) plus(b wide) wide {
	lo, c := bits.Add64(a.lo, b.lo, 0)
	return wide{a.hi + b.hi + c, lo}
}

func (a wide) minus(b wide) wide {
	lo, c := bits.Sub64(a.lo, b.lo, 0)
	return wide{a.hi - b.hi - c, lo}
}

// These limit the memory, in bits, and the steps that sums of heights take.
const (
	mostSums     = 1 << 22
	mostSumSteps = 1 << 27
)

// reach returns the least sum of item heights that is at least low. Every layout's
// height is such a sum, because everything in it can be pushed towards the cut end.
// Where the sums are too many to list, it returns the next multiple of the unit.
func (p *problem) reach(low int64) int64 {
	from := (low + p.unit - 1) / p.unit
	n := from + from/4 + 64
	if n > mostSums || n/64*int64(len(p.items)) > mostSumSteps {
		return from * p.unit
	}
	sums := make([]uint64, n/64+1)
	sums[0] = 1
	old := make([]uint64, len(sums))
	for i := range p.items {
		copy(old, sums)
		for _, s := range p.items[i].shapes {
			orShifted(sums, old, s.h/p.unit)
		}
	}
	for h := from; h < n; h++ {
		if sums[h/64]>>(h%64)&1 == 1 {
			return h * p.unit
		}
	}
	return from * p.unit
}

// orShifted shifts the bits of old up by n and ORs them into sums.
func orShifted(sums, old []uint64, n int64) {
	words, rest := n/64, uint(n%64)
	for i := int64(len(sums)) - 1; i >= words; i-- {
		v := old[i-words] << rest
		if rest > 0 && i > words {
			v |= old[i-words-1] >> (64 - rest)
		}
		sums[i] |= v
	}
}

package nest

import (
	"math/bits"
	"slices"
)

// unit returns the greatest length of which every height of a layout is a
// multiple: heights are sums of the items' heights.
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

// lowest returns a height below which no layout of the problem can be: for the
// area, for what cannot lie side by side, for the highest item; raised to a
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

// highest returns the greatest height that an item has at least.
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

// A weigher gives each width a weight such that what lies side by side on the
// roll never weighs more than full: a dual feasible function.
type weigher struct {
	full   uint64
	weight func(int64) uint64
}

// bound returns the height of the roll that the items need by their weight,
// each taking the way to lie that weighs least, less what the stock can hold.
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
	q, r := bits.Div64(sum.hi, sum.lo, f.full) // no item weighs more than full, so q fits
	if r > 0 {
		q++
	}
	return int64(q)
}

// mostWeighers bounds how many thresholds are tried.
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

// thresholds returns the widths, and what they leave beside them, up to half of
// the roll's.
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

// shares is Fekete and Schepers' u(k), times k·w: the width in (k+1)ths of w,
// rounded down, unless it is a whole number of them.
func shares(x, w, k int64) uint64 {
	if n := (k + 1) * x; n%w != 0 {
		return uint64(n / w * w)
	}
	return uint64(k * x)
}

// ends takes what is wider than w−t for the whole width and forgets what is
// narrower than t.
func ends(x, w, t int64) uint64 {
	switch {
	case x > w-t:
		return uint64(w)
	case x < t:
		return 0
	}
	return uint64(x)
}

// steps counts in steps of t, twice: rounded down for what is narrower than
// half of w, and as the rest of the whole for what is wider.
func steps(x, w, t int64) uint64 {
	switch {
	case 2*x > w:
		return uint64(2 * (w/t - (w-x)/t))
	case 2*x == w:
		return uint64(w / t)
	}
	return uint64(2 * (x / t))
}

// wide is a number of 128 bits.
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

// mostSums bounds the memory, in bits, and the time for sums of heights.
const (
	mostSums     = 1 << 22
	mostSumSteps = 1 << 27
)

// reach returns the least sum of heights of some of the items that is not less
// than low. Every layout's height is such a sum, since all of it can be pushed
// towards the cut end. Where sums are too many to list, it returns the next
// multiple of the unit.
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

// orShifted sets the bits of old, moved up by n, in sums.
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

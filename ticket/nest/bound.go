package nest

import "math/bits"

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

// lowest returns a height below which no layout of the problem can be.
func lowest(p *problem) int64 {
	low := areaBound(p.items, p.bins)
	if len(p.bins) == 1 {
		for i := range p.items {
			h := p.items[i].shapes[0].h
			for _, s := range p.items[i].shapes {
				h = min(h, s.h)
			}
			low = max(low, h)
		}
	}
	return (low + p.unit - 1) / p.unit * p.unit
}

// areaBound returns the height of the roll that has the items' area less that
// of the stock, rounded up.
func areaBound(items []item, bins []bin) int64 {
	var hi, lo uint64
	for i := range items {
		s := items[i].shapes[0]
		h, l := bits.Mul64(uint64(s.w), uint64(s.h))
		var c uint64
		lo, c = bits.Add64(lo, l, 0)
		hi += h + c
	}
	for _, b := range bins[1:] {
		h, l := bits.Mul64(uint64(b.w), uint64(b.tall))
		if h > hi || h == hi && l >= lo {
			return 0
		}
		var c uint64
		lo, c = bits.Sub64(lo, l, 0)
		hi -= h + c
	}
	w := uint64(bins[0].w)
	q, r := bits.Div64(hi, lo, w)
	if r > 0 {
		q++
	}
	return int64(q)
}

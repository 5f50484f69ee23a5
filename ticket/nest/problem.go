package nest

import (
	"fmt"
	"maps"
	"math"
	"slices"
)

// A problem is an order with every copy of a piece as an item, for one choice of
// which matched pieces are turned.
type problem struct {
	items []item
	bins  []bin
	unit  int64 // every height of a layout is a multiple of it
	low   int64 // no layout is lower, with lengths rounded up to a repeat
	trim  int64 // the most by which the height exceeds the length used
}

// A choice says for each match whether its pieces are turned. Pieces of a match
// that it does not name may each lie either way.
type choice map[string]bool

// with returns the choice with one more match.
func (c choice) with(match string, turned bool) choice {
	d := maps.Clone(c)
	d[match] = turned
	return d
}

// mostChoices limits the choices that are all tried.
const mostChoices = 8

// choices returns the choices to try, the one without turns first. all is false if
// there are more than [mostChoices]; a quick search has then picked the best ones.
func (o Order) choices() (tried []choice, all bool) {
	tried = []choice{{}}
	free := o.matches()
	for _, m := range free {
		var next []choice
		for _, c := range tried {
			for _, turned := range []bool{false, true} {
				if o.matchFits(m, turned) {
					next = append(next, c.with(m, turned))
				}
			}
		}
		if tried = next; len(tried) > mostChoices {
			return o.climb(free), false
		}
	}
	return tried, true
}

// firstLayouts limits the time that picking choices takes: the number of first
// layouts made, times the square of the number of pieces.
const firstLayouts = 20_000_000

// climb starts from one choice, turns one match after the other, and keeps each
// turn that makes the first layout shorter. It returns the last two choices kept.
func (o Order) climb(free []string) []choice {
	best := choice{}
	for _, m := range free {
		best[m] = !o.matchFits(m, false)
	}
	n := 0
	for _, p := range o.Pieces {
		n += p.Quantity
	}
	last, height := best, o.firstHeight(best)
	left := firstLayouts / (n * n)
	for pass := 0; pass < 2; pass++ {
		for _, m := range free {
			if left <= 0 || !o.matchFits(m, !best[m]) {
				continue
			}
			left--
			c := best.with(m, !best[m])
			if h := o.firstHeight(c); h < height {
				last, best, height = best, c, h
			}
		}
	}
	if maps.Equal(last, best) {
		return []choice{best}
	}
	return []choice{best, last}
}

// firstHeight returns the height of the first layout of a choice.
func (o Order) firstHeight(c choice) int64 {
	w := newWorker(o.problem(c), 1)
	w.first()
	return w.bestH
}

// matches returns the matches in the order in which the pieces name them.
func (o Order) matches() []string {
	var all []string
	for _, p := range o.Pieces {
		if p.Match != "" && !slices.Contains(all, p.Match) {
			all = append(all, p.Match)
		}
	}
	return all
}

// matchFits reports whether all pieces of a match can lie that way.
func (o Order) matchFits(match string, turned bool) bool {
	for _, p := range o.Pieces {
		if p.Match == match && (!o.fitsWay(p, turned) || turned && !p.Turn) {
			return false
		}
	}
	return true
}

// problem writes the order out for one choice.
func (o Order) problem(c choice) *problem {
	p := &problem{}
	kinds := map[string]int32{}
	for _, pc := range o.Pieces {
		im := o.item(pc, c)
		key := ""
		for _, s := range im.shapes {
			key += s.key()
			p.trim = max(p.trim, s.h-s.blank)
		}
		k, ok := kinds[key]
		if !ok {
			k = int32(len(kinds))
			kinds[key] = k
		}
		im.kind = k
		p.items = append(p.items, slices.Repeat([]item{im}, pc.Quantity)...)
	}
	p.bins = o.bins()
	p.unit = unit(p.items)
	p.low = lowest(p)
	return p
}

// bins returns the roll, without a limit to its height, and the stock. With a
// repeat, heights are whole repeats. Of a broken repeat at the end of stock or of a
// section, only a single piece that ends there can use any.
func (o Order) bins() []bin {
	r := max(int64(o.Roll.Repeat), 1)
	roll := bin{w: int64(o.Roll.Width), limit: math.MaxInt64, tall: math.MaxInt64}
	if t := int64(o.Roll.Table); t > 0 {
		roll.limit, roll.tall = t/r*r, (t+r-1)/r*r
	}
	all := []bin{roll}
	for _, s := range o.OnHand {
		l := int64(s.Length)
		all = append(all, bin{w: int64(s.Width), h: l / r * r, limit: l / r * r, tall: (l + r - 1) / r * r})
	}
	return all
}

// item returns one copy of the piece.
func (o Order) item(pc Piece, c choice) item {
	a := 2 * o.Roll.Allowance
	var im item
	for _, turned := range []bool{false, true} {
		if matched, ok := c[pc.Match]; ok && matched != turned || turned && !pc.Turn || !o.fitsWay(pc, turned) {
			continue
		}
		s := shape{w: int64(pc.Width + a), h: int64(pc.Length + a), turned: turned}
		if turned {
			s.w, s.h = s.h, s.w
		}
		s.blank = s.h
		if r := int64(o.Roll.Repeat); r > 0 {
			s.h = (s.h + r - 1) / r * r
		}
		if len(im.shapes) == 1 && s.w == im.shapes[0].w {
			continue // a square: turning changes nothing
		}
		im.shapes = append(im.shapes, s)
	}
	s := im.shapes[0]
	im.narrow, im.flat = s.w, s.h
	for _, s := range im.shapes {
		im.narrow, im.flat = min(im.narrow, s.w), min(im.flat, s.h)
	}
	im.area, im.long = float64(s.w)*float64(s.h), max(s.w, s.h)
	return im
}

// key returns the same text for shapes of the same size.
func (s shape) key() string { return fmt.Sprint(s.w, " ", s.h, " ") }

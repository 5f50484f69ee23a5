package nest

import (
	"context"
	"encoding/binary"
	"math"
	"math/bits"
	"slices"
)

// A stickKind is one length and the pieces that have it.
type stickKind struct {
	length int64 // with a kerf
	pieces []int // indices in StickOrder.Pieces
	weight uint64
}

// A stickType is a stock length.
type stickType struct {
	stock  int   // index in StickOrder.Stock
	room   int64 // with a kerf
	cost   int64 // zero if on hand
	there  int   // how many are on hand
	weight uint64
}

// A filled stick is a type and how many of some kinds are cut from it.
type filled struct {
	kind int
	cuts []several
}

// several is how many of a kind.
type several struct{ kind, n int }

// sticks is an exhaustive search. It always cuts the longest piece that is left
// next, from a stick that is filled until nothing more that is left fits:
// moving a piece to an earlier stick costs nothing, so some best plan is so.
type sticks struct {
	o     StickOrder
	ctx   context.Context
	kinds []stickKind
	types []stickType
	left  []int  // of each kind
	need  int64  // length of all that is left
	heavy uint64 // weight of all that is left
	work  int64
	low   int64 // no plan costs less
	seen  map[string]int64
	used  []int // of each kind, on the stick being filled
	key   []byte

	now        []filled
	best       int64
	bestSticks []filled
}

// mostSeen bounds the memory for what was met before.
const mostSeen = 200_000

// bound chooses the weights of lengths that give the best bound, and sets low.
func (s *sticks) bound() {
	p := &problem{}
	for _, t := range s.types {
		if len(p.bins) == 0 || t.room > p.bins[0].w {
			p.bins = []bin{{w: t.room}}
		}
	}
	for _, k := range s.kinds {
		p.items = append(p.items, item{shapes: []shape{{w: k.length, h: 1}}})
	}
	for _, f := range weighers(p) {
		s.weigh(f.weight)
		s.low = max(s.low, s.atLeast())
	}
	low := s.low
	for _, f := range weighers(p) {
		if s.weigh(f.weight); s.atLeast() == low {
			return
		}
	}
}

// weigh gives lengths the weights of a superadditive function.
func (s *sticks) weigh(f func(int64) uint64) {
	s.heavy = 0
	for i := range s.kinds {
		s.kinds[i].weight = f(s.kinds[i].length)
		s.heavy += s.kinds[i].weight * uint64(s.left[i])
	}
	for i := range s.types {
		s.types[i].weight = f(s.types[i].room)
	}
}

// atLeast returns what must still be spent, by length and by weight.
func (s *sticks) atLeast() int64 {
	need, heavy := uint64(s.need), s.heavy
	for _, t := range s.types {
		if t.cost == 0 {
			need -= min(need, uint64(t.room)*uint64(t.there))
			heavy -= min(heavy, t.weight*uint64(t.there))
		}
	}
	byNeed, byWeight, step := uint64(math.MaxInt64), uint64(math.MaxInt64), int64(0)
	if heavy == 0 {
		byWeight = 0
	}
	for _, t := range s.types {
		if t.cost == 0 {
			continue
		}
		byNeed = min(byNeed, share(need, uint64(t.cost), uint64(t.room)))
		if t.weight > 0 { // else it holds nothing that weighs
			byWeight = min(byWeight, share(heavy, uint64(t.cost), t.weight))
		}
		for a := t.cost; a != 0; {
			step, a = a, step%a
		}
	}
	least := int64(max(byNeed, byWeight))
	return (least + step - 1) / step * step
}

// share returns a·cost/whole, rounded up.
func share(a, cost, whole uint64) uint64 {
	hi, lo := bits.Mul64(a, cost)
	if hi >= whole {
		return math.MaxInt64
	}
	q, r := bits.Div64(hi, lo, whole)
	if r > 0 {
		q++
	}
	return min(q, math.MaxInt64)
}

// longest returns the longest kind of which some are left, or -1.
func (s *sticks) longest() int {
	return slices.IndexFunc(s.left, func(n int) bool { return n > 0 })
}

// first cuts the longest piece that fits, again and again, from the first stock
// that takes the longest one left. It is the first plan that search would find.
func (s *sticks) first() {
	left, there := slices.Clone(s.left), make([]int, len(s.types))
	var all []filled
	var spent int64
	for k := s.longest(); k >= 0; k = s.longest() {
		i := slices.IndexFunc(s.types, func(t stickType) bool {
			return t.room >= s.kinds[k].length && (t.cost > 0 || t.there > 0)
		})
		t := &s.types[i]
		t.there--
		there[i]++
		spent += t.cost
		room := t.room
		for ; k < len(s.kinds); k++ {
			if n := min(int64(s.left[k]), room/s.kinds[k].length); n > 0 {
				s.cut(k, int(n))
				room -= n * s.kinds[k].length
			}
		}
		all = append(all, filled{i, s.take()})
	}
	s.best, s.bestSticks = spent, all
	for k := range left {
		s.cut(k, -left[k])
		s.used[k] = 0
	}
	for i := range there {
		s.types[i].there += there[i]
	}
}

// take returns what is cut from the stick being filled, and begins the next.
func (s *sticks) take() []several {
	var c []several
	for k, n := range s.used {
		if n > 0 {
			c = append(c, several{k, n})
		}
	}
	clear(s.used)
	return c
}

// done reports whether to end the search.
func (s *sticks) done() bool {
	s.work--
	if s.work%1024 == 0 && s.ctx.Err() != nil {
		s.work = 0
	}
	return s.work <= 0 || s.best == s.low
}

// search looks for cheaper ways to cut what is left, with so much spent.
func (s *sticks) search(spent int64) {
	if s.done() || spent+s.atLeast() >= s.best {
		return
	}
	k := s.longest()
	if k < 0 {
		s.best, s.bestSticks = spent, slices.Clone(s.now)
		return
	}
	if s.met(spent) {
		return
	}
	for i := range s.types {
		t := &s.types[i]
		if t.room < s.kinds[k].length || t.cost == 0 && t.there == 0 {
			continue
		}
		t.there--
		s.fill(i, k, 1, t.room, spent+t.cost)
		t.there++
	}
}

// met reports whether the same was left before with no more spent.
func (s *sticks) met(spent int64) bool {
	s.key = s.key[:0]
	for _, n := range s.left {
		s.key = binary.AppendUvarint(s.key, uint64(n))
	}
	for _, t := range s.types {
		if t.cost == 0 {
			s.key = binary.AppendUvarint(s.key, uint64(t.there))
		}
	}
	if before, ok := s.seen[string(s.key)]; ok && before <= spent {
		return true
	}
	if len(s.seen) < mostSeen {
		s.seen[string(s.key)] = spent
	}
	return false
}

// fill cuts at least so many pieces of kind k, and any of the shorter ones, in
// every way that leaves no room for another.
func (s *sticks) fill(i, k, least int, room, spent int64) {
	if s.done() {
		return
	}
	for k < len(s.kinds) && (s.left[k] == 0 || s.kinds[k].length > room) {
		k++
	}
	if k == len(s.kinds) {
		s.full(i, room, spent)
		return
	}
	l := s.kinds[k].length
	for n := int(min(int64(s.left[k]), room/l)); n >= least; n-- {
		s.cut(k, n)
		s.fill(i, k+1, 0, room-int64(n)*l, spent)
		s.cut(k, -n)
	}
}

// cut takes n pieces of kind k for the stick being filled.
func (s *sticks) cut(k, n int) {
	s.used[k] += n
	s.left[k] -= n
	s.need -= int64(n) * s.kinds[k].length
	s.heavy -= uint64(n) * s.kinds[k].weight // wraps back when pieces are put back
}

// full goes on with the next stick, if nothing more fits this one.
func (s *sticks) full(i int, room, spent int64) {
	for k := range s.kinds {
		if s.left[k] > 0 && s.kinds[k].length <= room {
			return
		}
	}
	cuts := s.take()
	s.now = append(s.now, filled{i, cuts})
	s.search(spent)
	for _, c := range cuts {
		s.used[c.kind] = c.n
	}
	s.now = s.now[:len(s.now)-1]
}

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
	length int64 // kerf included
	pieces []int // indices in StickOrder.Pieces
	weight uint64
}

// A stickType is a stock length.
type stickType struct {
	stock  int   // index in StickOrder.Stock
	room   int64 // kerf included
	cost   int64 // zero if on hand
	there  int   // how many are on hand
	weight uint64
}

// A filledStick is a stock length and the pieces cut from it.
type filledStick struct {
	kind int
	cuts []kindCount
}

// A kindCount is a number of pieces of one kind.
type kindCount struct{ kind, n int }

// A stickSearch is an exhaustive search. It always cuts the longest remaining piece
// next, from a stick that it fills until no remaining piece fits. Moving a piece to
// an earlier stick costs nothing, so some best plan has this form.
type stickSearch struct {
	o     StickOrder
	ctx   context.Context
	kinds []stickKind
	types []stickType
	left  []int  // by kind: pieces that remain
	need  int64  // length of all pieces that remain
	heavy uint64 // weight of all pieces that remain
	work  int64
	low   int64 // no plan costs less
	seen  map[string]int64
	used  []int // by kind: pieces on the stick being filledStick
	key   []byte

	now        []filledStick
	best       int64
	bestSticks []filledStick
}

// mostSeen limits the memory for states that the search has met.
const mostSeen = 200_000

// bound chooses the weights of lengths that give the best bound, and sets low.
func (s *stickSearch) bound() {
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

// weigh gives each length its weight by a superadditive function.
func (s *stickSearch) weigh(f func(int64) uint64) {
	s.heavy = 0
	for i := range s.kinds {
		s.kinds[i].weight = f(s.kinds[i].length)
		s.heavy += s.kinds[i].weight * uint64(s.left[i])
	}
	for i := range s.types {
		s.types[i].weight = f(s.types[i].room)
	}
}

// atLeast returns a lower bound, by length and by weight, for the cost of what
// remains.
func (s *stickSearch) atLeast() int64 {
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
		if t.weight > 0 { // a stock length without weight holds no piece that has weight
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

// longest returns the longest kind with pieces that remain, or -1.
func (s *stickSearch) longest() int {
	return slices.IndexFunc(s.left, func(n int) bool { return n > 0 })
}

// first makes the plan that search would find first: it takes the first stock that
// holds the longest remaining piece, and cuts the longest piece that fits again and
// again.
func (s *stickSearch) first() {
	left, there := slices.Clone(s.left), make([]int, len(s.types))
	var all []filledStick
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
				s.takePieces(k, int(n))
				room -= n * s.kinds[k].length
			}
		}
		all = append(all, filledStick{i, s.take()})
	}
	s.best, s.bestSticks = spent, all
	for k := range left {
		s.takePieces(k, -left[k])
		s.used[k] = 0
	}
	for i := range there {
		s.types[i].there += there[i]
	}
}

// take returns the pieces on the stick being filledStick, and starts the next stick.
func (s *stickSearch) take() []kindCount {
	var c []kindCount
	for k, n := range s.used {
		if n > 0 {
			c = append(c, kindCount{k, n})
		}
	}
	clear(s.used)
	return c
}

// done reports whether to end the search.
func (s *stickSearch) done() bool {
	s.work--
	if s.work%1024 == 0 && s.ctx.Err() != nil {
		s.work = 0
	}
	return s.work <= 0 || s.best == s.low
}

// search looks for cheaper ways to cut what remains, after spending spent.
func (s *stickSearch) search(spent int64) {
	if s.done() || spent+s.atLeast() >= s.best {
		return
	}
	k := s.longest()
	if k < 0 {
		s.best, s.bestSticks = spent, slices.Clone(s.now)
		return
	}
	if s.seenBefore(spent) {
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

// seenBefore reports whether the search has met the same state after spending no
// more.
func (s *stickSearch) seenBefore(spent int64) bool {
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

// fill cuts at least least pieces of kind k, and any number of the shorter kinds,
// in every way that leaves no room for another piece.
func (s *stickSearch) fill(i, k, least int, room, spent int64) {
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
		s.takePieces(k, n)
		s.fill(i, k+1, 0, room-int64(n)*l, spent)
		s.takePieces(k, -n)
	}
}

// takePieces takes n pieces of kind k for the stick being filledStick; a negative n puts them
// back.
func (s *stickSearch) takePieces(k, n int) {
	s.used[k] += n
	s.left[k] -= n
	s.need -= int64(n) * s.kinds[k].length
	s.heavy -= uint64(n) * s.kinds[k].weight // a negative n wraps around to an addition
}

// full continues with the next stick if no remaining piece fits this one.
func (s *stickSearch) full(i int, room, spent int64) {
	for k := range s.kinds {
		if s.left[k] > 0 && s.kinds[k].length <= room {
			return
		}
	}
	cuts := s.take()
	s.now = append(s.now, filledStick{i, cuts})
	s.search(spent)
	for _, c := range cuts {
		s.used[c.kind] = c.n
	}
	s.now = s.now[:len(s.now)-1]
}

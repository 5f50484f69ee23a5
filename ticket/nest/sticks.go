package nest

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"shadewright/ticket/measure"
)

// A StickOrder lists the lengths to cut and the stock lengths to cut them from:
// slats from sticks, or tubes from longer tubes.
type StickOrder struct {
	Stock  []StickStock
	Pieces []StickPiece
	Kerf   measure.Length // cloth or wood lost at each cut
	Units  measure.System // units that errors are written in
}

// A StickStock is a length that is sold or on hand.
type StickStock struct {
	Label  string
	Length measure.Length
	OnHand int   // how many are on hand, free of cost; zero means it is sold, as many as are wanted
	Cost   int64 // price of one, in any unit; zero means its length in nanometres
}

// A StickPiece is a length to cut, Quantity times.
type StickPiece struct {
	Label    string
	Length   measure.Length
	Quantity int
}

// A StickPlan says what is cut from which stick.
type StickPlan struct {
	Sticks []Stick
	Cost   int64 // of the sticks to buy
	Bound  int64 // no plan costs less
	Proven bool  // no plan can cost less than Cost
}

// A Stick is one stock length and the pieces cut from it.
type Stick struct {
	Stock  int            // index in StickOrder.Stock
	Pieces []int          // indices in StickOrder.Pieces, longest first
	Left   measure.Length // length that remains after the last cut's kerf
}

// mostNested limits the depth of the search, kinds times sticks; a larger order
// keeps its first plan.
const mostNested = 200_000

// stickWork is the most steps that [MakeSticks] takes: well under a second.
const stickWork = 5_000_000

// MakeSticks cuts the pieces from the stock so that buying costs least. It uses
// stock on hand where that saves buying. It reports all errors of the order at
// once, as joined [*OrderError] values. When ctx ends, it returns the best plan so
// far.
func MakeSticks(ctx context.Context, o StickOrder) (StickPlan, error) {
	if err := o.check(); err != nil {
		return StickPlan{}, err
	}
	s := newSticks(o)
	s.ctx = ctx
	s.first()
	if len(s.kinds)*len(s.bestSticks) <= mostNested {
		s.search(0)
	} else {
		s.work = 0
	}
	return s.plan(), nil
}

// check reports everything that is wrong with the order.
func (o StickOrder) check() error {
	c := &checker{o: Order{Units: o.Units}}
	if o.Kerf < 0 || o.Kerf > measure.Longest {
		c.fail(-1, "sticks", fmt.Sprintf("kerf %q cannot be the width of a saw cut", c.words(o.Kerf)), "give the width that one cut takes away, or zero")
	}
	var longest measure.Length
	for i, s := range o.Stock {
		where := fmt.Sprintf("stock %q", s.Label)
		c.size(i, where, "length", s.Length)
		if s.OnHand < 0 || s.OnHand > MostPieces {
			c.fail(i, where, fmt.Sprintf("%d on hand is out of range", s.OnHand), fmt.Sprintf("give a number from 0 to %d", MostPieces))
		}
		if s.Cost < 0 || s.Cost > int64(measure.Longest) {
			c.fail(i, where, fmt.Sprintf("cost %d is out of range", s.Cost), "give a smaller cost, zero or more")
		}
		if s.OnHand == 0 {
			longest = max(longest, s.Length)
		}
	}
	if len(o.Stock) > MostOnHand {
		c.fail(-1, "stock", fmt.Sprintf("%d lengths are too many; the most is %d", len(o.Stock), MostOnHand), "list fewer lengths")
	}
	if longest == 0 {
		c.fail(-1, "stock", "no length is for sale", "list at least one length that is sold")
		return c.joined()
	}
	n := 0
	for i, p := range o.Pieces {
		where := fmt.Sprintf("piece %q", p.Label)
		if p.Quantity <= 0 {
			c.fail(i, where, fmt.Sprintf("quantity %d must be greater than zero", p.Quantity), "give the number of pieces")
		}
		if c.size(i, where, "length", p.Length) && p.Length > longest {
			c.fail(i, where, fmt.Sprintf("%s is longer than any length that is sold", c.words(p.Length)), "the longest is "+c.words(longest)+"; list a longer length")
		}
		n = min(n+min(max(p.Quantity, 0), MostPieces+1), MostPieces+1)
	}
	switch {
	case n == 0:
		c.fail(-1, "pieces", "there are none", "give at least one piece with its length and quantity")
	case n > MostPieces:
		c.fail(-1, "pieces", fmt.Sprintf("the quantities come to more than %d pieces", MostPieces), "check the quantities, or cut in several lots")
	}
	return c.joined()
}

// newSticks writes the order out. Every length is one kerf longer, and so is the
// stock: n pieces from a stick have one cut less between them than n.
func newSticks(o StickOrder) *stickSearch {
	s := &stickSearch{o: o, work: stickWork, seen: map[string]int64{}}
	for i, p := range o.Pieces {
		l := int64(p.Length + o.Kerf)
		k := slices.IndexFunc(s.kinds, func(k stickKind) bool { return k.length == l })
		if k < 0 {
			k = len(s.kinds)
			s.kinds = append(s.kinds, stickKind{length: l})
		}
		for range p.Quantity {
			s.kinds[k].pieces = append(s.kinds[k].pieces, i)
		}
	}
	slices.SortFunc(s.kinds, func(a, b stickKind) int { return cmp.Compare(b.length, a.length) })
	for _, k := range s.kinds {
		s.left = append(s.left, len(k.pieces))
		s.need += k.length * int64(len(k.pieces))
	}
	for i, st := range o.Stock {
		t := stickType{stock: i, room: int64(st.Length + o.Kerf), cost: st.Cost, there: st.OnHand}
		if st.OnHand > 0 {
			t.cost = 0
		} else if t.cost == 0 {
			t.cost = int64(st.Length)
		}
		s.types = append(s.types, t)
	}
	// Stock on hand comes first, then stock that is cheap for its length.
	slices.SortStableFunc(s.types, func(a, b stickType) int {
		if a.cost == 0 || b.cost == 0 {
			return cmp.Or(cmp.Compare(min(a.cost, 1), min(b.cost, 1)), cmp.Compare(b.room, a.room))
		}
		return cmp.Compare(float64(a.cost)/float64(a.room), float64(b.cost)/float64(b.room))
	})
	s.used = make([]int, len(s.kinds))
	s.bound()
	return s
}

// plan writes out the best way to cut.
func (s *stickSearch) plan() StickPlan {
	p := StickPlan{Cost: s.best, Bound: s.low, Proven: s.best == s.low}
	if s.work > 0 { // the search tried every other way
		p.Bound, p.Proven = s.best, true
	}
	next := make([]int, len(s.kinds))
	for _, f := range s.bestSticks {
		t := s.types[f.kind]
		st := Stick{Stock: t.stock, Left: measure.Length(t.room)}
		for _, c := range f.cuts {
			k := &s.kinds[c.kind]
			st.Pieces = append(st.Pieces, k.pieces[next[c.kind]:next[c.kind]+c.n]...)
			next[c.kind] += c.n
			st.Left -= measure.Length(int64(c.n) * k.length)
		}
		st.Left = max(0, st.Left-s.o.Kerf)
		p.Sticks = append(p.Sticks, st)
	}
	return p
}

package nest_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
)

func TestSticks(t *testing.T) {
	const ft = measure.Foot
	tests := []struct {
		name  string
		order nest.StickOrder
		cost  int64
		src   string
	}{
		{"three to a stick", nest.StickOrder{
			Stock:  []nest.StickStock{{Length: 8 * ft, Cost: 1}},
			Pieces: []nest.StickPiece{{Length: 32 * in, Quantity: 7}},
		}, 3, "96 in / 32 in = 3 to a stick, 7 pieces"},
		{"the kerf makes it two", nest.StickOrder{
			Stock:  []nest.StickStock{{Length: 8 * ft, Cost: 1}},
			Pieces: []nest.StickPiece{{Length: 32 * in, Quantity: 7}},
			Kerf:   in / 16,
		}, 4, "3 × 32 in and 2 cuts of 1/16 in are longer than 96 in: 2 to a stick"},
		{"no kerf at the ends", nest.StickOrder{
			Stock:  []nest.StickStock{{Length: 8*ft + in/8, Cost: 1}},
			Pieces: []nest.StickPiece{{Length: 32 * in, Quantity: 3}},
			Kerf:   in / 16,
		}, 1, "3 × 32 in and 2 cuts of 1/16 in are 96-1/8 in"},
		{"longest first would take three", nest.StickOrder{
			Stock:  []nest.StickStock{{Length: 100 * mm, Cost: 1}},
			Pieces: []nest.StickPiece{{Length: 45 * mm, Quantity: 2}, {Length: 35 * mm, Quantity: 2}, {Length: 20 * mm, Quantity: 2}},
		}, 2, "45 + 35 + 20 = 100 twice, by hand; 45 + 45 leaves 35 + 35 + 20 and 20"},
		{"two lengths", nest.StickOrder{
			Stock:  []nest.StickStock{{Length: 8 * ft}, {Length: 12 * ft}},
			Pieces: []nest.StickPiece{{Length: 7 * ft, Quantity: 1}, {Length: 6 * ft, Quantity: 2}},
		}, int64(20 * ft), "7 ft from 8 ft, 6 + 6 ft from 12 ft; 19 ft are needed and 16 ft hold no two of them"},
		{"on hand first", nest.StickOrder{
			Stock:  []nest.StickStock{{Length: 8 * ft, Cost: 1}, {Length: 5 * ft, OnHand: 1}},
			Pieces: []nest.StickPiece{{Length: 5 * ft, Quantity: 2}, {Length: 3 * ft, Quantity: 1}},
		}, 1, "5 + 3 ft from the stick bought, 5 ft from the one on hand"},
		{"none bought", nest.StickOrder{
			Stock:  []nest.StickStock{{Length: 8 * ft, Cost: 1}, {Length: 5 * ft, OnHand: 2}},
			Pieces: []nest.StickPiece{{Length: 5 * ft, Quantity: 2}},
		}, 0, "both are on hand"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p, err := nest.MakeSticks(t.Context(), tt.order)
			if err != nil {
				t.Fatal(err)
			}
			for _, bad := range judgeSticks(tt.order, p) {
				t.Error(bad)
			}
			if p.Cost != tt.cost || !p.Proven {
				t.Errorf("cost %d, proven %t; want %d, proven (%s)", p.Cost, p.Proven, tt.cost, tt.src)
			}
		})
	}
}

// judgeSticks returns everything that is wrong with the plan. It shares no code
// with the planner.
func judgeSticks(o nest.StickOrder, p nest.StickPlan) []string {
	var bad []string
	say := func(format string, args ...any) { bad = append(bad, fmt.Sprintf(format, args...)) }
	cut, there := make([]int, len(o.Pieces)), make([]int, len(o.Stock))
	var cost int64
	for i, s := range p.Sticks {
		st := o.Stock[s.Stock]
		there[s.Stock]++
		if st.OnHand == 0 && st.Cost == 0 {
			cost += int64(st.Length)
		} else if st.OnHand == 0 {
			cost += st.Cost
		}
		var sum measure.Length
		for k, piece := range s.Pieces {
			cut[piece]++
			sum += o.Pieces[piece].Length
			if k > 0 {
				sum += o.Kerf
			}
		}
		if sum > st.Length || s.Left != max(0, st.Length-sum-o.Kerf) || len(s.Pieces) == 0 {
			say("stick %d of %v: %d pieces take %v and leave %v", i, st.Length, len(s.Pieces), sum, s.Left)
		}
	}
	for i, n := range cut {
		if n != o.Pieces[i].Quantity {
			say("piece %d is cut %d times; want %d", i, n, o.Pieces[i].Quantity)
		}
	}
	for i, n := range there {
		if o.Stock[i].OnHand > 0 && n > o.Stock[i].OnHand {
			say("stock %d is used %d times; %d are on hand", i, n, o.Stock[i].OnHand)
		}
	}
	if cost != p.Cost || p.Bound > p.Cost || p.Proven != (p.Bound == p.Cost) {
		say("cost %d, bound %d, proven %t; the sticks cost %d", p.Cost, p.Bound, p.Proven, cost)
	}
	return bad
}

// cheapest tries every way to put each piece on a stick already begun or on a new
// one.
func cheapest(o nest.StickOrder, pieces []measure.Length, left []measure.Length, there []int) int64 {
	if len(pieces) == 0 {
		return 0
	}
	best := int64(math.MaxInt64)
	l := pieces[0]
	for i := range left {
		if left[i] >= l {
			left[i] -= l + o.Kerf
			best = min(best, cheapest(o, pieces[1:], left, there))
			left[i] += l + o.Kerf
		}
	}
	for i, s := range o.Stock {
		cost := s.Cost
		if s.OnHand > 0 {
			cost = 0
		}
		if s.Length < l || s.OnHand > 0 && there[i] == s.OnHand {
			continue
		}
		there[i]++
		rest := cheapest(o, pieces[1:], append(left[:len(left):len(left)], s.Length-l-o.Kerf), there)
		there[i]--
		if rest < math.MaxInt64 {
			best = min(best, cost+rest)
		}
	}
	return best
}

func TestSticksAreCheapest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := nest.StickOrder{Kerf: measure.Length(rapid.IntRange(0, 3).Draw(t, "kerf"))}
		for range rapid.IntRange(0, 2).Draw(t, "on hand") {
			o.Stock = append(o.Stock, nest.StickStock{
				Length: measure.Length(rapid.IntRange(5, 40).Draw(t, "length")), OnHand: rapid.IntRange(1, 2).Draw(t, "there")})
		}
		for range rapid.IntRange(0, 1).Draw(t, "sold") {
			o.Stock = append(o.Stock, nest.StickStock{
				Length: measure.Length(rapid.IntRange(5, 40).Draw(t, "length")), Cost: rapid.Int64Range(1, 50).Draw(t, "cost")})
		}
		o.Stock = append(o.Stock, nest.StickStock{Length: 40, Cost: rapid.Int64Range(1, 50).Draw(t, "cost")})
		var pieces []measure.Length
		for len(pieces) < 7 && (len(pieces) == 0 || rapid.IntRange(0, 9).Draw(t, "more") > 0) {
			l := measure.Length(rapid.IntRange(1, 40).Draw(t, "l"))
			pieces = append(pieces, l)
			o.Pieces = append(o.Pieces, nest.StickPiece{Length: l, Quantity: 1})
		}
		p, err := nest.MakeSticks(t.Context(), o)
		if err != nil {
			t.Fatal(err)
		}
		if bad := judgeSticks(o, p); len(bad) > 0 {
			t.Fatal(bad)
		}
		if want := cheapest(o, pieces, nil, make([]int, len(o.Stock))); p.Cost != want || !p.Proven {
			t.Fatalf("cost %d, proven %t; every way tried: %d", p.Cost, p.Proven, want)
		}
	})
}

func TestSticksErrors(t *testing.T) {
	sold := []nest.StickStock{{Label: "8 ft", Length: 96 * in}}
	tests := []struct {
		order nest.StickOrder
		want  string
	}{
		{nest.StickOrder{Stock: sold}, `pieces: there are none; give at least one piece with its length and quantity`},
		{nest.StickOrder{Pieces: []nest.StickPiece{{"a", in, 1}}}, `stock: no length is for sale; list at least one length that is sold`},
		{nest.StickOrder{Stock: sold, Pieces: []nest.StickPiece{{"a", 97 * in, 1}, {"b", -in, 0}}, Units: measure.Inches},
			`piece "a": 97 in is longer than any length that is sold; the longest is 96 in; list a longer length` + "\n" +
				`piece "b": quantity 0 must be greater than zero; give the number of pieces` + "\n" +
				`piece "b": length "-1 in" must be greater than zero; give the length`},
		{nest.StickOrder{Stock: sold, Kerf: -1, Pieces: []nest.StickPiece{{"a", in, math.MaxInt}}},
			`sticks: kerf "-0.000001 mm" cannot be the width of a saw cut; give the width that one cut takes away, or zero` + "\n" +
				`pieces: the quantities come to more than 10000 pieces; check the quantities, or cut in several lots`},
	}
	for _, tt := range tests {
		_, err := nest.MakeSticks(t.Context(), tt.order)
		if err == nil || err.Error() != tt.want {
			t.Errorf("MakeSticks(%+v)\n got %v\nwant %s", tt.order, err, tt.want)
		}
	}
}

// Two thousand slats of a thousand lengths stay within the work allowed.
func TestSticksLarge(t *testing.T) {
	o := nest.StickOrder{Stock: []nest.StickStock{{Length: 3658 * mm}, {Length: 2438 * mm}}, Kerf: 3 * mm}
	for i := range 1000 {
		o.Pieces = append(o.Pieces, nest.StickPiece{Label: strings.Repeat("x", i%5), Length: measure.Length(400+i*i%1777) * mm, Quantity: 1 + i%3})
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	for _, c := range []context.Context{t.Context(), ctx} {
		p, err := nest.MakeSticks(c, o)
		if err != nil {
			t.Fatal(err)
		}
		for _, bad := range judgeSticks(o, p) {
			t.Error(bad)
		}
	}
}

func BenchmarkSticks(b *testing.B) {
	for _, n := range []int{10, 30, 100} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			o := nest.StickOrder{Stock: []nest.StickStock{{Length: 3658 * mm}}, Kerf: 3 * mm}
			for i := range n {
				o.Pieces = append(o.Pieces, nest.StickPiece{Length: measure.Length(400+i*i*37%1500) * mm, Quantity: 1})
			}
			b.ReportAllocs()
			var p nest.StickPlan
			for b.Loop() {
				var err error
				if p, err = nest.MakeSticks(b.Context(), o); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(100*float64(p.Cost-p.Bound)/float64(p.Bound), "%gap")
		})
	}
}

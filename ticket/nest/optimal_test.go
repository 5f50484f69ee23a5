package nest_test

import (
	"context"
	"fmt"
	"reflect"
	"runtime"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
)

// pieces makes one piece of each size.
func pieces(turn bool, sizes ...measure.Size) []nest.Piece {
	var all []nest.Piece
	for i, s := range sizes {
		all = append(all, nest.Piece{Label: fmt.Sprint(i + 1), Width: s.Width, Length: s.Length, Quantity: 1, Turn: turn})
	}
	return all
}

// sliced cuts a rectangle into n pieces at random places, from edge to edge.
func sliced(t *rapid.T, width, length measure.Length, n int) []measure.Size {
	all := []measure.Size{{Width: width, Length: length}}
	for len(all) < n {
		i := rapid.IntRange(0, len(all)-1).Draw(t, "which")
		s := all[i]
		a, b := s, s
		if rapid.Bool().Draw(t, "across") {
			if s.Length < 2 {
				break
			}
			a.Length = measure.Length(rapid.Int64Range(1, int64(s.Length)-1).Draw(t, "at"))
			b.Length = s.Length - a.Length
		} else {
			if s.Width < 2 {
				break
			}
			a.Width = measure.Length(rapid.Int64Range(1, int64(s.Width)-1).Draw(t, "at"))
			b.Width = s.Width - a.Width
		}
		all[i] = a
		all = append(all, b)
	}
	return all
}

// The pieces of a sliced rectangle fit back into it without waste, so its length is
// the optimum. Sizes are odd numbers of nanometres, not round ones.
func TestSlicedRectangle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := measure.Length(rapid.Int64Range(20, 2_000_000_000).Draw(t, "width"))
		length := measure.Length(rapid.Int64Range(20, 2_000_000_000).Draw(t, "length"))
		n := rapid.IntRange(1, 12).Draw(t, "n")
		o := nest.Order{Roll: nest.Roll{Width: width}, Pieces: pieces(rapid.Bool().Draw(t, "turn"), sliced(t, width, length, n)...)}
		p, err := nest.Make(t.Context(), o, nest.Seconds(0.5))
		if err != nil {
			t.Fatal(err)
		}
		if bad := judge(o, p); len(bad) > 0 {
			t.Fatal(bad)
		}
		if p.Used != length || !p.Proven {
			t.Fatalf("used %v, proven %t; want %v, the rectangle that was sliced", p.Used, p.Proven, length)
		}
	})
}

// shortest tries every guillotine layout of a tiny order: it divides the pieces in
// two in every way and cuts between the halves in both directions. It returns the
// least length on a given width, or -1.
func shortest(all []measure.Size, turn bool, width measure.Length) measure.Length {
	if len(all) == 1 {
		s := all[0]
		best := measure.Length(-1)
		if s.Width <= width {
			best = s.Length
		}
		if turn && s.Length <= width && (best < 0 || s.Width < best) {
			best = s.Width
		}
		return best
	}
	best := measure.Length(-1)
	for mask := 1; mask < 1<<len(all)-1; mask += 2 {
		var a, b []measure.Size
		for i, s := range all {
			if mask>>i&1 == 1 {
				a = append(a, s)
			} else {
				b = append(b, s)
			}
		}
		try := func(la, lb, l measure.Length) {
			if la >= 0 && lb >= 0 && (best < 0 || l < best) {
				best = l
			}
		}
		la, lb := shortest(a, turn, width), shortest(b, turn, width)
		try(la, lb, la+lb)
		for w := measure.Length(1); w < width; w++ {
			la, lb := shortest(a, turn, w), shortest(b, turn, width-w)
			try(la, lb, max(la, lb))
		}
	}
	return best
}

func TestTinyOrdersAreShortest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := measure.Length(rapid.IntRange(2, 7).Draw(t, "width"))
		turn := rapid.Bool().Draw(t, "turn")
		var sizes []measure.Size
		for range rapid.IntRange(1, 4).Draw(t, "n") {
			sizes = append(sizes, measure.Size{
				Width:  measure.Length(rapid.Int64Range(1, int64(width)).Draw(t, "w")),
				Length: measure.Length(rapid.Int64Range(1, 8).Draw(t, "l")),
			})
		}
		o := nest.Order{Roll: nest.Roll{Width: width}, Pieces: pieces(turn, sizes...)}
		p, err := nest.Make(t.Context(), o, nest.Seconds(0.5))
		if err != nil {
			t.Fatal(err)
		}
		if want := shortest(sizes, turn, width); p.Used != want || !p.Proven {
			t.Fatalf("used %v nm, proven %t; every layout tried: %v nm", int64(p.Used), p.Proven, int64(want))
		}
	})
}

// brief is a search for properties that hold however long it takes.
func brief() nest.Effort {
	if underRace {
		return nest.Effort{Work: 20_000}
	}
	return nest.Seconds(0.1)
}

// One more piece never makes a proven plan shorter, and a wider roll never makes it
// longer.
func TestMorePiecesWiderRoll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := order(t, 5)
		o.Roll.Length, o.Roll.Table, o.OnHand = 0, 0, nil
		plan := func(o nest.Order) nest.Plan {
			p, err := nest.Make(t.Context(), o, brief())
			if err != nil {
				t.Fatal(err)
			}
			return p
		}
		before := plan(o)
		more, wider := o, o
		more.Pieces = append(slices.Clone(o.Pieces), nest.Piece{Label: "more", Quantity: 1,
			Width: o.Pieces[0].Width, Length: o.Roll.Width / measure.Length(rapid.IntRange(1, 9).Draw(t, "part"))})
		wider.Roll.Width += measure.Length(rapid.Int64Range(1, int64(o.Roll.Width)).Draw(t, "wider"))
		if p := plan(more); p.Used < before.Used && before.Proven {
			t.Fatalf("with one more piece %v, without %v and proven", p.Used, before.Used)
		}
		if p := plan(wider); p.Used > before.Used && p.Proven {
			t.Fatalf("on %v %v and proven, on %v %v", wider.Roll.Width, p.Used, o.Roll.Width, before.Used)
		}
	})
}

// The bound holds for every plan, however it was found.
func TestBoundHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := order(t, 6)
		quick, err := nest.Make(t.Context(), o, nest.Effort{})
		if err != nil {
			t.Fatal(err)
		}
		good, err := nest.Make(t.Context(), o, nest.Effort{Work: 100_000})
		if err != nil {
			t.Fatal(err)
		}
		if quick.Bound > good.Used || good.Used > quick.Used {
			t.Fatalf("bound %v at first; used %v at first and %v in the end", quick.Bound, quick.Used, good.Used)
		}
	})
}

func TestSamePlan(t *testing.T) {
	var sizes []measure.Size
	for i := range measure.Length(40) {
		sizes = append(sizes, measure.Size{Width: (300 + i*i*17%800) * mm, Length: (400 + i*i*31%1500) * mm})
	}
	o := nest.Order{Roll: nest.Roll{Width: 1370 * mm}, Pieces: pieces(true, sizes...)}
	e := nest.Effort{Work: 500_000, Seed: 7}
	a, err := nest.Make(t.Context(), o, e)
	if err != nil {
		t.Fatal(err)
	}
	mustHold(t, o, a)
	var told []nest.Progress
	e.Progress = func(p nest.Progress) { told = append(told, p) }
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	b, err := nest.Make(t.Context(), o, e)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(a, b) {
		t.Errorf("the same order gives %v on all cores and %v on one", a.Used, b.Used)
	}
	if len(told) < 10 || told[len(told)-1].Used != b.Used || told[len(told)-1].Done != 1 {
		t.Errorf("progress was reported %d times, at last %+v; want the end of a plan of %v", len(told), told[len(told)-1:], b.Used)
	}
	for i := 1; i < len(told); i++ {
		if told[i].Done < told[i-1].Done || told[i].Used > told[i-1].Used || told[i].Bound < told[i-1].Bound {
			t.Errorf("progress goes back from %+v to %+v", told[i-1], told[i])
		}
	}
}

func TestInterrupted(t *testing.T) {
	var sizes []measure.Size
	for i := range measure.Length(60) {
		sizes = append(sizes, measure.Size{Width: (300 + i*i*17%800) * mm, Length: (400 + i*i*31%1500) * mm})
	}
	o := nest.Order{Roll: nest.Roll{Width: 1370 * mm}, Pieces: pieces(true, sizes...)}
	ctx, cancel := context.WithCancel(t.Context())
	e := nest.Seconds(nest.MostSeconds)
	e.Progress = func(nest.Progress) { t.Error("a round of an hour's search ended") }
	cancel()
	p, err := nest.Make(ctx, o, e)
	if err != nil {
		t.Fatal(err)
	}
	mustHold(t, o, p)
	if !p.Interrupted {
		t.Error("the plan does not say that it was interrupted")
	}
}

func TestBound(t *testing.T) {
	tests := []struct {
		name   string
		turn   bool
		pieces []measure.Size
		want   measure.Length
		src    string
	}{
		{"area", false, []measure.Size{{Width: 27, Length: 40}, {Width: 27, Length: 40}}, 40, "2 × 27 × 40 / 54"},
		{"no two side by side", false, []measure.Size{{Width: 30, Length: 40}, {Width: 28, Length: 50}}, 90, "each is wider than half of 54"},
		{"nor turned", true, []measure.Size{{Width: 30, Length: 40}, {Width: 28, Length: 50}}, 58, "both sides are longer than half of 54: 30 + 28 turned"},
		{"two of three", false, []measure.Size{{Width: 19, Length: 10}, {Width: 19, Length: 10}, {Width: 19, Length: 10}, {Width: 19, Length: 10}}, 20, "at most two of 19 > 54/3 lie side by side: 4 × 10 / 2"},
		{"a sum of lengths", false, []measure.Size{{Width: 54, Length: 40}, {Width: 20, Length: 30}, {Width: 20, Length: 30}}, 70, "area gives 62.2; sums of 40, 30 and 30 are 60 and 70"},
		{"the longest", false, []measure.Size{{Width: 10, Length: 99}, {Width: 1, Length: 1}}, 99, "it lies lengthwise"},
	}
	for _, tt := range tests {
		o := nest.Order{Roll: nest.Roll{Width: 54}, Pieces: pieces(tt.turn, tt.pieces...)}
		p, err := nest.Make(t.Context(), o, nest.Effort{})
		if err != nil {
			t.Fatal(err)
		}
		if p.Bound != tt.want {
			t.Errorf("%s: bound %d; want %d (%s)", tt.name, p.Bound, tt.want, tt.src)
		}
	}
}

// Stock on hand never lengthens a plan, and a plan uses none that saves nothing.
func TestStockSaves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := order(t, 3)
		o.Roll.Repeat, o.Roll.Table = 0, 0
		bare := o
		bare.OnHand = nil
		p, err := nest.Make(t.Context(), o, brief())
		if err != nil {
			t.Fatal(err)
		}
		q, err := nest.Make(t.Context(), bare, brief())
		if err != nil {
			t.Fatal(err)
		}
		if p.Used > q.Used && p.Proven {
			t.Fatalf("with stock %v and proven, without %v", p.Used, q.Used)
		}
		if p.Used == q.Used && len(p.OnHand) > 0 {
			t.Fatalf("stock %v is used though %v of the roll are enough without", p.OnHand, q.Used)
		}
	})
}

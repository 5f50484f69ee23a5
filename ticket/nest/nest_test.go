package nest_test

import (
	"testing"

	"pgregory.net/rapid"

	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
)

const (
	mm = measure.Millimetre
	in = measure.Inch
)

// order draws an order of up to n pieces, with every kind of rule.
func order(t *rapid.T, n int) nest.Order {
	sizes := rapid.SampledFrom([]measure.Length{mm, in / 16, 1, 396_875}).Draw(t, "step")
	o := nest.Order{Roll: nest.Roll{Width: sizes * measure.Length(rapid.IntRange(20, 60).Draw(t, "width"))}}
	if rapid.Bool().Draw(t, "allow") {
		o.Roll.Allowance = sizes * measure.Length(rapid.IntRange(0, 3).Draw(t, "allowance"))
	}
	if rapid.IntRange(0, 3).Draw(t, "table?") == 0 {
		o.Roll.Table = sizes * measure.Length(rapid.IntRange(46, 90).Draw(t, "table"))
	}
	if rapid.IntRange(0, 3).Draw(t, "repeat?") == 0 {
		o.Roll.Repeat = sizes * measure.Length(rapid.IntRange(1, 30).Draw(t, "repeat"))
	}
	if rapid.IntRange(0, 3).Draw(t, "rolled?") == 0 {
		o.Roll.Length = sizes * measure.Length(rapid.IntRange(46, 200).Draw(t, "roll"))
	}
	matches := []string{"", "", "a", "b"}
	for len(o.Pieces) < 1 || rapid.IntRange(0, 5).Draw(t, "more") > 0 && len(o.Pieces) < n {
		p := nest.Piece{
			Label:    string(rune('a' + len(o.Pieces))),
			Width:    sizes * measure.Length(rapid.IntRange(1, int((o.Roll.Width-2*o.Roll.Allowance)/sizes)).Draw(t, "w")),
			Length:   sizes * measure.Length(rapid.IntRange(1, 40).Draw(t, "l")),
			Quantity: rapid.IntRange(1, 3).Draw(t, "q"),
			Turn:     o.Roll.Repeat == 0 && rapid.Bool().Draw(t, "turn"),
			Match:    rapid.SampledFrom(matches).Draw(t, "match"),
		}
		o.Pieces = append(o.Pieces, p)
	}
	for range rapid.IntRange(0, 2).Draw(t, "stock") {
		o.OnHand = append(o.OnHand, nest.Stock{
			Width:  sizes * measure.Length(rapid.IntRange(1, 80).Draw(t, "sw")),
			Length: sizes * measure.Length(rapid.IntRange(1, 80).Draw(t, "sl")),
		})
	}
	return o
}

func TestEveryPlanHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := order(t, 12)
		p, err := nest.Make(t.Context(), o, nest.Effort{Work: 20_000, Seed: rapid.Uint64().Draw(t, "seed")})
		if err != nil {
			t.Fatal(err)
		}
		if bad := judge(o, p); len(bad) > 0 {
			t.Fatalf("%v", bad)
		}
	})
}

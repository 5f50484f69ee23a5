package nest_test

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
)

const (
	mm = measure.Millimetre
	in = measure.Inch
)

// order draws an order of up to n pieces that uses every kind of rule.
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

// Small orders whose answers are worked out by hand.
func TestMake(t *testing.T) {
	one := func(w, l measure.Length, turn bool) nest.Piece {
		return nest.Piece{Label: "a", Width: w, Length: l, Quantity: 1, Turn: turn}
	}
	yard := []nest.Stock{{Label: "a yard of 54 in goods", Width: 54 * in, Length: 36 * in}}
	panel := one(25*in, 43*in+in*3/4, true) // common practice, no source
	lengthwise := panel
	lengthwise.Turn = false
	tests := []struct {
		name  string
		order nest.Order
		used  measure.Length
		src   string
	}{
		{"turned on a yard of 54 in goods", nest.Order{Roll: nest.Roll{Width: 54 * in}, Pieces: []nest.Piece{panel}, OnHand: yard},
			0, "common practice, no source: 43-3/4 ≤ 54 across and 25 ≤ 36 along"},
		{"not turned on a yard of 54 in goods", nest.Order{Roll: nest.Roll{Width: 54 * in}, Pieces: []nest.Piece{lengthwise}, OnHand: yard},
			43*in + in*3/4, "common practice, no source: 43-3/4 > 36 along, so it comes off the roll"},
		{"the same piece lying the other way", nest.Order{Roll: nest.Roll{Width: 54 * in}, Pieces: []nest.Piece{lengthwise},
			OnHand: []nest.Stock{{Width: 36 * in, Length: 54 * in}}}, 0, "common practice, no source: 25 ≤ 36 across and 43-3/4 ≤ 54 along, no turn is needed"},
		{"two side by side", nest.Order{Roll: nest.Roll{Width: 54 * in}, Pieces: []nest.Piece{{Width: 27 * in, Length: 40 * in, Quantity: 2}}},
			40 * in, "27 + 27 = 54"},
		{"a nanometre too wide", nest.Order{Roll: nest.Roll{Width: 54*in - 1}, Pieces: []nest.Piece{{Width: 27 * in, Length: 40 * in, Quantity: 2}}},
			80 * in, "27 + 27 in is a nanometre too much"},
		{"allowance", nest.Order{Roll: nest.Roll{Width: 54 * in, Allowance: in / 2}, Pieces: []nest.Piece{{Width: 26 * in, Length: 40 * in, Quantity: 4}}},
			82 * in, "2 × (26 + 1) = 54 across, 2 × (40 + 1) along"},
		{"repeat", nest.Order{Roll: nest.Roll{Width: 54 * in, Repeat: 25 * in}, Pieces: []nest.Piece{{Width: 54 * in, Length: 40 * in, Quantity: 3}}},
			140 * in, "they start at 0, 50 and 100 in, and the last is 40 in long"},
		{"the shorter trails the repeat", nest.Order{Roll: nest.Roll{Width: 54 * in, Repeat: 30 * in},
			Pieces: []nest.Piece{{Width: 54 * in, Length: 31 * in, Quantity: 1}, {Width: 54 * in, Length: 29 * in, Quantity: 1}}},
			61 * in, "29 in first, then 31 in from 30 in on; the other way round is 60 + 29 in"},
		{"table", nest.Order{Roll: nest.Roll{Width: 54 * in, Table: 100 * in},
			Pieces: []nest.Piece{{Width: 27 * in, Length: 80 * in, Quantity: 1}, {Width: 27 * in, Length: 40 * in, Quantity: 2}, {Width: 27 * in, Length: 60 * in, Quantity: 1}}},
			120 * in, "80 beside 60, then 40 beside 40; with 80 beside 40 + 40 the 60 is alone: 140"},
		{"matched", nest.Order{Roll: nest.Roll{Width: 60 * in},
			Pieces: []nest.Piece{{Width: 30 * in, Length: 20 * in, Quantity: 1, Turn: true, Match: "hall"}, {Width: 50 * in, Length: 40 * in, Quantity: 1, Turn: true, Match: "hall"}}},
			50 * in, "as they are 20 + 40 = 60; both turned 20 + 40 across and 50 along; only one turned is not allowed"},
		{"stock is used only if it saves", nest.Order{Roll: nest.Roll{Width: 54 * in},
			Pieces: []nest.Piece{{Width: 27 * in, Length: 40 * in, Quantity: 1}, {Width: 27 * in, Length: 30 * in, Quantity: 1}},
			OnHand: []nest.Stock{{Width: 27 * in, Length: 30 * in}}}, 40 * in, "the 30 in lies beside the 40 in: nothing is saved"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p, err := nest.Make(t.Context(), tt.order, nest.Seconds(0.1))
			if err != nil {
				t.Fatal(err)
			}
			mustHold(t, tt.order, p)
			if p.Used != tt.used {
				t.Errorf("used %v; want %v (%s)", p.Used, tt.used, tt.src)
			}
			if strings.Contains(tt.name, "only if it saves") && len(p.OnHand) > 0 {
				t.Errorf("stock %v is used but saves nothing", p.OnHand)
			}
		})
	}
}

func TestErrors(t *testing.T) {
	roll := nest.Roll{Width: 54 * in}
	piece := nest.Piece{Label: "a", Width: 20 * in, Length: 30 * in, Quantity: 1}
	with := func(change func(*nest.Piece)) []nest.Piece {
		p := piece
		change(&p)
		return []nest.Piece{p}
	}
	tests := []struct {
		name  string
		order nest.Order
		want  string
	}{
		{"nothing", nest.Order{Roll: roll}, `pieces: there are none; give at least one piece with its width, length and quantity`},
		{"no roll", nest.Order{Roll: nest.Roll{Repeat: -in}, Pieces: []nest.Piece{piece}},
			`roll: width "0 in" must be greater than zero; give the width` + "\n" + `roll: repeat "-1 in" is negative; give the repeat, or zero for none`},
		{"several", nest.Order{Roll: roll, Pieces: with(func(p *nest.Piece) { p.Width, p.Length, p.Quantity = 0, -in, 0 })},
			`piece "a": quantity 0 must be greater than zero; give the number of pieces` + "\n" +
				`piece "a": width "0 in" must be greater than zero; give the width` + "\n" +
				`piece "a": length "-1 in" must be greater than zero; give the length`},
		{"a million", nest.Order{Roll: roll, Pieces: with(func(p *nest.Piece) { p.Quantity = 1_000_000 })},
			`pieces: the quantities come to more than 10000 pieces; check the quantities, or cut in several lots`},
		{"overflow", nest.Order{Roll: roll, Pieces: with(func(p *nest.Piece) { p.Quantity, p.Width = math.MaxInt, math.MaxInt64 })},
			`pieces: the quantities come to more than 10000 pieces; check the quantities, or cut in several lots` + "\n" +
				`piece "a": width "9223372036854.775 mm" is longer than any cloth; check the number and its unit`},
		{"would fit turned", nest.Order{Roll: roll, Pieces: with(func(p *nest.Piece) { p.Width, p.Length = 60*in, 50*in })},
			`piece "a": 60 in × 50 in does not fit on 54 in of usable width; it would fit turned a quarter: allow it to turn, or use goods with 60 in of usable width`},
		{"neither way", nest.Order{Roll: roll, Pieces: with(func(p *nest.Piece) { p.Width, p.Length, p.Turn = 70*in, 60*in, true })},
			`piece "a": 70 in × 60 in fits neither way on 54 in of usable width; use goods with at least 60 in of usable width, or make the piece at most 54 in wide`},
		{"allowance", nest.Order{Roll: nest.Roll{Width: 54 * in, Allowance: in}, Pieces: with(func(p *nest.Piece) { p.Width = 53 * in })},
			`piece "a": 53 in × 30 in with 1 in around it does not fit on 54 in of usable width; it would fit turned a quarter: allow it to turn, or use goods with 55 in of usable width`},
		{"short table", nest.Order{Roll: nest.Roll{Width: 54 * in, Table: 29 * in}, Pieces: with(func(p *nest.Piece) { p.Width = 30 * in; p.Turn = true })},
			`piece "a": 30 in × 30 in fits neither way on 54 in of usable width and 29 in of length; it needs at least 30 in of usable width and 30 in of length`},
		{"long repeat", nest.Order{Roll: nest.Roll{Width: 54 * in, Length: 60 * in, Repeat: 61 * in}, Pieces: []nest.Piece{piece}},
			`roll: repeat "61 in" is longer than the 60 in there is to lay a piece on; check the repeat and its unit`},
		{"turned pattern", nest.Order{Roll: nest.Roll{Width: 54 * in, Repeat: in}, Pieces: with(func(p *nest.Piece) { p.Turn = true })},
			`piece "a": turning the piece would turn its pattern; on goods with a repeat, do not allow a turn`},
		{"match", nest.Order{Roll: roll, Pieces: []nest.Piece{
			{Label: "a", Width: 60 * in, Length: 20 * in, Quantity: 1, Turn: true, Match: "hall"}, {Label: "b", Width: 20 * in, Length: 60 * in, Quantity: 1, Match: "hall"}}},
			`match "hall": some of its pieces fit only turned and some only as they are; use wider goods, or do not match them`},
		{"stock", nest.Order{Roll: roll, Pieces: []nest.Piece{piece}, OnHand: []nest.Stock{{Label: "x", Width: in}}},
			`on hand "x": length "0 in" must be greater than zero; give the length`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tt.order.Units = measure.Inches
			_, err := nest.Make(t.Context(), tt.order, nest.Seconds(1))
			if err == nil || err.Error() != tt.want {
				t.Errorf("\n got %v\nwant %s", err, tt.want)
			}
		})
	}
}

func TestSeconds(t *testing.T) {
	for _, s := range []float64{0, -1, math.NaN(), math.Inf(-1)} {
		if w := nest.Seconds(s).Work; w != 0 {
			t.Errorf("Seconds(%v).Work = %d; want 0", s, w)
		}
	}
	hour := nest.Seconds(nest.MostSeconds).Work
	for _, s := range []float64{1e9, math.Inf(1)} {
		if w := nest.Seconds(s).Work; w != hour {
			t.Errorf("Seconds(%v).Work = %d; want that of %d s, %d", s, w, nest.MostSeconds, hour)
		}
	}
}

// The largest orders allowed get a plan, and an ended context stops the search
// soon.
func TestLargestOrders(t *testing.T) {
	kinds := nest.Order{Roll: nest.Roll{Width: 1370 * mm}}
	for i := range measure.Length(1000) {
		kinds.Pieces = append(kinds.Pieces, nest.Piece{Width: (100 + i) * mm, Length: (300 + i*7919%2000) * mm, Quantity: 1, Turn: i%2 == 0})
	}
	alike := nest.Order{Roll: nest.Roll{Width: 1370 * mm}, Pieces: []nest.Piece{{Width: 431 * mm, Length: 1211 * mm, Quantity: nest.MostPieces, Turn: true}}}
	matched := kinds
	matched.Pieces = nil
	for i, p := range kinds.Pieces[:200] {
		p.Turn, p.Match = true, strings.Repeat("m", i%nest.MostMatch)
		matched.Pieces = append(matched.Pieces, p)
	}
	thousand := kinds
	thousand.Pieces = slices.Clone(kinds.Pieces)
	for i := range thousand.Pieces {
		thousand.Pieces[i].Quantity = nest.MostPieces / len(thousand.Pieces)
	}
	orders := []nest.Order{matched, alike, kinds, thousand}
	if underRace {
		orders = orders[:1]
	}
	for _, o := range orders {
		ctx, cancel := context.WithCancel(t.Context())
		e := nest.Seconds(0.01)
		e.Progress = func(nest.Progress) { cancel() }
		p, err := nest.Make(ctx, o, e)
		cancel()
		if err != nil {
			t.Fatal(err)
		}
		mustHold(t, o, p)
	}
}

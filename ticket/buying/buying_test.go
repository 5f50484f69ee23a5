package buying_test

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/google/uuid"

	"shadewright/ticket"
	"shadewright/ticket/buying"
	"shadewright/ticket/cutplan"
	"shadewright/ticket/goods"
	"shadewright/ticket/measure"
	"shadewright/ticket/message/pseudo"
	"shadewright/ticket/nest"
	"shadewright/ticket/route"
)

const in = measure.Inch

func jobOf(style measure.System, widths ...measure.Length) *ticket.Job {
	job := &ticket.Job{Name: "Heron Landing", ID: uuid.MustParse("5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31"), Style: measure.Usual(style)}
	for i, w := range widths {
		job.Shades = append(job.Shades, ticket.Shade{
			ID: fmt.Sprint("s", i+1), Quantity: 1, Finished: measure.Size{Width: w, Length: 31*in + in/4},
			Goods:  ticket.Goods{Name: "mesh", Kind: goods.CoatedMesh, Width: 54 * in, Thickness: 600 * measure.Micrometre, Lay: ticket.Lengthwise},
			Roller: ticket.Roller{Name: "donor", Tube: in, Longest: 200 * in},
			Slat:   ticket.Slat{Name: "flat", Width: in / 2, Thickness: in / 16},
			// Panels are 40 in long; slats are as long as the cloth is wide. The built-in
			// allowances: common practice, no source.
			Allow:  ticket.Allow{Wrap: 7 * in, Hem: in / 2, Pocket: in * 5 / 4, StitchInset: in / 8},
			Sewing: ticket.Sewing{StitchLength: 6 * measure.Millimetre, Thread: 92},
		})
	}
	return job
}

func shop() buying.Shop {
	return buying.Shop{
		Waste: 5, TapeRoll: 50 * measure.Metre, Spool: 1000 * measure.Metre, SlatLength: 96 * in, SawCut: in / 8,
		NeedleSeam: 50 * measure.Metre, BladeCut: 100 * measure.Metre, Minutes: map[string]int{},
	}
}

func listOf(t testing.TB, job *ticket.Job, s buying.Shop) buying.List {
	t.Helper()
	all, err := ticket.Make(job, ticket.Options{Route: route.Usual()})
	if err != nil {
		t.Fatal(err)
	}
	plans, laid, err := cutplan.Make(context.Background(), all, cutplan.Options{Effort: nest.Seconds(0.1), Supply: job.Supply})
	if err != nil {
		t.Fatal(err)
	}
	ticket.Seal(all, laid)
	list, err := buying.Make(job, all, plans, s)
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range list.Lines { // mesh, donor and flat are the job's own words
		if w := pseudo.Unmarked(pseudo.Put(n.What())+" "+pseudo.Put(n.Note), "mesh", "donor", "flat"); w != nil {
			t.Errorf("%s: words in English only: %q", n.What(), w)
		}
	}
	return list
}

func line(t testing.TB, l buying.List, kind buying.Kind) buying.Line {
	t.Helper()
	for _, n := range l.Lines {
		if n.Kind == kind {
			return n
		}
	}
	t.Fatalf("no %s among %+v", kind, l.Lines)
	return buying.Line{}
}

// Two panels of 27 in side by side on 54 in use 40 in of roll. With 5 % waste that
// is 42 in, 9.33 eighths of a yard, so ten: 45 in. By hand.
func TestGoods(t *testing.T) {
	job := jobOf(measure.Inches, 27*in, 27*in)
	job.Supply.Goods = map[string]ticket.GoodsSupply{"mesh": {Price: 185_000}}
	n := line(t, listOf(t, job, shop()), "goods")
	// 45 in are 1.25 yd; 1.25 × 18.50 = 23.125, half up 23.13.
	if n.Needs != 40*in || n.Buy != 10 || n.Length() != 45*in || n.Amount.String() != "23.13" {
		t.Errorf("goods %+v; want 40 in, ten steps, 23.13", n)
	}
	// In millimetres: 42 in are 1066.8 mm, so 11 steps of 10 cm; 1.1 m at 18.50 is
	// 20.35.
	job.Style = measure.Usual(measure.Millimetres)
	if n = line(t, listOf(t, job, shop()), "goods"); n.Length() != 1100*measure.Millimetre || n.Amount.String() != "20.35" {
		t.Errorf("goods %+v; want 1.1 m, 20.35", n)
	}
	// The goods' own step and price override the shop's: 0.5 m steps, price for 10
	// m.
	job.Supply.Goods["mesh"] = ticket.GoodsSupply{Price: 185_000, PricePer: 10 * measure.Metre, SoldBy: measure.Metre / 2}
	if n = line(t, listOf(t, job, shop()), "goods"); n.Length() != 1500*measure.Millimetre || n.Amount.String() != "2.78" {
		t.Errorf("goods %+v; want 1.5 m, 2.775 half up", n)
	}
	// A piece on hand that holds both panels saves all of the roll.
	job.Supply.Goods["mesh"] = ticket.GoodsSupply{OnHand: []ticket.Piece{{Label: "a", Width: 54 * in, Length: 41 * in}}}
	if n = line(t, listOf(t, job, shop()), "goods"); n.Buy != 0 || n.OnHand != 41*in || n.Needs != 41*in {
		t.Errorf("goods %+v; want nothing to buy: needed the 41 in that are on hand", n)
	}
}

// The fewest stock lengths of 96 in with saw cuts of 1/8 in, by hand: two pieces of
// 47-7/8 and one cut are 95-7/8, so they fit; two of 47-15/16 and one cut are
// exactly 96; two of 48 and one cut are 96-1/8.
func TestSlats(t *testing.T) {
	tests := []struct {
		widths []measure.Length
		bars   int
	}{
		{[]measure.Length{47*in + in*7/8, 47*in + in*7/8}, 1},
		{[]measure.Length{47*in + in*15/16, 47*in + in*15/16}, 1},
		{[]measure.Length{48 * in, 48 * in}, 2},
		// First-fit decreasing would pack 48, 48 / 31.. ; 31-7/8 three times with two cuts is 95-7/8.
		{[]measure.Length{31*in + in*7/8, 31*in + in*7/8, 31*in + in*7/8}, 1},
		// 50+25+20, 44+30+20 and their cuts: first-fit decreasing gives 50+44 | … three.
		{[]measure.Length{50 * in, 44 * in, 30 * in, 25 * in, 20 * in, 20 * in}, 2},
	}
	for _, tt := range tests {
		l := listOf(t, jobOf(measure.Inches, tt.widths...), shop())
		if n := line(t, l, "slat"); n.Buy != tt.bars || len(l.Bars) != tt.bars || !n.Note.IsZero() {
			t.Errorf("%v: %+v, %d bars; want %d, proven", tt.widths, n, len(l.Bars), tt.bars)
		}
		pieces := 0
		for _, b := range l.Bars {
			sum := measure.Length(len(b.Pieces)-1) * in / 8
			for _, p := range b.Pieces {
				sum += p.Length
				pieces++
			}
			if sum > b.Stock || b.Left < 0 || b.Left > b.Stock-sum {
				t.Errorf("%v: %v sawn from %v leave %v", tt.widths, sum, b.Stock, b.Left)
			}
		}
		if pieces != len(tt.widths) {
			t.Errorf("%v: %d pieces", tt.widths, pieces)
		}
	}
	job := jobOf(measure.Inches, 48*in, 48*in)
	job.Supply.Slats = map[string]ticket.SlatSupply{"flat": {Stock: 50 * in, Price: 42_000, OnHand: 1}}
	if n := line(t, listOf(t, job, shop()), "slat"); n.Buy != 1 || n.Amount.String() != "4.20" {
		t.Errorf("slat %+v; want one of two to buy", n)
	}
	job.Supply.Slats["flat"] = ticket.SlatSupply{Stock: 40 * in}
	if n := line(t, listOf(t, job, shop()), "slat"); n.Buy != 0 || n.Note.String() != "2 longer than the stock length of 40 in, not counted" {
		t.Errorf("slat %+v; want a note on both", n)
	}
}

// Tape: three runs of each cloth's width (hem, pocket, tube). Two cloths of 27 in
// need 162 in = 4.1148 m.
func TestSmallParts(t *testing.T) {
	job := jobOf(measure.Inches, 27*in, 27*in)
	job.Supply.OnHand = ticket.OnHand{Tape: 5 * measure.Metre, Needles: 1, Brackets: 1}
	job.Supply.Rollers = map[string]ticket.RollerSupply{"donor": {Price: 119_000, OnHand: 1}}
	s := shop()
	s.Brackets, s.Prices.Brackets, s.Currency = 1, 38_000, "EUR"
	s.Rate, s.Minutes["sew"], s.Minutes["cut"] = 42*measure.Unit, 12, 8
	l := listOf(t, job, s)
	if n := line(t, l, "tape"); n.Needs != 162*in || n.Buy != 0 {
		t.Errorf("tape %+v; want 162 in, none to buy with 5 m there", n)
	}
	if n := line(t, l, "thread"); n.Buy != 1 || n.Name.String() != "thread 92" {
		t.Errorf("thread %+v", n)
	}
	if n := line(t, l, "needle"); n.Name.String() != "needle 20" || n.NeedsCount != 1 || n.Buy != 0 {
		t.Errorf("needle %+v", n)
	}
	if n := line(t, l, "brackets"); n.Buy != 1 || n.Amount.String() != "3.80" {
		t.Errorf("brackets %+v", n)
	}
	if n := line(t, l, "roller"); n.Buy != 1 || n.Amount.String() != "11.90" {
		t.Errorf("roller %+v", n)
	}
	// Two shades at 20 minutes are 40 minutes: two thirds of 42.00.
	if l.Minutes() != 40 || l.Labour.String() != "28.00" || l.Materials.String() != "15.70" || l.Total().String() != "43.70" {
		t.Errorf("%d minutes, labour %s, materials %s, total %s; want 40, 28.00, 15.70, 43.70", l.Minutes(), l.Labour, l.Materials, l.Total())
	}
	if len(l.Work) != 2 || l.Work[0].Step.Key != "cut" {
		t.Errorf("work %+v; want cut before sew, as in the route", l.Work)
	}
	// Goods, slat, thread and blade must be bought and have no price.
	if l.Unpriced != 4 {
		t.Errorf("%d without a price; want 4", l.Unpriced)
	}
	text, err := json.Marshal(l.Report())
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"currency":"EUR"`, `"amount":3.80`, `"total":43.70`, `"needs_mm":4114.8`, `{"step":"cut","minutes":16,"amount":11.20}`} {
		if !strings.Contains(string(text), want) {
			t.Errorf("the report lacks %s:\n%s", want, text)
		}
	}
}

func TestYards(t *testing.T) {
	tests := []struct {
		step  measure.Length
		buy   int
		words string
		src   string
	}{
		{measure.Yard / 8, 42, "5-1/4 yd", "42 eighths by hand"},
		{measure.Yard / 8, 9, "1-1/8 yd", "9 eighths by hand"},
		{measure.Yard / 8, 8, "1 yd", "8 eighths by hand"},
		{100 * measure.Millimetre, 9, "", "sold by 10 cm"},
	}
	for _, tt := range tests {
		got, ok := buying.Line{Step: tt.step, Buy: tt.buy}.Yards()
		if got != tt.words || ok != (tt.words != "") {
			t.Errorf("%d of %s is %q, %v; want %q (%s)", tt.buy, tt.step, got, ok, tt.words, tt.src)
		}
	}
}

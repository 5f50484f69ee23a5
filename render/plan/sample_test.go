package plan

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"github.com/google/uuid"

	"shadewright/render/buylist"
	"shadewright/render/flow"
	"shadewright/render/internal/readback"
	"shadewright/render/sheet"
	"shadewright/ticket"
	"shadewright/ticket/buying"
	"shadewright/ticket/cutplan"
	"shadewright/ticket/goods"
	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
	"shadewright/ticket/route"
)

const in = measure.Inch

// A sample is a job with its plans and its buying list.
type sample struct {
	tickets []*ticket.Ticket
	plans   []*cutplan.Plan
	list    buying.List
	opt     flow.Options
	table   measure.Length
}

// An order describes a sample.
type order struct {
	system measure.System
	paper  string
	sizes  []measure.Size // finished
	each   int            // panels of every size
	goods  func(*ticket.Goods)
	onHand []ticket.Piece
	table  measure.Length
}

func (o order) shade(i int) ticket.Shade {
	g := ticket.Goods{Name: "screen", Kind: goods.CoatedGlassMesh, Width: 1800 * mm, Selvage: [2]measure.Length{15 * mm, 20 * mm}, Thickness: 750 * measure.Micrometre, Lay: ticket.AnyWay}
	if o.goods != nil {
		o.goods(&g)
	}
	return ticket.Shade{
		ID: fmt.Sprint("s", i+1), Quantity: max(o.each, 1), Finished: o.sizes[i], Goods: g,
		Roller: ticket.Roller{Name: "cabin", Tube: 28 * mm, Longest: 5000 * mm},
		Slat:   ticket.Slat{Name: "batten", Width: 20 * mm, Thickness: 2 * mm},
		Allow:  ticket.Allow{Wrap: 180 * mm, Hem: 12 * mm, Pocket: 32 * mm, StitchInset: 3 * mm, TubeOver: 3 * mm, SlatGap: 4 * mm},
		Sewing: ticket.Sewing{StitchLength: 5 * mm, Thread: 69},
	}
}

func (o order) make(t testing.TB) sample {
	t.Helper()
	job := &ticket.Job{Name: "Marsh Wren", ID: uuid.MustParse("0b9d3b1c-6a57-4e0b-8d8e-2f6c1f7f9a42"), Style: measure.Usual(o.system)}
	for i := range o.sizes {
		job.Shades = append(job.Shades, o.shade(i))
	}
	job.Supply.Goods = map[string]ticket.GoodsSupply{"screen": {OnHand: o.onHand, Price: 24 * measure.Unit}}
	var s sample
	var err error
	if s.tickets, err = ticket.Make(job, ticket.Options{Route: route.Usual()}); err != nil {
		t.Fatal(err)
	}
	plans, laid, err := cutplan.Make(context.Background(), s.tickets, cutplan.Options{
		Table: o.table, KeepWidth: 300 * mm, KeepLength: 450 * mm, Effort: nest.Effort{Work: 300_000}, Supply: job.Supply,
	})
	if err != nil {
		t.Fatal(err)
	}
	ticket.Seal(s.tickets, laid)
	s.plans = plans
	s.list, err = buying.Make(job, s.tickets, s.plans, buying.Shop{
		Currency: "EUR", Waste: 5, TapeRoll: 50 * measure.Metre, Spool: 1000 * measure.Metre, SlatLength: 2400 * mm, SawCut: 3 * mm,
		NeedleSeam: 50 * measure.Metre, BladeCut: 100 * measure.Metre, Rate: 42 * measure.Unit, Minutes: map[string]int{"cut": 9, "sew": 12},
	})
	if err != nil {
		t.Fatal(err)
	}
	p, err := sheet.Named(o.paper)
	if err != nil {
		t.Fatal(err)
	}
	s.table = o.table
	s.opt = flow.Options{Paper: p, Margins: sheet.Margins{Left: in / 4, Right: in / 4, Top: in / 4, Bottom: in / 2}, Style: job.Style, Job: job.Name}
	return s
}

func (s sample) pdf(t testing.TB) []byte {
	t.Helper()
	sheets, err := s.sheets()
	return readback.Bytes(t, flow.Document(s.opt.Language.Say("plan.cut-plan"), sheets), err)
}

// sheets lays out the sample with its buying list, as for a job.
func (s sample) sheets() ([]*flow.Sheet, error) {
	on, err := On(s.opt)
	if err != nil {
		return nil, err
	}
	return slices.Concat(Sheets(on, s.plans, s.table), buylist.Sheets(on, s.list), Labels(on, s.plans)), nil
}

func (s sample) open(t testing.TB) *readback.Document { return readback.Open(t, s.pdf(t)) }

// sizesOf returns n different sizes, in whole and half millimetres.
func sizesOf(n int) []measure.Size {
	list := make([]measure.Size, n)
	for i := range list {
		k := measure.Length(i)
		list[i] = measure.Size{Width: 400*mm + (k*k*137%9000)*mm/10/500*500, Length: 350*mm + (k*211%11)*90*mm + mm/2}
		list[i].Width = list[i].Width.Round(mm/2, measure.Nearest)
	}
	return list
}

// samples returns the samples that test every page.
func samples() map[string]order {
	narrow := func(g *ticket.Goods) { g.Allowance = 8 * mm }
	return map[string]order{
		// With only one direction there is one shortest plan, so the golden
		// files are stable.
		"plain": {system: measure.Inches, paper: "letter", each: 2, goods: func(g *ticket.Goods) { g.Lay, g.Selvage[1] = ticket.Lengthwise, 15*mm },
			sizes: []measure.Size{{Width: 30 * in, Length: 40 * in}}},
		"plain, on hand": {system: measure.Millimetres, paper: "a4", goods: func(g *ticket.Goods) { g.Lay, g.Allowance = ticket.Lengthwise, 10*mm },
			sizes: []measure.Size{{Width: 1700 * mm, Length: 500 * mm}}, each: 2, onHand: []ticket.Piece{{Label: "shelf-3", Width: 1750 * mm, Length: 800 * mm}}},
		"small, metric":  {system: measure.Millimetres, paper: "a4", sizes: sizesOf(4), each: 2},
		"small, inches":  {system: measure.Inches, paper: "letter", sizes: sizesOf(5)},
		"twenty":         {system: measure.Millimetres, paper: "a4", sizes: sizesOf(20)},
		"sixty, a table": {system: measure.Millimetres, paper: "letter", sizes: sizesOf(30), each: 2, goods: narrow, table: 2000 * mm},
		"on hand": {system: measure.Millimetres, paper: "a4", sizes: sizesOf(7), onHand: []ticket.Piece{
			{Label: "shelf-3", Width: 1000 * mm, Length: 1500 * mm}, {Label: "shelf-4", Width: 700 * mm, Length: 900 * mm}}},
	}
}

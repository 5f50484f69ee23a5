package buying

import (
	"cmp"
	"context"
	"fmt"
	"strconv"

	"shadewright/ticket"
	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
)

// A Bar is one stock length of a slat and what is sawn from it.
type Bar struct {
	Slat   string
	Stock  measure.Length
	Pieces []SlatPiece // from one end on
	Left   measure.Length
}

// A SlatPiece is the slat of one ticket.
type SlatPiece struct {
	Ticket *ticket.Ticket
	Length measure.Length
}

// slats figures the stock lengths that each slat takes.
func (b *builder) slats() error {
	var names []string
	pieces := map[string][]SlatPiece{}
	for _, t := range b.tickets {
		name := t.Shade.Slat.Name
		if pieces[name] == nil {
			names = append(names, name)
		}
		pieces[name] = append(pieces[name], SlatPiece{t, t.Cut.Slat})
	}
	for _, name := range names {
		s := b.job.Supply.Slats[name]
		stock := cmp.Or(s.Stock, b.shop.SlatLength)
		l := Line{Kind: "slat", Name: name, OnHandCount: s.OnHand, Step: stock, Price: s.Price}
		fit, long := split(pieces[name], stock)
		if long > 0 {
			l.Note = fmt.Sprintf("%d longer than the stock of %s, not counted", long, b.job.Style.Format(stock))
		}
		bars, proven, err := saw(name, fit, stock, b.shop.SawCut)
		if err != nil {
			return fmt.Errorf("slat %s: %w", name, err)
		}
		if !proven {
			l.Note = note(l.Note, "fewer lengths may do")
		}
		for _, p := range fit {
			l.Needs += p.Length
		}
		l.NeedsCount, l.Buy = len(bars), max(len(bars)-s.OnHand, 0)
		b.list.Bars = append(b.list.Bars, bars...)
		b.add(l)
	}
	return nil
}

func note(a, b string) string {
	if a == "" {
		return b
	}
	return a + "; " + b
}

// split parts the pieces that come out of a stock length from those that are
// longer, and counts these.
func split(pieces []SlatPiece, stock measure.Length) (fit []SlatPiece, long int) {
	for _, p := range pieces {
		if p.Length > stock {
			long++
			continue
		}
		fit = append(fit, p)
	}
	return fit, long
}

// sawEffort proves the sizes of a usual job and bounds the rest.
const sawEffort = 20_000_000

// saw lays pieces on the fewest stock lengths. It asks package nest: a stock
// length is the width of a roll, a piece with its saw cut is as wide and one
// unit long, so that each length of stock is one row of the roll. A row of pieces
// a1 … an needs (n − 1) saw cuts, so one cut is added to the width.
func saw(name string, pieces []SlatPiece, stock, cut measure.Length) (bars []Bar, proven bool, err error) {
	const unit = measure.Millimetre
	proven = true
	for len(pieces) > 0 {
		lot := pieces[:min(len(pieces), nest.MostPieces)]
		pieces = pieces[len(lot):]
		o := nest.Order{Roll: nest.Roll{Width: stock + cut, Table: unit}}
		for _, p := range lot {
			o.Pieces = append(o.Pieces, nest.Piece{Label: p.Ticket.Shade.ID, Width: p.Length + cut, Length: unit, Quantity: 1})
		}
		plan, err := nest.Make(context.Background(), o, nest.Effort{Work: sawEffort})
		if err != nil {
			return nil, false, err
		}
		row := make([]Bar, plan.Used/unit)
		for i := range row {
			row[i] = Bar{Slat: name, Stock: stock, Left: stock}
		}
		for _, q := range plan.Pieces {
			b := &row[q.Y/unit]
			b.Pieces = append(b.Pieces, lot[q.Piece])
			b.Left -= lot[q.Piece].Length + cut
		}
		for i := range row {
			row[i].Left = max(row[i].Left, 0) // the last piece may end where the stock does
		}
		bars = append(bars, row...)
		proven = proven && plan.Proven && len(pieces) == 0
	}
	return bars, proven, nil
}

func decimal(n int) string { return strconv.Itoa(n) }

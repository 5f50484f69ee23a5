package buying

import (
	"cmp"
	"context"
	"fmt"

	"shadewright/ticket"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/nest"
)

// A Bar is one stock length of a slat and the pieces to saw from it.
type Bar struct {
	Slat   string
	Stock  measure.Length
	Pieces []SlatPiece // from one end to the other
	Left   measure.Length
}

// A SlatPiece is the slat of one ticket.
type SlatPiece struct {
	Ticket *ticket.Ticket
	Length measure.Length
}

// slats works out the stock lengths that each slat needs.
func (b *builder) slats() error {
	var names []string
	pieces := map[string][]SlatPiece{}
	for _, t := range b.fresh {
		name := t.Shade.Slat.Name
		if pieces[name] == nil {
			names = append(names, name)
		}
		pieces[name] = append(pieces[name], SlatPiece{t, t.Cut.Slat})
	}
	for _, name := range names {
		s := b.job.Supply.Slats[name]
		stock := cmp.Or(s.Stock, b.shop.SlatLength)
		l := Line{Kind: Slat, Name: message.Verbatim(name), OnHandCount: s.OnHand, Step: stock, Price: s.Price}
		fit, long := split(pieces[name], stock)
		if long > 0 {
			l.Note = message.Of("ticket.longer-than-stock", long, b.job.Style.Format(stock))
		}
		for _, p := range fit {
			l.Needs += p.Length
		}
		bars, bought, proven, err := saw(name, fit, stock, s.OnHand, b.shop.SawCut)
		if err != nil {
			return fmt.Errorf("slat %s: %w", name, err)
		}
		if !proven {
			l.Note = message.Join("; ", l.Note, message.Of("ticket.fewer-lengths-may-do"))
		}
		l.NeedsCount, l.Buy = len(bars), bought
		b.list.Bars = append(b.list.Bars, bars...)
		b.add(l)
	}
	return nil
}

// split separates the pieces that fit in a stock length from those that are longer,
// and counts the latter.
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

// saw cuts pieces from stock lengths, using those on hand first. It returns how
// many to buy, and whether it is proven that fewer would not do.
func saw(name string, pieces []SlatPiece, stock measure.Length, have int, cut measure.Length) (bars []Bar, bought int, proven bool, err error) {
	proven = true
	for len(pieces) > 0 {
		lot := pieces[:min(len(pieces), nest.MostPieces)]
		pieces = pieces[len(lot):]
		o := nest.StickOrder{Stock: []nest.StickStock{{Label: name, Length: stock}}, Kerf: cut}
		if left := min(have-(len(bars)-bought), nest.MostPieces); left > 0 {
			o.Stock = append(o.Stock, nest.StickStock{Label: name + " on hand", Length: stock, OnHand: left})
		}
		for _, p := range lot {
			o.Pieces = append(o.Pieces, nest.StickPiece{Label: p.Ticket.Shade.ID, Length: p.Length, Quantity: 1})
		}
		plan, err := nest.MakeSticks(context.Background(), o)
		if err != nil {
			return nil, 0, false, err
		}
		for _, stick := range plan.Sticks {
			bar := Bar{Slat: name, Stock: stock, Left: stick.Left}
			for _, i := range stick.Pieces {
				bar.Pieces = append(bar.Pieces, lot[i])
			}
			bars = append(bars, bar)
			if stick.Stock == 0 {
				bought++
			}
		}
		proven = proven && plan.Proven && len(pieces) == 0
	}
	return bars, bought, proven, nil
}

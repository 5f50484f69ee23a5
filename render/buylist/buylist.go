// Package buylist draws the list of what to buy for a job, and the cutting list
// of each stock length of slat.
package buylist

import (
	"fmt"
	"strconv"
	"strings"

	"shadewright/render/flow"
	"shadewright/render/page"
	"shadewright/ticket/buying"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// columns are the ends of the list's columns, in thousandths of the width. The
// first column is aligned left, the others right.
var columns = [...]measure.Length{0, 480, 610, 790, 890, 1000}

const (
	mm    = measure.Millimetre
	pitch = 13 * mm / 2
)

// A layout is the list on its sheets.
type layout struct{ *flow.Layout }

// Sheets lays out the list.
func Sheets(on *flow.Layout, list buying.List) []*flow.Sheet {
	l := layout{on}
	c := l.Column(l.Say("plan.to-buy"))
	row := func(cells []string, f page.Face, pen page.Pen) {
		c.Add(pitch, func(on flow.Canvas, at measure.Length) { l.row(on, cells, f, pen, at) })
	}
	bold := page.Face{Size: 10 * page.Pt, Weight: page.Semibold}
	plain := page.Face{Size: 10 * page.Pt}
	price := l.Say("plan.price")
	if list.Currency != "" {
		price = l.Say("plan.price-in", list.Currency)
	}
	row([]string{l.Say("plan.item"), l.Say("plan.the-job-takes"), l.Say("plan.column-on-hand"), l.Say("plan.buy"), price, l.Say("plan.amount")}, bold, flow.Solid())
	for _, n := range list.Lines {
		row(l.cells(n), plain, flow.Hair())
	}
	if list.Priced() {
		row([]string{l.Say("plan.materials"), "", "", "", "", l.money(list.Materials)}, bold, flow.Solid())
	}
	for _, w := range list.Work {
		row([]string{l.Put(w.Step.Message()), hours(w.Minutes), "", "", "", l.money(w.Amount)}, plain, flow.Hair())
	}
	if len(list.Work) > 0 {
		row([]string{l.Say("plan.labour"), hours(list.Minutes()), "", "", "", l.money(list.Labour)}, bold, flow.Solid())
		total := page.Face{Size: 12 * page.Pt, Weight: page.Bold}
		row([]string{l.Say("plan.total"), "", "", "", list.Currency, l.money(list.Total())}, total, flow.Heavy())
	}
	if list.Unpriced > 0 {
		c.Add(pitch, func(on flow.Canvas, at measure.Length) {
			on.Text(page.Point{X: l.Frame.Min.X, Y: at + 5*mm}, l.Say("plan.unpriced", list.Unpriced), plain)
		})
	}
	l.bars(c, list.Bars)
	return c.Sheets
}

// money formats an amount.
func (l layout) money(m measure.Money) string { return l.Style.Money(m) }

// hours formats a time with symbols that are the same in every language.
func hours(minutes int) string { return fmt.Sprintf("%d h %02d min", minutes/60, minutes%60) }

// row writes a row. The first cell is aligned left, the others right.
func (l layout) row(on flow.Canvas, cells []string, f page.Face, pen page.Pen, at measure.Length) {
	w := l.Frame.Width()
	base := at + pitch - 2*mm
	for i, s := range cells {
		from, to := measure.Length(0), w*360/1000
		if i > 0 {
			from, to = to, w*columns[i]/1000
			if i > 1 {
				from = w * columns[i-1] / 1000
			}
		}
		g := f
		s, g = page.Fit(s, g, to-from-2*mm, 6*page.Pt)
		x := l.Frame.Min.X
		if i > 0 {
			g.Align, x = page.End, x+to
		}
		on.Text(page.Point{X: x, Y: base}, s, g)
	}
	y := at + pitch - mm/2
	on.Line(page.Point{X: l.Frame.Min.X, Y: y}, page.Point{X: l.Frame.Max.X, Y: y}, pen)
}

// cells returns the cells for a line of the list.
func (l layout) cells(n buying.Line) []string {
	what := l.Put(n.What())
	if !n.Note.IsZero() {
		what += " (" + l.Put(n.Note) + ")"
	}
	needs, have, buy := strconv.Itoa(n.NeedsCount), strconv.Itoa(n.OnHandCount), strconv.Itoa(n.Buy)
	if n.Step > 0 && n.Kind != buying.Slat {
		needs, have = l.amount(n, n.Needs, measure.Up), l.amount(n, n.OnHand, measure.Down)
	}
	switch {
	case n.Kind == buying.Goods:
		buy = l.Words(n.Length())
		if yards, ok := n.Yards(); ok {
			buy = yards + " (" + buy + ")"
		}
	case n.Kind == buying.Slat:
		buy = l.Say("plan.of-pieces-length", n.Buy, l.Words(n.Step))
	case n.Kind == buying.Tape:
		buy = l.Put(message.Count(n.Buy, "plan.roll-of", "plan.rolls-of", l.Style.Metres(n.Step, measure.Nearest)))
	case n.Kind == buying.Thread:
		buy = l.Put(message.Count(n.Buy, "plan.spool-of", "plan.spools-of", l.Style.Metres(n.Step, measure.Nearest)))
	}
	if n.OnHand == 0 && n.OnHandCount == 0 {
		have = ""
	}
	price, sum := "", ""
	if n.Price > 0 {
		price, sum = l.money(n.Price), l.money(n.Amount)
		if n.Per > 0 {
			price += " / " + l.per(n.Per)
		}
	}
	return []string{what, needs, have, buy, price, sum}
}

// amount formats a length in the unit in which such goods are sold.
func (l layout) amount(n buying.Line, v measure.Length, r measure.Rounding) string {
	if n.Kind == buying.Goods {
		return l.Style.Words(v, r).Typeset()
	}
	return l.Style.Metres(v, r)
}

// per returns the length that a price is for.
func (l layout) per(v measure.Length) string {
	switch v {
	case measure.Yard:
		return "yd"
	case measure.Metre:
		return "m"
	}
	return l.Words(v)
}

// bars lists what to saw from each stock length of slat.
func (l layout) bars(c *flow.Column, bars []buying.Bar) {
	if len(bars) == 0 {
		return
	}
	head := page.Face{Size: 11 * page.Pt, Weight: page.Bold}
	plain := page.Face{Size: 9 * page.Pt}
	c.Add(12*mm, func(on flow.Canvas, at measure.Length) {
		on.Text(page.Point{X: l.Frame.Min.X, Y: at + 9*mm}, l.Say("plan.slats"), head)
	})
	for i, b := range bars {
		var words []string
		for _, p := range b.Pieces {
			words = append(words, l.Put(p.Ticket.Called())+": "+l.Bare(p.Length))
		}
		text := l.Say("plan.left", i+1, b.Slat, l.Words(b.Stock), strings.Join(words, l.Style.Between()), l.Style.Words(b.Left, measure.Down).Typeset())
		for k, line := range page.Wrap(text, plain, l.Frame.Width()-5*mm) {
			x := l.Frame.Min.X
			if k > 0 {
				x += 5 * mm
			}
			c.Add(9*mm/2, func(on flow.Canvas, at measure.Length) { on.Text(page.Point{X: x, Y: at + 4*mm}, line, plain) })
		}
	}
}

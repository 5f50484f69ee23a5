package plan

import (
	"fmt"
	"strconv"
	"strings"

	"shadewright/render/page"
	"shadewright/ticket/buying"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// buyColumns are where the columns of the buying list end, in thousandths of the
// width; the first begins at the left, the others are set to their right end.
var buyColumns = [...]measure.Length{0, 480, 610, 790, 890, 1000}

const buyPitch = 13 * mm / 2

// buying lays out the list of what to buy.
func (l *layout) buying(list buying.List) []*leaf {
	c := &column{layout: l, title: l.say("plan.to-buy"), below: l.opt.Job}
	row := func(cells []string, f page.Face, pen page.Pen) {
		c.put(buyPitch, func(d *drawing, at measure.Length) { d.buyRow(cells, f, pen, at) })
	}
	bold := page.Face{Size: 10 * page.Pt, Weight: page.Semibold}
	plain := page.Face{Size: 10 * page.Pt}
	price := l.say("plan.price")
	if list.Currency != "" {
		price = l.say("plan.price-2", list.Currency)
	}
	row([]string{l.say("plan.what-bought"), l.say("plan.the-job-takes"), l.say("plan.on-hand-2"), l.say("plan.buy"), price, l.say("plan.amount-money")}, bold, solid)
	for _, n := range list.Lines {
		row(l.buyCells(n), plain, hair)
	}
	if list.Priced() {
		row([]string{l.say("plan.materials"), "", "", "", "", l.money(list.Materials)}, bold, solid)
	}
	for _, w := range list.Work {
		row([]string{l.put(w.Step.Message()), hours(w.Minutes), "", "", "", l.money(w.Amount)}, plain, hair)
	}
	if len(list.Work) > 0 {
		row([]string{l.say("plan.labour"), hours(list.Minutes()), "", "", "", l.money(list.Labour)}, bold, solid)
		total := page.Face{Size: 12 * page.Pt, Weight: page.Bold}
		row([]string{l.say("plan.total"), "", "", "", list.Currency, l.money(list.Total())}, total, heavy)
	}
	if list.Unpriced > 0 {
		c.put(buyPitch, func(d *drawing, at measure.Length) {
			d.Text(page.Point{X: d.frame.Min.X, Y: at + 5*mm}, d.say("plan.buy-without-price-not-sum", list.Unpriced), plain)
		})
	}
	l.bars(c, list.Bars)
	return c.sheets
}

// money puts an amount into words.
func (l *layout) money(m measure.Money) string { return l.opt.Style.Money(m) }

// hours has symbols that are the same in every language.
func hours(minutes int) string { return fmt.Sprintf("%d h %02d min", minutes/60, minutes%60) }

// buyRow writes a row. The first cell is text; the others are set to the right.
func (d *drawing) buyRow(cells []string, f page.Face, pen page.Pen, at measure.Length) {
	w := d.frame.Width()
	base := at + buyPitch - 2*mm
	for i, s := range cells {
		from, to := measure.Length(0), w*360/1000
		if i > 0 {
			from, to = to, w*buyColumns[i]/1000
			if i > 1 {
				from = w * buyColumns[i-1] / 1000
			}
		}
		g := f
		s, g = page.Fit(s, g, to-from-2*mm, 6*page.Pt)
		x := d.frame.Min.X
		if i > 0 {
			g.Align, x = page.End, x+to
		}
		d.Text(page.Point{X: x, Y: base}, s, g)
	}
	y := at + buyPitch - mm/2
	d.Line(page.Point{X: d.frame.Min.X, Y: y}, page.Point{X: d.frame.Max.X, Y: y}, pen)
}

// buyCells puts a line of the list into words.
func (l *layout) buyCells(n buying.Line) []string {
	what := l.put(n.What())
	if !n.Note.IsZero() {
		what += " (" + l.put(n.Note) + ")"
	}
	needs, have, buy := strconv.Itoa(n.NeedsCount), strconv.Itoa(n.OnHandCount), strconv.Itoa(n.Buy)
	if n.Step > 0 && n.Kind != buying.Slat {
		needs, have = l.amount(n, n.Needs, measure.Up), l.amount(n, n.OnHand, measure.Down)
	}
	switch {
	case n.Kind == buying.Goods:
		buy = l.length(n.Length())
		if yards, ok := n.Yards(); ok {
			buy = yards + " (" + buy + ")"
		}
	case n.Kind == buying.Slat:
		buy = l.say("plan.of-pieces-length", n.Buy, l.length(n.Step))
	case n.Kind == buying.Tape:
		buy = l.put(message.Count(n.Buy, "plan.roll-of", "plan.rolls-of", l.opt.Style.Metres(n.Step, measure.Nearest)))
	case n.Kind == buying.Thread:
		buy = l.put(message.Count(n.Buy, "plan.spool-of", "plan.spools-of", l.opt.Style.Metres(n.Step, measure.Nearest)))
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

// amount puts a length into the unit that the thing is reckoned in.
func (l *layout) amount(n buying.Line, v measure.Length, r measure.Rounding) string {
	if n.Kind == buying.Goods {
		return l.opt.Style.Words(v, r).Typeset()
	}
	return l.opt.Style.Metres(v, r)
}

// per names the length that a price is for.
func (l *layout) per(v measure.Length) string {
	switch v {
	case measure.Yard:
		return "yd"
	case measure.Metre:
		return "m"
	}
	return l.length(v)
}

// bars lists what is sawn from each stock length of slat.
func (l *layout) bars(c *column, bars []buying.Bar) {
	if len(bars) == 0 {
		return
	}
	head := page.Face{Size: 11 * page.Pt, Weight: page.Bold}
	plain := page.Face{Size: 9 * page.Pt}
	c.put(12*mm, func(d *drawing, at measure.Length) {
		d.Text(page.Point{X: d.frame.Min.X, Y: at + 9*mm}, d.say("plan.slats-from-each-stock-length"), head)
	})
	for i, b := range bars {
		var words []string
		for _, p := range b.Pieces {
			words = append(words, p.Ticket.Name()+": "+l.bare(p.Length))
		}
		text := l.say("plan.left", i+1, b.Slat, l.length(b.Stock), strings.Join(words, l.opt.Style.Between()), l.opt.Style.Words(b.Left, measure.Down).Typeset())
		for k, line := range page.Wrap(text, plain, l.frame.Width()-5*mm) {
			x := l.frame.Min.X
			if k > 0 {
				x += 5 * mm
			}
			c.put(9*mm/2, func(d *drawing, at measure.Length) { d.Text(page.Point{X: x, Y: at + 4*mm}, line, plain) })
		}
	}
}

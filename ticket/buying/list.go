// Package buying works out what to buy for a job, in the steps that things are sold
// in, what that costs and how long the work takes.
//
// It trusts the plans of package cutplan and the figures of the tickets. Prices are
// [measure.Money]. A price of zero means that none was given, and its line has no
// amount. What is on hand is taken off before anything is rounded up to a step.
package buying

import (
	"cmp"
	"slices"

	"shadewright/ticket"
	"shadewright/ticket/cutplan"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// A Shop holds how a shop buys and what its work costs.
type Shop struct {
	Currency   string         // empty: none is printed
	SoldBy     measure.Length // step in which goods are sold; zero: by the job's units
	Waste      int            // cloth bought for waste, in percent
	TapeRoll   measure.Length
	Spool      measure.Length // length of thread on a spool
	SlatLength measure.Length // length in which slats are sold
	SawCut     measure.Length // lost at each cut through a slat
	Brackets   int            // pairs to buy for a shade
	EndParts   int            // sets to buy for a shade
	NeedleSeam measure.Length // length of seam that one needle sews
	BladeCut   measure.Length // length of cut that one blade makes
	Prices     Prices
	Rate       measure.Money  // of an hour of work; zero: work is not costed
	Minutes    map[string]int // for one shade, by step of the route
}

// Prices holds the prices of small parts, for one of each; zero if none is given.
type Prices struct{ Tape, Thread, Brackets, EndParts, Needles, Blades measure.Money }

// A Kind is the kind of thing to buy.
type Kind string

// The kinds, in the order of the list. Goods, tape and thread are sold by length,
// slats by the lengths they come in, and the others by number.
const (
	Goods    Kind = "goods"
	Slat     Kind = "slat"
	Roller   Kind = "roller"
	Tape     Kind = "tape"
	Thread   Kind = "thread"
	Needle   Kind = "needle"
	Blade    Kind = "blade"
	Brackets Kind = "brackets"
	EndParts Kind = "end parts"
)

// A Line is one thing on the list.
type Line struct {
	Kind Kind
	Name message.Message

	Needs, OnHand           measure.Length // for things sold by length
	Waste                   measure.Length // of goods: bought on top of what is needed
	NeedsCount, OnHandCount int            // for things sold by number

	Step   measure.Length // length of one unit as sold; zero for things sold by number
	Buy    int            // how many of these units
	Price  measure.Money
	Per    measure.Length // the length that the price is for; zero: for one unit as sold
	Amount measure.Money
	Note   message.Message
}

// What names the thing, with its kind if the name is the job's own.
func (l Line) What() message.Message {
	switch l.Kind {
	case Goods:
		return message.Of("ticket.buy-goods", l.Name)
	case Slat:
		return message.Of("ticket.buy-slat", l.Name)
	case Roller:
		return message.Of("ticket.buy-roller", l.Name)
	}
	return l.Name
}

// Length returns the length to buy, or zero for things sold by number.
func (l Line) Length() measure.Length { return l.Step * measure.Length(l.Buy) }

// Yards returns the length to buy in yards and eighths, the way customers ask for
// goods sold by the eighth of a yard: "5-1/4 yd". ok is false for goods sold by
// another step.
func (l Line) Yards() (words string, ok bool) {
	const eighth = measure.Yard / 8
	if l.Step != eighth {
		return "", false
	}
	w := measure.Style{System: measure.Inches, Denominator: 8}.Words(l.Length()/36, measure.Nearest)
	w.Unit = "yd"
	return w.String(), true
}

// A Work is what one step of the route takes for the whole job.
type Work struct {
	Step    route.Step
	Minutes int
	Amount  measure.Money
}

// A List is everything to buy for a job.
type List struct {
	Currency  string
	Lines     []Line
	Bars      []Bar // how to saw the slats from their stock lengths
	Work      []Work
	Materials measure.Money // sum of the lines
	Labour    measure.Money
	Unpriced  int // lines with something to buy and no price
}

// Priced reports whether anything to buy has a price.
func (l List) Priced() bool { return l.Materials > 0 }

// Total returns the cost of the job, as far as prices are given.
func (l List) Total() measure.Money { return l.Materials + l.Labour }

// Minutes returns the minutes of work.
func (l List) Minutes() int {
	n := 0
	for _, w := range l.Work {
		n += w.Minutes
	}
	return n
}

// Make returns the list for a job. Tickets with a stop need nothing.
func Make(job *ticket.Job, tickets []*ticket.Ticket, plans []*cutplan.Plan, shop Shop) (List, error) {
	b := &builder{job: job, shop: shop, list: List{Currency: shop.Currency}}
	for _, t := range tickets {
		if !t.Stopped() {
			b.tickets = append(b.tickets, t)
			if t.Remake == 0 { // a panel that is cut again has its roller, slat and brackets
				b.fresh = append(b.fresh, t)
			}
		}
	}
	for _, p := range plans {
		b.goods(p)
	}
	if err := b.slats(); err != nil {
		return List{}, err
	}
	b.rollers()
	b.tape()
	b.thread()
	b.needles()
	b.blades(plans)
	b.counted(Brackets, message.Of("ticket.buy-brackets"), shop.Brackets, job.Supply.OnHand.Brackets, shop.Prices.Brackets)
	b.counted(EndParts, message.Of("ticket.buy-end-parts"), shop.EndParts, job.Supply.OnHand.EndParts, shop.Prices.EndParts)
	b.work()
	return b.list, nil
}

// A builder builds a list.
type builder struct {
	job     *ticket.Job
	shop    Shop
	tickets []*ticket.Ticket
	fresh   []*ticket.Ticket // those that are not cut again
	list    List
}

// add works out the amount of a line and appends it.
func (b *builder) add(l Line) {
	switch {
	case l.Buy == 0 || l.Price == 0:
	case l.Per > 0:
		l.Amount = l.Price.For(l.Length(), l.Per)
	default:
		l.Amount = l.Price.Times(l.Buy).Round()
	}
	if l.Buy > 0 && l.Price == 0 {
		b.list.Unpriced++
	}
	b.list.Materials += l.Amount
	b.list.Lines = append(b.list.Lines, l)
}

// steps returns how many steps hold l, and zero for a length of zero.
func steps(l, step measure.Length) int {
	if l <= 0 {
		return 0
	}
	return int(l.Round(step, measure.Up) / step)
}

// The default steps in which goods are sold: an eighth of a yard, 10 cm (common
// practice, no source).
const (
	yardEighth = measure.Yard / 8
	tenCm      = 10 * measure.Centimetre
)

func (b *builder) metric() bool { return b.job.Style.System == measure.Millimetres }

func (b *builder) goods(p *cutplan.Plan) {
	s := b.job.Supply.Goods[p.Goods.Name]
	usual, per := yardEighth, measure.Yard
	if b.metric() {
		usual, per = tenCm, measure.Metre
	}
	step := cmp.Or(s.SoldBy, b.shop.SoldBy, usual)
	l := Line{Kind: Goods, Name: message.Verbatim(p.Goods.Name), Needs: p.Used, Step: step, Price: s.Price, Per: cmp.Or(s.PricePer, per)}
	for _, h := range p.OnHand {
		l.OnHand += h.Length
		l.Needs += h.Length
	}
	// Rounded up to the nanometre, so that waste never disappears in rounding.
	l.Waste = (p.Used*measure.Length(b.shop.Waste) + 99) / 100
	l.Buy = steps(p.Used+l.Waste, step)
	if l.Waste > 0 {
		l.Note = message.Of("ticket.with-waste", b.shop.Waste)
	}
	b.add(l)
}

func (b *builder) rollers() {
	var names []string
	count := map[string]int{}
	for _, t := range b.fresh {
		name := t.Shade.Roller.Name
		if count[name] == 0 {
			names = append(names, name)
		}
		count[name]++
	}
	for _, name := range names {
		if s := b.job.Supply.Rollers[name]; s.Price > 0 {
			b.add(Line{Kind: Roller, Name: message.Verbatim(name), NeedsCount: count[name], OnHandCount: s.OnHand, Buy: max(count[name]-s.OnHand, 0), Price: s.Price})
		}
	}
}

func (b *builder) tape() {
	var sum measure.Length
	for _, t := range b.tickets {
		sum += t.Tape.Total
	}
	if sum == 0 {
		return
	}
	have := b.job.Supply.OnHand.Tape
	b.add(Line{Kind: Tape, Name: message.Of("ticket.buy-tape"), Needs: sum, OnHand: have, Step: b.shop.TapeRoll, Buy: steps(sum-have, b.shop.TapeRoll), Price: b.shop.Prices.Tape})
}

func (b *builder) thread() {
	sum := map[int]measure.Length{}
	for _, t := range b.tickets {
		sum[t.Stitch.ThreadSize] += t.Stitch.Thread
	}
	for _, size := range sorted(sum) {
		l := Line{Kind: Thread, Name: message.Of("ticket.buy-thread", size), Needs: sum[size], Step: b.shop.Spool, Price: b.shop.Prices.Thread}
		for _, h := range b.job.Supply.OnHand.Thread {
			if h.Size == size {
				l.OnHand = h.Length
			}
		}
		l.Buy = steps(l.Needs-l.OnHand, l.Step)
		b.add(l)
	}
}

func (b *builder) needles() {
	seam := map[int]measure.Length{}
	for _, t := range b.tickets {
		seam[t.Stitch.Needle] += t.Stitch.Seam
	}
	have := b.job.Supply.OnHand.Needles
	for _, size := range sorted(seam) {
		n := steps(seam[size], b.shop.NeedleSeam)
		used := min(have, n) // needles on hand serve the finest size first
		have -= used
		b.add(Line{Kind: Needle, Name: message.Of("ticket.buy-needle", size), NeedsCount: n, OnHandCount: used, Buy: n - used, Price: b.shop.Prices.Needles})
	}
}

func (b *builder) blades(plans []*cutplan.Plan) {
	var cut measure.Length
	for _, p := range plans {
		cut += p.CutLength()
	}
	if n := steps(cut, b.shop.BladeCut); n > 0 {
		have := b.job.Supply.OnHand.Blades
		b.add(Line{Kind: Blade, Name: message.Of("ticket.buy-blade"), NeedsCount: n, OnHandCount: have, Buy: max(n-have, 0), Price: b.shop.Prices.Blades})
	}
}

func (b *builder) counted(kind Kind, name message.Message, each, have int, price measure.Money) {
	if n := each * len(b.fresh); n > 0 {
		b.add(Line{Kind: kind, Name: name, NeedsCount: n, OnHandCount: have, Buy: max(n-have, 0), Price: price})
	}
}

// work works out the time and cost of each step for which the shop has minutes.
func (b *builder) work() {
	if b.shop.Rate == 0 {
		return
	}
	var order []route.Step
	minutes := map[string]int{}
	for _, t := range b.tickets {
		for _, s := range t.Route {
			m := b.shop.Minutes[s.Key]
			if m > 0 && minutes[s.Key] == 0 {
				order = append(order, s)
			}
			minutes[s.Key] += m
		}
	}
	for _, s := range order {
		w := Work{Step: s, Minutes: minutes[s.Key]}
		w.Amount = b.shop.Rate.For(measure.Length(w.Minutes), 60)
		b.list.Labour += w.Amount
		b.list.Work = append(b.list.Work, w)
	}
}

// sorted returns the keys of a map in rising order.
func sorted[V any](m map[int]V) []int {
	keys := make([]int, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

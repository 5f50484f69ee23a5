package cutplan

import (
	"context"
	"fmt"
	"math"
	"slices"

	"shadewright/ticket"
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/nest"
)

// Options says how to lay panels.
type Options struct {
	Table                 measure.Length // longest section; zero means no limit
	Overhang              bool           // a panel longer than the table may hang over its end
	SquareEnd             measure.Length // cut off the roll's end before the first panel, to square it
	KeepWidth, KeepLength measure.Length // smallest offcut worth keeping, its shorter and its longer side
	Effort                nest.Effort    // for each goods
	Supply                ticket.Supply  // the job's own pieces on hand
	Record                Record         // the shop's offcuts; nil if the shop keeps no record of them
	Again                 int            // how often panels of the job were cut by earlier plans
}

// A Record is the shop's record of offcuts. Planning reads it and marks nothing as
// used: the record is updated when the job is cut.
type Record interface {
	// Offcuts returns the pieces of the goods that are on hand.
	Offcuts(g ticket.Goods) ([]ticket.Piece, error)
}

// A Refusal says that one of the job's goods cannot be planned.
type Refusal struct {
	Goods string
	Err   error
}

func (r *Refusal) Error() string { return fmt.Sprintf("goods %s: %s", r.Goods, r.Err) }

// Unwrap returns the cause.
func (r *Refusal) Unwrap() error { return r.Err }

// Make plans the panels of all tickets without a stop, goods by goods in the job's
// order. It changes no ticket: [ticket.Seal] adds what the plans say. Panels that
// must turn alike but cannot get a stop instead of a place. When ctx ends, Make
// returns the best plans so far. If goods cannot be planned, the error is a
// [*Refusal].
func Make(ctx context.Context, tickets []*ticket.Ticket, opt Options) ([]*Plan, map[*ticket.Ticket]ticket.OnPlan, error) {
	var plans []*Plan
	laid := map[*ticket.Ticket]ticket.OnPlan{}
	for _, g := range byGoods(tickets) {
		g.matched(opt, laid)
		plan, err := g.plan(ctx, opt)
		if err != nil {
			return nil, nil, err
		}
		if plan != nil {
			plan.place(laid)
			g.unlike(laid)
			plans = append(plans, plan)
		}
	}
	return plans, laid, nil
}

// note adds a finding to several tickets' entries in laid.
func note(laid map[*ticket.Ticket]ticket.OnPlan, tickets []*ticket.Ticket, f finding.Finding) {
	for _, t := range tickets {
		on := laid[t]
		on.Findings = append(on.Findings, f)
		laid[t] = on
	}
}

// A group is the tickets of one goods, by shade.
type group struct {
	goods  ticket.Goods
	shades [][]*ticket.Ticket
}

func byGoods(tickets []*ticket.Ticket) []*group {
	var list []*group
	byName := map[string]*group{}
	for _, t := range tickets {
		if t.Stopped() {
			continue
		}
		name := t.Shade.Goods.Name
		g := byName[name]
		if g == nil {
			g = &group{goods: t.Shade.Goods}
			byName[name] = g
			list = append(list, g)
		}
		if n := len(g.shades); n > 0 && g.shades[n-1][0].Shade.ID == t.Shade.ID {
			g.shades[n-1] = append(g.shades[n-1], t)
		} else {
			g.shades = append(g.shades, []*ticket.Ticket{t})
		}
	}
	return list
}

// match returns the word for the shades whose panels turn alike with this one.
func (g *group) match(s *ticket.Shade) string {
	switch g.goods.Match {
	case ticket.MatchAll:
		return "all"
	case ticket.MatchRoom:
		if s.Room != "" {
			return "room " + s.Room
		}
		return "shade " + s.ID
	}
	return ""
}

// matched stops shades that must turn alike but cannot, because some fit the roll
// only straight and others only turned.
func (g *group) matched(opt Options, laid map[*ticket.Ticket]ticket.OnPlan) {
	fits := func(s *ticket.Ticket, turned bool) bool {
		w, l := s.Cut.Width+2*g.goods.Allowance, s.Cut.Length+2*g.goods.Allowance
		if turned {
			w, l = l, w
		}
		return w <= g.goods.Usable() && (opt.Table == 0 || opt.Overhang || l <= opt.Table) && (!turned || g.goods.Turns())
	}
	straight, turned := map[string]*ticket.Shade{}, map[string]*ticket.Shade{}
	for _, units := range g.shades {
		t := units[0]
		m := g.match(t.Shade)
		if !fits(t, true) {
			straight[m] = t.Shade
		} else if !fits(t, false) {
			turned[m] = t.Shade
		}
	}
	var left [][]*ticket.Ticket
	for _, units := range g.shades {
		m := g.match(units[0].Shade)
		a, b := straight[m], turned[m]
		if m == "" || a == nil || b == nil {
			left = append(left, units)
			continue
		}
		note(laid, units, finding.Finding{Level: finding.Stop, Field: "goods.match",
			Text:   message.Of("ticket.match-impossible", g.goods.Name, a.ID, b.ID),
			Source: "goods.match, and the usable width of the goods", Remedy: message.Of("ticket.fix-match")})
	}
	g.shades = left
}

// order writes the group as an order for package nest.
func (g *group) order(opt Options) (nest.Order, []ticket.Piece, error) {
	o := nest.Order{Roll: nest.Roll{Width: g.goods.Usable(), Table: g.table(opt), Allowance: g.goods.Allowance, Repeat: g.goods.Repeat}}
	for _, units := range g.shades {
		t := units[0]
		o.Units = t.Job.Style.System
		o.Pieces = append(o.Pieces, nest.Piece{
			Label: t.Shade.ID, Width: t.Cut.Width, Length: t.Cut.Length, Quantity: len(units),
			Turn: g.goods.Turns(), Match: g.match(t.Shade),
		})
	}
	stock := opt.Supply.Goods[g.goods.Name].OnHand
	if opt.Record != nil {
		more, err := opt.Record.Offcuts(g.goods)
		if err != nil {
			return o, nil, fmt.Errorf("goods %s: record of offcuts: %w", g.goods.Name, err)
		}
		stock = append(stock[:len(stock):len(stock)], more...)
	}
	for _, s := range stock {
		o.OnHand = append(o.OnHand, nest.Stock{Label: s.Label, Width: s.Width, Length: s.Length})
	}
	return o, stock, nil
}

// table returns the longest section of these goods: the table, or the longest panel if
// that may hang over the end of the table.
func (g *group) table(opt Options) measure.Length {
	table := opt.Table
	if table == 0 || !opt.Overhang {
		return table
	}
	table = max(table, g.goods.Repeat)
	for _, units := range g.shades {
		c, a := units[0].Cut, 2*g.goods.Allowance
		long := c.Length + a
		switch turned := c.Width + a; {
		case !g.goods.Turns():
		case c.Width+a > g.goods.Usable():
			long = turned
		case c.Length+a > g.goods.Usable():
		case g.match(units[0].Shade) != "": // the others decide how it lies
			long = max(long, turned)
		default:
			long = min(long, turned)
		}
		table = max(table, long)
	}
	return table
}

// plan lays the group's panels. It returns nil if there are none.
func (g *group) plan(ctx context.Context, opt Options) (*Plan, error) {
	if len(g.shades) == 0 {
		return nil, nil
	}
	o, stock, err := g.order(opt)
	if err != nil {
		return nil, err
	}
	n, err := nest.Make(ctx, o, opt.Effort)
	if err != nil {
		return nil, &Refusal{g.goods.Name, err}
	}
	p := &Plan{Goods: g.goods, Used: n.Used, Bound: n.Bound, Proven: n.Proven, Cut: n.Interrupted, Again: opt.Again}
	w := &writer{Plan: p, nest: n, opt: opt, part: make([]int, len(n.Parts))}
	for i := range w.part {
		w.part[i] = -1
	}
	for _, q := range n.Pieces {
		p.Panels = append(p.Panels, Panel{Ticket: g.shades[q.Piece][q.Copy], Turned: q.Turned, Part: -1})
	}
	w.write(stock)
	return p, nil
}

// unlike notes shades of which some units are turned and some are straight. Even
// goods that may lie any way can look different when turned.
func (g *group) unlike(laid map[*ticket.Ticket]ticket.OnPlan) {
	for _, units := range g.shades {
		turned := 0
		for _, t := range units {
			if laid[t].Place.Turned {
				turned++
			}
		}
		if turned == 0 || turned == len(units) {
			continue
		}
		note(laid, units, finding.Finding{Level: finding.Note, Field: "goods.match",
			Text:   message.Of("ticket.panels-turned", len(units), turned),
			Source: "the cut plan", Remedy: message.Of("ticket.compare-turned-scraps")})
	}
}

// place adds the place of each panel to its ticket's entry in laid.
func (p *Plan) place(laid map[*ticket.Ticket]ticket.OnPlan) {
	section := map[int]int{}
	for i, s := range p.Sections {
		section[s.Part] = i + 1
	}
	for _, q := range p.Panels {
		part := p.Parts[q.Part]
		at := ticket.PlanPlace{Goods: p.Goods.Name, Turned: q.Turned, Rough: measure.Size{Width: part.Width, Length: part.Length}}
		if part.OnHand >= 0 {
			at.On = p.OnHand[part.OnHand].Label
		}
		last := q.Part
		for by := part.By; by > 0; by = p.Parts[last].By {
			at.Cuts = append(at.Cuts, by)
			from := p.Cuts[by-1].From
			if p.Parts[from].Kind == Roll {
				break
			}
			last = from
		}
		slices.Reverse(at.Cuts)
		at.Section = section[last]
		on := laid[q.Ticket]
		on.Place = at
		laid[q.Ticket] = on
	}
}

// percentUp returns a share in percent, rounded up to a tenth, so that a plan is
// never called better than it is.
func percentUp(st measure.Style, share float64) string {
	return st.Decimal(math.Ceil(share*1000-1e-9)/10, 1) + " %"
}

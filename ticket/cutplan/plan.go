package cutplan

import (
	"fmt"

	"shadewright/ticket"
	"shadewright/ticket/code"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/nest"
)

// A Plan says how to cut the panels of one goods.
type Plan struct {
	Goods    ticket.Goods
	Used     measure.Length // length of roll used
	Square   measure.Length // of it, cut off first to square the roll's end; zero if nothing is
	Bound    measure.Length // no plan uses less
	Proven   bool
	Cut      bool // the search was cut short
	Panels   []Panel
	Sections []Section
	OnHand   []OnHand
	Parts    []Part // every part of the goods, at every stage of cutting
	Cuts     []Cut  // in the order they are made
	Keep     []int  // offcuts worth keeping, as indices in Parts, in the order they come off
	Again    int    // how often panels of the job were cut by earlier plans
}

// A Panel is one ticket's panel and the part that holds it.
type Panel struct {
	Ticket *ticket.Ticket
	Part   int
	Turned bool
}

// Size returns the panel's size as it lies: across the roll and along it.
func (p Panel) Size() measure.Size {
	c := p.Ticket.Cut
	if p.Turned {
		return measure.Size{Width: c.Length, Length: c.Width}
	}
	return measure.Size{Width: c.Width, Length: c.Length}
}

// A Section is a length cut off the roll across its whole width.
type Section struct {
	Part int
}

// An OnHand is a piece on hand that the plan uses.
type OnHand struct {
	ticket.Piece
	Part int
}

// A Kind says what a part is.
type Kind uint8

const (
	Roll    Kind = iota // what is still on the roll
	Between             // will be cut again
	Done                // a panel with its allowance
	Offcut              // left over and worth keeping
	Scrap               // left over
	Selvage             // the edge of the roll
)

// A Part is a rectangle of the goods at some stage of cutting.
type Part struct {
	Name          message.Message // as chalked on the cloth: "section 1", "B", "bunk-left 2", "offcut 1"
	Kind          Kind
	OnHand        int // index in Plan.OnHand, or -1 if it comes off the roll
	X, Y          measure.Length
	Width, Length measure.Length // Length is zero for the roll, whose end is unknown
	Panel         int            // index in Plan.Panels if Kind is Done, else -1
	By            int            // number of the cut that made it; 0 if none did
}

// A Cut divides a part in two. Indices are in Plan.Parts.
type Cut struct {
	Number    int // from 1
	From      int
	Way       nest.Way
	At        measure.Length // from the edge of From that Way.Edge names
	Near, Far int            // Near lies at that edge
}

// Along returns the length of the part across the direction of the cut (zero for
// the roll), and the two lengths that result.
func (p *Plan) Along(c Cut) (from, near, far measure.Length) {
	a, b, d := p.Parts[c.From], p.Parts[c.Near], p.Parts[c.Far]
	if c.Way == nest.Along {
		return a.Width, b.Width, d.Width
	}
	return a.Length, b.Length, d.Length
}

// CutLength returns the length of all cuts.
func (p *Plan) CutLength() measure.Length {
	var sum measure.Length
	for _, c := range p.Cuts {
		if c.Way == nest.Across {
			sum += p.Parts[c.From].Width
		} else {
			sum += p.Parts[c.From].Length
		}
	}
	return sum
}

// Shares divides the cloth that is cut, off the roll and on hand. They add up to 1,
// or are all zero if nothing is cut.
type Shares struct{ Panels, Kept, Waste float64 }

// Shares returns the shares of the cloth. Selvages and allowances count as waste.
func (p *Plan) Shares() Shares {
	all := p.Goods.Width.Times(p.Used)
	for _, h := range p.OnHand {
		all += h.Width.Times(h.Length)
	}
	if all == 0 {
		return Shares{}
	}
	var panels, kept measure.Area
	for _, q := range p.Panels {
		s := q.Size()
		panels += s.Width.Times(s.Length)
	}
	for _, k := range p.Keep {
		kept += p.Parts[k].Width.Times(p.Parts[k].Length)
	}
	s := Shares{Panels: float64(panels) / float64(all), Kept: float64(kept) / float64(all)}
	s.Waste = 1 - s.Panels - s.Kept
	return s
}

// Verdict says in words how good the plan is. say writes a length in the style.
func (p *Plan) Verdict(st measure.Style, say func(measure.Length) string) message.Message {
	return Verdict(nest.Plan{Used: p.Used, Bound: p.Bound, Proven: p.Proven, Interrupted: p.Cut}, st, say)
}

// Verdict says in words how good a plan is. say writes a length in the style.
func Verdict(p nest.Plan, st measure.Style, say func(measure.Length) string) message.Message {
	words := message.Of("ticket.proven-shortest")
	switch {
	case p.Proven:
	case p.Bound <= 0:
		words = message.Of("ticket.bound-unknown")
	default:
		words = message.Of("ticket.within-bound", percentUp(st, p.Gap()), say(p.Bound))
	}
	if p.Interrupted {
		return message.Of("ticket.search-interrupted", words)
	}
	return words
}

// KeepLabel returns the label of the i-th offcut to keep: a code of the job, the
// goods, the size, its number, and how often the job was cut before. So one label never
// means two pieces.
func (p *Plan) KeepLabel(i int) string {
	part := p.Parts[p.Keep[i]]
	what := fmt.Sprintf("offcut of %s, %s x %s", p.Goods.Name, part.Width, part.Length)
	return string(code.Derive(code.Identity(p.Panels[0].Ticket.Job.ID, what, i+1, p.Again)).Grouped())
}

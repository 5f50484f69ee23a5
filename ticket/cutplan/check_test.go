package cutplan_test

import (
	"fmt"
	"math/big"
	"slices"
	"testing"

	"shadewright/ticket/cutplan"
	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
)

// This checker works like a person at the table: it has goods in front of it, makes
// the cuts one by one and looks at the results. It shares no code with the planner.

// A cloth is a piece of goods on the table. Only the roll has no length, because
// its end is unknown.
type cloth struct {
	x, y, w, l measure.Length
	roll       bool
	hand       int
}

// mustHold fails the test with a list of everything that is wrong with the plan.
func mustHold(t testing.TB, p *cutplan.Plan) {
	t.Helper()
	for _, s := range judge(p) {
		t.Error(s)
	}
	if t.Failed() {
		t.FailNow()
	}
}

func judge(p *cutplan.Plan) (bad []string) {
	say := func(format string, args ...any) { bad = append(bad, fmt.Sprintf(format, args...)) }
	table := map[int]cloth{} // by index in Parts: what lies on the table now
	for i, q := range p.Parts {
		if q.By == 0 {
			table[i] = cloth{q.X, q.Y, q.Width, q.Length, q.OnHand < 0, q.OnHand}
			if q.OnHand < 0 && (q.Width != p.Goods.Width || q.X != 0 || q.Y != 0) {
				say("the roll is %+v", q)
			}
		}
	}
	for n, c := range p.Cuts {
		from, ok := table[c.From]
		if !ok || c.Number != n+1 {
			say("cut %d (%d) takes part %d, which is not on the table", n+1, c.Number, c.From)
			return bad
		}
		delete(table, c.From)
		near, far := from, from
		if c.Way == nest.Along {
			near.w, far.x, far.w = c.At, from.x+c.At, from.w-c.At
			if from.roll {
				say("cut %d runs along the roll", c.Number)
			}
		} else {
			near.l, far.y, near.roll = c.At, from.y+c.At, false
			if !from.roll {
				far.l = from.l - c.At
			}
		}
		for i, got := range map[int]cloth{c.Near: near, c.Far: far} {
			q := p.Parts[i]
			if got.w <= 0 || !got.roll && got.l <= 0 || q.X != got.x || q.Y != got.y || q.Width != got.w || q.Length != got.l || q.By != c.Number || q.OnHand != got.hand {
				say("cut %d gives %+v; the plan says %+v", c.Number, got, q)
			}
			table[i] = got
		}
	}
	bad = append(bad, judgePieces(p, table)...)
	return append(bad, judgePlaces(p)...)
}

// judgePieces checks what is left on the table after all cuts.
func judgePieces(p *cutplan.Plan, table map[int]cloth) (bad []string) {
	say := func(format string, args ...any) { bad = append(bad, fmt.Sprintf(format, args...)) }
	sum := new(big.Int)
	add := func(w, l measure.Length, sign int64) {
		v := new(big.Int).Mul(big.NewInt(int64(w)), big.NewInt(int64(l)))
		sum.Add(sum, v.Mul(v, big.NewInt(sign)))
	}
	add(p.Goods.Width, p.Used, 1)
	for _, h := range p.OnHand {
		add(h.Width, h.Length, 1)
	}
	panels, kept := 0, 0
	for i, c := range table {
		q := p.Parts[i]
		if !c.roll {
			add(c.w, c.l, -1)
		}
		inside := q.OnHand >= 0 || c.x >= p.Goods.Selvage[0] && c.x+c.w <= p.Goods.Width-p.Goods.Selvage[1]
		switch q.Kind {
		case cutplan.Done:
			panels++
			k := p.Panels[q.Panel]
			w, l := k.Ticket.Cut.Width, k.Ticket.Cut.Length
			if k.Turned {
				w, l = l, w
			}
			if a := 2 * p.Goods.Allowance; k.Part != i || c.w != w+a || c.l != l+a || !inside {
				say("%s is %v × %v at %v; want %v × %v and the allowance, between the selvages", q.Name, c.w, c.l, c.x, w, l)
			}
			if r := p.Goods.Repeat; r > 0 && q.OnHand < 0 && (c.y-p.Square)%r != 0 || r > 0 && q.OnHand >= 0 && c.y%r != 0 {
				say("%s begins at %v, not at a repeat of %v", q.Name, c.y, r)
			}
		case cutplan.Offcut:
			kept++
			if !inside || !slices.Contains(p.Keep, i) {
				say("%s is kept and has a selvage, or is not listed", q.Name)
			}
		case cutplan.Selvage:
			if c.w != p.Goods.Selvage[0] && c.w != p.Goods.Selvage[1] || inside {
				say("a selvage is %v wide at %v", c.w, c.x)
			}
		case cutplan.Roll:
			if !c.roll || c.y != p.Used {
				say("the roll goes on at %v; %v are used", c.y, p.Used)
			}
		case cutplan.Between:
			say("%s is not cut any further", q.Name)
		}
	}
	if panels != len(p.Panels) || kept != len(p.Keep) {
		say("%d panels and %d offcuts; want %d and %d", panels, kept, len(p.Panels), len(p.Keep))
	}
	if sum.Sign() != 0 {
		say("%v nm² are missing", sum)
	}
	return bad
}

// judgePlaces follows the cuts that each ticket names: these alone must free its
// panel.
func judgePlaces(p *cutplan.Plan) (bad []string) {
	for _, k := range p.Panels {
		at := k.Ticket.Plan
		part := -1
		for _, n := range at.Cuts {
			c := p.Cuts[n-1]
			if part >= 0 && c.From != part {
				bad = append(bad, fmt.Sprintf("%s: cut %d takes another part", k.Ticket.Name(), n))
			}
			// The panel lies in one of the two parts.
			part = c.Near
			if !within(p.Parts[k.Part], p.Parts[c.Near]) {
				part = c.Far
			}
		}
		if len(at.Cuts) > 0 && part != k.Part || at.Turned != k.Turned || at.Goods != p.Goods.Name {
			bad = append(bad, fmt.Sprintf("%s is at %+v; its cuts lead to part %d of %d", k.Ticket.Name(), at, part, k.Part))
		}
		if at.On == "" {
			s := p.Parts[p.Sections[at.Section-1].Part]
			if q := p.Parts[k.Part]; q.Y < s.Y || q.Y+q.Length > s.Y+s.Length {
				bad = append(bad, fmt.Sprintf("%s is not in section %d", k.Ticket.Name(), at.Section))
			}
		}
	}
	return bad
}

func within(a, b cutplan.Part) bool {
	return a.OnHand == b.OnHand && a.X >= b.X && a.Y >= b.Y && a.X+a.Width <= b.X+b.Width && (b.Length == 0 || a.Y+a.Length <= b.Y+b.Length)
}

// needless returns the numbers of the cuts that leave every panel and every offcut to
// keep with the same edges if nobody makes them: no such edge lies along them.
func needless(p *cutplan.Plan) (all []int) {
	for _, c := range p.Cuts {
		from, far := p.Parts[c.From], p.Parts[c.Far]
		needed := false
		for _, q := range p.Parts {
			if q.Kind != cutplan.Done && q.Kind != cutplan.Offcut || q.OnHand != from.OnHand {
				continue
			}
			if c.Way == nest.Along {
				at := far.X == q.X || far.X == q.X+q.Width
				needed = needed || at && q.Y < from.Y+from.Length && from.Y < q.Y+q.Length
			} else {
				at := far.Y == q.Y || far.Y == q.Y+q.Length
				needed = needed || at && q.X < from.X+from.Width && from.X < q.X+q.Width
			}
		}
		if !needed {
			all = append(all, c.Number)
		}
	}
	return all
}

package nest_test

import (
	"fmt"
	"math/big"
	"slices"
	"testing"

	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
)

// This checker judges a plan by its order alone. It shares no code with the
// planner: it looks at the rectangles, not at how the planner found them.

// A blank is a piece with its allowance.
type blank struct{ x, y, w, l measure.Length }

func (b blank) right() measure.Length { return b.x + b.w }
func (b blank) end() measure.Length   { return b.y + b.l }

// mustHold fails the test with a list of everything that is wrong with the plan.
func mustHold(t testing.TB, o nest.Order, p nest.Plan) {
	t.Helper()
	for _, problem := range judge(o, p) {
		t.Error(problem)
	}
	if t.Failed() {
		t.Logf("order %+v", o)
		t.FailNow()
	}
}

// judge returns everything that is wrong with the plan.
func judge(o nest.Order, p nest.Plan) []string {
	var bad []string
	say := func(format string, args ...any) { bad = append(bad, fmt.Sprintf(format, args...)) }
	bad = append(bad, judgePieces(o, p)...)
	bySheet := map[int][]blank{}
	for _, pl := range p.Pieces {
		a := o.Roll.Allowance
		bySheet[pl.On] = append(bySheet[pl.On], blank{pl.X - a, pl.Y - a, pl.Width + 2*a, pl.Length + 2*a})
	}
	var used []int
	for on, blanks := range bySheet {
		bad = append(bad, judgeSheet(o, p, on, blanks)...)
		if on != nest.OnRoll {
			used = append(used, on)
		}
	}
	slices.Sort(used)
	if !slices.Equal(used, p.OnHand) {
		say("pieces lie on stock %v, the plan names %v", used, p.OnHand)
	}
	bad = append(bad, judgeCuts(o, p)...)
	if p.Bound > p.Used || p.Bound < 0 {
		say("bound %v is not from 0 to the %v used", p.Bound, p.Used)
	}
	if p.Proven != (p.Bound == p.Used) || p.Proven != (p.Gap() == 0) {
		say("proven %v with %v used, bound %v, gap %v", p.Proven, p.Used, p.Bound, p.Gap())
	}
	if want := max(0, p.Used-o.Roll.Length); o.Roll.Length > 0 && p.Short != want {
		say("short by %v; want %v", p.Short, want)
	}
	return bad
}

// judgePieces checks that each piece is laid once in its size, is turned only where
// that is allowed, and lies like the other pieces of its match.
func judgePieces(o nest.Order, p nest.Plan) []string {
	var bad []string
	seen := map[[2]int]bool{}
	turned := map[string]bool{}
	for i, pl := range p.Pieces {
		if pl.Piece < 0 || pl.Piece >= len(o.Pieces) || pl.Copy < 0 || pl.Copy >= o.Pieces[pl.Piece].Quantity || seen[[2]int{pl.Piece, pl.Copy}] {
			bad = append(bad, fmt.Sprintf("place %d holds piece %d copy %d, which is unknown or already laid", i, pl.Piece, pl.Copy))
			continue
		}
		seen[[2]int{pl.Piece, pl.Copy}] = true
		pc := o.Pieces[pl.Piece]
		want := measure.Size{Width: pc.Width, Length: pc.Length}
		if pl.Turned {
			want.Width, want.Length = want.Length, want.Width
		}
		if pl.Width != want.Width || pl.Length != want.Length {
			bad = append(bad, fmt.Sprintf("piece %q is %v × %v; want %v × %v", pc.Label, pl.Width, pl.Length, want.Width, want.Length))
		}
		if pl.Turned && !pc.Turn {
			bad = append(bad, fmt.Sprintf("piece %q is turned and may not be", pc.Label))
		}
		if before, ok := turned[pc.Match]; pc.Match != "" && pc.Width != pc.Length {
			if ok && before != pl.Turned {
				bad = append(bad, fmt.Sprintf("match %q is not turned alike", pc.Match))
			}
			turned[pc.Match] = pl.Turned
		}
	}
	n := 0
	for _, pc := range o.Pieces {
		n += pc.Quantity
	}
	if n != len(p.Pieces) {
		bad = append(bad, fmt.Sprintf("%d pieces laid; want %d", len(p.Pieces), n))
	}
	return bad
}

// judgeSheet checks the blanks on the roll or on one piece of stock.
func judgeSheet(o nest.Order, p nest.Plan, on int, blanks []blank) []string {
	var bad []string
	width, length := o.Roll.Width, p.Used
	if on != nest.OnRoll {
		width, length = o.OnHand[on].Width, o.OnHand[on].Length
	}
	var end measure.Length
	for i, b := range blanks {
		end = max(end, b.end())
		if b.x < 0 || b.y < 0 || b.right() > width || b.end() > length {
			bad = append(bad, fmt.Sprintf("%v lies outside %v × %v of sheet %d", b, width, length, on))
		}
		if r := o.Roll.Repeat; r > 0 && b.y%r != 0 {
			bad = append(bad, fmt.Sprintf("%v does not start at a repeat of %v", b, r))
		}
		for _, c := range blanks[:i] {
			if b.x < c.right() && c.x < b.right() && b.y < c.end() && c.y < b.end() {
				bad = append(bad, fmt.Sprintf("%v overlaps %v on sheet %d", b, c, on))
			}
		}
	}
	if on == nest.OnRoll && end != p.Used {
		bad = append(bad, fmt.Sprintf("the last piece ends at %v; used is %v", end, p.Used))
	}
	sections := [][]blank{blanks}
	if on == nest.OnRoll && o.Roll.Table > 0 {
		sections = groups(blanks, true)
	}
	for _, s := range sections {
		if !guillotine(s) {
			bad = append(bad, fmt.Sprintf("%v cannot be cut from edge to edge", s))
		}
		if t := o.Roll.Table; on == nest.OnRoll && t > 0 && extent(s) > t {
			bad = append(bad, fmt.Sprintf("a section of %v is longer than the table of %v", extent(s), t))
		}
	}
	return bad
}

func extent(s []blank) measure.Length {
	low, high := s[0].y, s[0].end()
	for _, b := range s {
		low, high = min(low, b.y), max(high, b.end())
	}
	return high - low
}

// guillotine reports whether straight cuts from edge to edge can separate the
// blanks. The order of the cuts does not matter: if the whole can be cut, so can
// both sides of any cut between blanks.
func guillotine(s []blank) bool {
	if len(s) <= 1 {
		return true
	}
	for _, across := range []bool{true, false} {
		if g := groups(s, across); len(g) > 1 {
			for _, part := range g {
				if !guillotine(part) {
					return false
				}
			}
			return true
		}
	}
	return false
}

// groups divides the blanks at every straight line that crosses none of them.
func groups(s []blank, across bool) [][]blank {
	span := func(b blank) (measure.Length, measure.Length) {
		if across {
			return b.y, b.end()
		}
		return b.x, b.right()
	}
	s = slices.Clone(s)
	slices.SortFunc(s, func(a, b blank) int {
		la, _ := span(a)
		lb, _ := span(b)
		return int(min(1, max(-1, la-lb)))
	})
	var out [][]blank
	var reach measure.Length
	for i, b := range s {
		low, high := span(b)
		if i == 0 || low >= reach {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], b)
		reach = max(reach, high)
	}
	return out
}

// judgeCuts replays the list of cuts and compares the parts that result.
func judgeCuts(o nest.Order, p nest.Plan) []string {
	var bad []string
	say := func(format string, args ...any) { bad = append(bad, fmt.Sprintf(format, args...)) }
	whole := map[int]bool{} // parts on the table now
	made := map[int]bool{}
	for _, c := range p.Cuts {
		made[c.Near], made[c.Far] = true, true
	}
	for i, q := range p.Parts {
		if made[i] {
			continue
		}
		whole[i] = true
		switch {
		case q.X != 0 || q.Y != 0:
			say("part %d was never cut and does not start at an edge", i)
		case q.On == nest.OnRoll && (q.Width != o.Roll.Width || q.Length != 0):
			say("the roll is %v × %v", q.Width, q.Length)
		case q.On != nest.OnRoll && (q.Width != o.OnHand[q.On].Width || q.Length != o.OnHand[q.On].Length):
			say("stock %d is %v × %v", q.On, q.Width, q.Length)
		}
	}
	for n, c := range p.Cuts {
		if !whole[c.From] || whole[c.Near] || whole[c.Far] || c.Near == c.Far {
			say("cut %d: part %d is not there, or %d or %d is already", n+1, c.From, c.Near, c.Far)
			return bad
		}
		delete(whole, c.From)
		whole[c.Near], whole[c.Far] = true, true
		if s := judgeCut(p.Parts[c.From], p.Parts[c.Near], p.Parts[c.Far], c); s != "" {
			say("cut %d: %s", n+1, s)
		}
		if p.Parts[c.From].Kind != nest.ToCut {
			say("cut %d: part %d is cut though it is done", n+1, c.From)
		}
	}
	bad = append(bad, judgeParts(o, p, whole)...)
	return bad
}

// judgeCut checks that the sizes of the two new parts add up to the old one.
func judgeCut(from, near, far nest.Part, c nest.Cut) string {
	wantNear, wantFar := from, from
	if c.Way == nest.Along {
		wantNear.Width, wantFar.Width, wantFar.X = c.At, from.Width-c.At, from.X+c.At
	} else {
		wantNear.Length, wantFar.Length, wantFar.Y = c.At, from.Length-c.At, from.Y+c.At
		if from.On == nest.OnRoll && from.Length == 0 {
			wantFar.Length = 0
		}
	}
	size := func(q nest.Part) [5]measure.Length {
		return [5]measure.Length{measure.Length(q.On), q.X, q.Y, q.Width, q.Length}
	}
	open := func(q nest.Part) bool { return q.On == nest.OnRoll && q.Length == 0 }
	switch {
	case c.At <= 0 || size(near) != size(wantNear) || size(far) != size(wantFar):
		return fmt.Sprintf("%+v gives %+v and %+v", c, near, far)
	case near.Width <= 0 || near.Length <= 0 || far.Width <= 0 || far.Length <= 0 && !open(far):
		return fmt.Sprintf("%+v leaves nothing on one side", c)
	}
	return ""
}

// judgeParts compares the parts after all cuts with the pieces and offcuts.
func judgeParts(o nest.Order, p nest.Plan, whole map[int]bool) []string {
	var bad []string
	say := func(format string, args ...any) { bad = append(bad, fmt.Sprintf(format, args...)) }
	total := new(big.Int)
	add := func(w, l measure.Length, sign int64) {
		v := new(big.Int).Mul(big.NewInt(int64(w)), big.NewInt(int64(l)))
		total.Add(total, v.Mul(v, big.NewInt(sign)))
	}
	add(o.Roll.Width, p.Used, 1)
	for _, i := range p.OnHand {
		add(o.OnHand[i].Width, o.OnHand[i].Length, 1)
	}
	ready, offcuts, rests := 0, 0, 0
	for i := range whole {
		q := p.Parts[i]
		add(q.Width, q.Length, -1)
		switch q.Kind {
		case nest.Ready:
			ready++
			pl := p.Pieces[q.Piece]
			a := o.Roll.Allowance
			if pl.Part != i || pl.On != q.On || pl.X-a != q.X || pl.Y-a != q.Y || pl.Width+2*a != q.Width || pl.Length+2*a != q.Length {
				say("part %+v is not piece %+v", q, pl)
			}
		case nest.Offcut:
			offcuts++
			if !slices.Contains(p.Offcuts, q) {
				say("part %+v is not among the offcuts", q)
			}
		case nest.Rest:
			rests++
		default:
			say("part %d of kind %d is left over", i, q.Kind)
		}
	}
	if ready != len(p.Pieces) || offcuts != len(p.Offcuts) || rests != 1 {
		say("after all cuts there are %d pieces, %d offcuts and %d rests of the roll; want %d, %d and 1", ready, offcuts, rests, len(p.Pieces), len(p.Offcuts))
	}
	if total.Sign() != 0 {
		say("areas do not add up: %v nm² are missing", total)
	}
	return bad
}

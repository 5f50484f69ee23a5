package hang

import (
	"fmt"
	"math"

	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A Lift is a load on a winding, which a spring has to raise. Both have the same
// drop.
type Lift struct {
	Winding Winding
	Load    Load
}

// Check refuses a lift for which nothing can be worked out.
func (l Lift) Check(st measure.Style) error {
	c := &finding.Checker{Style: st}
	l.check(c)
	return c.Err()
}

func (l Lift) check(c *finding.Checker) {
	l.Winding.check(c)
	l.checkLoad(c)
}

func (l Lift) checkLoad(c *finding.Checker) {
	l.Load.check(c)
	if l.Winding.Drop != l.Load.Drop {
		c.FailLength("finished.length", l.Load.Drop, "differs between the roll and the load", "give both the same drop")
	}
}

// Torque returns the torque in N·mm that holds the load when the length below
// hangs: the hanging weight times the radius there.
func (l Lift) Torque(below measure.Length) float64 {
	always, perMM := l.Load.newtons()
	below = max(0, min(l.Load.Drop, below))
	return (always + perMM*below.Millimetres()) * l.Winding.radius(l.Winding.on(below))
}

// A Spring is the donor roller's spring.
type Spring struct {
	Rate float64 // N·mm per turn of the tube
	Most float64 // turns in all before it binds; zero if unknown
}

// A Wind says how far to wind a spring before the shade is hung.
type Wind struct {
	Rate  float64          // of the spring, N·mm per turn
	Least float64          // the fewest turns that lift the load at every height with the margin
	Most  float64          // the most turns that nowhere exceed the limit, and do not bind the spring if fewer work
	Turns float64          // the chosen turns, between Least and Most; zero if none work
	OK    bool             // some number of turns works
	Pulls []measure.Length // wind by hand: pull down this length, lift out, roll up, hang again; once for each length
	Down  float64          // turns on the spring with the shade down
	At    []Torques        // up, at quarters of the drop, and down
}

// A Torques compares the torque needed at a height with what the spring gives.
type Torques struct {
	Below  measure.Length
	Needed float64 // N·mm
	Given  float64 // N·mm at the chosen turns; if none are chosen, of the unwound spring
}

// A bound is a limit on the turns, and the height that sets it.
type bound struct {
	turns float64
	at    measure.Length
}

// bounds returns the fewest turns that lift at every height, and the most that
// throw the slat at none.
//
// A spring wound n turns with the shade up gives k·(n + u) after u more turns. With
// R the radius there, u = (Rup − R)/t, the cloth off the tube is y = (Rup² −
// R²)·π/t, and a margin F needs n = F·(A + B·y)·R/k − (Rup − R)/t. This is a cubic
// in R that bends down (its R³ has the factor −F·B·π/(k·t)). So its least value is
// at an end, and its greatest at an end or where the slope is zero.
func (l Lift) bounds(rate float64, lim Limits) (least, most bound) {
	down := l.Load.Drop
	least.turns, most.turns = math.Inf(-1), math.Inf(1)
	for _, y := range [3]measure.Length{0, down, l.steepest(rate, lim.Lift)} {
		if n := lim.Lift*l.Torque(y)/rate - l.Winding.Unrolled(y); n > least.turns {
			least = bound{n, y}
		}
	}
	for _, y := range [2]measure.Length{0, down} {
		if n := lim.Fly*l.Torque(y)/rate - l.Winding.Unrolled(y); n < most.turns {
			most = bound{n, y}
		}
	}
	least.turns = math.Max(0, least.turns)
	return least, most
}

// steepest returns the height at which the cubic in bounds is level, limited to the
// drop.
func (l Lift) steepest(rate, margin float64) measure.Length {
	w := l.Winding
	always, perMM := l.Load.newtons()
	up := w.radius(w.on(0))
	cubic := perMM * math.Pi / w.t() // coefficient of −R³·F/k
	level := (always + cubic*up*up + rate/(margin*w.t())) / (3 * cubic)
	y := (up*up - level) * math.Pi / w.t()
	return max(0, min(l.Load.Drop, lengthOf(y)))
}

// binds reports whether the shade would wind the spring further than it goes.
func (w Wind) binds(s Spring) bool { return s.Most > 0 && w.Down > s.Most }

// Wind chooses the turns for a spring, midway between too few and too many.
func (l Lift) Wind(s Spring, lim Limits) Wind {
	least, most := l.bounds(s.Rate, lim)
	w := Wind{Rate: s.Rate, Least: least.turns, Most: math.Max(0, most.turns), OK: least.turns <= most.turns}
	if w.OK {
		travel := l.Winding.Unrolled(l.Load.Drop)
		if free := s.Most - travel; s.Most > 0 && free >= w.Least {
			w.Most = math.Min(w.Most, free)
		}
		w.Turns = halfTurn(w.Least, w.Most)
		w.Pulls = l.pulls(w.Turns, w.Least, w.Most, lim.PullStep)
		w.Down = w.Turns + travel
	}
	for i := range measure.Length(5) {
		y := l.Load.Drop * i / 4
		w.At = append(w.At, Torques{y, l.Torque(y), s.Rate * (w.Turns + l.Winding.Unrolled(y))})
	}
	return w
}

// halfTurn returns the middle of a range, or a half turn near it within the range.
// A flat pin fits its slot twice per turn.
func halfTurn(least, most float64) float64 {
	middle := least + (most-least)/2
	if n := math.Round(2*middle) / 2; n >= least && n <= most {
		return n
	}
	return middle
}

// longestHandWork limits the number of pulls in a list.
const longestHandWork = 100

// pulls divides turns into equal pulls, none longer than the drop. For each, pull
// the shade down, lift the roller out with the spring held, roll the cloth up by
// hand and hang it again. That adds the turns that the pull unrolls.
func (l Lift) pulls(turns, least, most float64, step measure.Length) []measure.Length {
	n := math.Ceil(turns/l.Winding.Unrolled(l.Load.Drop) - 1e-9)
	if !(n > 0 && n <= longestHandWork) {
		return nil
	}
	one := l.Winding.Pull(turns / n)
	if r := one.Round(step, measure.Nearest); r > 0 && r <= l.Load.Drop {
		if got := n * l.Winding.Unrolled(r); got >= least && got <= most {
			one = r
		}
	}
	pulls := make([]measure.Length, int(n))
	for i := range pulls {
		pulls[i] = one
	}
	return pulls
}

func (s Spring) check(c *finding.Checker) {
	const fix = "measure it: hang a scale on the slat at two heights"
	if math.IsNaN(s.Rate) || s.Rate <= 0 {
		c.Fail("roller.spring.rate", fmt.Sprintf("%g N·mm per turn", s.Rate), "cannot lift anything", fix)
	} else {
		c.Number("roller.spring.rate", s.Rate, 1e-6, 1e9, fix)
	}
	c.Number("roller.spring.most", s.Most, 0, 1e6, "give the turns it takes before it binds, or leave it out")
}

// judge reports a spring that cannot do its work.
func (w Wind) judge(found *finding.List, l Lift, s Spring, lim Limits, st measure.Style) {
	rate := st.Decimal(s.Rate, 2) + " N·mm per turn"
	if !w.OK {
		least, most := l.bounds(s.Rate, lim)
		flies := message.Of("hang.no-turns-work-none",
			st.Format(least.at), TurnsText(st, least.turns), st.Format(most.at))
		if most.turns > 0 {
			flies = message.Of("hang.no-turns-work",
				st.Format(least.at), TurnsText(st, least.turns), st.Format(most.at), TurnsText(st, most.turns))
		}
		found.Add(finding.Finding{
			Level: finding.Stop, Field: "roller.spring",
			Text:  flies,
			Value: rate, Limit: fmt.Sprintf("%s to %s times the torque needed", st.Decimal(lim.Lift, 2), st.Decimal(lim.Fly, 2)),
			Source: lim.why("lift") + "; " + lim.why("fly"), Remedy: l.helps(s, lim, st),
		})
		return
	}
	if len(w.Pulls) == 0 && w.Turns > 0 {
		found.Add(finding.Finding{
			Level: finding.Caution, Field: "roller.spring",
			Text:  message.Of("hang.too-many-turns", TurnsText(st, w.Turns)),
			Value: TurnsText(st, w.Turns) + " turns", Source: "common practice, no source",
			Remedy: message.Of("hang.fix-too-many-turns"),
		})
	}
	if w.binds(s) {
		found.Add(finding.Finding{
			Level: finding.Stop, Field: "roller.spring",
			Text:  message.Of("hang.spring-over-limit", TurnsText(st, w.Down)),
			Value: TurnsText(st, w.Down) + " turns", Limit: st.Decimal(s.Most, 1) + " turns",
			Source: "the spring's own limit, as given", Remedy: l.helpsBound(s, lim, st),
		})
	}
}

package hang

import (
	"fmt"
	"math"

	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A Lift is a load on a winding: what a spring has to raise. Their drops are
// the same.
type Lift struct {
	Winding Winding
	Load    Load
}

// Check refuses a lift that leaves nothing to work out.
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

// Torque returns the torque in N·mm that holds the load when below of the
// cloth hangs: hanging weight × radius there.
func (l Lift) Torque(below measure.Length) float64 {
	always, perMM := l.Load.newtons()
	below = max(0, min(l.Load.Drop, below))
	return (always + perMM*below.Millimetres()) * l.Winding.radius(l.Winding.on(below))
}

// A Spring is the donor roller's spring.
type Spring struct {
	Rate float64 // N·mm for each turn of the tube
	Most float64 // turns it takes in all before it binds; zero if unknown
}

// A Wind is how far a spring is wound before the shade is hung.
type Wind struct {
	Rate  float64          // of the spring, N·mm per turn
	Least float64          // turns that lift the load at every height with the margin
	Most  float64          // turns that nowhere give more than the limit, nor bind the spring if fewer can do
	Turns float64          // chosen, between Least and Most; zero if there are none
	OK    bool             // such turns exist
	Pulls []measure.Length // by hand: pull down so much, lift out, roll up, hang again; once for each
	Down  float64          // turns on the spring with the shade down
	At    []Torques        // up, at quarters of the drop, and down
}

// Torques compares what a height needs with what the spring gives there.
type Torques struct {
	Below  measure.Length
	Needed float64 // N·mm
	Given  float64 // N·mm, at the chosen turns; with none chosen, of the spring unwound
}

// A bound is where a limit on the turns binds.
type bound struct {
	turns float64
	at    measure.Length
}

// bounds returns the least turns that lift everywhere and the most that fly
// nowhere.
//
// The spring, wound n turns with the shade up, gives k·(n + u) after u more.
// With R the radius there, u = (Rup − R)/t, the cloth off the tube is
// y = (Rup² − R²)·π/t, and a margin F asks n = F·(A + B·y)·R/k − (Rup − R)/t:
// a cubic in R that bends down (its R³ has −F·B·π/(k·t)), so its least value is
// at an end and its greatest at an end or where the slope is nil.
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

// steepest returns the height at which the cubic of bounds is level, held
// within the drop.
func (l Lift) steepest(rate, margin float64) measure.Length {
	w := l.Winding
	always, perMM := l.Load.newtons()
	up := w.radius(w.on(0))
	cubic := perMM * math.Pi / w.t() // of −R³·F/k
	level := (always + cubic*up*up + rate/(margin*w.t())) / (3 * cubic)
	y := (up*up - level) * math.Pi / w.t()
	return max(0, min(l.Load.Drop, lengthOf(y)))
}

// binds reports whether the spring would hold more turns than it takes.
func (w Wind) binds(s Spring) bool { return s.Most > 0 && w.Down > s.Most }

// Wind chooses the turns for a spring: midway between too few and too many.
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

// halfTurn returns the middle of a range, at a half turn if one near it lies
// within: a flat pin fits its slot twice in a turn.
func halfTurn(least, most float64) float64 {
	middle := least + (most-least)/2
	if n := math.Round(2*middle) / 2; n >= least && n <= most {
		return n
	}
	return middle
}

// longestHandWork bounds the pulls that are listed.
const longestHandWork = 100

// pulls divides turns into equal pulls, none longer than the drop: pull the
// shade down, lift the roller out with the spring held, roll the cloth up by
// hand and hang it again. Each adds the turns that the pull unrolls.
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

// judge finds a spring that cannot do it.
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

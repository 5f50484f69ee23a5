package hang

import (
	"fmt"
	"math"

	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A Reading is the reading of a hanging scale, hooked to the middle of the slat,
// while it pulls the shade down slowly. If the shade creeps up, the pawl catches
// and the scale shows too little.
type Reading struct {
	Below measure.Length // cloth off the tube
	Scale measure.Mass   // shown by the scale; below zero if the scale must carry the shade
}

// A Trial is two readings on one shade, and the steps of scale and tape.
type Trial struct {
	Readings  [2]Reading
	ScaleStep measure.Mass   // the scale's finest mark
	TapeStep  measure.Length // the tape's finest mark; zero if the heights are exact
}

// A Rate is what a trial says about a spring.
type Rate struct {
	PerTurn      float64 // N·mm per turn of the tube
	PerTurnError float64 // ± one standard error
	Turns        float64 // on the spring now, with the shade up
	TurnsError   float64 // ± one standard error
}

// TrialHeights returns the heights at which to read the scale: a quarter and three
// quarters of the drop, rounded to the style's step.
func TrialHeights(drop measure.Length, st measure.Style) [2]measure.Length {
	return [2]measure.Length{
		(drop / 4).Round(st.Step(), measure.Nearest),
		(drop * 3 / 4).Round(st.Step(), measure.Nearest),
	}
}

// TrialSteps returns instructions for taking the readings.
func TrialSteps(drop measure.Length, st measure.Style) []string {
	at := TrialHeights(drop, st)
	return []string{
		"hang the shade with a few turns on its spring",
		"hook a hanging scale to the middle of the slat, and pull it down slowly",
		fmt.Sprintf("keep moving down, and read the scale when %s of cloth is off the tube: if the shade creeps up, its pawl catches and the scale shows too little", st.Format(at[0])),
		fmt.Sprintf("read it again when %s of cloth is off the tube", st.Format(at[1])),
		"write down both readings, both lengths and the scale's finest mark",
	}
}

// Measure works out the spring from a trial.
//
// At each height the spring balances the hanging weight and the pull of the scale:
// k·(n + u) = (weight + pull)·radius. Two heights give k and n. Friction that is
// the same at both heights cancels in k, and makes n look larger by friction/k. One
// standard error is a rectangular half step divided by √3 (JCGM 100:2008, 4.3.7),
// carried through as the root of the sum of squares.
func (l Lift) Measure(t Trial, lim Limits, st measure.Style) (Rate, []finding.Finding, error) {
	c := &finding.Checker{Style: st}
	l.check(c)
	t.check(c, l.Load.Drop)
	if err := c.Err(); err != nil {
		return Rate{}, nil, err
	}
	one, two := l.balance(t, t.Readings[0]), l.balance(t, t.Readings[1])
	if one.turns > two.turns {
		one, two = two, one
	}
	du := two.turns - one.turns
	rate := (two.torque - one.torque) / du
	if !(rate > 0) {
		c.Fail("trial", fmt.Sprintf("%s N·mm per turn", st.Decimal(rate, 3)), "cannot be the rate of a spring",
			"with more cloth down, scale and cloth together must pull harder: check that the readings are not swapped, and that the spring is wound and not broken")
		return Rate{}, nil, c.Err()
	}
	// n = T1/k − u1; with the slope's error written out, dn = dT1·(1/k + T1/(k²Δu))
	// − dT2·T1/(k²Δu).
	lever := one.torque / (rate * rate * du)
	r := Rate{
		PerTurn:      rate,
		PerTurnError: math.Hypot(one.err, two.err) / du,
		Turns:        one.torque/rate - one.turns,
		TurnsError:   math.Hypot(one.err*(1/rate+lever), two.err*lever),
	}
	return r, r.judge(lim, st), nil
}

// A balance is the torque of the spring at one height.
type balance struct{ torque, err, turns float64 }

func (l Lift) balance(t Trial, r Reading) balance {
	w := l.Winding
	radius := w.radius(w.on(r.Below))
	_, perMM := l.Load.newtons()
	pull := r.Scale.Grams() / 1000 * gravity
	scale := t.ScaleStep.Grams() / 1000 * gravity / 2 / math.Sqrt(3) * radius
	// A height misread by dy changes the weight and, at the other end, the turns.
	tape := t.TapeStep.Millimetres() / 2 / math.Sqrt(3)
	return balance{
		torque: l.Torque(r.Below) + pull*radius,
		err:    math.Hypot(scale, perMM*tape*radius),
		turns:  w.Unrolled(r.Below),
	}
}

func (t Trial) check(c *finding.Checker, drop measure.Length) {
	for _, r := range t.Readings {
		if c.NotNegative("trial", r.Below) && r.Below > drop {
			c.FailLength("trial", r.Below, "is more cloth than the shade has", "give the cloth off the tube")
		}
		c.Number("trial", r.Scale.Grams(), -1e6, 1e6, "give the scale's reading in g or kg")
	}
	if d := (t.Readings[0].Below - t.Readings[1].Below).Abs(); d < drop/10 {
		c.FailLength("trial", d, "is too short a distance between the two heights",
			fmt.Sprintf("read the scale at heights at least %s apart", c.Style.Format(drop/10)))
	}
	c.Number("trial", t.ScaleStep.Grams(), 0, 1e6, "give the scale's finest mark")
	c.NotNegative("trial", t.TapeStep)
}

// judge reports readings too coarse to trust, and a spring that is not wound.
func (r Rate) judge(lim Limits, st measure.Style) []finding.Finding {
	var found finding.List
	if share := r.PerTurnError / r.PerTurn; share > lim.RateError {
		found.Add(finding.Finding{
			Level: finding.Caution, Field: "trial",
			Text:   message.Of("hang.rate-uncertain", st.Decimal(100*share, 0)),
			Value:  st.Decimal(100*share, 0) + " %",
			Limit:  st.Decimal(100*lim.RateError, 0) + " %",
			Source: lim.why("rate_error"),
			Remedy: message.Of("hang.fix-rate-uncertain"),
		})
	}
	if r.Turns < 0 {
		found.Add(finding.Finding{
			Level: finding.Note, Field: "trial",
			Text:   message.Of("hang.spring-slack", TurnsText(st, -r.Turns)),
			Value:  TurnsText(st, r.Turns) + " turns",
			Limit:  "0 turns",
			Source: "the readings",
			Remedy: message.Of("hang.wind-as-given"),
		})
	}
	return found
}

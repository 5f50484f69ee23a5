package hang

import (
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
)

// Limits are the thresholds of findings about a hanging shade. Each is a shop
// setting; [Reasons] says where its usual value comes from.
type Limits struct {
	WrapsCaution float64        // fewer wraps left on the tube are a caution
	WrapsStop    float64        // fewer wraps are a stop
	Gap          measure.Length // least clearance around the roll
	Lift         float64        // the spring must give at least this many times the torque needed
	Fly          float64        // and at most this many times
	PullStep     measure.Length // pulls are rounded to this
	Sag          measure.Length // of the tube
	WideShade    measure.Length // a wider shade needs a tube thicker than WideTube
	WideTube     measure.Length
	RateError    float64 // a caution if a spring rate's error is a larger share of the rate
}

// UsualLimits returns the limits for a shop that has not set its own.
func UsualLimits(s measure.System) Limits {
	l := Limits{
		WrapsCaution: 1, WrapsStop: 0.5, Gap: measure.Inch / 8, Lift: 1.15, Fly: 2,
		PullStep: measure.Inch / 2, Sag: measure.Inch / 8,
		WideShade: 48 * measure.Inch, WideTube: 9 * measure.Inch / 8, RateError: 0.25,
	}
	if s == measure.Millimetres {
		l.Gap, l.Sag, l.PullStep = 3*measure.Millimetre, 3*measure.Millimetre, 10*measure.Millimetre
		l.WideShade, l.WideTube = 1200*measure.Millimetre, 28*measure.Millimetre
	}
	return l
}

// why returns the reason for a limit.
func (l Limits) why(setting string) string {
	v := l.named(setting)
	return why(setting, v == UsualLimits(measure.Inches).named(setting) || v == UsualLimits(measure.Millimetres).named(setting))
}

// named returns a limit as a plain number, for comparison only.
func (l Limits) named(setting string) float64 {
	switch setting {
	case "wraps_caution":
		return l.WrapsCaution
	case "wraps_stop":
		return l.WrapsStop
	case "gap":
		return float64(l.Gap)
	case "lift":
		return l.Lift
	case "fly":
		return l.Fly
	case "sag":
		return float64(l.Sag)
	case "wide_shade":
		return float64(l.WideShade)
	case "wide_tube":
		return float64(l.WideTube)
	case "rate_error":
		return l.RateError
	}
	panic("hang: no limit named " + setting)
}

// Check refuses limits that contradict each other.
func (l Limits) Check(st measure.Style) error {
	c := &finding.Checker{Style: st}
	l.check(c)
	return c.Err()
}

func (l Limits) check(c *finding.Checker) {
	c.Number("wraps_stop", l.WrapsStop, 0, 100, "give zero or more wraps")
	c.Number("wraps_caution", l.WrapsCaution, l.WrapsStop, 100, "give at least wraps_stop")
	c.NotNegative("gap", l.Gap)
	c.Number("lift", l.Lift, 1, 10, "give 1 or more: 1.15 asks for 15 % more torque than the load")
	c.Number("fly", l.Fly, l.Lift, 100, "give more than lift")
	c.Positive("pull_step", l.PullStep, "give the step of the rule, for example 1/2 in")
	c.Positive("sag", l.Sag, "give the greatest sag, for example 1/8 in")
	c.NotNegative("wide_shade", l.WideShade)
	c.NotNegative("wide_tube", l.WideTube)
	c.Number("rate_error", l.RateError, 0, 1, "give a share between 0 and 1")
}

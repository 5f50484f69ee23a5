package hang

import (
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/square"
)

// A Policy says which of several readings to use.
type Policy uint8

const (
	Longest  Policy = iota // the cloth reaches the sill everywhere, and the excess stays on the roller
	Shortest               // the cloth meets the sill nowhere
	Middle                 // the middle reading by size
)

// String returns the word a job file uses.
func (p Policy) String() string { return [...]string{"longest", "shortest", "middle"}[p] }

// Rules turn an opening into a finished size. Each is a shop setting; [Reasons]
// says where its usual value comes from.
type Rules struct {
	WidthStep  measure.Length // the width is rounded to this: down inside, up outside
	LengthStep measure.Length // the length is rounded to this: down inside, up outside
	Height     Policy         // which height to use

	TipOff    measure.Length // from the opening to the roller, tip to tip; for an inside mount
	BarrelOff measure.Length // from the opening to the tube
	ClothOff  measure.Length // from the opening to the cloth
	HeightOff measure.Length // taken off the height; for an inside mount
	Play      measure.Length // for an outside mount: how much further apart the brackets bear than the roller is long

	Overlap Overlap // the usual overlap of an outside mount; used for an opening that gives none

	Agree    measure.Length // readings that differ by more get a note
	Differ   measure.Length // readings that differ by more get a caution
	Slip     measure.Length // a reading this far from two that agree counts as a mistake
	Smallest measure.Length // a smaller opening counts as a mistake in the unit
	Largest  measure.Length // a larger opening counts as a mistake in the unit

	Square square.Limit // limit for the opening's squareness
}

// An Overlap is how far the cloth of an outside mount covers the wall around the
// opening.
type Overlap struct{ Left, Right, Above, Below measure.Length }

// UsualRules returns the rules of trade guides. In inches they are as printed. In
// millimetres, deductions and overlaps are rounded up to whole millimetres and
// tolerances down, so that a metric shade never fits tighter.
func UsualRules(s measure.System) Rules {
	const in, mm = measure.Inch, measure.Millimetre
	if s == measure.Millimetres {
		return Rules{
			WidthStep: mm, LengthStep: mm,
			TipOff: 4 * mm, BarrelOff: 16 * mm, ClothOff: 29 * mm,
			Play:    mm,
			Overlap: Overlap{Left: 40 * mm, Right: 40 * mm, Above: 40 * mm, Below: 40 * mm},
			Agree:   1500 * measure.Micrometre, Differ: 3 * mm, Slip: 12 * mm,
			Smallest: 150 * mm, Largest: 6 * measure.Metre,
			Square: square.Usual(s),
		}
	}
	return Rules{
		WidthStep: in / 8, LengthStep: in / 8,
		TipOff: in / 8, BarrelOff: 5 * in / 8, ClothOff: 9 * in / 8,
		Play:    in / 16,
		Overlap: Overlap{Left: 3 * in / 2, Right: 3 * in / 2, Above: 3 * in / 2, Below: 3 * in / 2},
		Agree:   in / 16, Differ: in / 8, Slip: in / 2,
		Smallest: 6 * in, Largest: 20 * measure.Foot,
		Square: square.Usual(s),
	}
}

// A Reason says where the usual value of a setting comes from.
type Reason struct {
	Setting string // snake case, as in the settings file
	Why     string
}

// Reasons lists every rule and limit, and where its usual value comes from. The
// addresses of the pages are beside the check values in rules_test.go. That test
// fails for a rule with neither a page nor the words "no source".
func Reasons() []Reason { return append([]Reason(nil), reasons...) }

var reasons = []Reason{
	{"width_step", "measuring guides: round an inside width down to 1/8 in"},
	{"length_step", "common practice, no source: the length is rounded like the width"},
	{"height", "measuring guides disagree; the longest keeps the sill covered, and the excess stays on the roller"},
	{"tip_off", "two measuring guides: 1/8 in for the bracket, at any width"},
	{"barrel_off", "a measuring guide for spring rollers: 5/8 in, at any width"},
	{"cloth_off", "two measuring guides for spring rollers: 1-1/8 in, a gap of 9/16 in at each side"},
	{"height_off", "common practice, no source: nothing is taken off unless the shop sets it"},
	{"play", "common practice, no source"},
	{"overlap", "measuring guides range from 3/4 to 2 in at each side; two say 1-1/2 in"},
	{"agree", "a window maker's guide: any two readings within 1/16 in"},
	{"differ", "a window fitter's guide: three readings agree within 1/8 in"},
	{"slip", "common practice, no source"},
	{"smallest", "common practice, no source"},
	{"largest", "common practice, no source"},
	{"square", "a window maker's guide: diagonals within 1/8 in up to 20 square feet, 1/4 in above"},
	{"wraps_caution", "common practice, no source: one to two wraps stay on the tube"},
	{"wraps_stop", "common practice, no source: with less than half a wrap the tape carries the load"},
	{"gap", "common practice, no source"},
	{"lift", "common practice, no source: the margin overcomes the friction of pins and tube"},
	{"fly", "common practice, no source: twice the torque needed throws the slat up as fast as it would fall"},
	{"pull_step", "common practice, no source"},
	{"sag", "common practice, no source: no standard for shades was found"},
	{"wide_shade", "a shade shop's advice: wider than 48 in, a roller thicker than 1-1/8 in"},
	{"wide_tube", "a shade shop's advice: wider than 48 in, a roller thicker than 1-1/8 in"},
	{"rate_error", "common practice, no source"},
}

// why returns the reason for a setting, or says that the shop chose the value.
func why(setting string, usual bool) string {
	if !usual {
		return "shop setting " + setting
	}
	for _, r := range reasons {
		if r.Setting == setting {
			return r.Why
		}
	}
	panic("hang: no reason for " + setting)
}

// why returns the reason for a length among the rules.
func (r Rules) why(setting string) string {
	v := r.named(setting)
	return why(setting, v == UsualRules(measure.Inches).named(setting) || v == UsualRules(measure.Millimetres).named(setting))
}

func (r Rules) named(setting string) measure.Length {
	switch setting {
	case "width_step":
		return r.WidthStep
	case "length_step":
		return r.LengthStep
	case "tip_off":
		return r.TipOff
	case "barrel_off":
		return r.BarrelOff
	case "cloth_off":
		return r.ClothOff
	case "height_off":
		return r.HeightOff
	case "agree":
		return r.Agree
	case "differ":
		return r.Differ
	case "slip":
		return r.Slip
	case "smallest":
		return r.Smallest
	case "largest":
		return r.Largest
	}
	panic("hang: no rule named " + setting)
}

func (r Rules) overlapWhy(o Overlap) string {
	return why("overlap", o == UsualRules(measure.Inches).Overlap || o == UsualRules(measure.Millimetres).Overlap)
}

func (r Rules) squareWhy() string {
	return why("square", r.Square == UsualRules(measure.Inches).Square || r.Square == UsualRules(measure.Millimetres).Square)
}

// Check refuses rules that contradict each other.
func (r Rules) Check(st measure.Style) error {
	c := &finding.Checker{Style: st}
	r.check(c)
	return c.Err()
}

func (r Rules) check(c *finding.Checker) {
	c.Positive("width_step", r.WidthStep, "give the step of the rule, for example 1/8 in")
	c.Positive("length_step", r.LengthStep, "give the step of the rule, for example 1/8 in")
	for _, v := range []struct {
		setting string
		length  measure.Length
	}{
		{"height_off", r.HeightOff}, {"play", r.Play}, {"tip_off", r.TipOff}, {"agree", r.Agree}, {"slip", r.Slip}, {"smallest", r.Smallest},
		{"square", r.Square.Small}, {"square", r.Square.Large},
	} {
		c.NotNegative(v.setting, v.length)
	}
	if c.InReach("cloth_off", r.ClothOff) && (r.BarrelOff < r.TipOff || r.ClothOff < r.BarrelOff) {
		c.FailLength("cloth_off", r.ClothOff, "does not fit the other deductions",
			"tip_off must be the least, then barrel_off, then cloth_off")
	}
	if r.Differ < r.Agree {
		c.FailLength("differ", r.Differ, "is less than agree", "give at least agree, "+c.Style.Format(r.Agree))
	}
	if r.Largest <= r.Smallest {
		c.FailLength("largest", r.Largest, "is not more than smallest", "give more than smallest, "+c.Style.Format(r.Smallest))
	}
	if r.Height > Middle {
		c.Fail("height", "", "is not a known choice", "use longest, shortest or middle")
	}
}

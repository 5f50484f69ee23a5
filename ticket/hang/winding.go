package hang

import (
	"fmt"
	"math"

	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A Winding is cloth on its tube. The cloth lies in a spiral whose middle line
// starts at the tube's surface and grows by one thickness per turn. A length ℓ
// fills the ring between the tube and the diameter √(D0² + 4·t·ℓ/π).
type Winding struct {
	Tube  measure.Length // outside diameter of the bare tube
	Cloth measure.Length // thickness
	Wrap  measure.Length // cloth left on the tube when the shade is down
	Drop  measure.Length // cloth that leaves the tube: the finished length
}

// Check refuses a winding for which nothing can be worked out.
func (w Winding) Check(st measure.Style) error {
	c := &finding.Checker{Style: st}
	w.check(c)
	return c.Err()
}

func (w Winding) check(c *finding.Checker) {
	tube := c.Positive("roller.tube", w.Tube, "measure across the bare tube")
	cloth := c.Positive("goods.thickness", w.Cloth, "measure ten layers and divide by ten")
	c.NotNegative("allow.wrap", w.Wrap)
	c.Positive("finished.length", w.Drop, "give the finished length")
	if tube && cloth && w.Cloth >= w.Tube {
		c.FailLength("goods.thickness", w.Cloth,
			fmt.Sprintf("is not thinner than the tube, %s", c.Style.Format(w.Tube)), "check the number and its unit")
	}
}

// A RollUp is what a winding results in.
type RollUp struct {
	DiameterUp measure.Length // outside, over the last part-layer: this must clear
	SpiralUp   measure.Length // of the spiral: this sets the lifting radius
	RadiusDown measure.Length // with the shade down
	Turns      float64        // of travel, from up to down
	WrapsUp    float64        // on the tube when up
	WrapsLeft  float64        // on the tube when down
}

// RollUp works out the roll.
func (w Winding) RollUp() RollUp {
	all, left := (w.Wrap + w.Drop).Millimetres(), w.Wrap.Millimetres()
	up, down := w.wraps(all), w.wraps(left)
	return RollUp{
		DiameterUp: w.outside(up),
		SpiralUp:   lengthOf(2 * w.radius(all)),
		RadiusDown: lengthOf(w.radius(left)),
		Turns:      up - down,
		WrapsUp:    up,
		WrapsLeft:  down,
	}
}

// Radius returns the radius at which the cloth leaves the roll when the length
// below hangs, from zero (up) to Drop (down).
func (w Winding) Radius(below measure.Length) measure.Length {
	return lengthOf(w.radius(w.on(below)))
}

// Unrolled returns the turns of the tube from up until the length below hangs.
func (w Winding) Unrolled(below measure.Length) float64 {
	return w.wraps(w.on(0)) - w.wraps(w.on(below))
}

// Pull returns the length that hangs after the given turns of the tube from up. It
// is the inverse of Unrolled, limited to zero and Drop.
func (w Winding) Pull(turns float64) measure.Length {
	all := w.on(0)
	up := w.radius(all)
	r := math.Max(0, up-w.t()*math.Max(0, turns))
	// ℓ left on the tube, from r² = r0² + t·ℓ/π.
	left := (r*r - w.r0()*w.r0()) * math.Pi / w.t()
	return min(w.Drop, lengthOf(math.Max(0, all-math.Max(0, left))))
}

// Wraps returns the turns that a length of cloth makes on the bare tube.
func (w Winding) Wraps(on measure.Length) float64 { return w.wraps(on.Millimetres()) }

func (w Winding) t() float64  { return w.Cloth.Millimetres() }
func (w Winding) r0() float64 { return w.Tube.Millimetres() / 2 }

// on returns the cloth on the tube, in mm, when the length below hangs.
func (w Winding) on(below measure.Length) float64 {
	return (w.Wrap + w.Drop - max(0, min(w.Drop, below))).Millimetres()
}

// radius returns the radius of the spiral with the given mm of cloth on the tube.
func (w Winding) radius(on float64) float64 {
	return math.Sqrt(w.r0()*w.r0() + w.t()*on/math.Pi)
}

// wraps returns (D − d) / (2t), written so that thin cloth loses no digits.
func (w Winding) wraps(on float64) float64 {
	return on / (math.Pi * (w.radius(on) + w.r0()))
}

// outside counts whole rings: the last part-layer makes the roll as thick as a
// whole layer.
func (w Winding) outside(wraps float64) measure.Length {
	// A part-layer below a millionth of a turn is a rounding error.
	return lengthOf(2 * (w.r0() + w.t()*math.Ceil(wraps-1e-6)))
}

// judge reports too few wraps left.
func (r RollUp) judge(found *finding.List, w Winding, lim Limits, st measure.Style) {
	level, limit, setting := finding.Caution, lim.WrapsCaution, "wraps_caution"
	if r.WrapsLeft < lim.WrapsStop {
		level, limit, setting = finding.Stop, lim.WrapsStop, "wraps_stop"
	}
	if r.WrapsLeft >= limit {
		return
	}
	found.Add(finding.Finding{
		Level: level, Field: "allow.wrap",
		Text:   message.Of("hang.few-wraps", st.Decimal(r.WrapsLeft, 2)),
		Value:  st.Decimal(r.WrapsLeft, 2) + " wraps",
		Limit:  st.Decimal(limit, 2) + " wraps",
		Source: lim.why(setting),
		Remedy: message.Of("hang.fix-wraps", st.Words(w.ForWraps(lim.WrapsCaution), measure.Up)),
	})
}

// ForWraps returns the cloth that makes n wraps on the bare tube: n = (r − r0) / t
// and π·(r² − r0²) = t·ℓ, so ℓ = π·n·(2·r0 + n·t).
func (w Winding) ForWraps(n float64) measure.Length {
	return lengthOf(math.Pi * n * (2*w.r0() + n*w.t()))
}

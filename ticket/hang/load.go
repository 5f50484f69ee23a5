package hang

import (
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
)

// A Load is everything that hangs on the tube.
type Load struct {
	Width measure.Length // of the panel, side hems included
	Drop  measure.Length // finished length
	Fold  measure.Length // cloth at the bottom beyond the drop: hem and pocket
	Cloth measure.ArealMass
	Slat  measure.Mass
}

// A Weight is the hanging mass, in total and by part.
type Weight struct{ Cloth, Slat, Total measure.Mass }

func (l Load) check(c *finding.Checker) {
	c.Positive("finished.width", l.Width, "give the width of the panel")
	c.Positive("finished.length", l.Drop, "give the finished length")
	c.NotNegative("allow.pocket", l.Fold)
	c.Number("goods.mass", l.Cloth.GramsPerSquareMetre(), 0.001, 100_000, "weigh a swatch of 100 cm²: 5.40 g is 540 g/m2")
	c.Number("slat.mass", l.Slat.Grams(), 0, 1e6, "weigh the slat")
}

// Weight returns what hangs with the shade down.
func (l Load) Weight() Weight { return l.At(l.Drop) }

// At returns what hangs when the length below has left the tube. The hem and the
// pocket never wind up.
func (l Load) At(below measure.Length) Weight {
	below = max(0, min(l.Drop, below))
	cloth := l.Cloth.Of(l.Width.Times(below + l.Fold))
	return Weight{Cloth: cloth, Slat: l.Slat, Total: cloth + l.Slat}
}

// newtons splits the hanging weight into the constant part and the weight that each
// millimetre of cloth adds.
func (l Load) newtons() (always, perMM float64) {
	perMM = l.Cloth.GramsPerSquareMetre() * l.Width.Metres() / 1e6 * gravity
	return l.Slat.Grams()/1000*gravity + perMM*l.Fold.Millimetres(), perMM
}

package hang

import (
	"math"

	"shadewright/ticket/measure"
)

// gravity is standard gravity in m/s² (3rd CGPM, 1901; exact by definition).
const gravity = 9.80665

// lengthOf rounds millimetres to a length. It limits the result to measure.Longest:
// a sag of kilometres is as impossible as one of 1000 m. NaN is a bug in the caller
// and panics in measure.
func lengthOf(mm float64) measure.Length {
	limit := measure.Longest.Millimetres()
	return measure.FromMillimetres(math.Max(-limit, math.Min(limit, mm)))
}

// massOf rounds grams to a mass of at most a million tonnes.
func massOf(g float64) measure.Mass {
	const limit = 1e12
	return measure.Mass(math.Round(math.Max(-limit, math.Min(limit, g)) * float64(measure.Gram)))
}

// grams writes a mass: "410 g", "1.25 kg".
func grams(st measure.Style, m measure.Mass) string {
	if g := m.Grams(); g < 1000 {
		return st.Decimal(g, 0) + " g"
	}
	return st.Decimal(m.Grams()/1000, 2) + " kg"
}

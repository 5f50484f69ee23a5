package jobfile

import (
	"math"

	"shadewright/ticket/form"
	"shadewright/ticket/measure"
)

func showAreal(m measure.ArealMass) string {
	return inOunces(m, measure.GramPerSquareMetre, "oz/yd2", measure.ParseArealMass, form.Decimal(m.GramsPerSquareMetre())+" g/m2")
}

func showLinear(m measure.LinearMass) string {
	return inOunces(m, measure.GramPerMetre, "oz/ft", measure.ParseLinearMass, form.Decimal(m.GramsPerMetre())+" g/m")
}

func showMass(m measure.Mass) string {
	return inOunces(m, measure.Gram, "oz", measure.ParseMass, form.Decimal(m.Grams())+" g")
}

// inOunces writes a mass in the unit in which it was probably typed. A mass that is
// not a whole number of grams but exactly some hundredths of an ounce came from a
// scale or a supplier's card in ounces. A person would not recognise 313.628 g/m2.
func inOunces[V ~int64](m, gram V, unit string, parse func(string) (V, error), grams string) string {
	one, err := parse("1 " + unit)
	if m%gram == 0 || err != nil {
		return grams
	}
	text := form.Decimal(math.Round(float64(m)/float64(one)*100)/100) + " " + unit
	if back, err := parse(text); err != nil || back != m {
		return grams
	}
	return text
}

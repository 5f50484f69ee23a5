package measure

import (
	"fmt"
	"math"
	"math/big"
	"math/bits"
	"strings"
)

// An Area is a surface in square micrometres. The int64 holds 9.2 km².
type Area int64

// SquareMetre is one square metre.
const SquareMetre Area = 1_000_000_000_000

// Times returns the area of a rectangle of sides l and m, to the nearest
// square micrometre. It panics if the area does not fit: 3000 m × 3000 m does.
func (l Length) Times(m Length) Area {
	const nm2 = 1_000_000 // square nanometres in a square micrometre
	neg := (l < 0) != (m < 0)
	hi, lo := bits.Mul64(uint64(l.Abs()), uint64(m.Abs()))
	lo, carry := bits.Add64(lo, nm2/2, 0)
	hi += carry
	if hi >= nm2 {
		panic("measure: area out of range")
	}
	q, _ := bits.Div64(hi, lo, nm2)
	if q > math.MaxInt64 {
		panic("measure: area out of range")
	}
	if neg {
		return -Area(q)
	}
	return Area(q)
}

// SquareMetres returns a in square metres.
func (a Area) SquareMetres() float64 { return float64(a) / float64(SquareMetre) }

// A Mass is a mass in micrograms.
type Mass int64

// Units of mass.
const (
	Microgram Mass = 1
	Milligram      = 1000 * Microgram
	Gram           = 1000 * Milligram
	Kilogram       = 1000 * Gram
)

// Grams returns m in grams.
func (m Mass) Grams() float64 { return float64(m) / float64(Gram) }

// An ArealMass is the mass of cloth for its area, in milligrams per square metre.
type ArealMass int64

// GramPerSquareMetre is one gram per square metre.
const GramPerSquareMetre ArealMass = 1000

// GramsPerSquareMetre returns m in g/m².
func (m ArealMass) GramsPerSquareMetre() float64 { return float64(m) / float64(GramPerSquareMetre) }

// Of returns the mass of area a of such cloth, to the nearest microgram.
func (m ArealMass) Of(a Area) Mass {
	// mg/m² × µm² = 1e-12 mg = 1e-9 µg
	return Mass(math.Round(float64(m) * float64(a) / 1e9))
}

// arealUnits gives each way of writing a mass for an area.
// 1 oz = 28.349523125 g and 1 yd² = 0.83612736 m² exactly.
var arealUnits = map[string]*big.Rat{
	"g/m2": big.NewRat(1, 1), "g/m²": big.NewRat(1, 1), "gsm": big.NewRat(1, 1),
	"oz/yd2": ounceYard, "oz/yd²": ounceYard,
}

var ounceYard = big.NewRat(28_349_523_125, 836_127_360)

// ParseArealMass reads the mass of cloth: "440 g/m2", "9.25 oz/yd2". It is kept
// to the nearest milligram per square metre. Every error is a [*ParseError]'s
// twin for masses and says what to write.
func ParseArealMass(text string) (ArealMass, error) {
	const fix = "write for example 440 g/m2 or 13 oz/yd2"
	t := strings.ToLower(strings.TrimSpace(text))
	n := strings.IndexFunc(t, func(r rune) bool { return (r < '0' || r > '9') && r != '.' })
	if n <= 0 || len(t) > longestText {
		return 0, fmt.Errorf("mass %.60q is no number with a unit; %s", text, fix)
	}
	unit, ok := arealUnits[strings.ReplaceAll(t[n:], " ", "")]
	if !ok {
		return 0, fmt.Errorf("mass %q has the unknown unit %q; %s", text, strings.TrimSpace(t[n:]), fix)
	}
	v, ok := new(big.Rat).SetString(t[:n])
	if !ok || len(t[:n]) > 12 {
		return 0, fmt.Errorf("mass %q is no number with a unit; %s", text, fix)
	}
	g, _ := v.Mul(v, unit).Float64()
	if g > 100_000 {
		return 0, fmt.Errorf("mass %q is heavier than any cloth; check the number and its unit", text)
	}
	return ArealMass(math.Round(g * float64(GramPerSquareMetre))), nil
}

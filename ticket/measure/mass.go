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
	return Area(product(int64(l), int64(m), 1_000_000)) // nm² in a µm²
}

// product returns a·b/per to the nearest whole number, halves away from zero.
// It panics if that does not fit.
func product(a, b int64, per uint64) int64 {
	hi, lo := bits.Mul64(size(a), size(b))
	lo, carry := bits.Add64(lo, per/2, 0)
	hi += carry
	if hi >= per {
		panic("measure: product out of range")
	}
	q, _ := bits.Div64(hi, lo, per)
	if q > math.MaxInt64 {
		panic("measure: product out of range")
	}
	if (a < 0) != (b < 0) {
		return -int64(q)
	}
	return int64(q)
}

// size returns a without its sign.
func size(a int64) uint64 {
	if a < 0 {
		return -uint64(a)
	}
	return uint64(a)
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

// Of returns the mass of area a of such cloth, to the nearest microgram. It
// panics if the mass does not fit: nine thousand tonnes do.
func (m ArealMass) Of(a Area) Mass {
	return Mass(product(int64(m), int64(a), 1_000_000_000)) // mg/m² × µm² = 1e-9 µg
}

// arealUnits gives each way of writing a mass for an area.
// 1 oz = 28.349523125 g and 1 yd² = 0.83612736 m² exactly.
var arealUnits = map[string]*big.Rat{
	"g/m2": big.NewRat(1, 1), "g/m²": big.NewRat(1, 1), "g/m^2": big.NewRat(1, 1), "g/sqm": big.NewRat(1, 1), "gsm": big.NewRat(1, 1),
	"oz/yd2": ounceYard, "oz/yd²": ounceYard, "oz/yd^2": ounceYard, "oz/sqyd": ounceYard,
}

var ounceYard = big.NewRat(28_349_523_125, 836_127_360)

// heaviest is the greatest mass that [ParseArealMass] takes, in g/m².
const heaviest = 100_000

// ParseArealMass reads the mass of cloth: 440 g/m2, 9.25 oz/yd2. It is kept to
// the nearest milligram per square metre. A bare number and bare ounces are
// refused: ounces are also counted for a piece of 36 × 22 in and for a running
// yard. Every error is a [*ParseError].
func ParseArealMass(text string) (ArealMass, error) {
	const fix = "write for example 440 g/m2 or 13 oz/yd2"
	fail := func(problem, fix string) (ArealMass, error) {
		return 0, parseError("mass", text, problem, fix)
	}
	t := strings.ToLower(strings.TrimSpace(text))
	n := strings.IndexFunc(t, func(r rune) bool { return (r < '0' || r > '9') && r != '.' && r != ',' })
	switch {
	case len(t) > longestText:
		return fail("is far too long", fix)
	case n < 0 && t != "":
		return fail("has no unit", fix)
	case n <= 0:
		return fail("is no number with a unit", fix)
	}
	number, unit := t[:n], strings.Join(strings.Fields(t[n:]), "")
	per, ok := arealUnits[unit]
	switch {
	case unit == "oz" || unit == "oz.":
		return fail("does not say for which area", "write oz/yd2 for a square yard")
	case !ok:
		return fail(fmt.Sprintf("has the unknown unit %q", strings.TrimSpace(t[n:])), fix)
	}
	if whole, dec, comma := strings.Cut(number, ","); comma {
		if len(dec) == 3 && whole != "0" {
			return fail("may be a thousand or a decimal", "write a point for the decimal mark and none between thousands")
		}
		number = whole + "." + dec
	}
	v, ok := new(big.Rat).SetString(number)
	if !ok || len(number) > 12 {
		return fail("is no number with a unit", fix)
	}
	if v.Mul(v, per).Cmp(big.NewRat(heaviest, 1)) > 0 {
		return fail("is heavier than any cloth", "check the number and its unit")
	}
	mg, _ := v.Mul(v, big.NewRat(int64(GramPerSquareMetre), 1)).Float64()
	return ArealMass(math.Round(mg)), nil
}

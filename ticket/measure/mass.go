package measure

import (
	"math"
	"math/big"
	"math/bits"
	"strings"
)

// An Area is an area in square micrometres. The int64 reaches 9.2 km².
type Area int64

// SquareMetre is one square metre.
const SquareMetre Area = 1_000_000_000_000

// Times returns the area of a rectangle with sides l and m, to the nearest square
// micrometre. It panics if the area does not fit; 3000 m × 3000 m fits.
func (l Length) Times(m Length) Area {
	return Area(product(int64(l), int64(m), 1_000_000)) // nm² in one µm²
}

// product returns a·b/per to the nearest whole number, halves away from zero. It
// panics if the result does not fit.
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

// size returns the absolute value of a.
func size(a int64) uint64 {
	if a < 0 {
		return -uint64(a)
	}
	return uint64(a)
}

// SquareMetres returns a in square metres.
func (a Area) SquareMetres() float64 { return float64(a) / float64(SquareMetre) }

// areaUnits gives the value in m² of each way to write a unit of area. 1 ft² =
// 0.09290304 m² exactly.
var areaUnits = map[string]*big.Rat{
	"m2": big.NewRat(1, 1), "m²": big.NewRat(1, 1), "m^2": big.NewRat(1, 1), "sqm": big.NewRat(1, 1),
	"ft2": squareFoot, "ft²": squareFoot, "ft^2": squareFoot, "sqft": squareFoot,
}

var squareFoot = big.NewRat(9_290_304, 100_000_000)

var areaWriting = writing{
	of: "area", units: areaUnits, most: 10_000, large: "is larger than any opening",
	fix: "write for example 20 ft2 or 1.9 m2",
}

// ParseArea reads an area, such as 20 ft2 or 1.9 m2, to the nearest square
// micrometre. A bare number is an error. Every error is a [*ParseError].
func ParseArea(text string) (Area, error) {
	v, err := areaWriting.read(text)
	if err != nil {
		return 0, err
	}
	return Area(times(v, int64(SquareMetre))), nil
}

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

// An ArealMass is the mass of cloth per area, in milligrams per square metre.
type ArealMass int64

// GramPerSquareMetre is one gram per square metre.
const GramPerSquareMetre ArealMass = 1000

// GramsPerSquareMetre returns m in g/m².
func (m ArealMass) GramsPerSquareMetre() float64 { return float64(m) / float64(GramPerSquareMetre) }

// Of returns the mass of area a of this cloth, to the nearest microgram. It panics
// if the mass does not fit; nine thousand tonnes fit.
func (m ArealMass) Of(a Area) Mass {
	return Mass(product(int64(m), int64(a), 1_000_000_000)) // mg/m² × µm² = 1e-9 µg
}

// arealUnits gives the value in g/m² of each way to write a unit of areal mass. 1
// oz = 28.349523125 g and 1 yd² = 0.83612736 m² exactly.
var arealUnits = map[string]*big.Rat{
	"g/m2": big.NewRat(1, 1), "g/m²": big.NewRat(1, 1), "g/m^2": big.NewRat(1, 1), "g/sqm": big.NewRat(1, 1), "gsm": big.NewRat(1, 1),
	"oz/yd2": ounceYard, "oz/yd²": ounceYard, "oz/yd^2": ounceYard, "oz/sqyd": ounceYard,
}

var ounceYard = big.NewRat(28_349_523_125, 836_127_360)

// arealWriting reads the mass of cloth in g/m².
var arealWriting = writing{
	of: "mass", units: arealUnits, most: 100_000, large: "is heavier than any cloth",
	fix: "write for example 440 g/m2 or 13 oz/yd2",
	explain: func(unit string) (string, string) {
		if unit == "oz" || unit == "oz." {
			return "does not say per what area", "write oz/yd2 for ounces per square yard"
		}
		return "", ""
	},
}

// ParseArealMass reads the mass of cloth, such as 440 g/m2 or 9.25 oz/yd2, to the
// nearest milligram per square metre. A bare number is an error. So are bare
// ounces, because some sellers count them per piece of 36 × 22 in or per running
// yard. Every error is a [*ParseError].
func ParseArealMass(text string) (ArealMass, error) {
	v, err := arealWriting.read(text)
	if err != nil {
		return 0, err
	}
	return ArealMass(times(v, int64(GramPerSquareMetre))), nil
}

// massUnits gives the value in grams of each way to write a unit of mass. 1 lb =
// 453.59237 g and 1 oz = 28.349523125 g exactly (Federal Register, 1 July 1959).
var massUnits = map[string]*big.Rat{
	"g": big.NewRat(1, 1), "kg": big.NewRat(1000, 1),
	"oz": ounce, "oz.": ounce, "lb": pound, "lb.": pound, "lbs": pound,
}

var (
	ounce = big.NewRat(28_349_523_125, 1_000_000_000)
	pound = big.NewRat(45_359_237, 100_000)
)

var massWriting = writing{
	of: "mass", units: massUnits, most: 1_000_000, large: "is heavier than any shade",
	fix: "write for example 350 g, 1.2 kg, 12 oz, 2.5 lb or 1 lb 9 oz",
}

// ParseMass reads a mass, such as 350 g, 1.2 kg, 12 oz, 2.5 lb or 1 lb 9 oz, to the
// nearest microgram. A bare number is an error. Every error is a [*ParseError].
func ParseMass(text string) (Mass, error) {
	pounds, ounces, two := cutPounds(text)
	if two {
		return bothMasses(text, pounds, ounces)
	}
	v, err := massWriting.read(text)
	if err != nil {
		return 0, err
	}
	return Mass(times(v, int64(Gram))), nil
}

// cutPounds splits a mass after its pounds. ok is false if nothing follows the
// pounds.
func cutPounds(text string) (pounds, rest string, ok bool) {
	t := strings.ToLower(strings.TrimSpace(text))
	at := strings.Index(t, "lb")
	if at < 0 {
		return "", "", false
	}
	rest = strings.TrimPrefix(strings.TrimPrefix(t[at+2:], "s"), ".")
	rest = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(rest), ","))
	return t[:at+2], rest, rest != "" && rest[0] >= '0' && rest[0] <= '9'
}

// bothMasses adds up pounds and ounces, as a scale shows them.
func bothMasses(text, pounds, ounces string) (Mass, error) {
	const fix = "write for example 1 lb 9 oz"
	fail := func(problem string) (Mass, error) { return 0, parseError("mass", text, problem, fix) }
	lb, err := massWriting.read(pounds)
	if err != nil || strings.Trim(strings.TrimSuffix(pounds, "lb"), "0123456789 ") != "" {
		return fail("has a fraction of a pound before the ounces")
	}
	unit := strings.TrimLeft(ounces, "0123456789., ")
	if unit != "oz" && unit != "oz." {
		return fail("has something other than ounces after the pounds")
	}
	oz, err := massWriting.read(ounces)
	if err != nil {
		return fail("has ounces that are not a number")
	}
	if oz.Cmp(pound) >= 0 {
		return fail("has 16 ounces or more after the pounds")
	}
	return Mass(times(lb.Add(lb, oz), int64(Gram))), nil
}

// A LinearMass is the mass of a slat per length, in micrograms per metre.
type LinearMass int64

// GramPerMetre is one gram per metre.
const GramPerMetre LinearMass = 1_000_000

// GramsPerMetre returns m in g/m.
func (m LinearMass) GramsPerMetre() float64 { return float64(m) / float64(GramPerMetre) }

// Of returns the mass of the length l, to the nearest microgram. It panics if the
// mass does not fit; nine thousand tonnes fit.
func (m LinearMass) Of(l Length) Mass {
	return Mass(product(int64(m), int64(l), uint64(Metre))) // µg/m × nm
}

// linearUnits gives the value in g/m of each way to write a unit of linear mass. 1
// ft = 0.3048 m exactly.
var linearUnits = map[string]*big.Rat{
	"g/m": big.NewRat(1, 1), "kg/m": big.NewRat(1000, 1),
	"oz/ft": new(big.Rat).Quo(ounce, big.NewRat(3048, 10_000)),
	"lb/ft": new(big.Rat).Quo(pound, big.NewRat(3048, 10_000)),
	"oz/in": new(big.Rat).Quo(ounce, big.NewRat(254, 10_000)),
}

var linearWriting = writing{
	of: "mass", units: linearUnits, most: 100_000, large: "is heavier than any slat",
	fix: "write for example 120 g/m or 1.3 oz/ft",
	explain: func(unit string) (string, string) {
		if massUnits[unit] != nil {
			return "does not say per what length", "write for example 120 g/m or 1.3 oz/ft"
		}
		return "", ""
	},
}

// ParseLinearMass reads the mass of a slat, such as 120 g/m or 1.3 oz/ft, to the
// nearest microgram per metre. A bare number and a mass without a length are
// errors. Every error is a [*ParseError].
func ParseLinearMass(text string) (LinearMass, error) {
	v, err := linearWriting.read(text)
	if err != nil {
		return 0, err
	}
	return LinearMass(times(v, int64(GramPerMetre))), nil
}

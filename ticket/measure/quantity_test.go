package measure

import (
	"errors"
	"testing"

	"pgregory.net/rapid"
)

// A quantity wraps a parser, so that one table holds the cases of all parsers.
type quantity struct {
	name  string
	parse func(string) (int64, error)
}

func quantityOf[T ~int64](name string, parse func(string) (T, error)) quantity {
	return quantity{name, func(s string) (int64, error) { v, err := parse(s); return int64(v), err }}
}

var (
	ofMass   = quantityOf("ParseMass", ParseMass)
	ofLinear = quantityOf("ParseLinearMass", ParseLinearMass)
	ofArea   = quantityOf("ParseArea", ParseArea)
	ofSpring = quantityOf("ParseSpringRate", ParseSpringRate)
)

func TestParseQuantities(t *testing.T) {
	const (
		ounce = "1 oz = 28.349523125 g and 1 lb = 453.59237 g exactly (Federal Register, 1 July 1959)"
		foot  = "; 1 ft = 0.3048 m exactly, by hand"
		pound = "0.45359237 kg × 9.80665 m/s² × 25.4 mm = 112.98482902761668 N·mm, exact arithmetic (Python fractions)"
	)
	tests := []struct {
		of   quantity
		in   string
		want int64
		src  string
	}{
		{ofMass, "350 g", 350_000_000, "by hand"},
		{ofMass, " 1.2 KG ", 1_200_000_000, "by hand"},
		{ofMass, "1,2 kg", 1_200_000_000, "a decimal comma"},
		{ofMass, "12 oz", 340_194_278, ounce + ": 340.1942775 g, half up"},
		{ofMass, "2.5 lb", 1_133_980_925, ounce + ": 1133.980925 g"},
		{ofMass, "0 g", 0, "zero is a mass; the caller judges it"},
		{ofLinear, "120 g/m", 120_000_000, "by hand"},
		{ofLinear, "0.12kg/m", 120_000_000, "by hand"},
		{ofLinear, "1.3 oz/ft", 120_913_320, ounce + foot + ": 120.91332041… g/m"},
		{ofLinear, "1 lb / ft", 1_488_163_944, ounce + foot + ": 1488.1639435… g/m"},
		{ofLinear, "1 oz/in", 1_116_122_958, ounce + "; 1 in = 0.0254 m: 1116.1229576… g/m"},
		{ofArea, "20 ft2", 1_858_060_800_000, "20 × 0.09290304 m², by hand"},
		{ofArea, "20 sq ft", 1_858_060_800_000, "the same"},
		{ofArea, "1.9 m²", 1_900_000_000_000, "by hand"},
		{ofSpring, "6.5 Nmm/turn", 6500, "by hand"},
		{ofSpring, "6,5 N·mm per turn", 6500, "by hand"},
		{ofSpring, "6.5 nmm", 6500, "by hand"},
		{ofSpring, "1 in-lb/turn", 112_985, pound},
		{ofSpring, "0.06 in·lb per turn", 6779, pound + " × 0.06 = 6.779089… N·mm"},
		{ofSpring, "1 in-oz/turn", 7062, pound + " / 16 = 7.061551… N·mm"},
	}
	for _, tt := range tests {
		if got, err := tt.of.parse(tt.in); err != nil || got != tt.want {
			t.Errorf("%s(%q) = %d, %v; want %d (%s)", tt.of.name, tt.in, got, err, tt.want, tt.src)
		}
	}
}

func TestParseQuantitiesErrors(t *testing.T) {
	const (
		mass   = "; write for example 350 g, 1.2 kg, 12 oz, 2.5 lb or 1 lb 9 oz"
		linear = "; write for example 120 g/m or 1.3 oz/ft"
		area   = "; write for example 20 ft2 or 1.9 m2"
		spring = "; write for example 6.5 Nmm/turn or 0.06 in-lb/turn"
	)
	tests := []struct {
		of       quantity
		in, want string
	}{
		{ofMass, "350", `mass "350" has no unit` + mass},
		{ofMass, "-350 g", `mass "-350 g" is not a number with a unit` + mass},
		{ofMass, "3 stone", `mass "3 stone" has the unknown unit "stone"` + mass},
		{ofMass, "1001 kg", `mass "1001 kg" is heavier than any shade; check the number and its unit`},
		{ofLinear, "120", `mass "120" has no unit` + linear},
		{ofLinear, "120 g", `mass "120 g" does not say per what length` + linear},
		{ofLinear, "1.3 oz", `mass "1.3 oz" does not say per what length` + linear},
		{ofLinear, "120 g/m2", `mass "120 g/m2" has the unknown unit "g/m2"` + linear},
		{ofLinear, "NaN g/m", `mass "NaN g/m" is not a number with a unit` + linear},
		{ofLinear, "101 kg/m", `mass "101 kg/m" is heavier than any slat; check the number and its unit`},
		{ofArea, "20", `area "20" has no unit` + area},
		{ofArea, "20 ft", `area "20 ft" has the unknown unit "ft"` + area},
		{ofArea, "10001 m2", `area "10001 m2" is larger than any opening; check the number and its unit`},
		{ofSpring, "6.5", `spring rate "6.5" has no unit` + spring},
		{ofSpring, "6.5 N", `spring rate "6.5 N" has the unknown unit "n"` + spring},
		{ofSpring, "6.5 Nm", `spring rate "6.5 Nm" has the unknown unit "nm"` + spring},
		{ofSpring, "9999999 Nmm", `spring rate "9999999 Nmm" is stiffer than any shade's spring; check the number and its unit`},
	}
	for _, tt := range tests {
		got, err := tt.of.parse(tt.in)
		var pe *ParseError
		if !errors.As(err, &pe) || err.Error() != tt.want {
			t.Errorf("%s(%q) = %d, error\n     %v\nwant %s", tt.of.name, tt.in, got, err, tt.want)
		}
	}
}

func TestQuantitiesInUse(t *testing.T) {
	// By hand: 120 g/m over 0.9 m is 108 g.
	if got := (120 * GramPerMetre).Of(900 * Millimetre); got != 108*Gram {
		t.Errorf("120 g/m over 900 mm = %g g; want 108", got.Grams())
	}
	if got := (120 * GramPerMetre).GramsPerMetre(); got != 120 {
		t.Errorf("GramsPerMetre() = %g; want 120", got)
	}
	if got := (6500 * NewtonMillimetre / 1000).NewtonMillimetres(); got != 6.5 {
		t.Errorf("NewtonMillimetres() = %g; want 6.5", got)
	}
}

// The reference is math/big.
func TestLinearMassAgainstBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := LinearMass(rapid.Int64Range(0, int64(100_000*GramPerMetre)).Draw(t, "m"))
		l := Length(rapid.Int64Range(0, int64(100*Metre)).Draw(t, "l"))
		if got, want := int64(m.Of(l)), nearest(int64(m), int64(l), int64(Metre)); got != want {
			t.Fatalf("(%d µg/m).Of(%d nm) = %d; math/big says %d", m, l, got, want)
		}
	})
}

func FuzzParseQuantities(f *testing.F) {
	for _, s := range []string{"350 g", "1,2 kg", "1.3 oz/ft", "20 ft2", "6.5 Nmm/turn", "", "-1 g", "1e9 kg"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, q := range []quantity{ofMass, ofLinear, ofArea, ofSpring} {
			v, err := q.parse(s)
			var pe *ParseError
			if err == nil && v < 0 || err != nil && !errors.As(err, &pe) {
				t.Fatalf("%s(%q) = %d, %v", q.name, s, v, err)
			}
		}
	})
}

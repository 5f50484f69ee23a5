package measure

import (
	"errors"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

func TestParseArealMass(t *testing.T) {
	const (
		ounce = "1 oz/yd² = 28.349523125 g / 0.83612736 m² = 33.9057475 g/m², by hand"
		duck  = "sizes.com, duck: a number is 19 less the ounces of 36 × 22 in; "
		sold  = "canvasmanusa.blogspot.com, cover cloth; × 33.9057475: "
	)
	tests := []struct {
		in   string
		want ArealMass // mg/m²
		src  string
	}{
		{"440 g/m2", 440_000, "by hand"},
		{"440g/m²", 440_000, "by hand"},
		{"440 gsm", 440_000, "by hand"},
		{" 440 G/M^2 ", 440_000, "by hand"},
		{"440 g / sq m", 440_000, "by hand"},
		{"440,5 g/m2", 440_500, "by hand"},
		{"1 oz/yd2", 33_906, ounce},
		{"18 oz/yd2", 610_303, ounce + " × 18 = 610.3 g/m²"},
		{"9.25 oz/yd²", 313_628, ounce + " × 9.25 = 313.6 g/m²"},
		{"9,25 oz/sq yd", 313_628, "the same with a comma"},
		{"21 oz/yd2", 712_021, "NFPA 701, scope of test method 1, prints 21 oz/yd² beside 700 g/m²: × 33.9057475 it is 712.0"},
		{"29.4545 oz/yd2", 998_677, duck + "no. 1 weighs 18 oz, 29.4545 oz/yd², 998.7 g/m²"},
		{"24.5455 oz/yd2", 832_234, duck + "no. 4 weighs 15 oz, 24.5455 oz/yd², 832.2 g/m²"},
		{"21.2727 oz/yd2", 721_267, duck + "no. 6 weighs 13 oz, 21.2727 oz/yd², 721.3 g/m²"},
		{"18.0000 oz/yd2", 610_303, duck + "no. 8 weighs 11 oz, 18 oz/yd², 610.3 g/m²"},
		{"14.7273 oz/yd2", 499_340, duck + "no. 10 weighs 9 oz, 14.7273 oz/yd², 499.3 g/m²"},
		{"11.4545 oz/yd2", 388_373, duck + "no. 12 weighs 7 oz, 11.4545 oz/yd², 388.4 g/m²"},
		{"11.5 oz/yd2", 389_916, "prernamagazine.com, cotton duck: no. 12 has 11.5 oz/yd²; × 33.9057475"},
		{"13 oz/yd2", 440_775, sold + "13 oz/yd²"},
		{"16 oz/yd2", 542_492, sold + "16 oz/yd²"},
		{"18 oz/yd2", 610_303, sold + "18 oz/yd², the standard"},
		{"0 g/m2", 0, "zero is a mass; the caller judges it"},
		{"010 g/m2", 10_000, "a leading zero changes nothing"},
	}
	for _, tt := range tests {
		got, err := ParseArealMass(tt.in)
		if err != nil || got != tt.want {
			t.Errorf("ParseArealMass(%q) = %d, %v; want %d mg/m² (%s)", tt.in, got, err, tt.want, tt.src)
		}
	}
}

func TestParseArealMassErrors(t *testing.T) {
	const fix = "; write for example 440 g/m2 or 13 oz/yd2"
	tests := []struct{ in, want string }{
		{"", `mass "" is not a number with a unit` + fix},
		{"heavy", `mass "heavy" is not a number with a unit` + fix},
		{"-4 g/m2", `mass "-4 g/m2" is not a number with a unit` + fix},
		{"440", `mass "440" has no unit` + fix},
		{"4.4.0 g/m2", `mass "4.4.0 g/m2" is not a number with a unit` + fix},
		{". g/m2", `mass ". g/m2" is not a number with a unit` + fix},
		{"1,2,34 g/m2", `mass "1,2,34 g/m2" is not a number with a unit` + fix},
		{"1,250 g/m2", `mass "1,250 g/m2" could mean thousands or decimals; write a point as the decimal mark, and no mark between thousands`},
		{"440 kg/m2", `mass "440 kg/m2" has the unknown unit "kg/m2"` + fix},
		{"13 oz", `mass "13 oz" does not say per what area; write oz/yd2 for ounces per square yard`},
		{"100001 g/m2", `mass "100001 g/m2" is heavier than any cloth; check the number and its unit`},
		{"999999999999 oz/yd2", `mass "999999999999 oz/yd2" is heavier than any cloth; check the number and its unit`},
		{"1234567890123 g/m2", `mass "1234567890123 g/m2" is not a number with a unit` + fix},
		{"1                                                           g/m2", `mass "1                                                           …" is too long` + fix},
	}
	for _, tt := range tests {
		got, err := ParseArealMass(tt.in)
		var pe *ParseError
		if !errors.As(err, &pe) || err.Error() != tt.want {
			t.Errorf("ParseArealMass(%q) = %d, error\n     %v\nwant %s", tt.in, got, err, tt.want)
		}
	}
}

func TestAreaAndMass(t *testing.T) {
	area := (850 * Millimetre).Times(1800 * Millimetre)
	if want := 1_530_000_000_000; int64(area) != int64(want) {
		t.Errorf("0.85 m × 1.80 m = %d µm²; want %d (1.53 m²)", area, want)
	}
	swatch := (100 * Millimetre).Times(100 * Millimetre)
	for _, tt := range []struct {
		mass ArealMass
		area Area
		want Mass
		src  string
	}{
		{540 * GramPerSquareMetre, area, 826_200 * Milligram, "teptext.com, screen of 540 g/m²: 0.85 × 1.80 m × 540 = 826.2 g"},
		{560 * GramPerSquareMetre, area, 856_800 * Milligram, "teptext.com, screen of 560 g/m²: 0.85 × 1.80 m × 560 = 856.8 g"},
		{540 * GramPerSquareMetre, swatch, 5_400 * Milligram, "ASTM D3776, option C, a swatch of 100 cm²: 0.01 m² × 540 = 5.40 g"},
	} {
		if got := tt.mass.Of(tt.area); got != tt.want {
			t.Errorf("mass = %d µg; want %d (%s)", got, tt.want, tt.src)
		}
	}
	if got := area.SquareMetres(); got != 1.53 {
		t.Errorf("area = %g m²; want 1.53", got)
	}
	if got := (826_200 * Milligram).Grams(); got != 826.2 {
		t.Errorf("mass = %g g; want 826.2", got)
	}
	if got := (-Inch).Times(Inch); got != -645_160_000 {
		t.Errorf("−1 in × 1 in = %d µm²; want −645160000 (25.4² mm²)", got)
	}
	if !panics(func() { (4000 * Metre).Times(4000 * Metre) }) {
		t.Error("an area of 16 km² does not panic")
	}
}

// The reference is math/big.
func TestProductsAgainstBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := lengths().Draw(t, "a")
		b := Length(rapid.Int64Range(-int64(100*Metre), int64(100*Metre)).Draw(t, "b"))
		if got, want := int64(a.Times(b)), nearest(int64(a), int64(b), 1_000_000); got != want {
			t.Fatalf("(%d nm).Times(%d nm) = %d; math/big says %d", a, b, got, want)
		}
		m := ArealMass(rapid.Int64Range(0, 100_000_000).Draw(t, "m"))
		area := Area(rapid.Int64Range(0, 10_000*int64(SquareMetre)).Draw(t, "area"))
		if got, want := int64(m.Of(area)), nearest(int64(m), int64(area), 1_000_000_000); got != want {
			t.Fatalf("(%d).Of(%d) = %d; math/big says %d", m, area, got, want)
		}
		f := Factor(rapid.Int64Range(900_000, 1_100_000).Draw(t, "f"))
		if got, want := int64(f.Of(a)), nearest(int64(f), int64(a), 1_000_000); got != want {
			t.Fatalf("Factor(%d).Of(%d nm) = %d; math/big says %d", f, a, got, want)
		}
	})
}

// nearest returns a·b/per to the nearest whole number, halves away from zero.
func nearest(a, b, per int64) int64 {
	p := new(big.Int).Mul(big.NewInt(a), big.NewInt(b))
	half := big.NewInt(per / 2)
	if p.Sign() < 0 {
		half.Neg(half)
	}
	return p.Quo(p.Add(p, half), big.NewInt(per)).Int64()
}

func TestParseFactor(t *testing.T) {
	for _, tt := range []struct {
		in   string
		want Factor
	}{{"1", One}, {"1.0031", 1_003_100}, {"0,9984", 998_400}, {"0.9999995", One}, {"1000", 1000 * One}} {
		if got, err := ParseFactor(tt.in); err != nil || got != tt.want {
			t.Errorf("ParseFactor(%q) = %d, %v; want %d millionths", tt.in, got, err, tt.want)
		}
	}
	for in, want := range map[string]string{
		"":      `factor "" is not a plain number; write for example 1.0031`,
		"1/2":   `factor "1/2" is not a plain number; write for example 1.0031`,
		"-1":    `factor "-1" is not a plain number; write for example 1.0031`,
		"1e3":   `factor "1e3" is not a plain number; write for example 1.0031`,
		"99 %":  `factor "99 %" is not a plain number; write for example 1.0031`,
		"1,0,0": `factor "1,0,0" is not a plain number; write for example 1.0031`,
		"1001":  `factor "1001" is too large; write for example 1.0031`,
	} {
		if got, err := ParseFactor(in); err == nil || err.Error() != want {
			t.Errorf("ParseFactor(%q) = %d, error\n     %v\nwant %s", in, got, err, want)
		}
	}
	// A printer that draws 100 mm as 99.7 mm: 100 / 99.7 = 1.003009.
	if got, want := Factor(1_003_009).Of(100*Millimetre), Length(100_300_900); got != want {
		t.Errorf("1.003009 × 100 mm = %d nm; want %d", got, want)
	}
	if got := Factor(1_003_100).Float(); got != 1.0031 {
		t.Errorf("Float() = %g; want 1.0031", got)
	}
}

// A scale in pounds shows whole pounds and the ounces that remain. 1 lb is 16 oz
// and 453.59237 g exactly (Federal Register, 1 July 1959), so 1 lb 9 oz is 25 oz,
// by hand 25 × 28.349523125 = 708.738078125 g.
func TestPoundsAndOunces(t *testing.T) {
	const want = 708_738_078 * Microgram
	for _, in := range []string{"1 lb 9 oz", "1lb 9oz", "1 lb. 9 oz.", "1 lbs, 9 oz", "1 LB 9 OZ", "25 oz", "1lb9oz"} {
		if got, err := ParseMass(in); err != nil || got != want {
			t.Errorf("ParseMass(%q) = %d µg, %v; want %d", in, got, err, want)
		}
	}
	// 2 lb 3.5 oz = 35.5 oz: 35.5 × 28.349523125 = 1006.4080709375 g.
	if got, err := ParseMass("2 lb 3.5 oz"); err != nil || got != 1_006_408_071*Microgram {
		t.Errorf("ParseMass(2 lb 3.5 oz) = %d µg, %v; want 1006408071", got, err)
	}
	for in, want := range map[string]string{
		"1 lb 9":      `mass "1 lb 9" has something other than ounces after the pounds; write for example 1 lb 9 oz`,
		"1 lb 9 g":    `mass "1 lb 9 g" has something other than ounces after the pounds; write for example 1 lb 9 oz`,
		"1.5 lb 9 oz": `mass "1.5 lb 9 oz" has a fraction of a pound before the ounces; write for example 1 lb 9 oz`,
		"1 lb 16 oz":  `mass "1 lb 16 oz" has 16 ounces or more after the pounds; write for example 1 lb 9 oz`,
		"1 lb 9.. oz": `mass "1 lb 9.. oz" has ounces that are not a number; write for example 1 lb 9 oz`,
	} {
		if got, err := ParseMass(in); err == nil || err.Error() != want {
			t.Errorf("ParseMass(%q) = %d, error\n     %v\nwant %s", in, got, err, want)
		}
	}
}

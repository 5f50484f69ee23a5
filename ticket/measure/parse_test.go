package measure

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// sixteenth is 25.4 mm / 16 in nanometres, by hand: 1.5875 mm.
const sixteenth = 1_587_500

func TestParse(t *testing.T) {
	const (
		byHand   = "by hand at 25.4 mm to the inch (Federal Register, 1 July 1959)"
		decimals = "onlineconversion.com, table of decimals: "
	)
	tests := []struct {
		in   string
		bare System
		want Length
		src  string
	}{
		// Inches and fractions.
		{"1 in", Undeclared, 25_400_000, "yard 0.9144 m exactly, Federal Register, 1 July 1959; / 36"},
		{"1 yd", Undeclared, 914_400_000, "the same"},
		{"12-1/2", Inches, 317_500_000, "12.5 × 25.4 mm = 317.5 mm; 12 less 1/2 would be 11.5"},
		{"12 - 1/2", Inches, 317_500_000, "the same with blanks"},
		{"1/64", Inches, 396_875, "25.4 mm / 64 = 0.396875 mm"},
		{"1/32", Inches, 793_750, "25.4 mm / 32 = 0.79375 mm"},
		{"1/16", Inches, 1_587_500, "25.4 mm / 16 = 1.5875 mm"},
		{"1/8", Inches, 3_175_000, "25.4 mm / 8 = 3.175 mm"},
		{"3/16", Inches, 4_762_500, byHand},
		{"1/4", Inches, 6_350_000, byHand},
		{"3/8", Inches, 9_525_000, byHand},
		{"7/16", Inches, 11_112_500, byHand},
		{"1/2", Inches, 12_700_000, byHand},
		{"9/16", Inches, 14_287_500, byHand},
		{"5/8", Inches, 15_875_000, byHand},
		{"3/4", Inches, 19_050_000, byHand},
		{"7/8", Inches, 22_225_000, byHand},
		{"0.0625", Inches, 1 * sixteenth, decimals + "1/16"},
		{"0.125", Inches, 2 * sixteenth, decimals + "1/8"},
		{"0.1875", Inches, 3 * sixteenth, decimals + "3/16"},
		{"0.25", Inches, 4 * sixteenth, decimals + "1/4"},
		{"0.3125", Inches, 5 * sixteenth, decimals + "5/16"},
		{"0.375", Inches, 6 * sixteenth, decimals + "3/8"},
		{"0.4375", Inches, 7 * sixteenth, decimals + "7/16"},
		{"0.5", Inches, 8 * sixteenth, decimals + "1/2"},
		{"0.5625", Inches, 9 * sixteenth, decimals + "9/16"},
		{"0.625", Inches, 10 * sixteenth, decimals + "5/8"},
		{"0.6875", Inches, 11 * sixteenth, decimals + "11/16"},
		{"0.75", Inches, 12 * sixteenth, decimals + "3/4"},
		{"0.8125", Inches, 13 * sixteenth, decimals + "13/16"},
		{"0.875", Inches, 14 * sixteenth, decimals + "7/8"},
		{"0.9375", Inches, 15 * sixteenth, decimals + "15/16"},
		{"08/16", Inches, 12_700_000, "a leading zero changes nothing: 8/16 = 1/2"},
		{"010/16", Inches, 15_875_000, "10/16 = 5/8, and not octal"},
		{"007 3/4", Inches, 196_850_000, "7.75 × 25.4 mm"},

		// Every way of writing 31-5/8 in: 31.625 × 25.4 mm = 803.275 mm.
		{"31 5/8", Inches, 803_275_000, byHand},
		{"31-5/8", Inches, 803_275_000, byHand},
		{"31 - 5/8", Inches, 803_275_000, byHand},
		{"31–5/8", Inches, 803_275_000, byHand + ", en dash"},
		{"31⅝", Inches, 803_275_000, byHand},
		{"31 ⅝", Inches, 803_275_000, byHand},
		{"31-⅝", Inches, 803_275_000, byHand},
		{"31⁵⁄₈", Inches, 803_275_000, byHand + ", raised and lowered digits"},
		{"31 5⁄8", Inches, 803_275_000, byHand + ", fraction slash"},
		{"31 10/16", Inches, 803_275_000, byHand + ", not in lowest terms"},
		{"31.625", Inches, 803_275_000, byHand},
		{"31,62", Inches, 803_148_000, "31.62 × 25.4 mm"},
		{"31 5/8 in", Millimetres, 803_275_000, byHand},
		{"31 5/8in", Undeclared, 803_275_000, byHand},
		{"31 5/8 IN.", Undeclared, 803_275_000, byHand},
		{"31 5/8 inches", Undeclared, 803_275_000, byHand},
		{`31 5/8"`, Undeclared, 803_275_000, byHand},
		{"31 5/8″", Undeclared, 803_275_000, byHand},
		{"31 5/8”", Undeclared, 803_275_000, byHand},
		{"31 5/8''", Undeclared, 803_275_000, byHand},
		{"\u00a031\u20095/8\u202fin ", Undeclared, 803_275_000, byHand + ", unbreakable and thin blanks"},
		{`2' 7 5/8"`, Millimetres, 803_275_000, "24 + 7.625 in"},
		{`2'-7 5/8"`, Millimetres, 803_275_000, "the same"},
		{`2' - 7-5/8"`, Undeclared, 803_275_000, "the same"},
		{`2’ 7⅝”`, Undeclared, 803_275_000, "the same, curly marks"},
		{`2‘ 7⅝`, Undeclared, 803_275_000, "the same, the mark many keyboards make"},
		{"2′ 7 5/8″", Undeclared, 803_275_000, "the same, primes"},
		{"2' 7 5/8", Undeclared, 803_275_000, "the same, without the inch mark"},
		{"2 ft 7 5/8 in", Undeclared, 803_275_000, "the same"},
		{"2ft7.625in", Undeclared, 803_275_000, "the same"},
		{"2 FEET 7 5/8 INCHES", Undeclared, 803_275_000, "the same"},
		{"+31 5/8", Inches, 803_275_000, byHand},
		{"-31 5/8", Inches, -803_275_000, byHand + "; the caller judges the sign"},
		{"−31⅝", Inches, -803_275_000, byHand + ", minus sign"},
		{`-2' 7 5/8"`, Inches, -803_275_000, "the sign applies to the whole length"},

		// Feet and yards.
		{"4'", Undeclared, 1_219_200_000, "4 × 0.3048 m"},
		{"3 1/2 ft", Undeclared, 1_066_800_000, "42 in"},
		{"0' 7\"", Undeclared, 177_800_000, "7 in"},
		{"1 1/2 yards", Undeclared, 1_371_600_000, "54 in"},

		// Metric.
		{"803 mm", Inches, 803_000_000, "by hand"},
		{"80.3 cm", Inches, 803_000_000, "by hand"},
		{"0.803 m", Inches, 803_000_000, "by hand"},
		{"0.803m", Undeclared, 803_000_000, "by hand"},
		{"803", Millimetres, 803_000_000, "by hand"},
		{"803,5", Millimetres, 803_500_000, "by hand"},
		{"0,375 mm", Undeclared, 375_000, "three digits after a zero can only be a decimal"},
		{".5 mm", Undeclared, 500_000, "by hand"},
		{",5", Millimetres, 500_000, "by hand"},
		{"2 millimetres", Undeclared, 2_000_000, "by hand"},
		{"2 millimeters", Undeclared, 2_000_000, "by hand"},
		{"2 centimetres", Undeclared, 20_000_000, "by hand"},
		{"2 metres", Undeclared, 2_000_000_000, "by hand"},
		{"0", Inches, 0, "zero is a length; the caller judges it"},

		// Paper (ISO 216; 25.4 mm to the inch for letter and legal).
		{"8.5 in", Undeclared, 215_900_000, "8.5 × 25.4 = 215.9"},
		{"11 in", Undeclared, 279_400_000, "letter is 279.4 mm high, the same"},
		{"14 in", Undeclared, 355_600_000, "legal is 355.6 mm high, the same"},
		{"17 in", Undeclared, 431_800_000, "tabloid is 431.8 mm high, the same"},
		{"210mm", Undeclared, 210_000_000, "ISO 216, A4 width"},
		{"29.7 cm", Undeclared, 297_000_000, "ISO 216, A4 height"},

		// Rounded to the nearest nanometre.
		{"0.0000004 mm", Undeclared, 0, "0.4 nm goes down"},
		{"0.0000005 mm", Undeclared, 1, "half a nanometre goes up"},
		{"-0.0000005 mm", Undeclared, -1, "and away from zero"},
		{"0.00000001 in", Undeclared, 0, "0.254 nm"},
		{"0.000000019 in", Undeclared, 0, "0.4826 nm"},
		{"0.00000002 in", Undeclared, 1, "0.508 nm"},
		{"1000 m", Undeclared, Longest, "the greatest length accepted"},
	}
	for _, tt := range tests {
		got, err := Parse(tt.in, tt.bare)
		if err != nil || got != tt.want {
			t.Errorf("Parse(%q, %s) = %d nm, %v; want %d nm (%s)", tt.in, tt.bare, got, err, tt.want, tt.src)
		}
	}
}

func TestParseErrors(t *testing.T) {
	forms := `; write for example 31-5/8, 31.625, 31 5/8 in, 2' 7 5/8", 803 mm or 80.3 cm`
	fraction := "; use halves, quarters, eighths, 16ths, 32nds or 64ths, for example 31-5/8, or a decimal"
	tests := []struct {
		in   string
		bare System
		want string
	}{
		{"", Inches, `length "" is empty` + forms},
		{"   ", Inches, `length "   " is empty` + forms},
		{"960", Undeclared, `length "960" has no unit; add mm, cm or in, for example 960 mm`},
		{"six", Inches, `length "six" is missing a number` + forms},
		{"NaN", Inches, `length "NaN" is missing a number` + forms},
		{"-", Inches, `length "-" is missing a number` + forms},
		{"--4", Inches, `length "--4" is missing a number` + forms},
		{"/4", Inches, `length "/4" is missing a number` + forms},
		{"4.", Inches, `length "4." ends at the decimal mark` + forms},
		{".", Inches, `length "." ends at the decimal mark` + forms},
		{"1e3", Inches, `length "1e3" has the unknown unit "e"; use in, ft, yd, mm, cm or m`},
		{"0x10", Inches, `length "0x10" has the unknown unit "x"; use in, ft, yd, mm, cm or m`},
		{"3O", Inches, `length "3O" has the letter "o", perhaps meant as a digit; write 0 or 1, or use in, ft, yd, mm, cm or m`},
		{"4l in", Inches, `length "4l in" has the letter "l", perhaps meant as a digit; write 0 or 1, or use in, ft, yd, mm, cm or m`},
		{"12 pt", Inches, `length "12 pt" has the unknown unit "pt"; use in, ft, yd, mm, cm or m`},
		{"12 mm mm", Inches, `length "12 mm mm" has more text after "mm"` + forms},
		{"1 m 11 cm", Inches, `length "1 m 11 cm" has more text after "m"` + forms},
		{`7" 3'`, Inches, `length "7\" 3'" has more text after "\""` + forms},
		{"31 62", Inches, `length "31 62" has two numbers in a row` + forms},
		{"1 234 mm", Inches, `length "1 234 mm" has two numbers in a row` + forms},
		{"31-62", Inches, `length "31-62" has two numbers in a row` + forms},
		{"31²", Inches, `length "31²" has two numbers in a row` + forms},
		{"4₃", Inches, `length "4₃" has two numbers in a row` + forms},
		{"1.234,5", Inches, `length "1.234,5" has more than one decimal mark or a fraction after a decimal` + forms},
		{"1.5.2", Inches, `length "1.5.2" has more than one decimal mark or a fraction after a decimal` + forms},
		{"1.5/2", Inches, `length "1.5/2" has more than one decimal mark or a fraction after a decimal` + forms},
		{"1,234", Millimetres, `length "1,234" could mean thousands or decimals; write 1234 or 1.234`},
		{"1.0000000000001", Inches, `length "1.0000000000001" has more decimals than can be measured; round it to a hundredth of a millimetre`},
		{"1/3", Inches, `length "1/3" has a fraction with the denominator 3, which no tape shows` + fraction},
		{"5 ⅓", Inches, `length "5 ⅓" has a fraction with the denominator 3, which no tape shows` + fraction},
		{"1/0", Inches, `length "1/0" has a fraction with the denominator 0, which no tape shows` + fraction},
		{"1/", Inches, `length "1/" has a fraction without a denominator` + fraction},
		{"31 9/8", Inches, `length "31 9/8" has a fraction that is not less than one` + fraction},
		{"1234567/8", Inches, `length "1234567/8" has a fraction with too many digits` + fraction},
		{"31 5/8", Millimetres, `length "31 5/8" is a fraction of a metric unit; write a decimal, for example 803.5 mm, or add in if it means inches`},
		{"3/4 m", Inches, `length "3/4 m" is a fraction of a metric unit; write a decimal, for example 803.5 mm, or add in if it means inches`},
		{"1/2 cm", Inches, `length "1/2 cm" is a fraction of a metric unit; write a decimal, for example 803.5 mm, or add in if it means inches`},
		{"3.5' 6\"", Inches, `length "3.5' 6\"" has a fraction of a foot before the inches` + forms},
		{`3' 12"`, Inches, `length "3' 12\"" has 12 inches or more after the feet; write them as feet, or write the whole length in inches`},
		{"3 ft 7", Inches, `length "3 ft 7" has inches without a unit; write for example 2 ft 7 5/8 in`},
		{"3' 7 mm", Inches, `length "3' 7 mm" has something other than inches after the feet; write for example 2' 7 5/8" or 2 ft 7 5/8 in`},
		{"3' 7\" 2", Inches, `length "3' 7\" 2" has something other than inches after the feet; write for example 2' 7 5/8" or 2 ft 7 5/8 in`},
		{"3' x", Inches, `length "3' x" is missing a number` + forms},
		{"3' 7 x", Inches, `length "3' 7 x" has the unknown unit "x"; use in, ft, yd, mm, cm or m`},
		{"31 /8", Inches, `length "31 /8" has "/" in place of a unit` + forms},
		{"1001 m", Inches, `length "1001 m" is longer than any cloth; check the number and its unit`},
		{"1234567890123", Inches, `length "1234567890123" is longer than any cloth; check the number and its unit`},
		{"\xff\xfe", Inches, `length "\xff\xfe" is not text` + forms},
		{strings.Repeat("9", 300), Inches, `length "` + strings.Repeat("9", 60) + `…" is too long` + forms},
		{strings.Repeat("é", 100), Inches, `length "` + strings.Repeat("é", 60) + `…" is missing a number` + forms},
	}
	for _, tt := range tests {
		got, err := Parse(tt.in, tt.bare)
		if err == nil || err.Error() != tt.want {
			t.Errorf("Parse(%q, %s) = %v, error\n     %v\nwant %s", tt.in, tt.bare, got, err, tt.want)
		}
		var pe *ParseError
		if !errors.As(err, &pe) {
			t.Errorf("Parse(%q, %s) error is a %T; want a *ParseError", tt.in, tt.bare, err)
		}
	}
}

// lengths draws any length that Parse accepts.
func lengths() *rapid.Generator[Length] {
	return rapid.Custom(func(t *rapid.T) Length {
		if rapid.Bool().Draw(t, "on the tape") {
			return Length(rapid.Int64Range(-2_000_000, 2_000_000).Draw(t, "64ths")) * (Inch / 64)
		}
		return Length(rapid.Int64Range(-int64(Longest), int64(Longest)).Draw(t, "nm"))
	})
}

func TestExactComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := lengths().Draw(t, "l")
		for _, s := range []System{Inches, Millimetres} {
			text := l.Exact(s)
			for _, bare := range []System{Undeclared, Inches, Millimetres} {
				if got, err := Parse(text, bare); err != nil || got != l {
					t.Fatalf("Parse(%q, %s) = %d nm, %v; want %d nm", text, bare, got, err, l)
				}
			}
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"31 5/8", `2'-7⅝"`, "08/16", "31⁵⁄₈", "803,5 mm", "0.803 m", "-0", "1/3", "\xff", "3 ft 7", "½½", "1 yd 2", "9999999999999"} {
		f.Add(s, byte(1))
		f.Add(s, byte(0))
	}
	f.Fuzz(func(t *testing.T, text string, bare byte) {
		s := System(bare % 3)
		l, err := Parse(text, s)
		if err != nil {
			var pe *ParseError
			if !errors.As(err, &pe) || pe.Problem == "" || pe.Fix == "" {
				t.Fatalf("Parse(%q, %s) error %v says too little", text, s, err)
			}
			return
		}
		if l.Abs() > Longest {
			t.Fatalf("Parse(%q, %s) = %s, longer than Longest", text, s, l)
		}
		for _, in := range []System{Inches, Millimetres} {
			if again, err := Parse(l.Exact(in), s); err != nil || again != l {
				t.Fatalf("Parse(%q, %s) = %d nm; as %q it comes back as %d nm, %v", text, s, l, l.Exact(in), again, err)
			}
		}
	})
}

func BenchmarkParse(b *testing.B) {
	for _, text := range []string{"31 5/8", `2' 7 5/8"`, "803.5 mm", "27"} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Parse(text, Inches); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

package measure

import "testing"

func TestFormat(t *testing.T) {
	in := func(den int) Style { return Style{System: Inches, Denominator: den, Metric: 500 * Micrometre} }
	mm := Style{System: Millimetres, Denominator: 16, Metric: 500 * Micrometre}
	comma := mm
	comma.Comma = true
	tests := []struct {
		style   Style
		l       Length
		want    string
		rounded bool
		src     string
	}{
		{in(16), 500 * Millimetre, "19-11/16 in", true, "unitcvt.codeplex.com, discussion 219997: 500 mm is 19.68504 in, 19-11/16; 44/64 must reduce"},
		{in(64), 500 * Millimetre, "19-11/16 in", true, "unitcvt.codeplex.com, discussion 219997, from 64ths"},
		{in(64), 4 * Inch / 10, "13/32 in", true, "homemadetools.net, topic 81577: 0.400 in is 26/64, 13/32"},
		{in(32), 730185 * Inch / 10000, "73-1/32 in", true, "by hand: 0.0185 in × 32 = 0.592, to the nearest 1"},
		{in(8), 845 * Millimetre, "33-1/4 in", true, "845 / 25.4 = 33.2677; 0.2677 × 8 = 2.14"},
		{in(16), 845 * Millimetre, "33-1/4 in", true, "0.2677 × 16 = 4.28"},
		{in(32), 845 * Millimetre, "33-9/32 in", true, "0.2677 × 32 = 8.57"},
		{in(8), 900 * Millimetre, "35-3/8 in", true, "900 / 25.4 = 35.4331; 0.4331 × 8 = 3.46"},
		{in(16), 900 * Millimetre, "35-7/16 in", true, "0.4331 × 16 = 6.93"},
		{in(32), 900 * Millimetre, "35-7/16 in", true, "0.4331 × 32 = 13.86"},
		{in(8), 1000 * Millimetre, "39-3/8 in", true, "1000 / 25.4 = 39.3701; 0.3701 × 8 = 2.96"},
		{in(32), 1000 * Millimetre, "39-3/8 in", true, "0.3701 × 32 = 11.84"},
		{in(8), 610 * Millimetre, "24 in", true, "610 / 25.4 = 24.0157; 0.0157 × 8 = 0.13"},
		{in(32), 610 * Millimetre, "24-1/32 in", true, "0.01575 × 32 = 0.504"},
		{in(8), 297 * Millimetre, "11-3/4 in", true, "297 / 25.4 = 11.6929; 0.6929 × 8 = 5.54"},
		{in(16), 297 * Millimetre, "11-11/16 in", true, "0.6929 × 16 = 11.09"},
		{in(16), 863_600 * Micrometre, "34 in", false, "34 × 25.4 = 863.6"},
		{in(16), 31*Inch + 5*Inch/8, "31-5/8 in", false, "whole, hyphen, fraction in lowest terms: common drawing practice, no source"},
		{in(16), Inch / 2, "1/2 in", false, "no zero before a fraction: the same"},
		{in(16), 0, "0 in", false, "no 0/16: the same"},
		{in(16), 15*Inch/16 + Inch/32, "1 in", true, "no 16/16: the same"},
		{in(16), -31*Inch - 5*Inch/8, "−31-5/8 in", false, "a minus sign, U+2212"},
		{mm, 803_250 * Micrometre, "803.5 mm", true, "by hand: half a step goes up"},
		{mm, 803 * Millimetre, "803 mm", false, "by hand"},
		{comma, 803_500 * Micrometre, "803,5 mm", false, "by hand"},
		{mm, -500 * Micrometre, "−0.5 mm", false, "by hand"},
		{Usual(Inches), Inch / 16, "1/16 in", false, "the usual step"},
		{Usual(Millimetres), 500 * Micrometre, "0.5 mm", false, "the usual step"},
	}
	for _, tt := range tests {
		w := tt.style.Words(tt.l, Nearest)
		if w.String() != tt.want || w.Rounded != tt.rounded {
			t.Errorf("%+v.Words(%s) = %q, rounded %t; want %q, %t (%s)", tt.style, tt.l, w, w.Rounded, tt.want, tt.rounded, tt.src)
		}
		if got := tt.style.Format(tt.l); got != tt.want {
			t.Errorf("%+v.Format(%s) = %q; want %q", tt.style, tt.l, got, tt.want)
		}
	}
}

func TestMetres(t *testing.T) {
	comma := Usual(Millimetres)
	comma.Comma = true
	for _, tt := range []struct {
		style Style
		l     Length
		r     Rounding
		want  string
	}{
		{Usual(Inches), 4130 * Millimetre, Up, "4.2 m"}, // by hand, as are all cases here
		{Usual(Inches), 4190 * Millimetre, Down, "4.1 m"},
		{Usual(Inches), 50 * Metre, Nearest, "50 m"},
		{comma, 4130 * Millimetre, Up, "4,2 m"},
		{comma, 0, Up, "0 m"},
	} {
		if got := tt.style.Metres(tt.l, tt.r); got != tt.want {
			t.Errorf("Metres(%s) = %q; want %q", tt.l, got, tt.want)
		}
	}
}

// A list must not separate its numbers with their decimal mark.
func TestBetween(t *testing.T) {
	if got := (Style{}).Between(); got != ", " {
		t.Errorf("with a decimal point, %q separates numbers", got)
	}
	if got := (Style{Comma: true}).Between(); got != "; " {
		t.Errorf("with a decimal comma, %q separates numbers; want a semicolon (Ortografía de la lengua española, 2010)", got)
	}
}

func TestDecimal(t *testing.T) {
	comma := Style{Comma: true}
	for _, tt := range []struct {
		style  Style
		v      float64
		places int
		want   string
	}{
		{Style{}, 12.345, 1, "12.3"}, // by hand, as are all cases here
		{comma, 12.346, 2, "12,35"},
		{comma, 7, 0, "7"},
		{Style{}, -0.004, 2, "0.00"},
		{Style{}, -0.04, 1, "0.0"},
		{comma, -0.6, 1, "-0,6"},
	} {
		if got := tt.style.Decimal(tt.v, tt.places); got != tt.want {
			t.Errorf("Decimal(%v, %d) = %q; want %q", tt.v, tt.places, got, tt.want)
		}
	}
}

func TestExact(t *testing.T) {
	for _, tt := range []struct {
		l    Length
		s    System
		want string
	}{
		{31*Inch + 5*Inch/8, Inches, "31-5/8 in"},
		{-Inch / 64, Inches, "-1/64 in"},
		{198_437, Inches, "0.198437 mm"}, // near 1/128 in, which no tape shows
		{6 * Millimetre, Inches, "6 mm"},
		{Inch, Millimetres, "25.4 mm"},
		{1, Millimetres, "0.000001 mm"},
		{Longest, Millimetres, "1000000 mm"},
	} {
		if got := tt.l.Exact(tt.s); got != tt.want {
			t.Errorf("Length(%d).Exact(%s) = %q; want %q", tt.l, tt.s, got, tt.want)
		}
	}
}

func TestSystemWords(t *testing.T) {
	for s, want := range map[System]string{Undeclared: "undeclared", Inches: "in", Millimetres: "mm"} {
		if got := s.String(); got != want {
			t.Errorf("System(%d).String() = %q; want %q", s, got, want)
		}
	}
}

// Fine does not write a length below the style's step as zero.
func TestStyleFine(t *testing.T) {
	for _, tt := range []struct {
		system System
		l      Length
		want   string
	}{ // by hand: 508 µm is 0.508 / 25.4 in
		{Inches, 508 * Micrometre, "0.020 in"},
		{Millimetres, 80 * Micrometre, "0.08 mm"},
		{Millimetres, 500 * Micrometre, "0.5 mm"},
		{Inches, 0, "0 in"},
	} {
		if got := Usual(tt.system).Fine(tt.l); got != tt.want {
			t.Errorf("Fine(%v) in %v = %q; want %q", tt.l, tt.system, got, tt.want)
		}
	}
}

func BenchmarkFormat(b *testing.B) {
	s := Usual(Inches)
	b.ReportAllocs()
	for b.Loop() {
		_ = s.Format(31*Inch + 5*Inch/8)
	}
}

// Exact rounds nothing and uses the style's decimal mark.
func TestStyleExact(t *testing.T) {
	for _, tt := range []struct {
		style Style
		l     Length
		want  string
	}{ // by hand: 48-3/4 × 25.4 = 1238.25; 33/64 is 0.515625
		{Style{System: Millimetres, Comma: true}, 1238*Millimetre + 250*Micrometre, "1238,25 mm"},
		{Style{System: Millimetres}, 1238*Millimetre + 250*Micrometre, "1238.25 mm"},
		{Style{System: Inches, Comma: true}, 27*Inch + 33*Inch/64, "27-33/64 in"},
		{Style{System: Inches, Comma: true}, 100 * Micrometre, "0,1 mm"},
	} {
		if got := tt.style.Exact(tt.l); got != tt.want {
			t.Errorf("Exact(%v) in %+v = %q; want %q", tt.l, tt.style, got, tt.want)
		}
	}
}

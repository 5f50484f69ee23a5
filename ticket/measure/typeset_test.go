package measure

import "testing"

// By hand: U+2044 between the figures, U+2009 before them, U+00A0 before the unit.
func TestTypeset(t *testing.T) {
	for _, c := range []struct {
		l     Length
		style Style
		want  string
	}{
		{31*Inch + 5*Inch/8, Usual(Inches), "31\u20095\u20448\u00a0in"},
		{Inch / 2, Usual(Inches), "1\u20442\u00a0in"},
		{31 * Inch, Usual(Inches), "31\u00a0in"},
		{0, Usual(Inches), "0\u00a0in"},
		{-Inch / 8, Usual(Inches), "−1\u20448\u00a0in"},
		{803*Millimetre + Millimetre/2, Usual(Millimetres), "803.5\u00a0mm"},
	} {
		w := c.style.Words(c.l, Nearest)
		if got := w.Typeset(); got != c.want {
			t.Errorf("Typeset of %v = %q; want %q", c.l, got, c.want)
		}
		if back, err := Parse(w.Typeset(), Undeclared); err != nil || back != c.l {
			t.Errorf("Parse(%q) = %v, %v; want %v", w.Typeset(), back, err, c.l)
		}
	}
}

// Rounded words have ≈ before them: 1/32 in is half a sixteenth, by hand.
func TestNear(t *testing.T) {
	st := Usual(Inches)
	exact, between := st.Words(27*Inch+Inch/2, Nearest), st.Words(48*Inch+Inch/32, Down)
	for _, tt := range []struct{ got, want string }{
		{exact.Spoken(), "27-1/2 in"},
		{between.Spoken(), "≈ 48 in"},
		{exact.Printed(), "27\u20091\u20442\u00a0in"},
		{between.Printed(), "≈\u00a048\u00a0in"},
		{exact.SpokenBy(exact), "27-1/2 × 27-1/2 in"},
		{exact.SpokenBy(between), "≈ 27-1/2 × 48 in"},
		{between.SpokenBy(exact), "≈ 48 × 27-1/2 in"},
		{between.PrintedBy(exact), "≈\u00a048 × 27\u20091\u20442\u00a0in"},
	} {
		if tt.got != tt.want {
			t.Errorf("got %q; want %q", tt.got, tt.want)
		}
	}
}

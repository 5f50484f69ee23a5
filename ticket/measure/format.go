package measure

import (
	"strconv"
	"strings"
)

// A Style says how to write lengths: in which unit, and to the finest mark of the
// shop's rule.
type Style struct {
	System      System
	Denominator int    // of an inch: 8, 16, 32 or 64
	Metric      Length // step of metric lengths, for example 500 µm
	Comma       bool   // write decimals with a comma
}

// Usual returns the style that most shops use: sixteenths of an inch, or half
// millimetres.
func Usual(s System) Style {
	return Style{System: s, Denominator: 16, Metric: 500 * Micrometre}
}

// Other returns the usual style for the other system, with the decimal mark of s.
func (s Style) Other() Style {
	system := Millimetres
	if s.System == Millimetres {
		system = Inches
	}
	other := Usual(system)
	other.Comma = s.Comma
	return other
}

// Step returns the smallest length that the style can show.
func (s Style) Step() Length {
	if s.System == Millimetres {
		return s.Metric
	}
	return Inch / Length(s.Denominator)
}

// Words is a length, split into the parts that are typeset. Whole is empty if there
// is only a fraction ("3/4"); Num and Den are empty if there is no fraction.
type Words struct {
	Sign, Whole, Num, Den, Unit string
	Rounded                     bool // the words differ from the exact length
}

// String returns the words on one line: "31-5/8 in", "803.5 mm".
func (w Words) String() string {
	n := w.Sign + w.Whole
	if w.Num != "" {
		if w.Whole != "" {
			n += "-"
		}
		n += w.Num + "/" + w.Den
	}
	return n + " " + w.Unit
}

// Typeset returns the words for a page that typesets fractions: the digits stand on
// both sides of a fraction slash (U+2044). A thin space (U+2009) separates a whole
// number from its fraction, and a no-break space keeps the unit on the line.
func (w Words) Typeset() string {
	n := w.Sign + w.Whole
	if w.Num != "" {
		if w.Whole != "" {
			n += "\u2009"
		}
		n += w.Num + "\u2044" + w.Den
	}
	return n + "\u00a0" + w.Unit
}

// Spoken returns the words on one line, with ≈ before them if they are rounded.
func (w Words) Spoken() string { return w.near(" ", w.String()) }

// Printed returns the typeset words, with ≈ before them if they are rounded.
func (w Words) Printed() string { return w.near("\u00a0", w.Typeset()) }

// SpokenBy returns a size on one line with its unit once: "27-1/2 × 48-3/4 in".
func (w Words) SpokenBy(l Words) string {
	l.Rounded = l.Rounded || w.Rounded
	return l.near(" ", strings.TrimSuffix(w.String(), " "+w.Unit)+" × "+l.String())
}

// PrintedBy returns a size as SpokenBy does, but typeset.
func (w Words) PrintedBy(l Words) string {
	l.Rounded = l.Rounded || w.Rounded
	return l.near("\u00a0", strings.TrimSuffix(w.Typeset(), "\u00a0"+w.Unit)+" × "+l.Typeset())
}

// near puts ≈ and a space before rounded words.
func (w Words) near(space, words string) string {
	if w.Rounded {
		return "≈" + space + words
	}
	return words
}

// Fine writes a small length without rounding it to zero: in the style's step if
// the length is at least one step, else as a decimal.
func (s Style) Fine(l Length) string {
	if l.Abs() >= s.Step() || l == 0 {
		return s.Format(l)
	}
	if s.System == Inches {
		return s.Decimal(l.Inches(), 3) + " in"
	}
	return s.Decimal(l.Millimetres(), 2) + " mm"
}

// Words writes l, rounded as r says to the style's step.
func (s Style) Words(l Length, r Rounding) Words {
	v := l.Round(s.Step(), r)
	w := Words{Rounded: v != l}
	if v < 0 {
		w.Sign, v = "−", -v
	}
	if s.System == Millimetres {
		w.Unit = "mm"
		w.Whole = s.mark(strconv.FormatFloat(v.Millimetres(), 'f', -1, 64))
		return w
	}
	w.Unit = "in"
	den := int64(s.Denominator)
	parts := int64(v / s.Step())
	whole, num := parts/den, parts%den
	for num != 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	if whole != 0 || num == 0 {
		w.Whole = strconv.FormatInt(whole, 10)
	}
	if num != 0 {
		w.Num, w.Den = strconv.FormatInt(num, 10), strconv.FormatInt(den, 10)
	}
	return w
}

// Format is Words(l, Nearest).String().
func (s Style) Format(l Length) string { return s.Words(l, Nearest).String() }

// Apart writes two lengths that a sentence compares. They read the same only if they are
// the same: where the style's step makes them equal, both are written to a hundredth of a
// millimetre or a thousandth of an inch, or else exactly.
func (s Style) Apart(a, b Length) (string, string) {
	x, y := s.Format(a), s.Format(b)
	if x != y || a == b {
		return x, y
	}
	decimal := func(l Length) string { return s.Decimal(l.Millimetres(), 2) + " mm" }
	if s.System == Inches {
		decimal = func(l Length) string { return s.Decimal(l.Inches(), 3) + " in" }
	}
	if x, y = decimal(a), decimal(b); x != y {
		return x, y
	}
	return s.Exact(a), s.Exact(b)
}

// AtLeast writes a length rounded up to the style's step, for advice on the least that
// would do.
func (s Style) AtLeast(l Length) string { return s.Words(l, Up).String() }

// AtMost writes a length rounded down to the style's step, for advice on the most that
// would do.
func (s Style) AtMost(l Length) string { return s.Words(l, Down).String() }

// Metres writes l in tenths of a metre, the unit in which tape and thread are sold,
// rounded as r says: "12.5 m", "50 m".
func (s Style) Metres(l Length, r Rounding) string {
	return s.mark(strconv.FormatFloat(l.Round(Metre/10, r).Metres(), 'f', -1, 64)) + " m"
}

// Decimal writes a number with the given decimal places and the style's decimal
// mark. A result of zero has no minus sign.
func (s Style) Decimal(v float64, places int) string {
	dec := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Trim(dec, "-0.") == "" {
		dec = strings.TrimPrefix(dec, "-")
	}
	return s.mark(dec)
}

// Exact writes l without rounding, as [Length.Exact] does, with the style's decimal
// mark.
func (s Style) Exact(l Length) string { return s.mark(l.Exact(s.System)) }

// Between returns the separator of numbers in a list: a semicolon where the comma
// is the decimal mark, as in "837,5; 601,5".
func (s Style) Between() string {
	if s.Comma {
		return "; "
	}
	return ", "
}

// mark replaces the point of a decimal with the style's decimal mark.
func (s Style) mark(dec string) string {
	if !s.Comma {
		return dec
	}
	return strings.Replace(dec, ".", ",", 1)
}

// Exact writes l so that [Parse] reads the same length back: in inches if 64ths are
// exact, else in millimetres.
func (l Length) Exact(s System) string {
	if s == Inches && l%(Inch/64) == 0 {
		w := Style{System: Inches, Denominator: 64}.Words(l, Nearest)
		if w.Sign != "" {
			w.Sign = "-"
		}
		return w.String()
	}
	return strconv.FormatFloat(l.Millimetres(), 'f', -1, 64) + " mm"
}

// String returns l in millimetres, without rounding.
func (l Length) String() string { return l.Exact(Millimetres) }

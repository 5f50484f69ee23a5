package card

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"shadewright/ticket/measure"
)

// The units format lengths in the job's own unit, and in the other unit for
// anyone who has only that ruler at hand.
type units struct{ first, second measure.Style }

func unitsOf(s measure.Style) units { return units{s, s.Other()} }

// own returns l in the job's own unit, with ≈ if it is rounded.
func (v units) own(l measure.Length, r measure.Rounding) string { return v.first.Words(l, r).Printed() }

// other returns l in the other unit.
func (v units) other(l measure.Length, r measure.Rounding) string {
	return v.second.Words(l, r).Printed()
}

// near returns l in the job's own unit, rounded to the nearest step.
func (v units) near(l measure.Length) string { return v.own(l, measure.Nearest) }

// fine returns the style for the sizes of bought stock, to 1/64 in or 0.1 mm:
// they are not set on a ruler, and 3/32 must not become 1/8.
func (v units) fine() measure.Style {
	s := v.first
	s.Denominator, s.Metric = 64, measure.Millimetre/10
	return s
}

// by returns two lengths as a size, with the unit once: 27 1⁄2 × 48 3⁄4 in.
func by(s measure.Style, a, b measure.Length, ra, rb measure.Rounding) string {
	return s.Words(a, ra).PrintedBy(s.Words(b, rb))
}

// bare returns words without their unit.
func bare(w measure.Words) string {
	return strings.TrimSuffix(w.Typeset(), "\u00a0"+w.Unit)
}

// inFractions matches lengths as written in findings: 31-5/8 in.
var inFractions = regexp.MustCompile(`\b(?:\d+-)?\d+/\d+ in\b`)

// setFraction turns such a length into the form that is typeset as a fraction.
func setFraction(s string) string {
	return strings.NewReplacer("-", "\u2009", "/", "\u2044", " ", "\u00a0").Replace(s)
}

func upperFirst(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

package measure

import (
	"math"
	"math/bits"
)

// A Length is a distance in nanometres. Whole nanometres make 1/64 in
// (396,875 nm) and every micrometre exact, so sums never drift and == is safe.
// The int64 reaches 9.2 million kilometres; [Parse] takes at most [Longest].
type Length int64

// Units of length. The inch is 25.4 mm exactly (Federal Register, 1 July 1959,
// "Refinement of values for the yard and the pound").
const (
	Nanometre  Length = 1
	Micrometre        = 1000 * Nanometre
	Millimetre        = 1000 * Micrometre
	Centimetre        = 10 * Millimetre
	Metre             = 1000 * Millimetre
	Inch              = 25_400_000 * Nanometre
	Foot              = 12 * Inch
	Yard              = 3 * Foot
)

// Longest is the greatest length that [Parse] takes. It leaves room to add up
// millions of lengths without overflow.
const Longest = 1000 * Metre

// FromMillimetres returns the length nearest to mm, halves away from zero. It
// is for results of roots and of π; text is read by [Parse]. It panics if mm is
// not a number or lies outside ±[Longest]: the caller owns that bug.
func FromMillimetres(mm float64) Length {
	nm := math.Round(mm * float64(Millimetre))
	if !(math.Abs(nm) <= float64(Longest)) {
		panic("measure: length out of range")
	}
	return Length(nm)
}

// Millimetres returns l in millimetres. The result is exact to 15 digits and
// prints as the shortest decimal, so 1/64 in is 0.396875.
func (l Length) Millimetres() float64 { return float64(l) / float64(Millimetre) }

// Inches returns l in inches.
func (l Length) Inches() float64 { return float64(l) / float64(Inch) }

// Metres returns l in metres.
func (l Length) Metres() float64 { return float64(l) / float64(Metre) }

// Abs returns l without its sign.
func (l Length) Abs() Length {
	if l < 0 {
		return -l
	}
	return l
}

// A Rounding says which way [Length.Round] goes.
type Rounding uint8

const (
	Nearest Rounding = iota // halves go up, away from zero
	Down                    // never longer: a slat, a width inside an opening
	Up                      // never shorter: tape and thread to buy
)

// Round returns the multiple of step that r asks for. It panics if step is not
// positive. The rule is monotone: if a ≤ b then a.Round(s, r) ≤ b.Round(s, r),
// so two lengths rounded alike keep their order.
func (l Length) Round(step Length, r Rounding) Length {
	if step <= 0 {
		panic("measure: step is not positive")
	}
	q, rem := l/step, l%step
	if rem < 0 { // floor division
		q, rem = q-1, rem+step
	}
	switch {
	case rem == 0, r == Down:
	case r == Up:
		q++
	case 2*rem > step, 2*rem == step && l > 0:
		q++
	}
	return q * step
}

// Diagonal returns √(w² + l²), the diagonal of a rectangle, to the nearest
// nanometre. It does not overflow on any two lengths that [Parse] takes.
func Diagonal(w, l Length) Length {
	w, l = w.Abs(), l.Abs()
	hi1, lo1 := bits.Mul64(uint64(w), uint64(w))
	hi2, lo2 := bits.Mul64(uint64(l), uint64(l))
	lo, carry := bits.Add64(lo1, lo2, 0)
	hi, _ := bits.Add64(hi1, hi2, carry)
	// The float root is within a few nanometres; settle it on integers.
	d := uint64(math.Hypot(float64(w), float64(l)))
	for squareOver(d, hi, lo) {
		d--
	}
	for !squareOver(d+1, hi, lo) {
		d++
	}
	// Round half up: (d + ½)² = d² + d + ¼ is never whole, so d(d+1) decides.
	h, m := bits.Mul64(d, d+1)
	if h < hi || h == hi && m < lo {
		d++
	}
	return Length(d)
}

// squareOver reports whether d² is greater than the 128-bit hi:lo.
func squareOver(d, hi, lo uint64) bool {
	h, l := bits.Mul64(d, d)
	return h > hi || h == hi && l > lo
}

// A Size is a width across and a length along the cloth.
type Size struct{ Width, Length Length }

package measure

import (
	"math"
	"math/bits"
)

// A Length is a distance in nanometres. 1/64 in is 396,875 nm and a micrometre is
// 1,000 nm, so both are exact: sums never drift, and == is safe. The int64 reaches
// 9.2 million kilometres; [Parse] accepts at most [Longest].
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

// Longest is the greatest length that [Parse] accepts. It is small enough to add up
// millions of lengths without overflow.
const Longest = 1000 * Metre

// FromMillimetres returns the length nearest to mm, halves away from zero. Use it
// for results of roots and π, and [Parse] for text. It panics if mm is NaN or
// outside ±[Longest], which is a bug in the caller.
func FromMillimetres(mm float64) Length {
	nm := math.Round(mm * float64(Millimetre))
	if !(math.Abs(nm) <= float64(Longest)) {
		panic("measure: length out of range")
	}
	return Length(nm)
}

// Millimetres returns l in millimetres. The result is exact to 15 digits, so 1/64
// in prints as 0.396875.
func (l Length) Millimetres() float64 { return float64(l) / float64(Millimetre) }

// Inches returns l in inches.
func (l Length) Inches() float64 { return float64(l) / float64(Inch) }

// Metres returns l in metres.
func (l Length) Metres() float64 { return float64(l) / float64(Metre) }

// Abs returns the absolute value of l.
func (l Length) Abs() Length {
	if l < 0 {
		return -l
	}
	return l
}

// A Rounding is the direction in which [Length.Round] rounds.
type Rounding uint8

const (
	Nearest Rounding = iota // halves away from zero
	Down                    // never longer: for a slat, or a width inside an opening
	Up                      // never shorter: for tape and thread to buy
)

// Round rounds l to a multiple of step, in the direction of r. It panics if step is
// not positive. Rounding is monotone: if a ≤ b then a.Round(s, r) ≤ b.Round(s, r),
// so two lengths that round the same way keep their order.
func (l Length) Round(step Length, r Rounding) Length {
	if step <= 0 {
		panic("measure: step is not positive")
	}
	q, rem := l/step, l%step
	if rem < 0 { // floor division, also below zero
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

// Diagonal returns the diagonal of a rectangle, √(w² + l²), to the nearest
// nanometre. It does not overflow for lengths that [Parse] accepts.
func Diagonal(w, l Length) Length {
	w, l = w.Abs(), l.Abs()
	hi1, lo1 := bits.Mul64(uint64(w), uint64(w))
	hi2, lo2 := bits.Mul64(uint64(l), uint64(l))
	lo, carry := bits.Add64(lo1, lo2, 0)
	hi, _ := bits.Add64(hi1, hi2, carry)
	// The float root is a few nanometres off at most; integers find the exact one.
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

// A Size is a width across the cloth and a length along it.
type Size struct{ Width, Length Length }

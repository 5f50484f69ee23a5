package measure

import (
	"math"
	"math/big"
	"strings"
)

// A Factor multiplies lengths, in whole millionths: a printer that draws 100 mm as
// 99.7 mm needs 1.003. [One] leaves lengths unchanged.
type Factor int64

// One is the factor 1.
const One Factor = 1_000_000

// Of returns l times f, to the nearest nanometre.
func (f Factor) Of(l Length) Length { return Length(product(int64(f), int64(l), uint64(One))) }

// Float returns f as a number near 1.
func (f Factor) Float() float64 { return float64(f) / float64(One) }

// ParseFactor reads a factor from 0 to 1000, such as 1.0031 or 1,0031, to the
// nearest millionth. Every error is a [*ParseError].
func ParseFactor(text string) (Factor, error) {
	const fix = "write for example 1.0031"
	t := strings.Replace(strings.TrimSpace(text), ",", ".", 1)
	v, ok := new(big.Rat).SetString(t)
	if !ok || len(t) > 12 || strings.Trim(t, "0123456789.") != "" {
		return 0, parseError("factor", text, "is not a plain number", fix)
	}
	if v.Cmp(big.NewRat(1000, 1)) > 0 {
		return 0, parseError("factor", text, "is too large", fix)
	}
	millionths, _ := v.Mul(v, big.NewRat(int64(One), 1)).Float64()
	return Factor(math.Round(millionths)), nil
}

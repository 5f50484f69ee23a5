package measure

import (
	"fmt"
	"math/big"
	"strings"
)

// A writing describes how people write a quantity: one decimal number and one of a
// few units.
type writing struct {
	of    string              // name of the quantity in messages, for example "mass"
	units map[string]*big.Rat // by unit, in small letters without spaces: its value in the unit of the result
	most  int64               // the greatest value accepted, in the unit of the result
	large string              // what an error says of a greater value
	fix   string              // what an error says to write
	// explain gives a better error for some unknown units; it may be nil.
	explain func(unit string) (problem, fix string)
}

// read returns the exact quantity. Every error is a [*ParseError].
func (w writing) read(text string) (*big.Rat, error) {
	fail := func(problem, fix string) (*big.Rat, error) {
		return nil, parseError(w.of, text, problem, fix)
	}
	t := strings.ToLower(strings.TrimSpace(text))
	n := strings.IndexFunc(t, func(r rune) bool { return (r < '0' || r > '9') && r != '.' && r != ',' })
	switch {
	case len(t) > longestText:
		return fail("is too long", w.fix)
	case n < 0 && t != "":
		return fail("has no unit", w.fix)
	case n <= 0:
		return fail("is not a number with a unit", w.fix)
	}
	number, unit := t[:n], strings.Join(strings.Fields(t[n:]), "")
	per, ok := w.units[unit]
	if !ok {
		if w.explain != nil {
			if problem, fix := w.explain(unit); problem != "" {
				return fail(problem, fix)
			}
		}
		return fail(fmt.Sprintf("has the unknown unit %q", strings.TrimSpace(t[n:])), w.fix)
	}
	if whole, dec, comma := strings.Cut(number, ","); comma {
		if len(dec) == 3 && whole != "0" {
			return fail("could mean thousands or decimals", "write a point as the decimal mark, and no mark between thousands")
		}
		number = whole + "." + dec
	}
	v, ok := new(big.Rat).SetString(number)
	if !ok || len(number) > 12 {
		return fail("is not a number with a unit", w.fix)
	}
	if v.Mul(v, per).Cmp(big.NewRat(w.most, 1)) > 0 {
		return fail(w.large, checkUnit)
	}
	return v, nil
}

const checkUnit = "check the number and its unit"

// times returns v·per to the nearest whole number, halves up. v must not be
// negative.
func times(v *big.Rat, per int64) int64 {
	p := new(big.Rat).Mul(v, big.NewRat(per, 1))
	twice := new(big.Int).Mul(p.Num(), big.NewInt(2))
	return new(big.Int).Quo(twice.Add(twice, p.Denom()), new(big.Int).Mul(p.Denom(), big.NewInt(2))).Int64()
}

package measure

import (
	"fmt"
	"strings"
)

// Money is an amount in ten-thousandths of the currency's unit, so that a price may
// have four decimals and sums are exact. It does not say which currency.
type Money int64

// Unit is one unit of the currency.
const Unit Money = 10_000

// dearest is the greatest amount that [ParseMoney] accepts.
const dearest = 1_000_000 * Unit

// ParseMoney reads an amount, such as 18.50 or 18,50, with at most four decimals
// and without a currency sign. Every error is a [*ParseError].
func ParseMoney(text string) (Money, error) {
	const fix = "write for example 18.50, without the currency"
	fail := func(problem string) (Money, error) { return 0, parseError("price", text, problem, fix) }
	t := strings.TrimSpace(text)
	whole, dec, point := strings.Cut(strings.Replace(t, ",", ".", 1), ".")
	switch {
	case t == "":
		return fail("is empty")
	case strings.HasPrefix(t, "-"):
		return fail("is negative")
	case strings.Trim(whole+dec, "0123456789") != "" || whole == "" || point && dec == "":
		return fail("is not a price")
	case len(dec) == 3 && whole != "0" && strings.Contains(t, ","):
		return fail("could mean thousands or decimals")
	case len(dec) > 4:
		return fail("has more than four decimals")
	case len(whole) > 7:
		return fail("is too large for a price")
	}
	var m Money
	for _, c := range whole + dec + "0000"[len(dec):] {
		m = m*10 + Money(c-'0')
	}
	if m > dearest {
		return fail("is too large for a price")
	}
	return m, nil
}

// Times returns the price of n things that cost m each.
func (m Money) Times(n int) Money { return m * Money(n) }

// For returns the price of the length l where the length per costs m, to the
// nearest hundredth, halves up. It panics if the result does not fit.
func (m Money) For(l, per Length) Money {
	return Money(product(int64(m), int64(l), uint64(per))).Round()
}

// Round returns m to the nearest hundredth, halves away from zero.
func (m Money) Round() Money {
	const cent = Unit / 100
	return Money(Length(m).Round(Length(cent), Nearest))
}

// String returns m to the nearest hundredth: "18.50".
func (m Money) String() string {
	r := m.Round()
	sign := ""
	if r < 0 {
		sign, r = "-", -r
	}
	return fmt.Sprintf("%s%d.%02d", sign, r/Unit, r%Unit/100)
}

// Money writes m as m.String() does, with the style's decimal mark.
func (s Style) Money(m Money) string { return s.mark(m.String()) }

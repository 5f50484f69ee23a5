package measure

import (
	"fmt"
	"math/big"
	"strings"
	"unicode/utf8"
)

// A System is the unit system that a person thinks in: the unit of a bare number,
// and the one printed first.
type System uint8

const (
	Undeclared  System = iota // a bare number is an error
	Inches                    // inches and binary fractions
	Millimetres               // millimetres
)

// String returns the word a job file uses: "in" or "mm".
func (s System) String() string {
	switch s {
	case Inches:
		return "in"
	case Millimetres:
		return "mm"
	}
	return "undeclared"
}

// A ParseError says why a text is not a valid quantity, and what to write.
type ParseError struct {
	Of      string // the quantity expected, such as "length", "mass" or "factor"
	Text    string // the text as written, cut short if very long
	Problem string // what is wrong with it
	Fix     string // what to write
}

func (e *ParseError) Error() string {
	return fmt.Sprintf("%s %q %s; %s", e.Of, e.Text, e.Problem, e.Fix)
}

// parseError returns an error that repeats the text, cut short if it is very long.
func parseError(of, text, problem, fix string) *ParseError {
	if utf8.RuneCountInString(text) > longestText {
		text = string([]rune(text)[:longestText]) + "…"
	}
	return &ParseError{Of: of, Text: text, Problem: problem, Fix: fix}
}

const (
	fixForms    = `write for example 31-5/8, 31.625, 31 5/8 in, 2' 7 5/8", 803 mm or 80.3 cm`
	fixUnits    = "use in, ft, yd, mm, cm or m"
	fixFraction = "use halves, quarters, eighths, 16ths, 32nds or 64ths, for example 31-5/8, or a decimal"
)

// longestText limits the work done on a hostile text, and the length of a text that
// errors repeat.
const longestText = 60

// unitWords gives the value of each way to write a unit. Prime marks may be
// straight, typographic or proper primes.
var unitWords = map[string]Length{
	"in": Inch, "in.": Inch, "inch": Inch, "inches": Inch, `"`: Inch,
	"ft": Foot, "ft.": Foot, "foot": Foot, "feet": Foot, "'": Foot,
	"yd": Yard, "yd.": Yard, "yard": Yard, "yards": Yard,
	"mm": Millimetre, "millimetre": Millimetre, "millimetres": Millimetre, "millimeter": Millimetre, "millimeters": Millimetre,
	"cm": Centimetre, "centimetre": Centimetre, "centimetres": Centimetre, "centimeter": Centimetre, "centimeters": Centimetre,
	"m": Metre, "metre": Metre, "metres": Metre, "meter": Metre, "meters": Metre,
}

// tidy replaces typographic marks and fractions by plain ones. Many people type the
// inch mark as two single marks.
var tidy = strings.NewReplacer(
	"¼", " 1/4", "½", " 1/2", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
	"⅓", " 1/3", "⅔", " 2/3", "⅕", " 1/5", "⅖", " 2/5", "⅗", " 3/5", "⅘", " 4/5", "⅙", " 1/6", "⅚", " 5/6",
	"⁄", "/", "∕", "/",
	"″", `"`, "”", `"`, "“", `"`, "''", `"`, "’’", `"`, "′′", `"`,
	"′", "'", "’", "'", "‘", "'",
	"‐", "-", "‑", "-", "–", "-", "—", "-", "−", "-",
	"\u00a0", " ", "\u2007", " ", "\u2009", " ", "\u202f", " ", "\t", " ",
)

// Raised and lowered digits, in the order of their values.
const (
	raised  = "⁰¹²³⁴⁵⁶⁷⁸⁹"
	lowered = "₀₁₂₃₄₅₆₇₈₉"
)

// level replaces raised and lowered digits by plain ones. It puts a space between
// digits of different heights, so that 31⁵⁄₈ is 31 and 5/8, never 315/8.
func level(s string) string {
	if !strings.ContainsAny(s, raised+lowered) {
		return s
	}
	var b strings.Builder
	last := -1 // height of the digit before; -1 after anything else
	for _, r := range s {
		height := -1
		if i := strings.IndexRune(raised, r); i >= 0 {
			height, r = 1, '0'+rune(utf8.RuneCountInString(raised[:i]))
		} else if i := strings.IndexRune(lowered, r); i >= 0 {
			height, r = 2, '0'+rune(utf8.RuneCountInString(lowered[:i]))
		} else if '0' <= r && r <= '9' {
			height = 0
		}
		if height >= 0 && last >= 0 && height != last {
			b.WriteByte(' ')
		}
		last = height
		b.WriteRune(r)
	}
	return b.String()
}

// Parse reads a length as people write it: 31 5/8, 31-5/8, 31⅝, 31.625, 31,625, 31
// 5/8 in, 2' 7 5/8", 2 ft 7 5/8 in, 803 mm, 80.3 cm, 0.803 m. A bare number is in
// the unit of bare. Fractions must be those of a tape measure; decimals are rounded
// to the nearest nanometre. Parse accepts a minus sign, so the caller must check
// the sign. Every error is a [*ParseError].
func Parse(text string, bare System) (Length, error) {
	p := &parser{text: text}
	l, err := p.parse(bare)
	if err != nil {
		return 0, err
	}
	return l, nil
}

type parser struct {
	text string // as given
	rest string // still to read
}

func (p *parser) fail(problem, fix string) error {
	return parseError("length", p.text, problem, fix)
}

func (p *parser) parse(bare System) (Length, error) {
	if len(p.text) > 4*longestText {
		return 0, p.fail("is too long", fixForms)
	}
	if !utf8.ValidString(p.text) {
		return 0, p.fail("is not text", fixForms)
	}
	p.rest = strings.ToLower(strings.TrimSpace(tidy.Replace(level(p.text))))
	if p.rest == "" {
		return 0, p.fail("is empty", fixForms)
	}
	sign := int64(1)
	if s, ok := strings.CutPrefix(p.rest, "-"); ok {
		sign, p.rest = -1, strings.TrimSpace(s)
	} else if s, ok := strings.CutPrefix(p.rest, "+"); ok {
		p.rest = strings.TrimSpace(s)
	}
	total, err := p.terms(bare)
	if err != nil {
		return 0, err
	}
	return p.toLength(total.Mul(total, big.NewRat(sign, 1)))
}

// terms reads "2 ft 7 5/8 in", or one number with or without a unit.
func (p *parser) terms(bare System) (*big.Rat, error) {
	first, frac, err := p.number()
	if err != nil {
		return nil, err
	}
	unit, word, err := p.unit()
	if err != nil {
		return nil, err
	}
	if unit == 0 {
		switch bare {
		case Inches:
			unit = Inch
		case Millimetres:
			unit = Millimetre
		default:
			return nil, p.fail("has no unit", "add mm, cm or in, for example 960 mm")
		}
	}
	if frac && unit < Inch || frac && unit == Metre {
		return nil, p.fail("is a fraction of a metric unit", "write a decimal, for example 803.5 mm, or add in if it means inches")
	}
	total := first.Mul(first, new(big.Rat).SetInt64(int64(unit)))
	if p.rest == "" {
		return total, nil
	}
	if unit != Foot {
		return nil, p.fail(fmt.Sprintf("has more text after %q", word), fixForms)
	}
	return p.inchesAfterFeet(total, word)
}

// inchesAfterFeet reads the 7 5/8" of 2' 7 5/8" and of 2'-7 5/8".
func (p *parser) inchesAfterFeet(feet *big.Rat, mark string) (*big.Rat, error) {
	if !feet.IsInt() || new(big.Int).Rem(feet.Num(), big.NewInt(int64(Foot))).Sign() != 0 {
		return nil, p.fail("has a fraction of a foot before the inches", fixForms)
	}
	p.rest = strings.TrimSpace(strings.TrimPrefix(p.rest, "-"))
	in, _, err := p.number()
	if err != nil {
		return nil, err
	}
	unit, _, err := p.unit()
	if err != nil {
		return nil, err
	}
	switch {
	case p.rest != "" || unit != 0 && unit != Inch:
		return nil, p.fail("has something other than inches after the feet", `write for example 2' 7 5/8" or 2 ft 7 5/8 in`)
	case unit == 0 && mark != "'":
		return nil, p.fail("has inches without a unit", `write for example 2 ft 7 5/8 in`)
	case in.Cmp(big.NewRat(12, 1)) >= 0:
		return nil, p.fail("has 12 inches or more after the feet", "write them as feet, or write the whole length in inches")
	}
	return feet.Add(feet, in.Mul(in, new(big.Rat).SetInt64(int64(Inch)))), nil
}

// number reads 31, 31.625, 5/8, 31 5/8 or 31-5/8. It reports whether there is a
// fraction, because only inches have fractions.
func (p *parser) number() (v *big.Rat, frac bool, err error) {
	whole := p.digits()
	if whole == "" {
		if p.rest != "" && strings.ContainsRune(".,", rune(p.rest[0])) {
			return p.decimal("0")
		}
		return nil, false, p.fail("is missing a number", fixForms)
	}
	if len(whole) > 12 {
		return nil, false, p.fail("is longer than any cloth", "check the number and its unit")
	}
	switch {
	case p.rest == "":
	case p.rest[0] == '.' || p.rest[0] == ',':
		return p.decimal(whole)
	case p.rest[0] == '/':
		v, err := p.fraction(whole)
		return v, true, err
	default:
		v, ok, err := p.fractionAfter(whole)
		if ok || err != nil {
			return v, true, err
		}
	}
	v, _ = new(big.Rat).SetString(whole)
	return v, false, nil
}

// fractionAfter reads the 5/8 that follows a whole number and a space, a hyphen or
// both. If there is no fraction, ok is false and p.rest is unchanged.
func (p *parser) fractionAfter(whole string) (v *big.Rat, ok bool, err error) {
	keep := p.rest
	tail := strings.TrimLeft(keep, " ")
	tail = strings.TrimLeft(strings.TrimPrefix(tail, "-"), " ")
	if tail == keep {
		return nil, false, nil
	}
	p.rest = tail
	num := p.digits()
	switch {
	case num == "":
		p.rest = keep
		return nil, false, nil
	case !strings.HasPrefix(p.rest, "/"):
		return nil, false, p.fail("has two numbers in a row", fixForms)
	}
	f, err := p.fraction(num)
	if err != nil {
		return nil, false, err
	}
	if f.Cmp(big.NewRat(1, 1)) >= 0 {
		return nil, false, p.fail("has a fraction that is not less than one", fixFraction)
	}
	w, _ := new(big.Rat).SetString(whole)
	return w.Add(w, f), true, nil
}

// fraction reads the /8 of 5/8.
func (p *parser) fraction(num string) (*big.Rat, error) {
	p.rest = p.rest[1:]
	den := p.digits()
	switch den {
	case "2", "4", "8", "16", "32", "64":
	case "":
		return nil, p.fail("has a fraction without a denominator", fixFraction)
	default:
		return nil, p.fail(fmt.Sprintf("has a fraction with the denominator %s, which no tape shows", den), fixFraction)
	}
	if len(num) > 6 {
		return nil, p.fail("has a fraction with too many digits", fixFraction)
	}
	return big.NewRat(small(num), small(den)), nil
}

// small reads up to 6 digits. [big.Rat.SetString] cannot: it takes a number with a
// leading zero in a fraction for octal.
func small(digits string) int64 {
	n := int64(0)
	for _, d := range []byte(digits) {
		n = 10*n + int64(d-'0')
	}
	return n
}

// decimal reads the .625 of 31.625 or the ,625 of 31,625.
func (p *parser) decimal(whole string) (*big.Rat, bool, error) {
	mark := p.rest[0]
	p.rest = p.rest[1:]
	dec := p.digits()
	switch {
	case dec == "":
		return nil, false, p.fail("ends at the decimal mark", fixForms)
	case len(dec) > 12:
		return nil, false, p.fail("has more decimals than can be measured", "round it to a hundredth of a millimetre")
	case mark == ',' && len(dec) == 3 && whole != "0":
		return nil, false, p.fail("could mean thousands or decimals", "write "+whole+dec+" or "+whole+"."+dec)
	case p.rest != "" && strings.ContainsRune(".,/", rune(p.rest[0])):
		return nil, false, p.fail("has more than one decimal mark or a fraction after a decimal", fixForms)
	}
	v, _ := new(big.Rat).SetString(whole + "." + dec)
	return v, false, nil
}

func (p *parser) digits() string {
	n := 0
	for n < len(p.rest) && '0' <= p.rest[n] && p.rest[n] <= '9' {
		n++
	}
	d := p.rest[:n]
	p.rest = p.rest[n:]
	return d
}

// unit reads the unit word or mark at the start of p.rest. The unit is zero if
// p.rest is empty.
func (p *parser) unit() (Length, string, error) {
	p.rest = strings.TrimLeft(p.rest, " ")
	if p.rest == "" {
		return 0, "", nil
	}
	n := 0
	if p.rest[0] == '\'' || p.rest[0] == '"' {
		n = 1
	} else {
		for n < len(p.rest) && !strings.ContainsRune(" 0123456789-/'\",", rune(p.rest[n])) {
			n++
		}
	}
	word := p.rest[:n]
	if n == 0 {
		return 0, "", p.fail(fmt.Sprintf("has %q in place of a unit", firstRune(p.rest)), fixForms)
	}
	unit, ok := unitWords[word]
	switch {
	case !ok && strings.Trim(word, "ol") == "":
		return 0, "", p.fail(fmt.Sprintf("has the letter %q, perhaps meant as a digit", firstRune(word)), "write 0 or 1, or "+fixUnits)
	case !ok:
		return 0, "", p.fail(fmt.Sprintf("has the unknown unit %q", word), fixUnits)
	}
	p.rest = strings.TrimLeft(p.rest[n:], " ")
	return unit, word, nil
}

func firstRune(s string) string {
	_, n := utf8.DecodeRuneInString(s)
	return s[:n]
}

// toLength rounds an exact number of nanometres, halves away from zero.
func (p *parser) toLength(nm *big.Rat) (Length, error) {
	limit := new(big.Rat).SetInt64(int64(Longest))
	if new(big.Rat).Abs(nm).Cmp(limit) > 0 {
		return 0, p.fail("is longer than any cloth", "check the number and its unit")
	}
	if nm.IsInt() {
		return Length(nm.Num().Int64()), nil
	}
	twice := new(big.Int).Mul(nm.Num(), big.NewInt(2))
	half := new(big.Int).Set(nm.Denom())
	if nm.Sign() < 0 {
		half.Neg(half)
	}
	q := new(big.Int).Quo(twice.Add(twice, half), new(big.Int).Mul(nm.Denom(), big.NewInt(2)))
	return Length(q.Int64()), nil
}

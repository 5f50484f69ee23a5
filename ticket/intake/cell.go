package intake

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"shadewright/ticket/form"
	"shadewright/ticket/intake/grid"
	"shadewright/ticket/measure"
)

const retype = "set the column's format to text and type it again"

// failed matches what spreadsheets show for a formula without a result.
var failed = regexp.MustCompile(`^#(REF|VALUE|DIV/0|NAME|N/A|NUM|NULL|SPILL|CALC)[!?]?$|^#+$`)

// sound returns the text of a cell, or why the text cannot be trusted.
func sound(c grid.Cell) (string, *form.Fault) {
	switch {
	case c.Kind == grid.Fault && strings.HasPrefix(c.Text, "="):
		return "", &form.Fault{Problem: "is a formula whose result is not in the file", Fix: "open the file in a spreadsheet program and save it there, or type the value"}
	case c.Kind == grid.Fault || failed.MatchString(c.Text):
		return "", &form.Fault{Problem: "is a formula that failed", Fix: "correct it in the spreadsheet, or type the value"}
	case c.Kind == grid.Date:
		return "", dayFault(c.Day)
	}
	return c.Text, nil
}

// lengthText returns a length with its unit. The unit is the cell's own, else the
// given one of the heading or the sheet.
func lengthText(c grid.Cell, unit string) (string, *form.Fault) {
	text, fault := sound(c)
	if text == "" || fault != nil {
		return "", fault
	}
	text = ungrouped(text)
	if _, err := measure.Parse(text, measure.Undeclared); err == nil {
		return text, nil
	}
	if day, ok := dayWords(text); ok {
		return "", dayFault(day)
	}
	if unit != "" {
		withUnit := text + " " + unit
		if _, err := measure.Parse(withUnit, measure.Undeclared); err == nil {
			return withUnit, nil
		}
	}
	_, err := measure.Parse(text, measure.Inches) // only to learn what else is wrong
	if pe, ok := err.(*measure.ParseError); ok {
		return "", &form.Fault{Problem: pe.Problem, Fix: pe.Fix}
	}
	if unit != "" {
		return "", &form.Fault{Problem: "is not a length in " + unit, Fix: "write it as a tape shows it, for example 31-5/8 in or 803 mm"}
	}
	return "", &form.Fault{Problem: "has no unit", Fix: "write the unit in the heading, for example Width (in), or give --units in or --units mm"}
}

// thousands match numbers with groups of three digits and a different decimal mark,
// or with spaces between groups. A number with a single mark could mean either, so
// it is left for measure.Parse to refuse.
var thousands = []*regexp.Regexp{
	regexp.MustCompile(`^\d{1,3}(?:\.\d{3})+(,\d+.*)$`),
	regexp.MustCompile(`^\d{1,3}(?:,\d{3})+(\.\d+.*)$`),
	regexp.MustCompile(`^\d{1,3}(?: \d{3})+([,.]\d+.*| ?\pL.*|)$`),
}

// ungrouped removes the thousands separators.
func ungrouped(text string) string {
	for _, form := range thousands {
		if m := form.FindStringSubmatchIndex(text); m != nil {
			return strings.NewReplacer(".", "", ",", "", " ", "").Replace(text[:m[2]]) + text[m[2]:]
		}
	}
	return text
}

// dayFault explains a date in a cell that should hold a length.
func dayFault(day time.Time) *form.Fault {
	f := &form.Fault{Problem: "is a date, " + day.Format("2 January 2006"), Fix: retype}
	if day.Year() == 0 {
		f.Problem = "is a date, " + day.Format("2 January")
	}
	if was := wasFraction(day); was != "" {
		f.Problem += ": the spreadsheet made it from a fraction, perhaps " + was
	}
	return f
}

// wasFraction guesses the fraction that the spreadsheet turned into a date. 3/4
// becomes 4 March or 3 April of the current year; 1-1/8 becomes 1 January 2008.
func wasFraction(day time.Time) string {
	m, d, y := int(day.Month()), day.Day(), day.Year()%100
	switch {
	case day.Year() >= 2000 && day.Year() < 2010 && tape(d, y):
		return fmt.Sprintf("%d-%d/%d", m, d, y)
	case tape(m, d):
		return fmt.Sprintf("%d/%d", m, d)
	case tape(d, m):
		return fmt.Sprintf("%d/%d", d, m)
	}
	return ""
}

// tape reports whether a tape measure shows the fraction.
func tape(num, den int) bool {
	return num < den && num%2 == 1 && (den == 2 || den == 4 || den == 8 || den == 16 || den == 32)
}

var (
	dayMonth = regexp.MustCompile(`^(\d{1,2})[-. /]+(\pL{3,9})\.?(?:[-. /]+(\d{2,4}))?$`)
	monthDay = regexp.MustCompile(`^(\pL{3,9})\.?[-. /]+(\d{1,2})$`)
	three    = regexp.MustCompile(`^(\d{1,4})([-/.])(\d{1,2})([-/.])(\d{1,4})(?: 0{1,2}:00(?::00)?)?$`)
)

// months are the first letters of month names as spreadsheets write them in
// English, Spanish, German, French and Dutch.
var months = [...][]string{
	{"jan", "ene"}, {"feb", "fév", "fev"}, {"mar", "mär", "mrt", "mrz"}, {"apr", "abr", "avr"}, {"may", "mai", "mei"}, {"jun", "juin"},
	{"jul", "juil"}, {"aug", "ago", "aoû"}, {"sep"}, {"oct", "okt"}, {"nov"}, {"dec", "dic", "dez", "déc"},
}

func month(word string) int {
	for i, names := range months {
		for _, n := range names {
			if strings.HasPrefix(strings.ToLower(word), n) {
				return i + 1
			}
		}
	}
	return 0
}

// dayWords reads a date in the forms that spreadsheets show. The year is zero if
// the text has none.
func dayWords(text string) (time.Time, bool) {
	n := func(s string) int {
		v, err := strconv.Atoi(s)
		if err != nil {
			return 0 // the text has no year
		}
		return v
	}
	year := func(s string) int {
		if y := n(s); s == "" || y > 99 {
			return y
		} else {
			return 2000 + y
		}
	}
	if m := dayMonth.FindStringSubmatch(text); m != nil && month(m[2]) > 0 {
		return day(year(m[3]), month(m[2]), n(m[1]))
	}
	if m := monthDay.FindStringSubmatch(text); m != nil && month(m[1]) > 0 {
		return day(0, month(m[1]), n(m[2]))
	}
	m := three.FindStringSubmatch(text)
	switch {
	case m == nil || m[2] != m[4]: // 27-1/2 is a length; a date has the same mark twice
		return time.Time{}, false
	case len(m[1]) == 4:
		return day(n(m[1]), n(m[3]), n(m[5]))
	case m[2] == "." || n(m[1]) > 12: // day first
		return day(year(m[5]), n(m[3]), n(m[1]))
	}
	return day(year(m[5]), n(m[1]), n(m[3]))
}

func day(y, m, d int) (time.Time, bool) {
	if m < 1 || m > 12 || d < 1 || d > 31 {
		return time.Time{}, false
	}
	return time.Date(y, time.Month(m), d, 0, 0, 0, 0, time.UTC), true
}

// ditto reports whether a word means "as in the row above".
func ditto(text string) bool {
	switch strings.TrimSuffix(strings.ToLower(text), ".") {
	case `"`, "''", "”", "„", "〃", "do", "ditto", "dito", "idem", "same", "as above":
		return true
	}
	return false
}

// remark matches a row's only text if it is a note to the reader.
var remark = regexp.MustCompile(`(?i)^(\*|(notes?|remarks?|n\.?b|notas?)\b)`)

var countWords = regexp.MustCompile(`^(?:x ?)?([0-9]+)(?:\.0+|,0+)?(?: ?(?:x|pcs?|ea|off|pieces?)\.?)?$`)

// wordText returns the word of a job file that a cell means.
func wordText(path, head string, c grid.Cell) (string, *form.Fault) {
	text, fault := sound(c)
	if text == "" || fault != nil {
		return "", fault
	}
	low := strings.ToLower(text)
	switch path {
	case "shades.quantity":
		if m := countWords.FindStringSubmatch(low); m != nil {
			return m[1], nil
		}
	case "shades.opening.mount":
		return mountWord(low), nil
	case "shades.roll":
		return rollWord(low, head), nil
	case "goods.mass":
		return massText(text, strings.ToLower(head)), nil
	case "goods.kind", "goods.lay":
		return strings.ReplaceAll(low, " ", "-"), nil
	}
	return text, nil
}

// mountWord recognises the words that shops use for a mount.
func mountWord(word string) string {
	switch form.Bare(strings.TrimSuffix(word, " mount")) {
	case "in", "i", "im", "inside", "recess", "jamb", "dentro", "innen", "nische", "interieur", "dans":
		return "inside"
	case "out", "o", "om", "outside", "wall", "face", "fuera", "pared", "aussen", "außen", "wand", "exterieur", "mur":
		return "outside"
	case "ceiling", "top", "techo", "decke", "plafond":
		return "ceiling"
	}
	return word
}

// massText adds the unit in the heading to a bare number.
func massText(text, head string) string {
	if strings.Trim(text, "0123456789.,") != "" {
		return text
	}
	switch {
	case strings.Contains(head, "g/m") || strings.Contains(head, "gsm"):
		return text + " g/m2"
	case strings.Contains(head, "oz/yd") || strings.Contains(head, "oz/sq"):
		return text + " oz/yd2"
	}
	return text
}

// rollWord recognises the words that shops use for standard and reverse roll.
func rollWord(word, head string) string {
	under, _ := heading(head)
	switch word {
	case "std", "standard", "back", "normal", "regular", "estándar", "hinten", "arrière":
		return "standard"
	case "rev", "reverse", "reversed", "front", "vorne", "avant":
		return "reverse"
	case "yes", "y", "x", "true", "1":
		if under == "reverse" {
			return "reverse"
		}
	case "no", "n", "false", "0", "-":
		if under == "reverse" {
			return "standard"
		}
	}
	return word
}

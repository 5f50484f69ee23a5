package card

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/ticket"
)

// inchesOf reads a number as a person does: 27-1/2, 3, 1/8.
func inchesOf(t *testing.T, s string) (v float64) {
	t.Helper()
	for _, part := range strings.Split(s, "-") {
		n, d, frac := strings.Cut(part, "/")
		a, err := strconv.ParseFloat(n, 64)
		b := 1.0
		if frac && err == nil {
			b, err = strconv.ParseFloat(d, 64)
		}
		if err != nil {
			t.Fatalf("%q is no number: %v", s, err)
		}
		v += a / b
	}
	return v
}

const aNumber = `(\d+(?:-\d+/\d+|/\d+)?)`

// followed is what a bench reads on a ticket, by name.
var followed = map[string]*regexp.Regexp{
	"width":       regexp.MustCompile(aNumber + `\s*×\s*[\d/-]+\s+in\s+width × length`),
	"length":      regexp.MustCompile(`×\s*` + aNumber + `\s+in\s+width × length`),
	"pocket mark": regexp.MustCompile(aNumber + `\s+in\s+≈[^a-z]*mm\s+pocket mark`),
	"hem mark":    regexp.MustCompile(aNumber + `\s+in\s+≈[^a-z]*mm\s+hem mark`),
	"tube":        regexp.MustCompile(`Set tube\s+` + aNumber + `\s+in`),
	"free":        regexp.MustCompile(aNumber + `\s+in free at each end`),
	"slat":        regexp.MustCompile(`Trim slat\s+` + aNumber + `\s+in`),
}

// bench makes a shade from what it read, and returns how far the result is off: the
// length, the hem, the cloth on its tube, and the slat in its pocket.
func bench(n map[string]float64, wrap, length, width, gap, depth float64) float64 {
	// The raw edge goes to the hem mark, so the cloth turns half way; that fold goes to the
	// pocket mark, and the cloth turns half way between the two.
	hem := n["hem mark"] / 2
	turn := (hem + n["pocket mark"]) / 2
	return max(
		math.Abs(n["length"]-turn-wrap-length),
		math.Abs(hem-depth),
		math.Abs(n["width"]-width),
		math.Abs(n["tube"]-2*n["free"]-n["width"]),
		math.Abs(n["slat"]+2*gap-width),
	)
}

// A bench that knows only the printed page ends at the finished size, to half the finest
// mark of the rule for each number; and with any number wrong by 1/4 in it does not.
func TestTicketIsFollowed(t *testing.T) {
	const tolerance = 1.0 / 16
	for _, s := range []ticket.Shade{usual(), with("small", func(s *ticket.Shade) { s.Finished.Width, s.Finished.Length = 22*in+in/8, 31*in+in*3/8 })} {
		all := made(t, jobOf(inches(), s))
		doc, err := Tickets(all[:1], Options{Paper: paper(t, "letter"), Insist: true})
		text := strings.ReplaceAll(pageText(readback.Open(t, printed(t, doc, err)).Marks(0).Texts), "\u00a0", " ")
		read := map[string]float64{}
		for name, re := range followed {
			m := re.FindStringSubmatch(regexp.MustCompile(`\s+`).ReplaceAllString(text, " "))
			if m == nil {
				t.Fatalf("the ticket of %s has no %s:\n%s", s.ID, name, text)
			}
			read[name] = inchesOf(t, m[1])
		}
		of := func(n map[string]float64) float64 {
			a := s.Allow
			return bench(n, a.Wrap.Millimetres()/25.4, s.Finished.Length.Millimetres()/25.4, s.Finished.Width.Millimetres()/25.4, a.SlatGap.Millimetres()/25.4, a.Hem.Millimetres()/25.4)
		}
		if off := of(read); off > tolerance {
			t.Errorf("%s: followed %v, the shade is off by %.3f in", s.ID, read, off)
		}
		for name := range read {
			read[name] += 0.25
			if off := of(read); off <= tolerance {
				t.Errorf("%s: with a wrong %s the shade is off by only %.3f in; the test sees nothing", s.ID, name, off)
			}
			read[name] -= 0.25
		}
	}
}

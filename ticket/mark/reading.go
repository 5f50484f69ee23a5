package mark

import (
	"math"
	"strconv"
	"strings"

	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
	"shadewright/ticket/square"
)

// Readings is what was measured or counted at a step. Zero means not measured.
type Readings struct {
	// Diagonals of the panel, face up: the first from top left to bottom right, the
	// second from top right to bottom left.
	Diagonals [2]measure.Length
	Width     measure.Length
	Turns     Turns
}

// Turns counts turns of a spring in hundredths.
type Turns int32

// MostTurns is more than any spring roller holds (common practice, no source: they
// are wound 8 to 25 turns).
const MostTurns Turns = 100 * 100

// ParseTurns reads a number of turns: 12, 12.5, 12,25, 12 1/2, 12-1/2 or 12½.
func ParseTurns(text string) (Turns, error) {
	s := strings.NewReplacer("¼", " 1/4", "½", " 1/2", "¾", " 3/4", ",", ".", "-", " ").Replace(text)
	fields := strings.Fields(s)
	if strings.HasPrefix(strings.TrimSpace(text), "-") {
		fields = nil
	}
	var sum Turns
	if n := len(fields); n > 0 {
		if part, ok := map[string]Turns{"1/4": 25, "1/2": 50, "2/4": 50, "3/4": 75}[fields[n-1]]; ok && !strings.Contains(s, ".") {
			sum, fields = part, fields[:n-1]
			if n == 1 {
				return sum, nil
			}
		}
	}
	if len(fields) == 1 {
		whole, frac, _ := strings.Cut(fields[0], ".")
		n, err := strconv.ParseUint((whole + (frac + "00")[:2]), 10, 31)
		if err == nil && len(frac) <= 2 && whole != "" && Turns(n) <= MostTurns {
			return Turns(n) + sum, nil
		}
	}
	return 0, message.NewError("mark.not-turns", text, MostTurns.String())
}

// String returns the turns as a decimal: 12.5.
func (t Turns) String() string { return strconv.FormatFloat(float64(t)/100, 'f', -1, 64) }

// In returns the turns with a style's decimal mark: 12,5.
func (t Turns) In(s measure.Style) string {
	places := 2
	switch {
	case t%100 == 0:
		places = 0
	case t%10 == 0:
		places = 1
	}
	return s.Decimal(float64(t)/100, places)
}

// A TurnRange is what a ticket says about its spring: the turns to wind, and the
// fewest and the most that work. Zero means not worked out.
type TurnRange struct{ Least, Best, Most Turns }

// turnsOf returns the range of a wind that was worked out, or none. It rounds to
// the tenth as its ticket prints it, and below one turn to the hundredth. The
// result is never wider than the range that works.
func turnsOf(w *hang.Wind) TurnRange {
	const most = float64(MostTurns) / 100
	if w == nil || !w.OK || w.Turns > most {
		return TurnRange{}
	}
	step := 10.0 // hundredths
	if w.Turns < 1 {
		step = 1
	}
	to := func(f func(float64) float64, turns float64) Turns { return Turns(f(turns*100/step) * step) }
	best := to(math.Round, w.Turns)
	return TurnRange{
		Least: min(best, to(math.Ceil, w.Least)), Best: best,
		Most: min(MostTurns, max(best, to(math.Floor, min(w.Most, most)))),
	}
}

func (r Readings) check() error {
	d := r.Diagonals
	switch {
	case (d[0] == 0) != (d[1] == 0):
		return message.NewError("mark.one-diagonal")
	case d[0] < 0 || d[1] < 0 || r.Width < 0 || r.Turns < 0:
		return message.NewError("mark.reading-negative")
	case d[0] > measure.Longest || d[1] > measure.Longest || r.Width > measure.Longest || r.Turns > MostTurns:
		return message.NewError("mark.reading-too-large")
	}
	return nil
}

// has reports whether the reading that a step asks for was given.
func (r Readings) has(asked route.Reading) bool {
	switch asked {
	case route.Diagonals:
		return r.Diagonals[0] != 0
	case route.Width:
		return r.Width != 0
	case route.Turns:
		return r.Turns != 0
	}
	return true
}

// only returns the reading that was asked for, without the others.
func (r Readings) only(asked route.Reading) Readings {
	switch asked {
	case route.Diagonals:
		return Readings{Diagonals: r.Diagonals}
	case route.Width:
		return Readings{Width: r.Width}
	case route.Turns:
		return Readings{Turns: r.Turns}
	}
	return Readings{}
}

// answer says what a reading means for a ticket, and whether the step may pass. The
// message is empty if there is nothing to compare with.
func (p Policy) answer(asked route.Reading, r Readings, t *Ticket) (words message.Message, pass bool) {
	switch asked {
	case route.Diagonals:
		return p.answerSquare(r, t.Panel)
	case route.Width:
		return p.answerWidth(r, t.Panel.Width)
	case route.Turns:
		return p.answerTurns(r.Turns, t.Turns), true
	}
	return message.Message{}, true
}

// answerSquare compares the diagonals with the limit on the ticket, and says the
// same about trimming as package square.
func (p Policy) answerSquare(r Readings, panel measure.Size) (message.Message, bool) {
	if panel.Width <= 0 || panel.Length <= 0 {
		return message.Message{}, true
	}
	limit := p.square().For(panel)
	s, _, err := square.Quad{Size: panel, Diagonals: r.Diagonals}.Judge(limit, p.Style)
	switch {
	case err != nil: // the error names keys that nobody typed here
		return message.Of("mark.impossible-diagonals"), false
	case s.Difference == 0:
		return message.Of("mark.square"), true
	case s.Square:
		return message.Of("mark.square-within", p.words(s.Difference), p.Style.Format(limit)), true
	case s.Lean == square.LeanLeft: // the longer diagonal runs from top left to bottom right
		return message.Of("mark.not-square-left",
			p.words(s.TopOver), p.words(s.Trim)), false
	}
	return message.Of("mark.not-square-right",
		p.words(s.TopOver), p.words(s.Trim)), false
}

// square returns the shop's limit, or the usual one.
func (p Policy) square() square.Limit {
	if p.Square == (square.Limit{}) {
		return square.Usual(p.Style.System)
	}
	return p.Square
}

func (p Policy) answerWidth(r Readings, width measure.Length) (message.Message, bool) {
	if width <= 0 {
		return message.Message{}, true
	}
	over := r.Width - width
	switch by := p.words(over.Abs()); {
	case over.Abs() <= p.Tolerance:
		return message.Of("mark.width-is-right"), true
	case over > 0:
		return message.Of("mark.too-wide", by), false
	default:
		return message.Of("mark.too-narrow", by), false
	}
}

// answerTurns compares the turns with those on the ticket. They never keep a step
// from passing: whoever hangs the shade holds it and winds it until it lifts.
func (p Policy) answerTurns(got Turns, want TurnRange) message.Message {
	kept := message.Of("mark.turns-kept", got.In(p.Style))
	switch {
	case want == (TurnRange{}) || got == want.Best:
		return kept
	case got < want.Least:
		return message.Join("; ", kept, message.Of("mark.turns-too-few", want.Best.In(p.Style), want.Least.In(p.Style)))
	case got > want.Most:
		return message.Join("; ", kept, message.Of("mark.turns-too-many", want.Best.In(p.Style), want.Most.In(p.Style)))
	}
	return message.Join("; ", kept, message.Of("mark.turns-of-ticket", want.Best.In(p.Style), want.Least.In(p.Style), want.Most.In(p.Style)))
}

// words returns a difference, rounded up so that it never reads as zero.
func (p Policy) words(l measure.Length) string {
	return p.Style.Words(l, measure.Up).String()
}

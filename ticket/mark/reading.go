package mark

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

// Readings is what was measured or counted at a step; zero is not measured.
type Readings struct {
	// Diagonals of the panel, face up: the first from top left to bottom right,
	// the second from top right to bottom left.
	Diagonals [2]measure.Length
	Width     measure.Length
	Turns     Turns
}

// Turns counts turns of a spring in hundredths.
type Turns int32

// MostTurns is more than any spring roller takes (common practice, no source:
// they are wound some 8 to 25 turns).
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
	return 0, fmt.Errorf("turns %q is no number of turns; write for example 12, 12.5 or 12-1/2, at most %s", text, MostTurns)
}

// String returns the turns as a decimal: 12.5.
func (t Turns) String() string { return strconv.FormatFloat(float64(t)/100, 'f', -1, 64) }

func (r Readings) check() error {
	d := r.Diagonals
	switch {
	case (d[0] == 0) != (d[1] == 0):
		return errors.New("only one diagonal is given; measure both")
	case d[0] < 0 || d[1] < 0 || r.Width < 0 || r.Turns < 0:
		return errors.New("a reading is below zero; measure again")
	case d[0] > measure.Longest || d[1] > measure.Longest || r.Width > measure.Longest || r.Turns > MostTurns:
		return errors.New("a reading is far too large; measure again")
	}
	return nil
}

// has reports whether the reading a step asks for was given.
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

// answer says in words what a reading means for a panel, and whether the step
// may pass. It is empty if nothing is known to compare with.
func (p Policy) answer(asked route.Reading, r Readings, panel measure.Size) (words string, pass bool) {
	switch asked {
	case route.Diagonals:
		return p.answerSquare(r, panel)
	case route.Width:
		return p.answerWidth(r, panel.Width)
	case route.Turns:
		return r.Turns.String() + " turns kept", true
	}
	return "", true
}

// answerSquare holds the diagonals against the same limit, and says the same to
// trim, as the ticket and the arithmetic of package hang.
func (p Policy) answerSquare(r Readings, panel measure.Size) (string, bool) {
	if panel.Width <= 0 || panel.Length <= 0 {
		return "", true
	}
	limit := p.square().For(panel)
	s, _, err := hang.Quad{Size: panel, Diagonals: r.Diagonals}.Square(limit, p.Style)
	switch {
	case err != nil: // it speaks of keys that nobody typed here
		return "no panel of this size has such diagonals; measure both again", false
	case s.Difference == 0:
		return "square", true
	case s.Square:
		return fmt.Sprintf("square: the diagonals differ by %s and may by %s", p.words(s.Difference), p.Style.Format(limit)), true
	}
	return fmt.Sprintf("not square: the top edge is %s out %s; cut %s off the end at the %s and the %s corner, tapering to nothing at the other corner of that end, and measure again",
		p.words(s.TopOver), s.Lean, p.words(s.Trim), s.Corners[0], s.Corners[1]), false
}

// square returns the shop's limit, or the usual one.
func (p Policy) square() hang.SquareLimit {
	if p.Square == (hang.SquareLimit{}) {
		return hang.UsualRules(p.Style.System).Square
	}
	return p.Square
}

func (p Policy) answerWidth(r Readings, width measure.Length) (string, bool) {
	if width <= 0 {
		return "", true
	}
	over := r.Width - width
	switch by := p.words(over.Abs()); {
	case over.Abs() <= p.Tolerance:
		return "width is right", true
	case over > 0:
		return fmt.Sprintf("too wide by %s; trim it off one side and measure again", by), false
	default:
		return fmt.Sprintf("too narrow by %s; hold the ticket, or cut the panel again", by), false
	}
}

// words gives a difference, rounded up so that it is never called nothing.
func (p Policy) words(l measure.Length) string {
	return p.Style.Words(l, measure.Up).String()
}

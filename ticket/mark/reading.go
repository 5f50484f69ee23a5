package mark

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

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

// OffSquare returns by how much the top edge of a panel lies to the left of
// where a rectangle would have it, seen face up; below zero, to the right.
//
// A parallelogram of width w whose top is s to the left has the diagonals
// d1² = (w+s)² + l² (top left to bottom right) and d2² = (w−s)² + l², so
// s = (d1² − d2²) / (4·w). Width must not be zero, nor the diagonals so unlike
// that no panel of that width has them.
func OffSquare(diagonals [2]measure.Length, width measure.Length) measure.Length {
	d1, d2 := diagonals[0].Millimetres(), diagonals[1].Millimetres()
	return measure.FromMillimetres((d1 - d2) * (d1 + d2) / (4 * width.Millimetres()))
}

// answer says in words what a reading means for a panel, and whether the step
// may pass. It is empty if nothing is known to compare with.
func (p Policy) answer(asked route.Reading, r Readings, panel measure.Size) (words string, pass bool) {
	switch asked {
	case route.Diagonals:
		return p.answerSquare(r, panel.Width)
	case route.Width:
		return p.answerWidth(r, panel.Width)
	case route.Turns:
		return r.Turns.String() + " turns kept", true
	}
	return "", true
}

func (p Policy) answerSquare(r Readings, width measure.Length) (string, bool) {
	if width <= 0 {
		return "", true
	}
	d := r.Diagonals
	if float64((d[0]-d[1]).Abs())*float64(d[0]+d[1]) > 4*float64(width)*float64(width) { // off by more than the width
		return "no panel of this width has such diagonals; measure both again", false
	}
	off := OffSquare(r.Diagonals, width)
	by := p.words(off.Abs())
	if off.Abs() <= p.Tolerance {
		if by == p.words(0) {
			return "square", true
		}
		return "square within " + by, true
	}
	side, corners := "left", "top left and bottom right"
	if off < 0 {
		side, corners = "right", "top right and bottom left"
	}
	return fmt.Sprintf("not square: the top edge is %s out to the %s; trim the sides by %s at the %s corners, to nothing at their other ends, and measure again",
		by, side, by, corners), false
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

package symbol

import "strings"

// Blocks writes a QR symbol with its quiet zone in half-block characters
// (U+2580 to U+2588), two modules to a character, for terminals whose
// characters are about twice as high as wide. On a dark terminal the blocks are
// the light modules and the gaps the dark ones. Set light for a light terminal,
// where it is the other way round.
func (s Symbol) Blocks(light bool) string {
	side, high := s.Wide+2*s.Quiet, s.High+2*s.Quiet
	dark := make([][]bool, high+1) // one extra row, so that rows pair up
	for y := range dark {
		dark[y] = make([]bool, side)
	}
	for _, b := range s.Bars {
		for y := range b.Height {
			for x := range b.Width {
				dark[s.Quiet+b.Y+y][s.Quiet+b.X+x] = true
			}
		}
	}
	var out strings.Builder
	for y := 0; y < high; y += 2 {
		for x := range side {
			// Below the last row is the terminal's background, not part of the
			// symbol.
			top, foot := dark[y][x] == light, y+1 < high && dark[y+1][x] == light
			out.WriteString(block(top, foot))
		}
		out.WriteByte('\n')
	}
	return out.String()
}

func block(top, foot bool) string {
	switch {
	case top && foot:
		return "█"
	case top:
		return "▀"
	case foot:
		return "▄"
	}
	return " "
}

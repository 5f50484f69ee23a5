package symbol

import "strings"

// Blocks writes a QR symbol with its quiet zone in half-block characters (U+2580
// to U+2588), two modules to a character, for a terminal whose letters are about
// twice as high as wide. Ink is where no block is: on a dark terminal the
// blocks are the light paper. Light turns that over for a light terminal.
func (s Symbol) Blocks(light bool) string {
	side, high := s.Wide+2*s.Quiet, s.High+2*s.Quiet
	dark := make([][]bool, high+1) // one row more, so that rows pair up
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
			// Below the last row is terminal, not paper.
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

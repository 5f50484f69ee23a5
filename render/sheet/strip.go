package sheet

import (
	"fmt"

	"shadewright/ticket/measure"
)

// A Stack says how a band is printed: cut into tiles along its length, the
// tiles laid one below the other on sheets of one paper.
type Stack struct {
	Paper  Paper // turned as the tiles lie on it
	Field  Field // what is printed on
	Tiles  []Span
	Rows   int // tiles on a full sheet
	Sheets int
	Pitch  measure.Length // from one tile's top to the next one's
}

// A Strip is the band to print: its length, its height, the overlap of two
// tiles, and the gap below each.
type Strip struct {
	Length, Height, Overlap, Gap measure.Length
}

// Pack returns the stack that takes the fewest sheets, trying the paper upright
// and on its side; on a tie the one with fewer joints, then the upright one.
// Margins are those of the upright sheet.
func Pack(s Strip, p Paper, m Margins) (Stack, error) {
	upright := p.Portrait()
	var best Stack
	var first error
	for _, try := range []struct {
		paper   Paper
		margins Margins
	}{{upright, m}, {upright.Landscape(), m.Turned()}} {
		stack, err := pack(s, try.paper, try.margins)
		if err != nil {
			if first == nil {
				first = err
			}
			continue
		}
		if best.Sheets == 0 || stack.Sheets < best.Sheets ||
			stack.Sheets == best.Sheets && len(stack.Tiles) < len(best.Tiles) {
			best = stack
		}
	}
	if best.Sheets == 0 {
		return Stack{}, first
	}
	return best, nil
}

func pack(s Strip, p Paper, m Margins) (Stack, error) {
	f, err := m.Within(p)
	if err != nil {
		return Stack{}, err
	}
	if s.Height <= 0 || s.Gap < 0 {
		return Stack{}, fmt.Errorf("a band of height %v with a gap of %v cannot be printed", s.Height, s.Gap)
	}
	rows := int((f.Length + s.Gap) / (s.Height + s.Gap))
	if rows < 1 {
		return Stack{}, fmt.Errorf("a band %v high does not fit the %v that can be printed on the paper; use larger paper or smaller margins", s.Height, f.Length)
	}
	tiles, err := Spans(s.Length, f.Width, s.Overlap)
	if err != nil {
		return Stack{}, err
	}
	rows = min(rows, len(tiles))
	return Stack{Paper: p, Field: f, Tiles: tiles, Rows: rows,
		Sheets: (len(tiles) + rows - 1) / rows, Pitch: s.Height + s.Gap}, nil
}

// Place returns the sheet of tile i, from 0, and the tile's field on it.
func (s Stack) Place(i int) (sheet int, f Field) {
	row := i % s.Rows
	return i / s.Rows, Field{
		X:    s.Field.X,
		Y:    s.Field.Y + measure.Length(row)*s.Pitch,
		Size: measure.Size{Width: s.Tiles[i].Extent(), Length: s.Pitch},
	}
}

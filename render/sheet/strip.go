package sheet

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"shadewright/ticket/measure"
)

// A Strip is a band to print: its length, its height, and how much two of its
// tiles overlap.
type Strip struct{ Length, Height, Overlap measure.Length }

// A Tile is one piece of a strip and its place in print: the strip's index, the
// tile's index within the strip, the part of the strip it shows, its sheet
// (from 0), and its field on that sheet.
type Tile struct {
	Strip, Index int
	Span         Span
	Sheet        int
	Field        Field
}

// A Layout is a set of strips on sheets of one paper, turned the way it lies.
type Layout struct {
	Paper  Paper
	Field  Field  // the printable part
	Tiles  []Tile // by strip, then by index
	Sheets int
}

// Pack cuts each strip into as few tiles as the paper allows and lays them on the fewest
// sheets it finds, with gap between them. Pass paper and margins the way the sheet lies.
// Tiles of a strip are equally long, and tiles keep their order, where that costs no extra
// sheet.
func Pack(strips []Strip, gap measure.Length, p Paper, m Margins) (Layout, error) {
	f, err := m.Within(p)
	if err != nil {
		return Layout{}, err
	}
	if gap < 0 {
		return Layout{}, fmt.Errorf("gap %q between bands is negative; use zero or more", gap)
	}
	even, err := cut(strips, f, EvenSpans)
	if err != nil {
		return Layout{}, err
	}
	best := arrange(even, gap, f)
	if best.Sheets > 1 {
		full, err := cut(strips, f, fullSpans)
		if err != nil {
			return Layout{}, err
		}
		for _, l := range []Layout{inRows(even, gap, f), arrange(full, gap, f), inRows(full, gap, f)} {
			if l.Sheets < best.Sheets {
				best = l
			}
		}
	}
	best.Paper = p
	return best, nil
}

// cut returns the tiles of all strips, not yet placed, or every error.
func cut(strips []Strip, f Field, spans func(total, usable, overlap measure.Length) ([]Span, error)) ([]Tile, error) {
	var tiles []Tile
	var errs []error
	for i, s := range strips {
		of, err := s.tiles(i, f, spans)
		errs = append(errs, err)
		tiles = append(tiles, of...)
	}
	return tiles, errors.Join(errs...)
}

// arrange lays tiles on the fewest sheets it finds. It leaves the given tiles
// unchanged.
func arrange(tiles []Tile, gap measure.Length, f Field) Layout {
	inOrder := Layout{Field: f, Tiles: slices.Clone(tiles)}
	byHeight := Layout{Field: f, Tiles: slices.Clone(tiles)}
	inOrder.arrange(gap)
	// Placing the highest first is better for unequal heights (first fit
	// decreasing).
	slices.SortStableFunc(byHeight.Tiles, func(a, b Tile) int {
		return cmp.Or(cmp.Compare(b.Field.Length, a.Field.Length), cmp.Compare(b.Field.Width, a.Field.Width))
	})
	byHeight.arrange(gap)
	if byHeight.Sheets >= inOrder.Sheets {
		return inOrder
	}
	byStrip(byHeight.Tiles)
	return byHeight
}

func byStrip(tiles []Tile) {
	slices.SortFunc(tiles, func(a, b Tile) int {
		return cmp.Or(cmp.Compare(a.Strip, b.Strip), cmp.Compare(a.Index, b.Index))
	})
}

// tiles returns the strip's tiles, not yet placed.
func (s Strip) tiles(strip int, f Field, cut func(total, usable, overlap measure.Length) ([]Span, error)) ([]Tile, error) {
	if s.Height <= 0 {
		return nil, fmt.Errorf("nothing to print: band %d is %v high", strip+1, s.Height)
	}
	if s.Height > f.Length {
		return nil, fmt.Errorf("a band %v high does not fit the printable height of %v; use larger paper or smaller margins", s.Height, f.Length)
	}
	spans, err := cut(s.Length, f.Width, s.Overlap)
	if err != nil {
		return nil, err
	}
	tiles := make([]Tile, len(spans))
	for i, span := range spans {
		tiles[i] = Tile{Strip: strip, Index: i, Span: span,
			Field: Field{Size: measure.Size{Width: span.Extent(), Length: s.Height}}}
	}
	return tiles, nil
}

// A shelf is a row of tiles across a sheet.
type shelf struct {
	sheet           int
	top, high, used measure.Length
}

// arrange puts each tile on the first shelf with room for it. If no shelf has
// room, it starts a shelf on the first sheet with room.
func (l *Layout) arrange(gap measure.Length) {
	var shelves []shelf
	var ends []measure.Length // of each sheet, from the field's top, including the gap
	for i := range l.Tiles {
		t := &l.Tiles[i]
		w, h := t.Field.Width, t.Field.Length
		k := slices.IndexFunc(shelves, func(s shelf) bool { return h <= s.high && s.used+w <= l.Field.Width })
		if k < 0 {
			n := slices.IndexFunc(ends, func(end measure.Length) bool { return end+h <= l.Field.Length })
			if n < 0 {
				n, ends = len(ends), append(ends, 0)
			}
			k, shelves = len(shelves), append(shelves, shelf{sheet: n, top: ends[n], high: h})
			ends[n] += h + gap
		}
		s := &shelves[k]
		t.Sheet = s.sheet
		t.Field.X, t.Field.Y = l.Field.X+s.used, l.Field.Y+s.top
		s.used += w + gap
	}
	l.Sheets = len(ends)
}

package sheet

import (
	"cmp"
	"context"
	"slices"

	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
)

// inRows lays tiles in rows of one height each, on the fewest rows, and the rows on the
// fewest sheets. Both are the problem of cutting lengths from bars, which package nest
// solves. If nest refuses, which it does only for more tiles than any job has, inRows
// falls back to first fit.
func inRows(tiles []Tile, gap measure.Length, f Field) Layout {
	l := Layout{Field: f, Tiles: slices.Clone(tiles)}
	var heights []measure.Length
	at := map[measure.Length][]int{} // tiles by height
	for i, t := range tiles {
		h := t.Field.Length
		if at[h] == nil {
			heights = append(heights, h)
		}
		at[h] = append(at[h], i)
	}
	var rows [][]int
	var high []measure.Length
	for _, h := range heights {
		of, ok := bars(at[h], gap, f.Width, func(i int) measure.Length { return tiles[i].Field.Width })
		if !ok {
			return arrange(tiles, gap, f)
		}
		rows = append(rows, of...)
		for range of {
			high = append(high, h)
		}
	}
	all := make([]int, len(rows))
	for i := range all {
		all[i] = i
	}
	slices.SortFunc(all, func(a, b int) int { return cmp.Compare(rows[a][0], rows[b][0]) })
	sheets, ok := bars(all, gap, f.Length, func(i int) measure.Length { return high[i] })
	if !ok {
		return arrange(tiles, gap, f)
	}
	l.Sheets = len(sheets)
	for n, on := range sheets {
		y := f.Y
		for _, r := range on {
			x := f.X
			for _, i := range rows[r] {
				t := &l.Tiles[i]
				t.Sheet, t.Field.X, t.Field.Y = n, x, y
				x += t.Field.Width + gap
			}
			y += high[r] + gap
		}
	}
	return l
}

// bars puts things of the given lengths on the fewest bars, with gap between them. The
// things of a bar keep their order, and so do the bars.
func bars(things []int, gap, bar measure.Length, length func(int) measure.Length) (on [][]int, ok bool) {
	o := nest.StickOrder{Stock: []nest.StickStock{{Label: "sheet", Length: bar}}, Kerf: gap}
	for _, i := range things {
		o.Pieces = append(o.Pieces, nest.StickPiece{Length: length(i), Quantity: 1})
	}
	plan, err := nest.MakeSticks(context.Background(), o)
	if err != nil {
		return nil, false
	}
	place := map[int]int{}
	for k, i := range things {
		place[i] = k
	}
	for _, s := range plan.Sticks {
		var here []int
		for _, k := range s.Pieces {
			here = append(here, things[k])
		}
		slices.SortFunc(here, func(a, b int) int { return cmp.Compare(place[a], place[b]) })
		on = append(on, here)
	}
	slices.SortFunc(on, func(a, b []int) int { return cmp.Compare(place[a[0]], place[b[0]]) })
	return on, true
}

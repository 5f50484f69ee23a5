package sheet

import (
	"errors"
	"fmt"

	"shadewright/ticket/measure"
)

// A Grid says how labels lie on a sheet. Left and Top are the distances of the
// first label from the sheet's corner; GapX and GapY are the gaps between
// labels.
type Grid struct {
	Paper         Paper
	Rows, Columns int
	Left, Top     measure.Length
	Label         measure.Size
	GapX, GapY    measure.Length
}

// Single returns the grid of label stock with one label to the sheet.
func Single(p Paper) Grid { return Grid{Paper: p, Rows: 1, Columns: 1, Label: p.Size} }

// Grid returns the grid whose labels fill the paper between the margins, with
// the given gaps. It rounds the labels' sides down to a nanometre.
func (p Paper) Grid(rows, columns int, m Margins, gapX, gapY measure.Length) (Grid, error) {
	f, err := m.Within(p)
	if err != nil {
		return Grid{}, err
	}
	g := Grid{Paper: p, Rows: rows, Columns: columns, Left: f.X, Top: f.Y, GapX: gapX, GapY: gapY}
	if rows > 0 && columns > 0 {
		g.Label.Width = (f.Width - measure.Length(columns-1)*gapX) / measure.Length(columns)
		g.Label.Length = (f.Length - measure.Length(rows-1)*gapY) / measure.Length(rows)
	}
	return g, g.Check()
}

// mostLabels limits rows and columns, to catch typing errors.
const mostLabels = 100

// Check returns every problem of the grid, or nil.
func (g Grid) Check() error {
	var errs []error
	bad := func(format string, a ...any) { errs = append(errs, fmt.Errorf(format, a...)) }
	if g.Rows < 1 || g.Rows > mostLabels {
		bad("label rows %d are out of range; use 1 to %d", g.Rows, mostLabels)
	}
	if g.Columns < 1 || g.Columns > mostLabels {
		bad("label columns %d are out of range; use 1 to %d", g.Columns, mostLabels)
	}
	if g.Left < 0 || g.Top < 0 || g.GapX < 0 || g.GapY < 0 {
		bad("label margins and gaps must not be negative; use zero or more")
	}
	if g.Label.Width <= 0 || g.Label.Length <= 0 {
		bad("no room is left for labels; make margins and gaps smaller, or use fewer rows and columns")
	}
	if len(errs) > 0 {
		return errors.Join(errs...)
	}
	if over := g.at(g.Columns-1, g.Left, g.GapX, g.Label.Width) + g.Label.Width - g.Paper.Width; over > 0 {
		bad("%d label columns are %v too wide for the paper; make labels, margins or gaps smaller", g.Columns, over)
	}
	if over := g.at(g.Rows-1, g.Top, g.GapY, g.Label.Length) + g.Label.Length - g.Paper.Length; over > 0 {
		bad("%d label rows are %v too high for the paper; make labels, margins or gaps smaller", g.Rows, over)
	}
	return errors.Join(errs...)
}

func (g Grid) at(i int, first, gap, side measure.Length) measure.Length {
	return first + measure.Length(i)*(side+gap)
}

// PerSheet returns how many labels a sheet holds.
func (g Grid) PerSheet() int { return g.Rows * g.Columns }

// Place returns the sheet of label i, numbered from 0, and the label's field
// there. Labels run row by row from the top left. Skip is the number of labels
// already used on the first sheet.
func (g Grid) Place(i, skip int) (sheet int, f Field) {
	i += skip
	sheet, i = i/g.PerSheet(), i%g.PerSheet()
	return sheet, Field{
		X:    g.at(i%g.Columns, g.Left, g.GapX, g.Label.Width),
		Y:    g.at(i/g.Columns, g.Top, g.GapY, g.Label.Length),
		Size: g.Label,
	}
}

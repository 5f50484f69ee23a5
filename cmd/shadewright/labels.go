package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"

	"shadewright/cmd/shadewright/outdir"
	"shadewright/render/sheet"
)

// nextLabel is the word for the label after the last one that was printed.
const nextLabel = "next"

// A labelBook remembers which label of a begun sheet is free, for each kind of sheet. It is
// a file in the user's data folder.
type labelBook struct {
	path string // empty if there is no data folder
	free map[string]int
}

// openLabels reads the book. A missing file is an empty book.
func openLabels(dataDir string) (*labelBook, error) {
	b := &labelBook{free: map[string]int{}}
	if dataDir == "" {
		return b, nil
	}
	b.path = filepath.Join(dataDir, "labels.json")
	data, err := os.ReadFile(b.path)
	if errors.Is(err, fs.ErrNotExist) {
		return b, nil
	}
	if err == nil {
		err = json.Unmarshal(data, &b.free)
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w; delete the file, and give --first-label a number", b.path, err)
	}
	return b, nil
}

// kindOf names a kind of label sheet by its rows, columns and label.
func kindOf(g sheet.Grid) string {
	return fmt.Sprintf("%d x %d of %s x %s", g.Rows, g.Columns, g.Label.Width, g.Label.Length)
}

// first returns how many labels of the first sheet are used already, by what the user
// wrote: a number counted from 1, next, or nothing for a fresh sheet.
func (b *labelBook) first(text string, g sheet.Grid) (used int, err error) {
	switch text {
	case "":
		return 0, nil
	case nextLabel:
		free := b.free[kindOf(g)]
		if free == 0 {
			return 0, usageError{fmt.Errorf("--first-label next: no such label sheet was printed yet; count the free labels, and write a number from 1 to %d", g.PerSheet())}
		}
		return free - 1, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > g.PerSheet() {
		return 0, usageError{fmt.Errorf("--first-label %q is not a label of this sheet; write a number from 1 to %d, counted row by row, or next", text, g.PerSheet())}
	}
	return n - 1, nil
}

// A labelSheet is the sheet on which the tags of a run begin.
type labelSheet struct {
	book *labelBook
	grid sheet.Grid
	used int // labels of the first sheet that are gone
}

// beginLabels finds the first free label, by the flag --first-label.
func (l *loadedJob) beginLabels(text string) (b labelSheet, err error) {
	paper, err := l.paper()
	if err != nil {
		return b, err
	}
	if b.grid, err = l.labels(paper); err != nil {
		return b, err
	}
	if b.book, err = openLabels(l.dataDir); err != nil {
		if text != nextLabel {
			b.book, err = &labelBook{}, nil // it is only asked for the next label
		}
		return b, err
	}
	b.used, err = b.book.first(text, b.grid)
	return b, err
}

// free returns the label that is free once so many are printed, counted from 1.
func (b labelSheet) free(printed int) int { return (b.used+printed)%b.grid.PerSheet() + 1 }

// says tells the first free label for the list of files, unless the sheet is used up.
func (b labelSheet) says(printed int) string {
	if n := b.free(printed); n > 1 {
		return fmt.Sprintf(", next free label %d", n)
	}
	return ""
}

// keep remembers the first free label.
func (b labelSheet) keep(printed int) error {
	if b.book.path == "" || b.grid.PerSheet() == 1 {
		return nil
	}
	b.book.free[kindOf(b.grid)] = b.free(printed)
	data, err := json.MarshalIndent(b.book.free, "", "  ")
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(b.book.path), 0o755); err != nil {
		return err
	}
	return outdir.Replace(b.book.path, append(data, '\n'))
}

// labels returns the grid of tags on a sheet.
func (l *loadedJob) labels(paper sheet.Paper) (sheet.Grid, error) {
	s := l.settings.Labels
	if s.Single {
		one, err := sheet.Sized(s.Width, s.Height)
		return sheet.Single(one), err
	}
	grid, err := paper.Grid(s.Rows, s.Columns, sheet.Margins(s.Margins), s.GapX, s.GapY)
	if err != nil {
		return grid, usageError{err}
	}
	return grid, nil
}

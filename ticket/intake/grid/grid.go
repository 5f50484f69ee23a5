// Package grid is the cells of a spreadsheet, and reads them from text with any
// common separator and quoting. It says what a cell holds and judges nothing: what
// a column means is for package intake. Workbooks are read by package workbook.
package grid

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"strconv"
	"time"

	"shadewright/ticket/form"
)

// A Kind says what a spreadsheet made of a cell.
type Kind uint8

const (
	Text   Kind = iota // as it was typed
	Number             // a number that the spreadsheet holds, whatever it shows
	Date               // a day: often a fraction that was taken for one
	Fault              // a formula that failed
)

// A Cell is one cell. Text is without blanks around it; of a number it is the
// shortest decimal, of a date its year-month-day.
type Cell struct {
	Text string
	Kind Kind
	Day  time.Time // of a date
}

// A Row is one row; Number is what the spreadsheet calls it, from 1.
type Row struct {
	Number int
	Cells  []Cell
}

// At returns the cell of a column, from 0; beyond the last one it is empty.
func (r Row) At(column int) Cell {
	if column >= len(r.Cells) {
		return Cell{}
	}
	return r.Cells[column]
}

// Blank reports whether nothing stands in the row.
func (r Row) Blank() bool {
	for _, c := range r.Cells {
		if c.Text != "" {
			return false
		}
	}
	return true
}

// A Grid is one sheet. Rows without anything in them are left out.
type Grid struct {
	File  string // as the person named it
	Sheet string // of a workbook
	Rows  []Row
	Notes []string // what was found out about the file, for the person
}

// Limits on a hostile or mistaken file; common practice, no source.
const (
	maxBytes   = 8 << 20
	MaxRows    = 20_000
	MaxColumns = 400
)

// Bad is the error about a file that is no table.
func Bad(file, problem, fix string) error {
	return form.Problems{{File: file, Fault: form.Fault{Problem: problem, Fix: fix}}}
}

// IsWorkbook reports whether the bytes are those of a workbook (a ZIP archive).
func IsWorkbook(data []byte) bool { return bytes.HasPrefix(data, []byte("PK\x03\x04")) }

// Load returns the bytes of a file, of a file that is too large only so many that
// [Fits] refuses them.
func Load(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close() // only read from: a close that fails loses nothing
	if info, err := f.Stat(); err != nil {
		return nil, err
	} else if info.IsDir() {
		return nil, Bad(path, "is a folder", "give the name of a file in it")
	}
	return io.ReadAll(io.LimitReader(f, maxBytes+1))
}

// Fits refuses a file that is too large to be a sheet of shades.
func Fits(file string, data []byte) error {
	if len(data) > maxBytes {
		return Bad(file, fmt.Sprintf("has more than %d MiB", maxBytes>>20), "check that it is the right file")
	}
	return nil
}

// Add appends a row, unless nothing stands in it.
func (g *Grid) Add(r Row) error {
	switch {
	case r.Blank():
		return nil
	case len(g.Rows) == MaxRows:
		return Bad(g.File, fmt.Sprintf("has more than %d rows", MaxRows), "check that it is the right file")
	case len(r.Cells) > MaxColumns:
		return Bad(g.File, fmt.Sprintf("has more than %d columns in row %d", MaxColumns, r.Number), "check that it is the right file")
	}
	g.Rows = append(g.Rows, r)
	return nil
}

// Letter returns the name of a column, from 0: A … Z, AA …
func Letter(column int) string {
	var s string
	for n := column + 1; n > 0; n = (n - 1) / 26 {
		s = string(rune('A'+(n-1)%26)) + s
	}
	return s
}

// NumberCell returns the cell of a number that a spreadsheet holds. Twelve digits
// are kept: past them there is only what binary arithmetic leaves behind.
func NumberCell(v float64) Cell {
	short, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 12, 64), 64)
	if err != nil {
		short = v // cannot be: the text was just formatted
	}
	return Cell{Text: strconv.FormatFloat(short, 'f', -1, 64), Kind: Number}
}

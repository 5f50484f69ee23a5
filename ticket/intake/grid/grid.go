// Package grid holds the cells of a spreadsheet. It reads them from text with any
// common separator and quoting; package workbook reads them from workbooks. It does
// not interpret cells: package intake knows what a column means.
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

// A Kind says how the spreadsheet stores a cell.
type Kind uint8

const (
	Text   Kind = iota // as it was typed
	Number             // a number, however the spreadsheet shows it
	Date               // a day, often made by mistake from a fraction
	Fault              // a formula that failed
)

// A Cell is one cell. Text has no spaces around it; a number is the shortest
// decimal, and a date is year-month-day.
type Cell struct {
	Text string
	Kind Kind
	Day  time.Time // of a date
}

// A Row is one row. Number is its number in the spreadsheet, from 1.
type Row struct {
	Number int
	Cells  []Cell
}

// At returns the cell of a column, counted from 0. Beyond the last column it
// returns an empty cell.
func (r Row) At(column int) Cell {
	if column >= len(r.Cells) {
		return Cell{}
	}
	return r.Cells[column]
}

// Blank reports whether all cells of the row are empty.
func (r Row) Blank() bool {
	for _, c := range r.Cells {
		if c.Text != "" {
			return false
		}
	}
	return true
}

// A Grid is one sheet, without its empty rows.
type Grid struct {
	File  string // as the person named it
	Sheet string // of a workbook
	Rows  []Row
	Notes []string // what the reader found out about the file, for the person
}

// These limit a hostile or mistaken file; common practice, no source.
const (
	maxBytes   = 8 << 20
	MaxRows    = 20_000
	MaxColumns = 400
)

// Bad returns the error for a file that is not a table.
func Bad(file, problem, fix string) error {
	return form.Problems{{File: file, Fault: form.Fault{Problem: problem, Fix: fix}}}
}

// IsWorkbook reports whether the bytes are a workbook, which is a ZIP archive.
func IsWorkbook(data []byte) bool { return bytes.HasPrefix(data, []byte("PK\x03\x04")) }

// Load returns the bytes of a file. Of a file that is too large, it returns just
// enough for [Fits] to refuse it.
func Load(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close() // only read, so a failed close loses nothing
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
		return Bad(file, fmt.Sprintf("has more than %d MiB", maxBytes>>20), "check that this is the right file")
	}
	return nil
}

// Add appends a row unless it is empty.
func (g *Grid) Add(r Row) error {
	switch {
	case r.Blank():
		return nil
	case len(g.Rows) == MaxRows:
		return Bad(g.File, fmt.Sprintf("has more than %d rows", MaxRows), "check that this is the right file")
	case len(r.Cells) > MaxColumns:
		return Bad(g.File, fmt.Sprintf("has more than %d columns in row %d", MaxColumns, r.Number), "check that this is the right file")
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

// NumberCell returns a cell for a number. It keeps twelve digits, because a
// spreadsheet's later digits are rounding errors of binary arithmetic.
func NumberCell(v float64) Cell {
	short, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 12, 64), 64)
	if err != nil {
		short = v // cannot happen: FormatFloat wrote the text
	}
	return Cell{Text: strconv.FormatFloat(short, 'f', -1, 64), Kind: Number}
}

// Package workbook reads and writes XLSX spreadsheets (ISO/IEC 29500) as the cells of
// package grid. It reports workbooks that it cannot read and judges nothing else.
package workbook

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"shadewright/ticket/form"
	"shadewright/ticket/intake/grid"
)

// unzipped limits how large a workbook may be in memory: a small archive can hold gigabytes
// of zeros.
const unzipped = 64 << 20

// Read returns one grid for each visible sheet, or for the one named sheet. The error is a
// [form.Problems].
func Read(file string, data []byte, sheet string) (grids []*grid.Grid, err error) {
	if err := grid.Fits(file, data); err != nil {
		return nil, err
	}
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{RawCellValue: true, UnzipSizeLimit: unzipped, UnzipXMLSizeLimit: unzipped})
	if err != nil {
		return nil, grid.Bad(file, "cannot be read as a workbook: "+err.Error(), "save it again as XLSX, or as CSV")
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	names := f.GetSheetList()
	if sheet != "" {
		at := indexFold(names, sheet)
		if at < 0 {
			return nil, grid.Bad(file, fmt.Sprintf("has no sheet %q", sheet), form.Suggest(sheet, "sheets", names))
		}
		names = names[at : at+1]
	}
	w := &book{File: f, file: file, dates: map[int]bool{}}
	if props, err := f.GetWorkbookProps(); err == nil && props.Date1904 != nil {
		w.from1904 = *props.Date1904
	}
	for _, name := range names {
		if seen, err := f.GetSheetVisible(name); err != nil || !seen && sheet == "" {
			continue // hidden, or a chart
		}
		g, err := w.sheet(name)
		if err != nil {
			return nil, err
		}
		grids = append(grids, g)
	}
	if len(grids) == 0 {
		return nil, grid.Bad(file, "has only hidden sheets", "unhide it, or name it with --sheet")
	}
	return grids, nil
}

func indexFold(names []string, name string) int {
	for i, n := range names {
		if strings.EqualFold(n, name) {
			return i
		}
	}
	return -1
}

type book struct {
	*excelize.File
	file     string
	from1904 bool         // dates count days from 1904, as on old machines
	dates    map[int]bool // by style
}

func (w *book) sheet(name string) (*grid.Grid, error) {
	fail := func(err error) (*grid.Grid, error) {
		return nil, grid.Bad(w.file, fmt.Sprintf("sheet %q cannot be read: %v", name, err), "save it again as XLSX, or as CSV")
	}
	rows, err := w.GetRows(name)
	if err != nil {
		return fail(err)
	}
	if len(rows) > grid.MaxRows {
		return nil, grid.Bad(w.file, fmt.Sprintf("has more than %d rows", grid.MaxRows), "check that this is the right file")
	}
	all := make([]grid.Row, len(rows))
	g, unseen := &grid.Grid{File: w.file, Sheet: name}, map[int]bool{}
	for i, texts := range rows {
		all[i].Number = i + 1
		hidden, err := w.hides(name, i, texts)
		if err != nil {
			return fail(err)
		}
		if hidden {
			g.Notes = append(g.Notes, fmt.Sprintf("row %d is hidden and left out", i+1))
			unseen[i+1] = true
		}
		for j, text := range texts {
			c, err := w.cell(name, j, i, text)
			if err != nil {
				return fail(err)
			}
			all[i].Cells = append(all[i].Cells, c)
		}
	}
	if err := w.spread(name, all); err != nil {
		return fail(err)
	}
	for _, r := range all {
		if unseen[r.Number] {
			continue // only here: a merged cell may begin in this row
		}
		if err := g.Add(r); err != nil {
			return nil, err
		}
	}
	return g, nil
}

// hides reports whether a row with data is hidden, by hand or by a filter. The user does not
// see such a row, so it must not become a shade.
func (w *book) hides(sheet string, row int, texts []string) (bool, error) {
	if strings.Join(texts, "") == "" {
		return false, nil
	}
	seen, err := w.GetRowVisible(sheet, row+1)
	return !seen, err
}

// cell tells numbers, dates and failed formulas from text.
func (w *book) cell(sheet string, column, row int, text string) (grid.Cell, error) {
	at, err := excelize.CoordinatesToCellName(column+1, row+1)
	if err != nil {
		return grid.Cell{}, err
	}
	if text == "" { // empty, or a formula whose result the file does not have
		formula, err := w.GetCellFormula(sheet, at)
		if err != nil || formula == "" {
			return grid.Cell{}, err
		}
		return grid.Cell{Text: "=" + strings.TrimPrefix(formula, "="), Kind: grid.Fault}, nil
	}
	kind, err := w.GetCellType(sheet, at)
	if err != nil {
		return grid.Cell{}, err
	}
	switch kind {
	case excelize.CellTypeError:
		return grid.Cell{Text: text, Kind: grid.Fault}, nil
	case excelize.CellTypeUnset, excelize.CellTypeNumber, excelize.CellTypeDate:
	default:
		return grid.Cell{Text: grid.Clean(text)}, nil
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return grid.Cell{Text: grid.Clean(text)}, nil
	}
	isDate, err := w.isDate(sheet, at)
	if err != nil || !isDate {
		return grid.NumberCell(v), err
	}
	day, err := excelize.ExcelDateToTime(v, w.from1904)
	if err != nil {
		return grid.NumberCell(v), nil
	}
	return grid.Cell{Text: day.Format("2006-01-02"), Kind: grid.Date, Day: day}, nil
}

func (w *book) isDate(sheet, at string) (bool, error) {
	id, err := w.GetCellStyle(sheet, at)
	if err != nil {
		return false, err
	}
	if known, ok := w.dates[id]; ok {
		return known, nil
	}
	style, err := w.GetStyle(id)
	if err != nil {
		return false, err
	}
	is := dateFormat(style.NumFmt)
	if style.CustomNumFmt != nil {
		is = dateWords(*style.CustomNumFmt)
	}
	w.dates[id] = is
	return is, nil
}

// dateFormat reports whether a built-in number format shows a day or a time
// (ISO/IEC 29500-1, 18.8.30: 14 to 22, 45 to 47, and in East Asian languages 27
// to 36 and 50 to 58).
func dateFormat(id int) bool {
	return 14 <= id && id <= 22 || 27 <= id && id <= 36 || 45 <= id && id <= 47 || 50 <= id && id <= 58
}

// quoted matches the parts of a number format that are literal text or not a format.
var quoted = regexp.MustCompile(`"[^"]*"|\\.|\[[^\]]*\]|_.`)

func dateWords(format string) bool {
	return strings.ContainsAny(strings.ToLower(quoted.ReplaceAllString(format, "")), "dmy") && !strings.ContainsAny(format, "#?")
}

// spread copies the contents of a merged cell into each cell of its area.
func (w *book) spread(sheet string, rows []grid.Row) error {
	merged, err := w.GetMergeCells(sheet)
	if err != nil {
		return err
	}
	for _, m := range merged {
		x1, y1, err := excelize.CellNameToCoordinates(m.GetStartAxis())
		if err != nil {
			return err
		}
		x2, y2, err := excelize.CellNameToCoordinates(m.GetEndAxis())
		if err != nil {
			return err
		}
		if y1 > len(rows) {
			continue
		}
		c := rows[y1-1].At(x1 - 1)
		for y := y1; y <= min(y2, len(rows)); y++ {
			r := &rows[y-1]
			for len(r.Cells) < min(x2, grid.MaxColumns) {
				r.Cells = append(r.Cells, grid.Cell{})
			}
			for x := x1; x <= min(x2, grid.MaxColumns); x++ {
				r.Cells[x-1] = c
			}
		}
	}
	return nil
}

package workbook

import (
	"bytes"
	"errors"

	"github.com/xuri/excelize/v2"
)

// textFormat is the built-in number format for text (ISO/IEC 29500-1, 18.8.30). With it 3/4
// does not become a date.
const textFormat = 49

// Write returns rows as an XLSX workbook. Every cell, empty or not, keeps typed values as
// text. Remarks explain the columns on a second sheet.
func Write(sheet string, rows, remarks [][]string) (data []byte, err error) {
	f := excelize.NewFile()
	defer func() { err = errors.Join(err, f.Close()) }()
	if err := f.SetSheetName("Sheet1", sheet); err != nil {
		return nil, err
	}
	if _, err := f.NewSheet("columns"); err != nil {
		return nil, err
	}
	plain, err := f.NewStyle(&excelize.Style{NumFmt: textFormat})
	if err != nil {
		return nil, err
	}
	head, err := f.NewStyle(&excelize.Style{NumFmt: textFormat, Font: &excelize.Font{Bold: true}, Alignment: &excelize.Alignment{WrapText: true, Vertical: "top"}})
	if err != nil {
		return nil, err
	}
	last, err := excelize.ColumnNumberToName(len(rows[0]))
	if err != nil {
		return nil, err
	}
	return finish(f, []func() error{
		func() error { return f.SetColStyle(sheet, "A:"+last, plain) },
		func() error { return f.SetColWidth(sheet, "A", last, 14) },
		func() error { return fill(f, sheet, rows) },
		func() error { return f.SetCellStyle(sheet, "A1", last+"1", head) },
		func() error {
			return f.SetPanes(sheet, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"})
		},
		func() error { return f.SetColWidth("columns", "A", "A", 24) },
		func() error { return f.SetColWidth("columns", "B", "B", 90) },
		func() error { return fill(f, "columns", remarks) },
	})
}

func finish(f *excelize.File, steps []func() error) ([]byte, error) {
	for _, step := range steps {
		if err := step(); err != nil {
			return nil, err
		}
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

func fill(f *excelize.File, sheet string, rows [][]string) error {
	for i, r := range rows {
		for j, text := range r {
			at, err := excelize.CoordinatesToCellName(j+1, i+1)
			if err != nil {
				return err
			}
			if err := f.SetCellStr(sheet, at, text); err != nil {
				return err
			}
		}
	}
	return nil
}

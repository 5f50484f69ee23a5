package workbook

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"shadewright/ticket/intake/grid"
)

const sheets = "../../../testdata/sheets"

func load(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(sheets, name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// Read tells the kinds of cells apart. Another library wrote the sheets; the wanted values
// are those that it was given.
func TestRead(t *testing.T) {
	for _, tt := range []struct {
		file, sheet string
		row, column int // counted from 0, without blank rows
		want        grid.Cell
	}{
		{"merged.xlsx", "Openings", 1, 3, grid.Cell{Text: "Finished size (in)"}}, // merged across
		{"merged.xlsx", "Openings", 4, 0, grid.Cell{Text: "Bunk room"}},          // merged down
		{"merged.xlsx", "Openings", 4, 3, grid.Cell{Text: "37.125", Kind: grid.Number}},
		{"dates.xlsx", "Sheet1", 2, 6, grid.Cell{Text: "2026-03-08", Kind: grid.Date}},
		{"dates.xlsx", "Sheet1", 4, 1, grid.Cell{Text: "#N/A", Kind: grid.Fault}},
		{"kept-as-text.xlsx", "Sheet", 1, 1, grid.Cell{Text: "27.5"}},
		{"kept-as-text.xlsx", "Sheet", 2, 1, grid.Cell{Text: "26.375", Kind: grid.Number}},
		{"kept-as-text.xlsx", "Sheet", 2, 2, grid.Cell{Text: "37.125", Kind: grid.Number}},
	} {
		grids, err := Read(tt.file, load(t, tt.file), tt.sheet)
		if err != nil {
			t.Errorf("%s: %v", tt.file, err)
			continue
		}
		got := grids[0].Rows[tt.row].At(tt.column)
		if got.Text != tt.want.Text || got.Kind != tt.want.Kind {
			t.Errorf("%s, row %d, column %s: %+v; want %+v", tt.file, tt.row, grid.Letter(tt.column), got, tt.want)
		}
	}
}

// Read skips a hidden sheet unless it is named.
func TestHidden(t *testing.T) {
	names := func(sheet string) string {
		grids, err := Read("second.xlsx", load(t, "second.xlsx"), sheet)
		if err != nil {
			return err.Error()
		}
		var list []string
		for _, g := range grids {
			list = append(list, g.Sheet)
		}
		return strings.Join(list, " ")
	}
	for sheet, want := range map[string]string{
		"": "Client Sizes", "old": "Old", "Size": `second.xlsx: has no sheet "Size"; did you mean Sizes?`,
	} {
		if got := names(sheet); got != want {
			t.Errorf("asked for %q: %s; want %s", sheet, got, want)
		}
	}
}

// Written rows are read back, as text.
func TestWrite(t *testing.T) {
	rows := [][]string{{"Shade", "Width"}, {"a", "3/4"}, {"007", "1-1/8"}}
	data, err := Write("shades", rows, [][]string{{"column", "what goes there"}})
	if err != nil {
		t.Fatal(err)
	}
	grids, err := Read("a.xlsx", data, "")
	if err != nil {
		t.Fatal(err)
	}
	var got [][]string
	for _, r := range grids[0].Rows {
		got = append(got, []string{r.At(0).Text, r.At(1).Text})
		if r.At(1).Kind != grid.Text {
			t.Errorf("%q is kept as %v", r.At(1).Text, r.At(1).Kind)
		}
	}
	if fmt.Sprint(got) != fmt.Sprint(rows) {
		t.Errorf("read back as %v; want %v", got, rows)
	}
}

// Read refuses a file that is not a workbook.
func TestRefused(t *testing.T) {
	good := load(t, "merged.xlsx")
	for _, data := range [][]byte{good[:len(good)/2], []byte("PK\x03\x04"), nil} {
		if _, err := Read("a.xlsx", data, ""); err == nil || !strings.HasPrefix(err.Error(), "a.xlsx: cannot be read as a workbook: ") {
			t.Errorf("%d bytes: %v", len(data), err)
		}
	}
}

// Number formats that show a day (ECMA-376, part 1, 18.8.30 and 18.8.31).
func TestDateWords(t *testing.T) {
	for format, want := range map[string]bool{
		"d-mmm": true, "m/d/yyyy": true, "yyyy\\-mm\\-dd": true, "[$-409]d\\-mmm;@": true, "dd.mm.yyyy": true,
		`0.0" mm"`: false, "# ?/?": false, "General": false, "0.00": false, "[Red]0": false, `#,##0" days"`: false,
	} {
		if got := dateWords(format); got != want {
			t.Errorf("dateWords(%q) = %v; want %v", format, got, want)
		}
	}
}

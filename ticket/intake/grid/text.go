package grid

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"

	"shadewright/ticket/form"
)

// separators are the characters that may separate cells, the likeliest first.
var separators = []rune{'\t', ';', ',', '|'}

var separatorNames = map[rune]string{'\t': "tabs", ';': "semicolons", ',': "commas", '|': "vertical bars"}

// Read reads a table from text. It detects the separator, the quoting and the
// encoding. The error is a [form.Problems].
func Read(file string, data []byte) (*Grid, error) {
	switch {
	case bytes.HasPrefix(data, []byte("\xd0\xcf\x11\xe0")):
		return nil, Bad(file, "is an old XLS workbook, or has a password", "save it as XLSX or CSV, without a password")
	case bytes.HasPrefix(data, []byte("%PDF")):
		return nil, Bad(file, "is a PDF", "save the table as XLSX or CSV")
	}
	if err := Fits(file, data); err != nil {
		return nil, err
	}
	g := &Grid{File: file}
	text, err := g.decode(data)
	if err != nil {
		return nil, err
	}
	if strings.TrimSpace(text) == "" {
		return nil, Bad(file, "is empty", "run shadewright import --blank for a size list to fill in")
	}
	comma, text, skipped := separator(text)
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.FieldsPerRecord, r.LazyQuotes = comma, -1, true
	for {
		fields, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, Bad(file, "cannot be read as a table: "+err.Error(), "save it again as CSV")
		}
		line, _ := r.FieldPos(0)
		if last := fields[len(fields)-1]; unclosed(last, text, comma) {
			at, _ := r.FieldPos(len(fields) - 1)
			return nil, form.Problems{{File: file, Line: at + skipped, Fault: form.Fault{Problem: "opens a quote that is never closed", Fix: "close the quote, or remove it"}}}
		}
		row := Row{Number: line + skipped}
		for _, f := range fields {
			row.Cells = append(row.Cells, Cell{Text: Clean(f)})
		}
		if err := g.Add(row); err != nil {
			return nil, err
		}
	}
	g.Notes = append(g.Notes, separatorNames[comma]+" separate the cells")
	return g, nil
}

// unclosed reports whether a cell runs to the end of the text because its opening
// quote has no closing one. A cell without quotes ends at its line or at the
// separator, and a cell with two quotes ends at the second.
func unclosed(cell, text string, comma rune) bool {
	return (strings.ContainsRune(cell, '\n') || strings.ContainsRune(cell, comma)) && strings.HasSuffix(text, cell) &&
		!strings.HasSuffix(strings.TrimSpace(text), `"`)
}

// decode turns the bytes of a file into text. It reads UTF-8, UTF-16 with a byte
// order mark, or else Windows-1252, in which spreadsheets on Windows save CSV.
func (g *Grid) decode(data []byte) (string, error) {
	for _, mark := range []struct {
		head string
		low  int // which byte of a pair is the low one
	}{{"\xff\xfe", 0}, {"\xfe\xff", 1}} {
		if rest, ok := bytes.CutPrefix(data, []byte(mark.head)); ok {
			g.Notes = append(g.Notes, "the text is UTF-16")
			return wide(rest, mark.low), nil
		}
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if bytes.IndexByte(data, 0) >= 0 {
		return "", Bad(g.File, "is neither text nor an XLSX workbook", "save the table as XLSX or CSV")
	}
	if utf8.Valid(data) {
		return string(data), nil
	}
	g.Notes = append(g.Notes, "the text is not UTF-8 and was read as Windows-1252")
	text, err := charmap.Windows1252.NewDecoder().Bytes(data)
	if err != nil {
		return "", Bad(g.File, "cannot be read as text: "+err.Error(), "save it as UTF-8")
	}
	return string(text), nil
}

func wide(data []byte, low int) string {
	units := make([]uint16, len(data)/2)
	for i := range units {
		units[i] = uint16(data[2*i+low]) | uint16(data[2*i+1-low])<<8
	}
	return string(utf16.Decode(units))
}

// separator detects the character that separates cells. A first line such as
// "sep=;" names it; otherwise it is the one that most lines have equally often.
// separator returns the text without a "sep=" line, and the number of lines it
// removed.
func separator(text string) (comma rune, rest string, skipped int) {
	first, after, _ := strings.Cut(text, "\n")
	if s, ok := strings.CutPrefix(strings.ToLower(strings.TrimRight(first, "\r")), "sep="); ok && utf8.RuneCountInString(s) == 1 {
		c, _ := utf8.DecodeRuneInString(s)
		if separatorNames[c] != "" {
			return c, after, 1
		}
	}
	best, most := ',', 0
	for _, c := range separators {
		if n := agreeing(text, c); n > most {
			best, most = c, n
		}
	}
	return best, text, 0
}

// agreeing counts the cells on the lines that agree on their number of cells, for
// the best such number. It returns zero if no line has the separator.
func agreeing(text string, comma rune) int {
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.FieldsPerRecord, r.LazyQuotes = comma, -1, true
	count := map[int]int{}
	for range 200 {
		fields, err := r.Read()
		if err != nil {
			break
		}
		count[len(fields)]++
	}
	most := 0
	for cells, lines := range count {
		if cells > 1 {
			most = max(most, cells*lines)
		}
	}
	return most
}

// Clean removes what spreadsheets put around a text: spaces, ="…", and the
// apostrophe that keeps a number as text.
func Clean(s string) string {
	s = strings.TrimSpace(strings.ReplaceAll(s, "\u00a0", " "))
	if inner, ok := strings.CutPrefix(s, `="`); ok && strings.HasSuffix(inner, `"`) {
		s = strings.TrimSpace(strings.ReplaceAll(strings.TrimSuffix(inner, `"`), `""`, `"`))
	}
	if rest, ok := strings.CutPrefix(s, "'"); ok && rest != "" && (rest[0] == '=' || '0' <= rest[0] && rest[0] <= '9') {
		s = rest
	}
	return s
}

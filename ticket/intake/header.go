package intake

import (
	"fmt"
	"strings"

	"shadewright/ticket/form"
	"shadewright/ticket/intake/grid"
	"shadewright/ticket/measure"
)

// A Match is a column and the field it was matched to.
type Match struct {
	Column  int    // from 0
	Heading string // as it stands in the sheet
	Path    string // of the field in a job file; empty if the column is ignored
	Unit    string // the unit that the heading names
	Near    bool   // the heading is only similar to a known one
	length  bool
}

// Means describes the match for a person.
func (m Match) Means() string {
	if m.Path == "" {
		return "left out"
	}
	s := meaningOf(m.Path).words[0]
	if m.Unit != "" {
		s += ", in " + unitNames[m.Unit]
	}
	if m.Near {
		s += " (guessed)"
	}
	return s
}

var unitNames = map[string]string{"in": "inches", "ft": "feet", "mm": "mm", "cm": "cm", "m": "metres"}

// A header is the one or two rows of headings and their meanings.
type header struct {
	first, last int // rows of the grid, from 0
	matches     []Match
}

// deepest is the number of rows in which the headings must begin.
const deepest = 25

// findHeader looks for the headings. They are a single row, or two rows of which
// the upper groups the lower. The best candidate has a width and a length and the
// most known headings.
func findHeader(g *grid.Grid) (header, bool) {
	var best header
	most := 0
	for i := range min(len(g.Rows), deepest) {
		for _, h := range []header{single(g, i), double(g, i)} {
			n := 4 * h.known()
			if h.systemOf() != measure.Undeclared {
				n += 2
			}
			if h.first == h.last {
				n++ // prefer a single row: the row above it may be only a title
			}
			if h.sized() && n > most {
				best, most = h, n
			}
		}
	}
	return best, most > 0
}

// sized reports whether the headings include a size, finished or of an opening.
func (h header) sized() bool {
	return h.has("shades.finished.width") && h.has("shades.finished.length") ||
		h.has("shades.opening.widths#1") && h.has("shades.opening.heights#1")
}

func (h header) has(path string) bool {
	_, ok := h.column(path)
	return ok
}

func (h header) column(path string) (Match, bool) {
	for _, m := range h.matches {
		if m.Path == path {
			return m, true
		}
	}
	return Match{}, false
}

// known counts the different fields that the headings name.
func (h header) known() int {
	seen := map[string]bool{}
	for _, m := range h.matches {
		if m.Path != "" {
			seen[m.Path] = true
		}
	}
	return len(seen)
}

func single(g *grid.Grid, i int) header {
	h := header{first: i, last: i}
	for c, cell := range g.Rows[i].Cells {
		if cell.Kind == grid.Text && cell.Text != "" {
			h.matches = append(h.matches, match(c, cell.Text, cell.Text))
		}
	}
	return h
}

// double reads row i as headings that span several columns of row i+1.
func double(g *grid.Grid, i int) header {
	h := header{first: i, last: i + 1}
	if i+1 >= len(g.Rows) || title(g.Rows[i]) {
		return header{}
	}
	upper, lower, span := g.Rows[i], g.Rows[i+1], ""
	for c := range max(len(upper.Cells), len(lower.Cells)) {
		if text := upper.At(c).Text; text != "" {
			span = text
		}
		own := lower.At(c).Text
		switch {
		case lower.At(c).Kind != grid.Text:
			return header{} // a row of numbers cannot be a heading
		case own == "" && upper.At(c).Text == "":
		case own == "" || own == upper.At(c).Text:
			h.matches = append(h.matches, match(c, upper.At(c).Text, upper.At(c).Text))
		default:
			h.matches = append(h.matches, match(c, strings.TrimSpace(span+" "+own), span+" "+own, own))
		}
	}
	return h
}

// title reports whether all filled cells of a row have the same text.
func title(r grid.Row) bool {
	first := ""
	for _, c := range r.Cells {
		switch {
		case c.Text == "":
		case first == "":
			first = c.Text
		case c.Text != first: // a merged cell repeats its text
			return false
		}
	}
	return true
}

// match matches a column to a field by the first of its wordings that is known. It
// never confuses an opening with a finished size: both sides must speak of an
// opening or neither may, and a heading that is only similar never matches an
// opening.
func match(column int, shown string, wordings ...string) Match {
	m := Match{Column: column, Heading: strings.Join(strings.Fields(shown), " ")} // on one line
	for _, text := range wordings {
		words, unit := heading(text)
		if m.Unit == "" {
			m.Unit = unit
		}
		known, near, ok := guess(words)
		if !ok { // a text in brackets may be only a remark
			words, _ = heading(bracketed.ReplaceAllString(text, " "))
			known, near, ok = guess(words)
		}
		if ok && (!known.length || isOpening(shown) == isOpening(known.words[0]) || !isOpening(shown) && !near) {
			m.Path, m.Near, m.length = known.path, near, known.length
			break
		}
	}
	if !m.length {
		m.Unit = ""
	}
	return m
}

func isOpening(text string) bool {
	words, _ := heading(text)
	for _, w := range []string{"opening", "recess", "reveal", "rough", "lichte", "nischenbreite", "nischenhohe", "ouverture", "tableau"} {
		if strings.Contains(" "+words+" ", " "+w+" ") {
			return true
		}
	}
	return false
}

// sheetUnit looks in the rows above the headings for the unit of the whole sheet.
func sheetUnit(g *grid.Grid, above int) (unit string, row int) {
	for _, r := range g.Rows[:above] {
		for _, c := range r.Cells {
			for _, w := range strings.FieldsFunc(strings.ToLower(c.Text), func(r rune) bool { return strings.ContainsRune(" ,.;:()[]/", r) }) {
				u := unitWord(w)
				if w == "in" || w == "m" || u == "" { // these words occur in ordinary sentences
					continue
				}
				if unit != "" && unit != u {
					return "", 0
				}
				unit, row = u, r.Number
			}
		}
	}
	return unit, row
}

// check reports columns with the same meaning, and fields in need that no column
// has.
func (h header) check(g *grid.Grid, need []string) form.Problems {
	var out form.Problems
	row := g.Rows[h.last].Number
	seen := map[string]Match{}
	for _, m := range h.matches {
		if m.Path == "" {
			continue
		}
		if was, twice := seen[m.Path]; twice {
			fix := "rename or delete one of them"
			if m.Unit != was.Unit && m.Unit != "" && was.Unit != "" { // for example feet in one column, inches in the other
				fix = "write each length whole in one cell, for example 2' 3-1/2\" or 27-1/2 in, and delete the other column"
			}
			out = append(out, form.Problem{File: name(g), Line: row, Field: "column " + grid.Letter(m.Column), Value: m.Heading, Fault: form.Fault{
				Problem: fmt.Sprintf("means the same as column %s, %q", grid.Letter(was.Column), was.Heading), Fix: fix}})
			continue
		}
		seen[m.Path] = m
	}
	for _, path := range need {
		if _, ok := seen[path]; !ok {
			out = append(out, form.Problem{File: name(g), Line: row, Fault: form.Fault{
				Problem: "no column has the " + meaningOf(path).words[0] + " of a shade",
				Fix:     fmt.Sprintf("add a column with the heading %q or %q, or use the parts of another job with --like JOB", meaningOf(path).words[0], meaningOf(path).words[1])}})
		}
	}
	return out
}

// name returns the sheet's name for messages.
func name(g *grid.Grid) string {
	if g.Sheet == "" {
		return g.File
	}
	return g.File + " (" + g.Sheet + ")"
}

// systemOf returns the unit system of the sheet's sizes, as far as the headings
// name one.
func (h header) systemOf() measure.System {
	s := measure.Undeclared
	for _, path := range []string{"shades.finished.width", "shades.finished.length", "shades.opening.widths#1", "shades.opening.heights#1"} {
		if m, ok := h.column(path); ok && s == measure.Undeclared {
			s = system(m.Unit)
		}
	}
	return s
}

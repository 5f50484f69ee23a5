package intake

import (
	"fmt"
	"strings"

	"shadewright/ticket/form"
	"shadewright/ticket/intake/grid"
	"shadewright/ticket/measure"
)

// A Match says what a column was taken for.
type Match struct {
	Column  int    // from 0
	Heading string // as it stands
	Path    string // of the field in a job file; empty if the column is left out
	Unit    string // that the heading names
	Near    bool   // the heading is only near to one that is known
	length  bool
}

// Means puts the match into words.
func (m Match) Means() string {
	if m.Path == "" {
		return "left out"
	}
	s := meaningOf(m.Path).words[0]
	if m.Unit != "" {
		s += ", in " + unitNames[m.Unit]
	}
	if m.Near {
		s += " (taken for it)"
	}
	return s
}

var unitNames = map[string]string{"in": "inches", "ft": "feet", "mm": "mm", "cm": "cm", "m": "metres"}

// A header is the rows of headings and what they mean.
type header struct {
	first, last int // rows of the grid, from 0
	matches     []Match
}

// deepest is how far down a sheet the headings may begin.
const deepest = 25

// findHeader looks for the headings: the row, or the two rows of which the upper
// one groups the lower, that say most and name a width and a length.
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
				n++ // what stands above the headings need not group them
			}
			if h.sized() && n > most {
				best, most = h, n
			}
		}
	}
	return best, most > 0
}

// sized reports whether the headings name a size: finished, or of an opening.
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

// known counts the meanings that the headings name.
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

// double reads row i as headings that span the columns of row i+1.
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
			return header{} // a row of figures is no heading
		case own == "" && upper.At(c).Text == "":
		case own == "" || own == upper.At(c).Text:
			h.matches = append(h.matches, match(c, upper.At(c).Text, upper.At(c).Text))
		default:
			h.matches = append(h.matches, match(c, strings.TrimSpace(span+" "+own), span+" "+own, own))
		}
	}
	return h
}

// title reports whether a row says one thing only.
func title(r grid.Row) bool {
	first := ""
	for _, c := range r.Cells {
		switch {
		case c.Text == "":
		case first == "":
			first = c.Text
		case c.Text != first: // the cells of a merged one say the same
			return false
		}
	}
	return true
}

// match takes the first of several wordings that is known. An opening is not a
// finished size: a heading that speaks of one is not taken for the other, nor is a
// heading taken for an opening's because it is near to one.
func match(column int, shown string, wordings ...string) Match {
	m := Match{Column: column, Heading: strings.Join(strings.Fields(shown), " ")} // on one line
	for _, text := range wordings {
		words, unit := heading(text)
		if m.Unit == "" {
			m.Unit = unit
		}
		known, near, ok := guess(words)
		if !ok { // what stands in brackets may be a mere remark
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
	for _, w := range []string{"opening", "recess", "reveal", "rough"} {
		if strings.Contains(" "+words+" ", " "+w+" ") {
			return true
		}
	}
	return false
}

// sheetUnit looks above the headings for a line that says what all is measured in.
func sheetUnit(g *grid.Grid, above int) (unit string, row int) {
	for _, r := range g.Rows[:above] {
		for _, c := range r.Cells {
			for _, w := range strings.FieldsFunc(strings.ToLower(c.Text), func(r rune) bool { return strings.ContainsRune(" ,.;:()[]/", r) }) {
				u := unitWord(w)
				if w == "in" || w == "m" || u == "" { // words of any sentence
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

// check reports headings that say the same, and what no column says.
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
			if m.Unit != was.Unit && m.Unit != "" && was.Unit != "" { // feet in one, inches in the other
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
				Problem: "no column says the " + meaningOf(path).words[0] + " of a shade",
				Fix:     fmt.Sprintf("give a column the heading %q or %q, or take it from a job with --like JOB", meaningOf(path).words[0], meaningOf(path).words[1])}})
		}
	}
	return out
}

// name names the sheet in messages.
func name(g *grid.Grid) string {
	if g.Sheet == "" {
		return g.File
	}
	return g.File + " (" + g.Sheet + ")"
}

// systemOf returns what a sheet is measured in, if its headings agree.
func (h header) systemOf() measure.System {
	s := measure.Undeclared
	for _, path := range []string{"shades.finished.width", "shades.finished.length", "shades.opening.widths#1", "shades.opening.heights#1"} {
		if m, ok := h.column(path); ok && s == measure.Undeclared {
			s = system(m.Unit)
		}
	}
	return s
}

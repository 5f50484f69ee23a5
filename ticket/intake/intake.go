package intake

import (
	"fmt"
	"slices"
	"strings"

	"github.com/google/uuid"

	"shadewright/ticket/form"
	"shadewright/ticket/intake/grid"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
)

// Options holds what the sheet does not contain.
type Options struct {
	jobfile.Options
	Name  string         // of the job
	ID    uuid.UUID      // of the job
	Units measure.System // of bare numbers and of the job; Undeclared if the sheet must say it
	Like  *jobfile.File  // a job whose goods, rollers, slats and allowances to use; may be nil
}

// A Result is the job made from a sheet, and how it was made.
type Result struct {
	Grid    *grid.Grid
	Heads   []grid.Row // the one or two rows of headings
	Columns []Match
	Notes   []string // what Read concluded from the sheet, for the person
	Taken   int      // number of rows that became shades
	Apart   []Apart  // rows that have problems
	File    *jobfile.File
}

// An Apart is a row that was kept apart because it has problems.
type Apart struct {
	Row      grid.Row
	Problems form.Problems
}

// Problems returns the problems of all rows, in order.
func (r *Result) Problems() form.Problems {
	var all form.Problems
	for _, a := range r.Apart {
		all = append(all, a.Problems...)
	}
	return all
}

// Sheet returns the rows that were kept apart, under the headings of the sheet. A
// last column says what is wrong, so that a person can correct the rows and import
// them again.
func (r *Result) Sheet() [][]string {
	texts := func(row grid.Row) []string {
		out := make([]string, len(row.Cells))
		for i, c := range row.Cells {
			out[i] = c.Text
		}
		return out
	}
	var rows [][]string
	width := 0
	for _, h := range r.Heads {
		rows = append(rows, texts(h))
		width = max(width, len(h.Cells))
	}
	for _, a := range r.Apart {
		rows = append(rows, texts(a.Row))
		width = max(width, len(a.Row.Cells))
	}
	for i := range rows {
		for len(rows[i]) < width {
			rows[i] = append(rows[i], "")
		}
		why := ""
		if n := i - len(r.Heads); n >= 0 {
			var all []string
			for _, p := range r.Apart[n].Problems {
				p.File, p.Line = "", 0
				all = append(all, strings.TrimPrefix(p.String(), ": "))
			}
			why = strings.Join(all, "; ")
		} else if n == -1 {
			why = "what is wrong"
		}
		rows[i] = append(rows[i], why)
	}
	return rows
}

// Read makes a job from the first sheet that has headings for a width and a length.
// The error is a [form.Problems] if it cannot use the sheet at all; otherwise rows
// with problems are in the result. File is nil if no row is left.
func Read(grids []*grid.Grid, opt Options) (*Result, error) {
	for _, g := range grids {
		if h, ok := findHeader(g); ok {
			return read(g, h, opt)
		}
	}
	return nil, form.Problems{{File: grids[0].File, Fault: form.Fault{Problem: "has no row of headings that names a width and a length",
		Fix: "head the columns, for example Shade, Width (in), Length (in), or Opening width (in), Opening height (in), Mount; shadewright import --blank makes a size list to fill in"}}}
}

// A reader turns the rows of one sheet into the keys of a job file.
type reader struct {
	opt    Options
	fields jobfile.Fields
	grid   *grid.Grid
	head   header
	units  measure.System
	unit   string // of bare numbers under a heading without a unit
	parts  map[string]*group
	shades []*form.Node
	ids    map[string]int
	above  *grid.Row // the row read last; nil at the first row
	// section is the text of the section row above; empty if there is none.
	section string
	// count is how many units the rows so far have, since the top and since the last
	// total.
	count, sinceTotal int
	result            *Result
}

func read(g *grid.Grid, h header, opt Options) (*Result, error) {
	r := &reader{opt: opt, fields: jobfile.FieldsOf(opt.Options), grid: g, head: h, ids: map[string]int{}}
	r.result = &Result{Grid: g, Heads: g.Rows[h.first : h.last+1], Columns: h.matches, Notes: slices.Clone(g.Notes)}
	r.settleUnits()
	if err := r.begin(); err != nil {
		return nil, err
	}
	r.rows(g.Rows[h.last+1:])
	if len(r.shades) == 0 {
		if len(r.result.Apart) == 0 {
			return nil, form.Problems{{File: name(g), Line: g.Rows[h.last].Number, Fault: form.Fault{Problem: "has no shade below the headings", Fix: "write each shade in a row of its own"}}}
		}
		return r.result, nil
	}
	return r.result, r.finish()
}

// rows reads the rows below the headings.
func (r *reader) rows(rows []grid.Row) {
	note := func(format string, args ...any) {
		r.result.Notes = append(r.result.Notes, fmt.Sprintf(format, args...))
	}
	for i, row := range rows {
		switch {
		case total(row):
			note("row %d is a total, so it was left out%s", row.Number, r.difference(row))
		case r.empty(row):
			note("row %d says nothing about a shade, so it was left out%s", row.Number, r.difference(row))
		case r.heads(row, rows[i+1:]):
			r.section = only(row)
			note("row %d heads a section: the shades below it are in %s", row.Number, r.section)
		default:
			r.row(row)
		}
	}
}

// settleUnits decides the unit of a bare number.
func (r *reader) settleUnits() {
	r.units = r.opt.Units
	if r.units != measure.Undeclared {
		r.unit = r.units.String()
		return
	}
	if u, row := sheetUnit(r.grid, r.head.first); u != "" {
		r.unit = u
		r.result.Notes = append(r.result.Notes, fmt.Sprintf("a number without a unit is in %s, as row %d says", u, row))
	}
	r.units = r.head.systemOf()
	if r.units == measure.Undeclared {
		r.units = system(r.unit)
	}
}

// begin takes the parts of the other job, and checks that the headings define all
// other parts.
func (r *reader) begin() error {
	r.parts = map[string]*group{}
	var like map[string]*form.Node
	if r.opt.Like != nil {
		var err error
		if like, err = jobfile.PartsOf(r.opt.Like, measure.Undeclared, r.opt.Options); err != nil {
			return err
		}
	}
	var need []string
	for _, k := range groups {
		g := newGroup(k, like[k.name])
		r.parts[k.name] = g
		if len(g.defined) > 0 {
			continue
		}
		for _, path := range k.needs {
			if !r.head.has(path) {
				need = append(need, path)
			}
		}
		if len(k.needs) == 0 && !slices.ContainsFunc(r.head.matches, func(m Match) bool { return strings.HasPrefix(m.Path, k.name+".") }) {
			need = append(need, k.ref)
		}
	}
	if r.head.has("shades.opening.widths#1") {
		need = append(need, "shades.opening.mount")
	}
	if bad := r.head.check(r.grid, need); bad != nil {
		return bad
	}
	for _, name := range []string{"brackets", "allow", "sewing"} {
		if like[name] != nil {
			r.parts[name] = &group{node: like[name]}
		}
	}
	return nil
}

// total reports whether a row is a sum of the rows above it.
func total(row grid.Row) bool {
	for _, c := range row.Cells {
		if c.Text != "" {
			w := strings.ToLower(strings.Trim(c.Text, " :."))
			return slices.Contains([]string{"total", "totals", "sum", "count", "suma", "summe", "gesamt", "somme"}, w)
		}
	}
	return false
}

// empty reports whether a row says nothing about a shade: a remark, or a sum
// without a word. A row that names a shade or a part is not empty, even if its size
// was forgotten.
func (r *reader) empty(row grid.Row) bool {
	said := false
	for _, m := range r.head.matches {
		if m.Path != "" && m.Path != "shades.quantity" && row.At(m.Column).Text != "" {
			said = true
		}
	}
	if !said {
		return true
	}
	if !title(row) {
		return false
	}
	for _, c := range row.Cells {
		if c.Text != "" {
			return remark.MatchString(c.Text)
		}
	}
	return false
}

// finish puts the job file together and reads it.
func (r *reader) finish() error {
	if r.units == measure.Undeclared {
		r.units = r.guessUnits()
	}
	top := &form.Node{Shape: form.Keys}
	put := func(key string, n *form.Node) {
		if n != nil {
			top.Entries = append(top.Entries, form.Entry{Key: key, Value: n})
		}
	}
	put("job", text(r.opt.Name))
	put("id", text(r.opt.ID.String()))
	put("units", text(r.units.String()))
	for _, name := range []string{"allow", "sewing"} {
		if g := r.parts[name]; g != nil {
			put(name, g.node)
		}
	}
	for _, k := range groups {
		put(k.name, r.parts[k.name].node)
	}
	if g := r.parts["brackets"]; g != nil {
		put("brackets", g.node)
	}
	put("shades", &form.Node{Shape: form.List, Items: r.shades})
	f, err := jobfile.Read(r.grid.File, form.Format(top, nil), r.opt.Options)
	if bad, ok := err.(form.Problems); ok {
		for i := range bad {
			bad[i].Line = 0 // the line numbers belong to a file that the person never sees
		}
	}
	r.result.File, r.result.Taken = f, len(r.shades)
	if err == nil {
		r.result.Notes = append(r.result.Notes, countRollers(f)...)
	}
	return err
}

// guessUnits chooses the job's units if every cell has its own unit.
func (r *reader) guessUnits() measure.System {
	for _, s := range r.shades {
		if strings.HasSuffix(widthOf(s), "m") {
			return measure.Millimetres
		}
	}
	return measure.Inches
}

// widthOf returns the first width of a shade.
func widthOf(s *form.Node) string {
	if n := s.At("finished"); n != nil {
		return n.At("width").Text
	}
	return s.At("opening").At("widths").Items[0].Text
}

func text(s string) *form.Node { return &form.Node{Shape: form.Plain, Text: s} }

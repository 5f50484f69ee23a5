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

// Options is what a sheet does not say.
type Options struct {
	jobfile.Options
	Name  string         // of the job
	ID    uuid.UUID      // of the job
	Units measure.System // of bare numbers and of the job; undeclared if the sheet is to say
	Like  *jobfile.File  // its goods, rollers, slats and allowances are used; nil if there is none
}

// A Result is what was made of a sheet.
type Result struct {
	Grid    *grid.Grid
	Heads   []grid.Row // the row or the two rows of headings
	Columns []Match
	Notes   []string // what was concluded, for the person
	Taken   int      // rows that became shades
	Apart   []Apart  // rows that cannot be understood
	File    *jobfile.File
}

// An Apart is a row that cannot be understood, and why.
type Apart struct {
	Row      grid.Row
	Problems form.Problems
}

// Problems returns what is wrong with all rows, in their order.
func (r *Result) Problems() form.Problems {
	var all form.Problems
	for _, a := range r.Apart {
		all = append(all, a.Problems...)
	}
	return all
}

// Sheet returns the rows that are kept apart under the headings of the sheet, each
// with what is wrong with it, so that they can be put right and read again.
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

// Read makes a job of the first sheet that has headings for a width and a
// length. The error is a [form.Problems] if the sheet cannot be used at all; rows
// that cannot be understood are in the result. File is nil if no row is left.
func Read(grids []*grid.Grid, opt Options) (*Result, error) {
	for _, g := range grids {
		if h, ok := findHeader(g); ok {
			return read(g, h, opt)
		}
	}
	return nil, form.Problems{{File: grids[0].File, Fault: form.Fault{Problem: "has no row of headings that names a width and a length",
		Fix: "head the columns, for example Shade, Width (in), Length (in), or Opening width (in), Opening height (in), Mount; shadewright import --blank makes a sheet to fill in"}}}
}

// A reader turns the rows of one sheet into the keys of a job file.
type reader struct {
	opt    Options
	fields jobfile.Fields
	grid   *grid.Grid
	head   header
	units  measure.System
	unit   string // of bare numbers under a heading that names none
	parts  map[string]*group
	shades []*form.Node
	ids    map[string]int
	above  *grid.Row // the last row that was read; nil before the first
	result *Result
}

func read(g *grid.Grid, h header, opt Options) (*Result, error) {
	r := &reader{opt: opt, fields: jobfile.FieldsOf(opt.Options), grid: g, head: h, ids: map[string]int{}}
	r.result = &Result{Grid: g, Heads: g.Rows[h.first : h.last+1], Columns: h.matches, Notes: slices.Clone(g.Notes)}
	r.settleUnits()
	if err := r.begin(); err != nil {
		return nil, err
	}
	for _, row := range g.Rows[h.last+1:] {
		if total(row) {
			r.result.Notes = append(r.result.Notes, fmt.Sprintf("row %d is a total and left out", row.Number))
			continue
		}
		if r.mute(row) {
			r.result.Notes = append(r.result.Notes, fmt.Sprintf("row %d says nothing of a shade and is left out", row.Number))
			continue
		}
		r.row(row)
	}
	if len(r.shades) == 0 {
		if len(r.result.Apart) == 0 {
			return nil, form.Problems{{File: name(g), Line: g.Rows[h.last].Number, Fault: form.Fault{Problem: "has no shade below the headings", Fix: "write one to a row"}}}
		}
		return r.result, nil
	}
	return r.result, r.finish()
}

// settleUnits decides what a bare number means.
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

// begin takes over the parts of another job and sees that every part is there.
func (r *reader) begin() error {
	r.parts = map[string]*group{}
	var like map[string]*form.Node
	if r.opt.Like != nil {
		var err error
		if like, err = jobfile.Parts(r.opt.Like, measure.Undeclared, r.opt.Options); err != nil {
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
	for _, name := range []string{"allow", "sewing"} {
		if like[name] != nil {
			r.parts[name] = &group{node: like[name]}
		}
	}
	return nil
}

// total reports whether a row is a sum below the others.
func total(row grid.Row) bool {
	for _, c := range row.Cells {
		if c.Text != "" {
			w := strings.ToLower(strings.Trim(c.Text, " :."))
			return w == "total" || w == "totals" || w == "sum" || w == "count" || w == "suma"
		}
	}
	return false
}

// mute reports whether a row says nothing of a shade: a remark, or a sum without a
// word. A row that names a shade or a part says something, were its size forgotten.
func (r *reader) mute(row grid.Row) bool {
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
	put("shades", &form.Node{Shape: form.List, Items: r.shades})
	f, err := jobfile.Read(r.grid.File, form.Format(top, nil), r.opt.Options)
	if bad, ok := err.(form.Problems); ok {
		for i := range bad {
			bad[i].Line = 0 // the lines are of a file that nobody sees
		}
	}
	r.result.File, r.result.Taken = f, len(r.shades)
	return err
}

// guessUnits decides on the job's units where every cell brought its own.
func (r *reader) guessUnits() measure.System {
	for _, s := range r.shades {
		if strings.HasSuffix(widthOf(s), "m") {
			return measure.Millimetres
		}
	}
	return measure.Inches
}

// widthOf returns the first width that a shade gives.
func widthOf(s *form.Node) string {
	if n := s.At("finished"); n != nil {
		return n.At("width").Text
	}
	return s.At("opening").At("widths").Items[0].Text
}

func text(s string) *form.Node { return &form.Node{Shape: form.Plain, Text: s} }

package intake

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"shadewright/ticket/form"
	"shadewright/ticket/intake/grid"
	"shadewright/ticket/measure"
)

// A groupKind is one kind of parts in a job file.
type groupKind struct {
	name  string   // the key in a job file
	ref   string   // the column that names a part
	needs []string // columns that are needed to define a part
}

var groups = []groupKind{
	{"goods", "shades.goods", []string{"goods.kind", "goods.width"}},
	{"rollers", "shades.roller", []string{"rollers.tube"}},
	{"slats", "shades.slat", nil}, // a slat is flat or round, so each row is checked separately
}

// A group holds the parts of one kind that are defined so far.
type group struct {
	groupKind
	node    *form.Node
	defined []string // names, in order
}

func newGroup(k groupKind, like *form.Node) *group {
	g := &group{groupKind: k, node: like}
	if like == nil {
		g.node = &form.Node{Shape: form.Keys}
	}
	for _, e := range g.node.Entries {
		g.defined = append(g.defined, e.Key)
	}
	return g
}

// A line is a row while it is being read: its texts by path, and its problems.
type line struct {
	*reader
	row      grid.Row
	texts    map[string]string
	problems form.Problems
}

// row takes a row as a whole, or keeps it apart.
func (r *reader) row(row grid.Row) {
	l := &line{reader: r, row: row, texts: map[string]string{}}
	if l.extra() {
		r.result.Apart = append(r.result.Apart, Apart{row, l.problems})
		return
	}
	for _, m := range r.head.matches {
		if m.Path != "" {
			l.cell(m)
		}
	}
	r.above = &row
	r.add(row)
	if l.texts["shades.place"] == "" {
		l.texts["shades.place"] = r.section
	}
	l.size()
	id := l.id()
	var parts [3]part
	for i, k := range groups {
		parts[i] = l.part(r.parts[k.name])
	}
	if len(l.problems) > 0 {
		r.result.Apart = append(r.result.Apart, Apart{row, l.problems})
		return
	}
	for i, k := range groups {
		r.parts[k.name].define(parts[i])
	}
	r.ids[strings.ToLower(id)] = row.Number
	r.shades = append(r.shades, l.shade(id, parts))
}

func (l *line) add(m Match, value string, f form.Fault) {
	p := form.Problem{File: name(l.grid), Line: l.row.Number, Value: value, Fault: f}
	if m.Heading != "" {
		p.Field = "column " + grid.Letter(m.Column) + ", " + m.Heading
	}
	l.problems = append(l.problems, p)
}

// extra refuses a row with cells beyond the headings. Most often a decimal comma
// has split a number into two cells.
func (l *line) extra() bool {
	last := 0
	for _, i := range []int{l.head.first, l.head.last} {
		last = max(last, len(l.grid.Rows[i].Cells))
	}
	for c := last; c < len(l.row.Cells); c++ {
		if l.row.Cells[c].Text != "" {
			l.add(Match{}, "", form.Fault{Problem: fmt.Sprintf("has %d cells, but there are only %d headings", len(l.row.Cells), last),
				Fix: "put a number with a decimal comma in quotes, or write a point"})
			return true
		}
	}
	return false
}

// cell reads the cell of a column by the rules of a job file.
func (l *line) cell(m Match) {
	c := l.row.At(m.Column)
	if !m.length && m.Path != "shades.id" && ditto(c.Text) && l.above != nil {
		c = l.above.At(m.Column)
		l.row.Cells[m.Column] = c // so that the row below may say ditto too
	}
	if c.Text == "" {
		return
	}
	var text string
	var fault *form.Fault
	if m.length {
		unit := m.Unit
		if unit == "" {
			unit = l.unit
		}
		text, fault = lengthText(c, unit)
	} else {
		text, fault = wordText(m.Path, m.Heading, c)
	}
	if fault == nil && m.Path != "shades.id" {
		path, _, _ := strings.Cut(m.Path, "#")
		fault = l.fields.At(path).Check(text, measure.Undeclared)
	}
	if fault != nil {
		l.add(m, c.Text, *fault)
		return
	}
	l.texts[m.Path] = text
}

// size checks that the row has exactly one size: a finished size or an opening.
func (l *line) size() {
	finished := []string{"shades.finished.width", "shades.finished.length"}
	opening := []string{"shades.opening.widths#1", "shades.opening.heights#1", "shades.opening.mount"}
	some := func(paths []string) bool {
		return slices.ContainsFunc(paths[:2], func(path string) bool {
			m, ok := l.head.column(path)
			return ok && l.row.At(m.Column).Text != ""
		})
	}
	switch {
	case some(finished) && some(opening):
		l.add(Match{}, "", form.Fault{Problem: "has a finished size and an opening", Fix: "keep one of them"})
	case some(opening) || !l.head.has(finished[0]):
		for _, path := range opening {
			l.require(path)
		}
	default:
		for _, path := range finished {
			l.require(path)
		}
	}
}

// require reports an empty cell that must be filled.
func (l *line) require(path string) {
	m, _ := l.head.column(path)
	if l.row.At(m.Column).Text == "" {
		l.add(m, "", form.Fault{Problem: "is empty", Fix: "write the " + meaningOf(path).words[0]})
	}
}

// id returns the shade's id. It is the text of its column, made safe for file
// names, or is made from the place or from the row.
func (l *line) id() string {
	m, has := l.head.column("shades.id")
	given := l.texts["shades.id"]
	id := form.Slug(given)
	if given == "" {
		id = l.fresh(form.Slug(l.texts["shades.place"]))
	}
	if f := l.fields.At("shades.id").Check(id, measure.Undeclared); f != nil {
		l.add(m, given, *f)
	}
	if _, err := strconv.Atoi(given); err == nil && l.section != "" {
		id = form.Slug(l.section) + "-" + id // each section may count from 1
	}
	if row, twice := l.ids[strings.ToLower(id)]; twice && has {
		l.add(m, given, form.Fault{Problem: fmt.Sprintf("is also the shade of row %d", row), Fix: "give each shade its own name, or enter the total quantity in one row"})
	}
	if given != "" && id != given && l.texts["shades.place"] == "" {
		l.texts["shades.place"] = given
	}
	return id
}

// fresh returns an id that no other shade has.
func (l *line) fresh(base string) string {
	if base == "" {
		base = "shade"
	} else if _, taken := l.ids[strings.ToLower(base)]; !taken {
		return base
	}
	for n := 1; ; n++ {
		id := fmt.Sprintf("%s-%d", base, n)
		if _, taken := l.ids[strings.ToLower(id)]; !taken && !(n == 1 && base != "shade") {
			return id
		}
	}
}

// shade returns the keys of a shade.
func (l *line) shade(id string, parts [3]part) *form.Node {
	n := &form.Node{Shape: form.Keys}
	put := func(at *form.Node, key, value string) {
		if value != "" {
			at.Entries = append(at.Entries, form.Entry{Key: key, Value: text(value)})
		}
	}
	put(n, "id", id)
	put(n, "place", l.texts["shades.place"])
	put(n, "room", l.section)
	for i, key := range []string{"goods", "roller", "slat"} {
		put(n, key, parts[i].name)
	}
	put(n, "quantity", l.texts["shades.quantity"])
	n.Entries = append(n.Entries, l.sizeEntry(put))
	put(n, "roll", l.texts["shades.roll"])
	put(n, "note", l.texts["shades.note"])
	allow := &form.Node{Shape: form.Keys}
	for _, key := range []string{"wrap", "hem", "pocket", "side_hem"} {
		put(allow, key, l.texts["allow."+key])
	}
	if len(allow.Entries) > 0 {
		n.Entries = append(n.Entries, form.Entry{Key: "allow", Value: allow})
	}
	return n
}

// sizeEntry returns the finished size or the opening.
func (l *line) sizeEntry(put func(at *form.Node, key, value string)) form.Entry {
	size := &form.Node{Shape: form.Keys}
	if l.texts["shades.finished.width"] != "" {
		put(size, "width", l.texts["shades.finished.width"])
		put(size, "length", l.texts["shades.finished.length"])
		return form.Entry{Key: "finished", Value: size}
	}
	put(size, "mount", l.texts["shades.opening.mount"])
	for _, key := range []string{"widths", "heights"} {
		list := &form.Node{Shape: form.List}
		for _, n := range []string{"#1", "#2", "#3"} {
			if t := l.texts["shades.opening."+key+n]; t != "" {
				list.Items = append(list.Items, text(t))
			}
		}
		size.Entries = append(size.Entries, form.Entry{Key: key, Value: list})
	}
	put(size, "depth", l.texts["shades.opening.depth"])
	return form.Entry{Key: "opening", Value: size}
}

// A part is the goods, roller or slat of one row.
type part struct {
	name string
	node *form.Node // nil if the row only names the part
}

// part returns the part that a row means: the one it names, the one it describes,
// or the only one defined.
func (l *line) part(g *group) part {
	p := part{name: l.texts[g.ref]}
	for _, m := range meanings {
		key, in := strings.CutPrefix(m.path, g.name+".")
		if value := l.texts[m.path]; in && value != "" {
			if p.node == nil {
				p.node = &form.Node{Shape: form.Keys}
			}
			p.node.Entries = append(p.node.Entries, form.Entry{Key: key, Value: text(value)})
		}
	}
	m, has := l.head.column(g.ref)
	if i := slices.IndexFunc(g.defined, func(d string) bool { return strings.EqualFold(d, p.name) }); i >= 0 {
		p.name = g.defined[i] // Mesh and mesh are one cloth
	}
	if p.node != nil && p.name == "" {
		p.name = g.alike(p.node)
	}
	known := slices.Contains(g.defined, p.name)
	switch {
	case p.node == nil && p.name == "" && len(g.defined) == 1:
		p.name = g.defined[0]
	case p.node == nil && p.name == "":
		l.add(m, "", form.Fault{Problem: "does not say which " + one(g.name), Fix: l.howToDefine(g)})
	case p.node == nil && !known:
		l.add(m, p.name, form.Fault{Problem: "is not among the " + g.name, Fix: form.Suggest(p.name, g.name, g.defined)})
	case p.node != nil && known && !same(g.node.At(p.name), p.node):
		l.add(m, p.name, form.Fault{Problem: "differs from its description in a row above", Fix: "give it another name, or leave its columns empty here"})
	}
	if p.node != nil && !known {
		l.judge(g, m, has, p)
	}
	return p
}

// judge refuses a part that is only partly described.
func (l *line) judge(g *group, m Match, has bool, p part) {
	missing := func(keys ...string) bool {
		return slices.ContainsFunc(keys, func(k string) bool { return p.node.At(k) == nil })
	}
	if !has {
		m = Match{}
	}
	f := form.Fault{Problem: one(g.name) + " " + form.Quote(p.name) + " is only partly described"}
	switch {
	case g.name == "goods" && missing("kind", "width"):
		f.Fix = "fill in the kind of cloth and the roll width"
	case g.name == "rollers" && (missing("tube") || missing("length") && missing("shortest", "longest")):
		f.Fix = "fill in the tube diameter, and the tube length or its shortest and longest"
	case g.name == "slats" && missing("diameter") && missing("width", "thickness"):
		f.Fix = "fill in the slat's width and thickness, or the rod's diameter"
	default:
		return
	}
	l.add(m, "", f)
}

func (l *line) howToDefine(g *group) string {
	if len(g.defined) == 0 {
		return "describe one in its columns, or name a job that has one with --like"
	}
	return "write " + strings.Join(g.defined, " or ")
}

// one returns the singular of a group's name.
func one(group string) string {
	return map[string]string{"goods": "goods", "rollers": "roller", "slats": "slat"}[group]
}

// same reports whether two descriptions are the same.
func same(a, b *form.Node) bool {
	if len(a.Entries) != len(b.Entries) {
		return false
	}
	for _, e := range a.Entries {
		if v := b.At(e.Key); v == nil || v.Text != e.Value.Text {
			return false
		}
	}
	return true
}

// alike returns the name of a part with this description, or a new name.
func (g *group) alike(n *form.Node) string {
	for _, e := range g.node.Entries {
		if same(e.Value, n) {
			return e.Key
		}
	}
	if len(g.defined) == 0 {
		return one(g.name)
	}
	return fmt.Sprintf("%s-%d", one(g.name), len(g.defined)+1)
}

// define adds a part that a row describes.
func (g *group) define(p part) {
	if p.node == nil || slices.Contains(g.defined, p.name) {
		return
	}
	g.node.Entries = append(g.node.Entries, form.Entry{Key: p.name, Value: p.node})
	g.defined = append(g.defined, p.name)
}

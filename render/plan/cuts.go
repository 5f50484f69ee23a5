package plan

import (
	"fmt"
	"strconv"
	"strings"

	"shadewright/render/page"
	"shadewright/ticket/cutplan"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/nest"
)

// A cutRow is one row of the list: a single cut, or the two cuts that trim both
// selvages.
type cutRow []cutplan.Cut

// rows lists the cuts in the order they are made.
func rows(p *cutplan.Plan) []cutRow {
	var list []cutRow
	for _, c := range p.Cuts {
		n := len(list) - 1
		if n >= 0 && len(list[n]) == 1 && selvage(p, list[n][0].Near) && selvage(p, c.Far) && list[n][0].Far == c.From {
			list[n] = append(list[n], c)
			continue
		}
		list = append(list, cutRow{c})
	}
	return list
}

func selvage(p *cutplan.Plan, part int) bool { return p.Parts[part].Kind == cutplan.Selvage }

// A table is one list of cuts on a sheet.
type table struct {
	*drawing
	look
	x, width measure.Length
}

// table returns the n-th of the lists side by side.
func (d *drawing) table(k look, n int) table {
	const gutter = 4 * mm
	w := (d.Frame.Width() - gutter*measure.Length(k.abreast-1)) / measure.Length(k.abreast)
	return table{d, k, d.Frame.Min.X + (w+gutter)*measure.Length(n), w}
}

// smallest is the smallest size of text in a cell.
const smallest = 6 * page.Pt

// A cell is the text in one column of a row.
type cell struct {
	words string
	face  page.Face
}

// room returns the width for text in column i.
func (t table) room(i int) measure.Length {
	return t.width*t.columns[i+1]/1000 - t.width*t.columns[i]/1000 - 2*mm
}

// set writes a cell into column i.
func (t table) set(i int, base measure.Length, c cell) {
	s, f := page.Fit(c.words, c.face, t.room(i), smallest)
	t.Text(page.Point{X: t.x + t.width*t.columns[i]/1000, Y: base}, s, f)
}

// holds reports whether every row fits without losing text.
func (t table) holds(p *cutplan.Plan) bool {
	for _, r := range rows(p) {
		for i, c := range t.cells(p, r) {
			if s, _ := page.Fit(c.words, c.face, t.room(i+1), smallest); s != c.words {
				return false
			}
		}
	}
	return true
}

func (t table) rule(y measure.Length, pen page.Pen) {
	t.Line(page.Point{X: t.x, Y: y}, page.Point{X: t.x + t.width, Y: y}, pen)
}

// short reports whether the list leaves out the direction of a cut and the
// check.
func (t table) short() bool { return len(t.columns) == len(narrow) }

func (t table) head(at measure.Length) {
	f := page.Face{Size: min(t.size, 9*page.Pt), Weight: page.Semibold}
	cut := message.ID("plan.cut-inches")
	if t.Style.System == measure.Millimetres {
		cut = "plan.cut-millimetres"
	}
	words := []message.ID{"", "plan.cut", "plan.take", cut, "plan.this-comes-off", "plan.this-is-left", "plan.check"}
	for i, e := range words[:len(t.columns)-1] {
		t.set(i, at+t.pitch-3*mm/2, cell{t.Say(e), f})
	}
	t.rule(at+t.pitch, solid)
}

// row writes one row, with a box to tick.
func (t table) row(p *cutplan.Plan, r cutRow, at measure.Length) {
	base := at + t.pitch*7/10
	side := min(t.pitch*6/10, 3*mm)
	t.Rect(page.Box(t.x+mm/2, base-side, side, side), hair)
	for i, c := range t.cells(p, r) {
		t.set(i+1, base, c)
	}
	pen := hair
	if last := r[len(r)-1]; last.Number < len(p.Cuts) && p.Parts[p.Cuts[last.Number].From].Kind == cutplan.Roll {
		pen = solid
	}
	t.rule(at+t.pitch, pen)
}

// cells returns the cells of a row: what to take, where to cut it, and the two
// results.
func (t table) cells(p *cutplan.Plan, r cutRow) []cell {
	first, last := r[0], r[len(r)-1]
	bold := page.Face{Size: t.size, Weight: page.Bold}
	plain := page.Face{Size: t.size}
	number, off, left := strconv.Itoa(first.Number), t.result(p, first.Near), last.Far
	if len(r) == 2 {
		number += "–" + strconv.Itoa(last.Number)
		off = t.Say("plan.selvages-and-wide", t.Bare(p.Parts[first.Near].Width), t.Bare(p.Parts[last.Far].Width))
		left = last.Near
	}
	list := []cell{
		{number, bold}, {t.Put(p.Parts[first.From].Name), plain}, {t.how(r), bold},
		{off, weight(p, first.Near, plain)}, {t.result(p, left), weight(p, left, plain)},
	}
	if !t.short() {
		list = append(list, cell{t.check(p, r), plain})
	}
	return list
}

// how says where to cut.
func (t table) how(r cutRow) string {
	at := t.Bare(r[0].At)
	switch {
	case len(r) == 2 && t.short(): // selvages run along the roll
		return t.Say("plan.left-edge-then", at, t.Bare(r[1].At))
	case len(r) == 2:
		return t.Say("plan.from-left-edge-from-there", at, t.Bare(r[1].At))
	case r[0].Way == nest.Along && t.short():
		return t.Say("plan.from-left-edge", at)
	case r[0].Way == nest.Along:
		return t.Say("plan.along-from-left-edge", at)
	case t.short():
		return t.Say("plan.from-cut-end", at)
	}
	return t.Say("plan.across-from-cut-end", at)
}

// partSize returns the size of part i, across × along.
func (l *layout) partSize(p *cutplan.Plan, i int) string {
	q := p.Parts[i]
	return l.Size(q.Width, q.Length)
}

// result returns the name of a part and its size.
func (l *layout) result(p *cutplan.Plan, i int) string {
	q := p.Parts[i]
	if q.Kind == cutplan.Roll {
		return l.Put(q.Name)
	}
	return l.Put(q.Name) + "  " + l.partSize(p, i)
}

// weight returns f, in bold for a finished panel.
func weight(p *cutplan.Plan, i int, f page.Face) page.Face {
	if p.Parts[i].Kind == cutplan.Done {
		f.Weight = page.Bold
	}
	return f
}

// check returns the sum that shows that the results of a row's cuts add up.
func (l *layout) check(p *cutplan.Plan, r cutRow) string {
	from, near, far := p.Along(r[0])
	if p.Parts[r[0].From].Kind == cutplan.Roll {
		if p.Square > 0 && r[0].Number == 1 {
			return l.Say("plan.square-to-selvage")
		}
		return ""
	}
	if len(r) == 2 {
		_, a, b := p.Along(r[1])
		return fmt.Sprintf("%s + %s + %s = %s", l.Bare(near), l.Bare(a), l.Bare(b), l.Bare(from))
	}
	return fmt.Sprintf("%s + %s = %s", l.Bare(near), l.Bare(far), l.Bare(from))
}

var sumFace = page.Face{Size: 9 * page.Pt}

// sums returns, in lines, the sum of the sections that are cut off the roll,
// and the list of offcuts to keep.
func (l *layout) sums(p *cutplan.Plan) []string {
	var parts, keep []string
	for _, s := range p.Sections {
		parts = append(parts, l.Bare(p.Parts[s.Part].Length))
	}
	check := l.Say("plan.check-in", message.Count(len(p.Panels), "plan.count-panel", "plan.count-panels"), message.Count(len(p.Cuts), "plan.count-cut", "plan.count-cuts"))
	if p.Square > 0 {
		check += " " + l.Say("plan.end-and-sections", l.Bare(p.Square), strings.Join(parts, " + "), l.Words(p.Used))
	} else if len(parts) > 0 {
		check += " " + l.Say("plan.sections", strings.Join(parts, " + "), l.Words(p.Used))
	}
	lines := page.Wrap(check, sumFace, l.Frame.Width())
	for _, k := range p.Keep {
		keep = append(keep, l.result(p, k))
	}
	kept := l.Say("plan.nothing-to-keep")
	if len(keep) > 0 {
		kept = l.Say("plan.keep", strings.Join(keep, "; "))
	}
	lines = append(lines, page.Wrap(kept, sumFace, l.Frame.Width())...)
	if p.Square > 0 {
		lines = append(lines, page.Wrap(l.Say("plan.square-first", p.Cuts[0].Number), sumFace, l.Frame.Width())...)
	}
	if a := p.Goods.Allowance; a > 0 {
		square := l.Say("plan.cut-with-allowance", l.Words(a))
		lines = append(lines, page.Wrap(square, sumFace, l.Frame.Width())...)
	}
	return lines
}

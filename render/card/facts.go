package card

import (
	"slices"

	"shadewright/render/page"
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// A fact is one thing that a bench needs to know: a large number, the same
// number in the other unit, and remarks.
type fact struct {
	head, value, second string
	remarks             []string
	blanks              []string // labels of the lines to write readings on
	after               []string // remarks below those lines
	shares              int      // width in columns
}

// facts draws trims, seam, tape and edges.
func (m maker) facts() block {
	list := []fact{m.slatTrim(), m.tape(), m.sew(), m.sides()}
	if m.narrow() {
		list = list[:3] // the sides stand further below
	}
	return m.row(list)
}

// row draws facts in a row of cells, or in several rows on narrow paper.
func (m maker) row(list []fact) block {
	per := 7
	if m.narrow() {
		per = 5
	}
	column := (m.width - measure.Length(per-1)*gutter) / measure.Length(per)
	size := 18 * pt
	if m.look.text == smallest {
		size = 14 * pt
	}
	for _, f := range list {
		if f.shares == 1 { // numbers side by side have the same size
			_, face := m.fit(f.value, bold(size), column, 11*pt)
			size = face.Size
		}
	}
	var cells []cell
	var h, x, y, row measure.Length
	for _, f := range list {
		w := measure.Length(f.shares)*(column+gutter) - gutter
		if x+w > m.width+mm {
			x, y, row = 0, y+row+m.look.gap, 0
		}
		c := m.cell(f, size, w)
		c.at = page.Point{X: x, Y: y}
		cells = append(cells, c)
		x += w + gutter
		row = max(row, c.height)
		h = y + row
	}
	return fixed(h, func(on canvas, r page.Rect, _ unit) {
		for _, c := range cells {
			c.draw(on, r.Min)
		}
	})
}

// A cell is a fact laid out, at its place in the section.
type cell struct {
	at            page.Point
	width, height measure.Length
	head          string
	value         para
	second        fitted
	beside        measure.Length // how far from the left the number in the other unit stands; 0: below
	blanks        []fitted
	remarks       []para
	after         []para
}

func (m maker) cell(f fact, size, width measure.Length) cell {
	c := cell{width: width, head: f.head}
	c.second.text, c.second.face = m.fit(f.second, regular(10*pt), width, smallest)
	c.value = m.shrunk(f.value, bold(size), width, 11*pt, 1)
	if page.Width(f.value, bold(11*pt)) > width {
		c.value = m.shrunk(f.value, bold(11*pt), width, 9*pt, 3)
	}
	if last := c.value.lines[0]; m.look.text == smallest && len(c.value.lines) == 1 {
		x := page.Width(last[0].text, last[0].face) + 2*mm
		if x+page.Width(c.second.text, c.second.face) <= width {
			c.beside = x
		}
	}
	c.height = headHeight + c.value.height() + c.below() + mm/4
	for _, b := range f.blanks {
		var label fitted
		label.text, label.face = m.fit(b, semibold(9*pt), width*4/5, smallest)
		c.blanks = append(c.blanks, label)
		c.height += blankPitch
	}
	if f.after != nil {
		c.height += 2 * mm
	}
	set := func(texts []string) (list []para) {
		for _, r := range texts {
			p := m.paragraph("", r, regular(m.look.small), width, 6)
			list = append(list, p)
			c.height += p.height()
		}
		return list
	}
	c.remarks, c.after = set(f.remarks), set(f.after)
	return c
}

func (c cell) draw(on canvas, origin page.Point) {
	at := origin.Add(c.at)
	r := headed(on, page.Box(at.X, at.Y, c.width, c.height), c.head)
	c.value.draw(on, r.Min)
	y := r.Min.Y + c.value.height() + c.below() - mm
	switch {
	case c.beside > 0:
		on.Text(page.Point{X: at.X + c.beside, Y: r.Min.Y + c.value.rise}, c.second.text, c.second.face)
	case c.second.text != "":
		on.Text(page.Point{X: at.X, Y: y}, c.second.text, c.second.face)
	}
	y += mm
	for _, p := range c.remarks {
		p.draw(on, page.Point{X: at.X, Y: y})
		y += p.height()
	}
	for _, b := range c.blanks {
		y += blankPitch
		on.Text(page.Point{X: at.X, Y: y}, b.text, b.face)
		on.Line(page.Point{X: at.X + page.Width(b.text, b.face) + mm, Y: y + mm/2}, page.Point{X: at.X + c.width, Y: y + mm/2}, thin)
	}
	y += 2 * mm
	for _, p := range c.after {
		p.draw(on, page.Point{X: at.X, Y: y})
		y += p.height()
	}
}

// below returns the room for the number in the other unit.
func (c cell) below() measure.Length {
	if c.second.text == "" || c.beside > 0 {
		return 0
	}
	return 4 * mm
}

// blankPitch is the height of a line to write one number on.
const blankPitch = 11 * mm / 2

// tubeHeads say how a tube is brought to its length.
var tubeHeads = [...]message.ID{route.AnyTube: "common.tube-to", route.TelescopingTube: "common.set-tube", route.FixedTube: "common.saw-tube"}

func (m maker) tube() fact {
	r := m.Shade.Roller
	f := fact{head: m.say(tubeHeads[m.Fitting.Tube]), value: m.units.near(m.Cut.Tube), second: m.units.other(m.Cut.Tube, measure.Down), shares: 1}
	f.remarks = m.marked("roller.tube")
	tube := m.say("card.not-known")
	if r.Tube > 0 {
		tube = m.units.fine().Words(r.Tube, measure.Nearest).Printed()
	}
	what := m.say("card.roller", r.Name, tube)
	switch {
	case r.Shortest > 0:
		what += "; " + m.say("card.reaches-to", bare(m.units.first.Words(r.Shortest, measure.Nearest)), m.units.near(r.Longest))
	case r.Longest > 0:
		what += "; " + m.say("card.cut-from-tube", m.units.near(r.Longest))
	}
	f.remarks = append(f.remarks, what)
	f.remarks = append(f.remarks, m.tubeWork()...)
	return f
}

func (m maker) slatTrim() fact {
	return fact{head: m.say("common.trim-slat"), value: m.units.near(m.Cut.Slat), second: m.units.other(m.Cut.Slat, measure.Down), shares: 1,
		remarks: append(m.marked("goods.thickness", "slat.width", "slat.thickness"),
			m.Shade.Slat.Name+", "+m.slatSize(), m.say("card.back-from-each-side", m.units.near(m.Slat.EndGap)))}
}

// marked returns the word unchecked if a number rests on a measure that is not known.
func (m maker) marked(fields ...string) []string {
	if m.rests(fields...) {
		return []string{m.say("card.unchecked")}
	}
	return nil
}

// rests reports whether one of the fields is not known.
func (m maker) rests(fields ...string) bool {
	return slices.ContainsFunc(m.Findings, func(f finding.Finding) bool {
		return f.Level == finding.Unchecked && !m.Stopped() && slices.Contains(fields, f.Field)
	})
}

func (m maker) sew() fact {
	s := m.Stitch
	stitch := m.metric().Words(s.Length, measure.Nearest).Printed()
	f := fact{head: m.say("card.sew"), shares: 3, value: m.say("card.thread-needle", stitch, s.ThreadSize, s.Needle)}
	perInch := m.units.first.Decimal(s.PerInch, 1)
	if s.NeedleMetric > 0 {
		f.second = m.say("card.stitches-per-inch-with-needle", perInch, s.Tex, s.NeedleMetric)
	} else {
		f.second = m.say("card.stitches-per-inch", perInch, s.Tex)
	}
	row := m.say("card.stitch-row", s.Type, s.Plies, m.units.near(s.Seam))
	if b := m.Shade.Sewing.BackTack; b > 0 {
		row = m.say("card.stitch-row-with-backtack", s.Type, s.Plies, m.units.near(s.Seam), m.units.near(b))
	}
	row += "; " + m.say("card.thread-length", m.units.first.Decimal(s.Thread.Metres(), 1)+"\u00a0m")
	if n := m.Shade.Goods.Kind.Cloth().Needle; n != "" {
		row += "; " + m.say("card.needle", message.Of(n))
	}
	f.remarks = []string{row}
	return f
}

// metric returns the style for stitch lengths: sewing machines everywhere count
// them in millimetres.
func (m maker) metric() measure.Style {
	s := measure.Usual(measure.Millimetres)
	s.Metric, s.Comma = measure.Millimetre/10, m.units.first.Comma
	return s
}

func (m maker) tape() fact {
	t := m.Tape
	f := fact{head: m.say("common.tape"), value: m.units.own(t.Total, measure.Up), second: m.units.other(t.Total, measure.Up), shares: 1}
	if t.Run > 0 {
		f.remarks = append(f.remarks, m.say("card.tape-runs", int(t.Total/t.Run), m.units.near(t.Run)))
	}
	return f
}

func (m maker) sides() fact {
	e := m.Edge
	return fact{head: m.say("common.sides"), value: m.lang.Put(e.Method), second: m.say("card.of-edge", m.units.own(e.Length, measure.Up)), shares: 2, remarks: []string{m.lang.Put(e.Note)}}
}

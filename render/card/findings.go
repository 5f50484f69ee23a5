package card

import (
	"slices"

	"shadewright/render/page"
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A list is paragraphs in columns.
type list struct {
	columns [][]para
	width   measure.Length
	height  measure.Length
	apart   measure.Length // between two paragraphs
}

// listIn lays out paragraphs in n columns of equal width.
func (m maker) listIn(n int, paras func(width measure.Length) []para) list {
	l := list{width: (m.width - measure.Length(n-1)*gutter) / measure.Length(n), apart: m.look.small / 4}
	all := paras(l.width)
	heights := make([]measure.Length, len(all))
	for i, p := range all {
		heights[i] = p.height() + l.apart
	}
	starts, high := columns(heights, n)
	l.height = high
	l.columns = split(all, starts)
	return l
}

func (l list) draw(on canvas, at page.Point) {
	for _, col := range l.columns {
		y := at.Y
		for _, p := range col {
			p.draw(on, page.Point{X: at.X, Y: y})
			y += p.height() + l.apart
		}
		at.X += l.width + gutter
	}
}

// stops writes in large letters why a shade cannot be made as ordered. A ticket
// has stops only if somebody insisted on printing it.
func (m maker) stops() []block {
	word := m.say("card.stop")
	var rows []para
	h := 3 * mm
	face := bold(34 * pt)
	indent := page.Width(word, face) + 8*mm
	width := m.width - indent - 3*mm
	for i, f := range m.Findings {
		if f.Level != finding.Stop {
			break
		}
		if i == mostStops {
			break
		}
		why := m.paragraph("", m.sentence(f.Text), bold(m.look.stop), width, 6)
		mend := m.paragraph("", m.sentence(f.Remedy), regular(m.look.stop*3/4), width, 5)
		rows = append(rows, why, mend)
		h += why.height() + mend.height()
	}
	if rows == nil {
		return nil
	}
	end := m.paragraph("", m.say("card.insisted"), semibold(m.look.stop*3/4), width, 2)
	rows = append(rows, end)
	h += end.height()
	return []block{fixed(h, func(on canvas, r page.Rect, _ unit) {
		frame := page.Pen{Width: 6 * mm / 5}
		on.Polygon(r.Inset(frame.Width/2).Corners(), frame)
		on.Text(page.Point{X: r.Min.X + 4*mm, Y: r.Min.Y + 3*mm + face.CapHeight()}, word, face)
		at := page.Point{X: r.Min.X + indent, Y: r.Min.Y + 3*mm/2}
		for _, p := range rows {
			p.draw(on, at)
			at.Y += p.height()
		}
	})}
}

// mostStops is how many stops are in large letters; the others go with the
// findings.
const mostStops = 3

// findings lists the other findings, worst first. Findings without room are
// only counted.
func (m maker) findings() []block {
	rest := m.Findings
	for i := 0; i < mostStops && len(rest) > 0 && rest[0].Level == finding.Stop; i++ {
		rest = rest[1:]
	}
	rest = slices.DeleteFunc(slices.Clone(rest), func(f finding.Finding) bool { return f.Level == finding.Unchecked })
	if len(rest) == 0 {
		return nil
	}
	n := min(2, len(rest))
	paras := func(width measure.Length) []para {
		var all []para
		for _, f := range rest {
			all = append(all, m.paragraph(m.lang.Put(f.Level.Message()), m.sentence(f.Text)+" "+m.sentence(f.Remedy), regular(m.look.text), width, 8))
		}
		return all
	}
	l := m.listIn(n, paras)
	for kept := len(rest) - 1; kept > 0 && l.height > measure.Length(m.look.findings)*m.look.text*118/100; kept-- {
		l = m.listIn(n, func(width measure.Length) []para {
			more := m.say("card.more-findings", len(rest)-kept)
			return append(paras(width)[:kept], m.paragraph("", more, semibold(m.look.text), width, 1))
		})
	}
	if m.look.text == smallest { // the levels are title enough
		return []block{fixed(mm+l.height, func(on canvas, r page.Rect, _ unit) {
			on.Line(r.Min, page.Point{X: r.Max.X, Y: r.Min.Y}, heavy)
			l.draw(on, page.Point{X: r.Min.X, Y: r.Min.Y + mm})
		})}
	}
	return []block{fixed(headHeight+l.height, func(on canvas, r page.Rect, _ unit) {
		l.draw(on, headed(on, r, m.say("card.before-you-cut")).Min)
	})}
}

// unchecked lists in one paragraph what is not known. How to measure it is in the output
// of check and of print, where the job can still be changed.
func (m maker) unchecked() []block {
	missing := m.Missing()
	if missing == nil {
		return nil
	}
	p := m.paragraph(m.say("card.unchecked"), m.say("card.measure-first", message.Join("; ", missing...)), semibold(m.look.text), m.width-4*mm, 8)
	if m.look.text == smallest { // no room for a frame
		p = m.paragraph(m.say("card.unchecked"), m.say("card.measure-first", message.Join("; ", missing...)), semibold(m.look.text), m.width, 8)
		return []block{fixed(p.height()-p.leading+m.look.text, func(on canvas, r page.Rect, _ unit) { p.draw(on, r.Min) })}
	}
	h := p.height() + 3*mm
	return []block{fixed(h, func(on canvas, r page.Rect, _ unit) {
		on.Polygon(page.Box(r.Min.X, r.Min.Y, r.Width(), h).Corners(), page.Solid())
		p.draw(on, r.Min.Add(page.Point{X: 2 * mm, Y: 3 * mm / 2}))
	})}
}

// cautions lists the dangers of the steps on the route. On a crowded page they run on,
// below a title on their first line.
func (m maker) cautions() block {
	n := max(int((m.width+gutter)/(58*mm+gutter)), 2)
	if m.look.text == smallest {
		words := []said{{m.say("card.take-care") + ":", bold(m.look.small)}}
		for _, c := range m.Cautions {
			words = append(words, said{m.lang.Put(c.Head), bold(m.look.small)}, said{m.lang.Put(c.Text), regular(m.look.small)})
		}
		return m.running(words, n)
	}
	l := m.listIn(n, func(width measure.Length) []para {
		var all []para
		for _, c := range m.Cautions {
			all = append(all, m.paragraph(m.lang.Put(c.Head), m.lang.Put(c.Text), regular(m.look.small), width, 8))
		}
		return all
	})
	return fixed(headHeight+l.height, func(on canvas, r page.Rect, _ unit) {
		l.draw(on, headed(on, r, m.say("card.take-care")).Min)
	})
}

// sentence returns a finding's text in the shop's language.
func (m maker) sentence(p message.Message) string { return sentence(m.lang.Put(p)) }

// sentence adds a capital, a full stop and typeset fractions to a finding's
// text.
func sentence(s string) string {
	if s == "" {
		return ""
	}
	return upperFirst(inFractions.ReplaceAllStringFunc(s, setFraction)) + "."
}

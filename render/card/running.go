package card

import (
	"strings"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// A said is text in one face, which runs on after the text before it.
type said struct {
	text string
	face page.Face
}

// running sets texts one after the other in n columns, below a line across the page.
func (m maker) running(texts []said, n int) block {
	width := (m.width - measure.Length(n-1)*gutter) / measure.Length(n)
	lines := runOn(texts, width)
	leading := m.look.small * spacing(m.look.small) / 100
	each := (len(lines) + n - 1) / n
	return fixed(mm+measure.Length(each)*leading, func(on canvas, r page.Rect, _ unit) {
		on.Line(r.Min, page.Point{X: r.Max.X, Y: r.Min.Y}, heavy)
		for i, l := range lines {
			at := page.Point{
				X: r.Min.X + measure.Length(i/each)*(width+gutter),
				Y: r.Min.Y + mm + measure.Length(i%each)*leading + m.look.small*88/100,
			}
			for _, w := range l {
				on.Text(page.Point{X: at.X + w.x, Y: at.Y}, w.text, w.face)
			}
		}
	})
}

// runOn wraps texts that follow each other on the same lines. Words of one face on one
// line are one run.
func runOn(texts []said, width measure.Length) (lines [][]run) {
	var line []run
	var x measure.Length
	for _, t := range texts {
		space := page.Width(" ", t.face)
		fresh := true // the first word of a text starts a run
		for word := range strings.FieldsFuncSeq(legible(t.text, t.face), func(r rune) bool { return r == ' ' }) {
			w := page.Width(word, t.face)
			if x > 0 && x+space+w > width {
				lines, line, x = append(lines, line), nil, 0
			}
			switch n := len(line); {
			case n > 0 && !fresh:
				line[n-1].text += " " + word
				x = line[n-1].x + page.Width(line[n-1].text, t.face)
				continue
			case n > 0:
				x += space * 3 / 2
			}
			line = append(line, run{x, word, t.face})
			x, fresh = x+w, false
		}
	}
	return append(lines, line)
}

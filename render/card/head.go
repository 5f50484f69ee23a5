package card

import (
	"strings"

	"shadewright/render/page"
	"shadewright/ticket"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

const (
	symbolSide = 24 * mm // greatest side of the QR symbol, without its quiet zone
	codeWidth  = 36 * mm // width of the code in letters beside it
)

// head draws the shade's name and place, and its code.
func (m maker) head() block {
	width := m.width - symbolSide - codeWidth - 6*mm
	name := m.name(width)
	place := m.shrunk(m.Shade.Place, regular(13*pt), width, 8*pt, 3)
	nameHeight := name.height() - mm
	facts := m.jobFacts(width)
	h := max(nameHeight+place.height()+2*mm+facts.height, symbolSide)
	if m.narrow() { // job, client and date have their own row
		facts = m.jobFacts(m.width)
		h = max(nameHeight+place.height(), symbolSide) + mm + facts.height
	}
	return fixed(h, func(on canvas, r page.Rect, u unit) {
		x, y := r.Min.X, r.Min.Y
		name.draw(on, page.Point{X: x, Y: y + name.cap() - name.rise})
		place.draw(on, page.Point{X: x, Y: y + nameHeight})
		facts.draw(on, page.Point{X: x, Y: y + h - facts.height})
		m.drawCode(on, r, u)
	})
}

// name lays out the shade's name on one line in large letters, or on two.
func (m maker) name(width measure.Length) para {
	const large, least = 26 * pt, 16 * pt
	says := m.lang.Put(m.Shade.Called())
	if s, f := m.fit(says, bold(large), width, least); s == says {
		return m.paragraph("", s, f, width, 1)
	}
	return m.shrunk(says, bold(least), width, 10*pt, 2)
}

// drawCode draws the unit's number and code at the right of r.
func (m maker) drawCode(on canvas, r page.Rect, u unit) {
	module := symbolSide / measure.Length(u.qr.Wide)
	side := measure.Length(u.qr.Wide) * module
	quiet := measure.Length(u.qr.Quiet) * module
	u.qr.Draw(on, page.Point{X: r.Max.X - side - quiet, Y: r.Min.Y - quiet}, module)
	x := r.Max.X - symbolSide - quiet - mm
	big := ending(bold(20 * pt))
	on.Text(page.Point{X: x, Y: r.Min.Y + bold(26*pt).CapHeight()}, m.count(u), big)
	code := ending(bold(14 * pt))
	on.Text(page.Point{X: x, Y: r.Min.Y + symbolSide - 5*mm}, u.Code.Grouped(), code)
	on.Text(page.Point{X: x, Y: r.Min.Y + symbolSide}, m.revision(u), ending(regular(11*pt)))
}

// A strip is a drawing of fixed height.
type strip struct {
	height measure.Length
	draw   func(on canvas, at page.Point)
}

// jobFacts lays out job, client and due date side by side.
func (m maker) jobFacts(width measure.Length) strip {
	type field struct {
		label, value string
		share        measure.Length // width in thirteenths
	}
	fields := []field{{m.say("card.job"), m.Job.Name, 5}, {m.say("card.client"), m.Job.Client, 4}, {m.say("card.due"), m.due(), 4}}
	label := regular(smallest)
	return strip{20 * pt, func(on canvas, at page.Point) {
		for _, f := range fields {
			w := width * f.share / 13
			if f.value != "" {
				s, face := m.fit(f.value, semibold(10*pt), w-2*mm, 8*pt)
				on.Text(page.Point{X: at.X, Y: at.Y + 7*pt}, f.label, label)
				on.Text(page.Point{X: at.X, Y: at.Y + 18*pt}, s, face)
			}
			at.X += w
		}
	}}
}

// due returns the date the job is due, or "".
func (m maker) due() string {
	if m.Job.Due.IsZero() {
		return ""
	}
	return m.lang.Time(message.At(m.Job.Due, message.Date))
}

// note draws the job's note about this shade, if there is one.
func (m maker) note() []block {
	if m.Shade.Note == "" {
		return nil
	}
	p := m.paragraph(m.say("card.note"), m.Shade.Note, regular(m.look.text), m.width, 6)
	return []block{fixed(p.height(), func(on canvas, r page.Rect, _ unit) { p.draw(on, r.Min) })}
}

// overleafHead draws a short head for a page overleaf.
func (m maker) overleafHead() block {
	face := bold(14 * pt)
	return fixed(face.CapHeight()+mm, func(on canvas, r page.Rect, u unit) {
		y := r.Min.Y + face.CapHeight()
		code := strings.TrimSpace(u.Code.Grouped() + "  " + m.revision(u) + "  " + m.count(u))
		on.Text(page.Point{X: r.Max.X, Y: y}, code, ending(face))
		name, f := m.fit(m.say("common.continued", u.Shade.Called()), face, m.width-page.Width(code, face)-gutter, smallest)
		on.Text(page.Point{X: r.Min.X, Y: y}, name, f)
	})
}

// The width of the bar code's narrowest bar, which is two dots of a 150 dpi
// scan, and the bar code's height.
const (
	barModule = 340 * measure.Micrometre
	barHeight = 8 * mm
)

// barRoom is the greatest width of a ticket's bar code with its quiet zone.
const barRoom = 76 * mm

// footer draws the text that every ticket has, and the bar code if the options
// ask for one.
func (m maker) footer() block {
	words := func(room measure.Length) para {
		return m.paragraph("", m.say(ticket.Trades), semibold(m.look.small), room, 4)
	}
	// The last line needs no leading below.
	h := m.look.small
	if m.opt.Code128 {
		p := words(m.width - barRoom)
		h = max(barHeight, p.height()-p.leading+m.look.small)
	} else if p := words(m.width); len(p.lines) > 1 {
		h = p.height() - p.leading + m.look.small
	}
	return fixed(h, func(on canvas, r page.Rect, u unit) {
		room := m.width
		if len(u.bar.Bars) > 0 {
			w := u.bar.Width(barModule)
			room -= w
			quiet := measure.Length(u.bar.Quiet) * barModule
			u.bar.DrawBars(on, page.Point{X: r.Max.X - w + quiet, Y: r.Min.Y}, barModule, barHeight)
		}
		p := words(room)
		const below = mm / 5 // for what hangs below the last line
		p.draw(on, page.Point{X: r.Min.X, Y: r.Max.Y - below - p.height()})
	})
}

package card

import (
	"math"

	"shadewright/render/page"
	"shadewright/ticket"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// donorReminder asks to mark what nobody can see once the old cloth is off.
const donorReminder message.ID = "card.mark-donor"

// rolled draws the shade from the side, with the glass at the left: where the
// cloth leaves the tube, and which way the tube turns to raise it.
func (m maker) rolled(on canvas, r page.Rect) {
	words, way := m.say("card.falls-at-back"), measure.Length(-1)
	if m.Shade.Roll == ticket.Reverse {
		words, way = m.say("card.falls-at-front"), 1
	}
	place := r
	if r.Width() > 45*mm { // text beside the drawing
		r.Max.X = r.Min.X + 26*mm
		place.Min.X = r.Max.X + gutter
		m.rollWords(place.Width(), words).draw(on, place.Min)
	} else {
		p := m.rollWords(r.Width(), words)
		r.Max.Y -= p.height() + 2*mm
		p.draw(on, page.Point{X: r.Min.X, Y: r.Max.Y + 2*mm})
	}
	small := regular(17 * pt / 2)
	on.Text(page.Point{X: r.Min.X, Y: r.Max.Y}, m.say("common.glass"), small)
	on.Text(page.Point{X: r.Max.X, Y: r.Max.Y}, m.say("card.room-side"), ending(small))
	r.Max.Y -= 4 * mm
	glass := r.Min.X + 2*mm
	for _, x := range []measure.Length{glass, glass + 3*mm/2} {
		on.Line(page.Point{X: x, Y: r.Min.Y + mm}, page.Point{X: x, Y: r.Max.Y}, line)
	}
	tube := min(r.Width()/7, r.Height()/5)
	c := page.Point{X: r.Min.X + r.Width()*45/100, Y: r.Min.Y + tube + 4*mm}
	side(on, c, tube, r.Max.Y, way)
	on.Text(page.Point{X: c.X + tube + 9*mm/2, Y: c.Y - tube + mm}, m.say("card.turns-up"), small)
}

// rollWords lays out the text that explains the drawing.
func (m maker) rollWords(width measure.Length, words string) para {
	text := m.paragraph("", words, regular(17*pt/2), width, 6)
	remind := m.paragraph("", m.say(donorReminder), semibold(17*pt/2), width, 6)
	text.lines = append(text.lines, remind.lines...)
	return text
}

// side draws tube and cloth from the side. The cloth falls at the left of the
// tube if way is -1, and at its right if way is 1.
func side(on canvas, c page.Point, tube, foot, way measure.Length) {
	cloth := page.Pen{Width: ply}
	on.Polygon(arcPoints(c.X, c.Y, tube, 0, 2*math.Pi)[1:], line)
	on.Polygon(arcPoints(c.X, c.Y, tube+mm, 0, 2*math.Pi)[1:], cloth)
	on.FillPolygon(arcPoints(c.X, c.Y, mm/2, 0, 2*math.Pi)[1:], page.Black)
	fall := c.X + way*(tube+mm)
	on.Line(page.Point{X: fall, Y: c.Y}, page.Point{X: fall, Y: foot - 3*mm}, cloth)
	on.Fill(page.Box(fall-mm*3/4, foot-3*mm, mm*3/2, 3*mm), page.Black)

	// Raising the shade lifts the cloth on its own side of the tube.
	from, to := math.Pi*0.85, math.Pi*0.3
	if way > 0 {
		from, to = math.Pi*0.15, math.Pi*0.7
	}
	arc := arcPoints(c.X, c.Y, tube+3*mm, from, to)
	n := len(arc)
	on.Polyline(arc[:n-1], thin)
	arrow(on, arc[n-1], arc[n-1].Sub(arc[n-3]))
}

package card

import (
	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// headed draws the rule and the word that begin a section, and returns what is
// left of its room below them.
func headed(on canvas, r page.Rect, word string) page.Rect {
	on.Line(r.Min, page.Point{X: r.Max.X, Y: r.Min.Y}, heavy)
	on.Text(page.Point{X: r.Min.X, Y: r.Min.Y + 4*mm}, word, bold(10*pt))
	r.Min.Y += headHeight
	return r
}

// headHeight is what [headed] takes.
const headHeight = 11 * mm / 2

const gutter = 4 * mm

// capRoom is the room above the cut size, whose fractions rise a little over its
// figures.
const capRoom = 5 * mm / 2

// cut draws the size to cut, the largest thing on the page, and beside it the
// check that the panel is square.
func (m maker) cut() block {
	square := max(m.width*31/100, 52*mm)
	width := m.width - square - gutter
	c := m.Cut
	named := m.say("width × length") // which number is which
	size, face := m.fit(by(m.first, c.Width, c.Length, measure.Nearest, measure.Nearest), bold(64*pt), width, 30*pt)
	other, otherFace := m.fit(by(m.second, c.Width, c.Length, measure.Down, measure.Up), regular(13*pt), width-page.Width(named, semibold(11*pt))-3*mm, 8*pt)
	lines := m.cutLines(width)
	h := headHeight + capRoom + face.CapHeight() + 8*mm + lines.height()
	h = max(h, headHeight+29*mm)
	return fixed(h, func(on canvas, r page.Rect, u unit) {
		left, right := r, r
		left.Max.X, right.Min.X = r.Min.X+width, r.Max.X-square
		m.square(on, headed(on, right, m.say("Square|the panel: a heading")))
		if u.Plan.Planned() { // on the line of the heading, where nothing else is
			place, face := page.Fit(m.say("Cut plan: %s", u.Plan.String()), semibold(10*pt), width-16*mm, smallest)
			on.Text(page.Point{X: left.Max.X, Y: left.Min.Y + 4*mm}, place, ending(face))
		}
		left = headed(on, left, m.say("Cut|the panel: a heading"))
		y := left.Min.Y + capRoom + face.CapHeight()
		on.Text(page.Point{X: left.Min.X, Y: y}, size, face)
		y += 6 * mm
		on.Text(page.Point{X: left.Min.X, Y: y}, named, semibold(11*pt))
		on.Text(page.Point{X: left.Max.X, Y: y}, other, ending(otherFace))
		lines.draw(on, page.Point{X: left.Min.X, Y: left.Max.Y - lines.height()})
	})
}

// cutLines says what is cut, and what the size is made of.
func (m maker) cutLines(width measure.Length) para {
	a, s := m.Shade.Allow, m.Shade
	text := s.Goods.Name
	if kind := s.Goods.Kind.Cloth().Name; kind != "" {
		text += ", " + kind
	}
	finished := by(m.first, s.Finished.Width, s.Finished.Length, measure.Nearest, measure.Nearest)
	wrap, hem, pocket := m.near(a.Wrap), m.near(a.Hem), m.near(a.Pocket)
	if a.SideHem > 0 {
		text += ". " + m.say("Finished %s; wrap %s, hem %s, pocket %s, side hems %s.", finished, wrap, hem, pocket, m.near(a.SideHem))
	} else {
		text += ". " + m.say("Finished %s; wrap %s, hem %s, pocket %s.", finished, wrap, hem, pocket)
	}
	if m.Cut.Width != m.Panel.Width || m.Cut.Length != m.Panel.Length {
		text += " " + m.say("Rounded to the rule from %s × %s.", m.first.Exact(m.Panel.Width), m.first.Exact(m.Panel.Length))
	}
	return m.paragraph("", text, regular(m.text), width, 4)
}

// square draws the panel with its diagonals and room for what was measured.
func (m maker) square(on canvas, r page.Rect) {
	box := page.Box(r.Min.X, r.Min.Y+mm/2, 16*mm, r.Height()-mm/2)
	m.thumbnail(on, box)
	x, y := box.Max.X+3*mm, r.Min.Y
	text := regular(9 * pt)
	value, face := m.fit(m.near(m.Cut.Diagonal), bold(18*pt), r.Max.X-x, 11*pt)
	y += face.CapHeight()
	on.Text(page.Point{X: x, Y: y}, value, face)
	y += 4 * mm
	on.Text(page.Point{X: x, Y: y}, legible(m.say("%s, both", m.other(m.Cut.Diagonal, measure.Nearest)), text), text)
	for _, d := range []string{"A", "B"} {
		y += 13 * mm / 2
		on.Text(page.Point{X: x, Y: y}, d, semibold(10*pt))
		on.Line(page.Point{X: x + page.Width(d, semibold(10*pt)) + mm, Y: y + mm/2}, page.Point{X: r.Max.X, Y: y + mm/2}, thin)
	}
	within, face := m.fit(m.say("equal within %s", m.near(m.Square)), semibold(10*pt), r.Max.X-x, smallest)
	on.Text(page.Point{X: x, Y: y + 13*mm/2}, within, face)
}

// thumbnail draws the panel in its own proportion, tube side up, with both
// diagonals named at their upper ends.
func (m maker) thumbnail(on canvas, box page.Rect) {
	const names = 4 * mm
	box.Min.Y += names
	w, h := inside(m.Panel.Width, m.Panel.Length, box.Width(), box.Height())
	x, y := box.Min.X+(box.Width()-w)/2, box.Min.Y
	p := page.Box(x, y, w, h)
	on.Polygon(p.Corners(), line)
	on.Line(p.Min, p.Max, thin)
	on.Line(page.Point{X: p.Max.X, Y: p.Min.Y}, page.Point{X: p.Min.X, Y: p.Max.Y}, thin)
	on.Text(page.Point{X: p.Min.X, Y: y - mm}, "A", semibold(9*pt))
	on.Text(page.Point{X: p.Max.X, Y: y - mm}, "B", ending(semibold(9*pt)))
}

// inside returns the largest size of proportion w : h that goes into a box, or
// nearly: neither side is less than a fifth of the box's.
func inside(w, h, boxW, boxH measure.Length) (measure.Length, measure.Length) {
	if w <= 0 || h <= 0 {
		return boxW, boxH
	}
	k := min(float64(boxW)/float64(w), float64(boxH)/float64(h))
	return max(measure.Length(k*float64(w)), boxW/5), max(measure.Length(k*float64(h)), boxH/5)
}

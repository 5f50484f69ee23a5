package card

import (
	"strings"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// headed draws the line and the title at the top of a section, and returns the
// room left below.
func headed(on canvas, r page.Rect, words string) page.Rect {
	on.Line(r.Min, page.Point{X: r.Max.X, Y: r.Min.Y}, heavy)
	words, face := page.Fit(words, bold(10*pt), r.Width(), smallest)
	on.Text(page.Point{X: r.Min.X, Y: r.Min.Y + 4*mm}, words, face)
	r.Min.Y += headHeight
	return r
}

// headHeight is the height of the title that [headed] draws.
const headHeight = 11 * mm / 2

const gutter = 4 * mm

// capRoom is the room above the cut size, because its fractions are a little
// taller than its figures.
const capRoom = 5 * mm / 2

// cut draws the size to cut, the largest text on the page, and beside it the
// check for squareness. On narrow paper the check goes below.
func (m maker) cut() []block {
	if m.narrow() {
		size := m.size(m.width)
		return []block{fixed(size.height, size.draw), fixed(headHeight+acrossHeight, func(on canvas, r page.Rect, _ unit) {
			m.squareAcross(on, headed(on, r, m.say("card.square")))
		})}
	}
	square := max(m.width*31/100, 52*mm)
	size := m.size(m.width - square - gutter)
	return []block{fixed(max(size.height, headHeight+m.squareHeight()), func(on canvas, r page.Rect, u unit) {
		left, right := r, r
		left.Max.X, right.Min.X = r.Max.X-square-gutter, r.Max.X-square
		m.squareBeside(on, headed(on, right, m.say("card.square")))
		size.draw(on, left, u)
	})}
}

// squareHeight is the height of the check when it stands beside the size to cut.
func (m maker) squareHeight() measure.Length {
	if m.look.text == smallest {
		return 49 * mm / 2
	}
	return 29 * mm
}

// A sized is the size to cut, laid out.
type sized struct {
	height measure.Length
	draw   func(on canvas, r page.Rect, u unit)
}

// size lays out the size to cut, with its calculation at the bottom.
func (m maker) size(width measure.Length) sized {
	c := m.Cut
	named := m.say("card.width-length") // says which number is which
	large := 64 * pt
	if m.narrow() || m.look.text == smallest {
		large = 52 * pt // to leave room for the rest of a small page
	}
	size, face := m.fit(by(m.units.first, c.Width, c.Length, measure.Nearest, measure.Nearest), bold(large), width, 12*pt)
	other, otherFace := m.fit(by(m.units.second, c.Width, c.Length, measure.Down, measure.Up), regular(13*pt), width-page.Width(named, semibold(11*pt))-3*mm, 8*pt)
	below, room := 6*mm, 2*mm // from the size to the line below, and from there on
	if m.look.text == smallest {
		room = mm
	}
	if strings.Contains(size, ",") {
		below += face.Size / 20 // a comma reaches lower than a point
	}
	lines := m.cutLines(width)
	return sized{headHeight + capRoom + face.CapHeight() + below + room + lines.height(), func(on canvas, r page.Rect, u unit) {
		if u.Plan.Planned() { // on the line of the heading, which is otherwise empty
			place, face := page.Fit(m.say("common.cut-plan", u.Plan.Message()), semibold(10*pt), width-16*mm, smallest)
			on.Text(page.Point{X: r.Max.X, Y: r.Min.Y + 4*mm}, place, ending(face))
		}
		head := m.say("card.cut")
		if m.rests("opening", "opening.depth", "opening.diagonals", "opening.obstructions") {
			head += " · " + m.say("card.unchecked")
		}
		r = headed(on, r, head)
		y := r.Min.Y + capRoom + face.CapHeight()
		on.Text(page.Point{X: r.Min.X, Y: y}, size, face)
		on.Text(page.Point{X: r.Min.X, Y: y + below}, named, semibold(11*pt))
		on.Text(page.Point{X: r.Max.X, Y: y + below}, other, ending(otherFace))
		lines.draw(on, page.Point{X: r.Min.X, Y: r.Max.Y - lines.height()})
	}}
}

// cutLines returns what to cut from, and how the size is calculated.
func (m maker) cutLines(width measure.Length) para {
	a, s := m.Shade.Allow, m.Shade
	text := s.Goods.Name
	if kind := s.Goods.Kind.Cloth().Name; kind != "" {
		text += ", " + m.say(kind)
	}
	finished := by(m.units.first, s.Finished.Width, s.Finished.Length, measure.Nearest, measure.Nearest)
	wrap, hem, pocket := m.units.near(a.Wrap), m.units.near(a.Hem), m.units.near(a.Pocket)
	if a.SideHem > 0 {
		text += ". " + m.say("card.finished-with-side-hems", finished, wrap, hem, pocket, m.units.near(a.SideHem))
	} else {
		text += ". " + m.say("card.finished", finished, wrap, hem, pocket)
	}
	if m.Plan.On == "" && !m.narrow() { // a piece on hand has its ends; small paper leaves it to the cut plan
		text += " " + m.say("card.square-end-first")
	}
	if m.Cut.Width != m.Panel.Width || m.Cut.Length != m.Panel.Length {
		text += " " + m.say("card.rounded", m.units.first.Exact(m.Panel.Width), m.units.first.Exact(m.Panel.Length))
	}
	return m.paragraph("", text, regular(m.look.text), width, 4)
}

// squareBeside draws the panel with its diagonals, and lines to write the
// readings on, in a column.
func (m maker) squareBeside(on canvas, r page.Rect) {
	box := page.Box(r.Min.X, r.Min.Y+mm/2, 16*mm, r.Height()-mm/2)
	m.thumbnail(on, box)
	x := box.Max.X + 3*mm
	y := m.diagonal(on, page.Point{X: x, Y: r.Min.Y}, r.Max.X-x)
	pitch := (m.squareHeight() - 9*mm) / 3
	for _, d := range diagonals {
		y += pitch
		blank(on, page.Point{X: x, Y: y}, d, r.Max.X)
	}
	m.within(on, page.Point{X: x, Y: y + pitch}, r.Max.X-x)
}

// acrossHeight is the height of the check when it runs across the page.
const acrossHeight = 16 * mm

// squareAcross draws the same check in a row.
func (m maker) squareAcross(on canvas, r page.Rect) {
	box := page.Box(r.Min.X, r.Min.Y+mm/2, 16*mm, r.Height()-mm/2)
	m.thumbnail(on, box)
	x := box.Max.X + gutter
	room := (r.Max.X - x - gutter) / 2
	y := m.diagonal(on, page.Point{X: x, Y: r.Min.Y + mm}, room)
	m.within(on, page.Point{X: x, Y: y + 5*mm}, room)
	y = r.Min.Y + mm
	for _, d := range diagonals {
		y += 7 * mm
		blank(on, page.Point{X: r.Max.X - room, Y: y}, d, r.Max.X)
	}
}

// diagonals names the two diagonals of a panel.
var diagonals = [2]string{"A", "B"}

// diagonal writes the length of the diagonals, and returns the height of its
// last line.
func (m maker) diagonal(on canvas, at page.Point, room measure.Length) measure.Length {
	text := regular(9 * pt)
	value, face := m.fit(m.units.near(m.Cut.Diagonal), bold(18*pt), room, 11*pt)
	at.Y += face.CapHeight()
	on.Text(at, value, face)
	at.Y += 4 * mm
	on.Text(at, legible(m.say("card.both", m.units.other(m.Cut.Diagonal, measure.Nearest)), text), text)
	return at.Y
}

// blank draws a line to write the length of a diagonal on.
func blank(on canvas, at page.Point, name string, right measure.Length) {
	face := semibold(10 * pt)
	on.Text(at, name, face)
	on.Line(page.Point{X: at.X + page.Width(name, face) + mm, Y: at.Y + mm/2}, page.Point{X: right, Y: at.Y + mm/2}, thin)
}

// within writes how much the diagonals may differ.
func (m maker) within(on canvas, at page.Point, room measure.Length) {
	words, face := m.fit(m.say("card.equal-within", m.units.near(m.Square)), semibold(10*pt), room, smallest)
	on.Text(at, words, face)
}

// thumbnail draws the panel in proportion, tube at the top, with both diagonals
// named at their upper ends.
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

// inside returns the largest size of proportion w : h that fits a box. For
// extreme proportions no side is shorter than a fifth of the box's.
func inside(w, h, boxW, boxH measure.Length) (measure.Length, measure.Length) {
	if w <= 0 || h <= 0 {
		return boxW, boxH
	}
	k := min(float64(boxW)/float64(w), float64(boxH)/float64(h))
	return max(measure.Length(k*float64(w)), boxW/5), max(measure.Length(k*float64(h)), boxH/5)
}

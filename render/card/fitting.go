package card

import (
	"shadewright/render/page"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// fitting draws how the tube gets its length, how the cloth gets on it, where its pins go,
// how the spring is wound, and what was measured at the opening: in columns of the widths
// that need the least height. On narrow paper the drawing stands above the columns.
func (m maker) fitting() (list []block) {
	if m.narrow() {
		c := m.attach(m.width)
		list = append(list, fixed(c.height, func(on canvas, r page.Rect, _ unit) { c.draw(on, r.Min) }))
	}
	shares := splits
	if m.narrow() {
		shares = halves
	}
	best := m.gallery(shares[0])
	for _, s := range shares[1:] {
		if g := m.gallery(s); g.height() < best.height() {
			best = g
		}
	}
	return append(list, fixed(best.height(), func(on canvas, r page.Rect, _ unit) { best.draw(on, r.Min) }))
}

// splits are the widths of three columns in hundredths of the page; halves are those of
// two on narrow paper.
var (
	splits = [][]measure.Length{{27, 46, 27}, {24, 42, 34}, {24, 38, 38}, {30, 38, 32}, {34, 38, 28}, {27, 37, 36}, {31, 36, 33}, {22, 40, 38}, {22, 36, 42}}
	halves = [][]measure.Length{{50, 50}, {45, 55}, {40, 60}, {55, 45}, {60, 40}}
)

// gallery lays out the sections in columns.
func (m maker) gallery(shares []measure.Length) gallery {
	g := gallery{m: m}
	room := m.width - measure.Length(len(shares)-1)*gutter
	var x measure.Length
	for _, share := range shares {
		w := room * share / 100
		g.cols = append(g.cols, stack{x: x, width: w})
		x += w + gutter
	}
	if !m.narrow() {
		g.add(1, m.attach)
	}
	g.add(0, func(w measure.Length) column { return m.fact(m.tube(), w) })
	g.add(len(g.cols)-1, func(w measure.Length) column { return m.fact(m.springs(), w) })
	g.add(anyColumn, func(w measure.Length) column {
		return m.set(prose{m.say("card.pins-and-place"), m.pinWork()}, w)
	})
	if m.narrow() {
		g.add(anyColumn, func(w measure.Length) column { return m.fact(m.sides(), w) })
	}
	for _, f := range m.hung() {
		g.add(anyColumn, func(w measure.Length) column { return m.fact(f, w) })
	}
	return g
}

// A gallery is columns of sections.
type gallery struct {
	m    maker
	cols []stack
}

// A stack is one column of a gallery.
type stack struct {
	x, width, height measure.Length
	items            []column
	at               []measure.Length // the top of each
}

// anyColumn lets a section choose the column in which it ends highest.
const anyColumn = -1

// add puts a section into a column.
func (g *gallery) add(to int, set func(width measure.Length) column) {
	var c column
	if to == anyColumn {
		for i := range g.cols {
			if o := set(g.cols[i].width); to == anyColumn || g.cols[i].height+o.height < g.cols[to].height+c.height {
				to, c = i, o
			}
		}
	} else {
		c = set(g.cols[to].width)
	}
	s := &g.cols[to]
	s.items, s.at = append(s.items, c), append(s.at, s.height)
	s.height += c.height + g.m.look.gap
}

func (g *gallery) height() (h measure.Length) {
	for _, s := range g.cols {
		h = max(h, s.height-g.m.look.gap)
	}
	return h
}

func (g *gallery) draw(on canvas, at page.Point) {
	for _, s := range g.cols {
		for i, c := range s.items {
			c.draw(on, page.Point{X: at.X + s.x, Y: at.Y + s.at[i]})
		}
	}
}

// fact lays out a fact as a section.
func (m maker) fact(f fact, width measure.Length) column {
	size := 16 * pt
	if m.look.text == smallest {
		size = 13 * pt
	}
	c := m.cell(f, size, width)
	return column{c.height, func(on canvas, at page.Point) { c.draw(on, at) }}
}

// A prose is a title with sentences below it.
type prose struct {
	head  string
	texts []string
}

// A column is a prose laid out, with whatever else it shows.
type column struct {
	height measure.Length
	draw   func(on canvas, at page.Point)
}

// set lays out a prose.
func (m maker) set(p prose, width measure.Length) column {
	var paras []para
	h := measure.Length(headHeight)
	for _, t := range p.texts {
		q := m.paragraph("", t, regular(m.look.small), width, 8)
		paras = append(paras, q)
		h += q.height() + m.look.small/5
	}
	return column{h, func(on canvas, at page.Point) {
		r := headed(on, page.Box(at.X, at.Y, width, h), p.head)
		y := r.Min.Y
		for _, q := range paras {
			q.draw(on, page.Point{X: at.X, Y: y})
			y += q.height() + m.look.small/5
		}
	}}
}

// tubeWork says how to set or to saw the tube. That the plain end is the one to saw, and
// that its plug goes back in: common practice, no source.
func (m maker) tubeWork() []string {
	to := m.units.near(m.Cut.Tube)
	switch m.Fitting.Tube {
	case route.TelescopingTube:
		return []string{m.say("card.set-slide", to), m.say("card.set-hold")}
	case route.FixedTube:
		saw := m.say("card.saw-to", to)
		if off := m.Fitting.SawOff; off > 0 {
			saw = m.say("card.saw-off", m.units.near(off), to)
		}
		return []string{"1 " + m.say("card.saw-which"), "2 " + saw, "3 " + m.say("card.saw-finish")}
	}
	return []string{m.say("card.tube-either", to)}
}

// pinWork says how far the pins stick out, where they go, and which pull is fitted.
func (m maker) pinWork() []string {
	var list []string
	add := func(id message.ID, args ...any) { list = append(list, m.say(id, args...)) }
	p := m.Fitting.Pins
	list = m.marked("roller.pins")
	if p.Flat > 0 && p.Round > 0 {
		add("card.pins-measured", m.units.near(p.Flat), m.units.near(p.Round))
	}
	switch {
	case p.Most > 0:
		add("card.pins-together", bare(m.units.first.Words(p.Least, measure.Up)), m.units.own(p.Most, measure.Down))
		add("card.pins-mend")
	case p.Flat == 0:
		add("card.pins-unknown")
	}
	list = append(list, m.placeWork()...)
	if m.Shade.Pull != "" {
		add("card.pull", m.Shade.Pull)
	}
	return list
}

// placeWork says where the brackets go if there is no mounting sheet for them.
func (m maker) placeWork() []string {
	if m.Drilling != nil {
		return []string{m.say("card.place-sheet")}
	}
	p := m.Fitting.Place
	if m.Fit == nil {
		list := []string{m.say("card.place-old", m.units.near(p.Over))}
		if p.Apart > 0 {
			list = append(list, m.say("card.place-apart", m.units.near(p.Apart)))
		}
		return list
	}
	var list []string
	switch m.Shade.Opening.Mount {
	case hang.Inside:
		list = append(list, m.say("card.place-between", m.units.near(p.Apart)))
		if p.Below > 0 {
			list = append(list, m.say("card.place-below", m.units.near(p.Below)))
		} else {
			list = append(list, m.say("card.place-roll-below"))
		}
	case hang.Outside:
		list = append(list, m.say("card.place-apart", m.units.near(p.Apart)), m.say("card.place-above", m.units.near(p.Above), m.units.near(p.Left)))
	case hang.Ceiling:
		list = append(list, m.say("card.place-apart", m.units.near(p.Apart)), m.say("card.place-left", m.units.near(p.Left)))
	}
	return list
}

// attachHeight is the height of the drawing of a tube with its cloth.
const attachHeight = 27 * mm

// attach lays out the drawing of the cloth on its tube, with the order of work beside it.
func (m maker) attach(width measure.Length) column {
	drawing, high := width*52/100, measure.Length(attachHeight)
	if m.narrow() {
		drawing, high = width*48/100, 24*mm
	}
	face := m.say(tubeFaces[m.Fitting.Faces.ToTube])
	line := m.say("card.attach-line", face, m.units.near(m.Fitting.Free))
	if m.Fitting.Free == 0 {
		line = m.say("card.attach-flush", face)
	}
	var paras []para
	var words measure.Length
	for _, t := range []string{line, m.say("card.attach-tape")} {
		p := m.paragraph("", t, regular(m.look.small), width-drawing-3*mm, 12)
		paras = append(paras, p)
		words += p.height() + m.look.small/5
	}
	h := headHeight + max(words, high)
	return column{h, func(on canvas, at page.Point) {
		r := headed(on, page.Box(at.X, at.Y, width, h), m.say("card.attach"))
		m.onTube(on, page.Box(r.Min.X, r.Min.Y, drawing, high), face)
		y := r.Min.Y
		for _, p := range paras {
			p.draw(on, page.Point{X: r.Min.X + drawing + 3*mm, Y: y})
			y += p.height() + m.look.small/5
		}
	}}
}

// tubeFaces says which face of the cloth lies against the tube.
var tubeFaces = map[bool]message.ID{true: "card.against-tube", false: "card.away-from-tube"}

// onTube draws a tube from its side, with the cloth centred on a line along it. The free
// ends are drawn larger than they are.
func (m maker) onTube(on canvas, r page.Rect, face string) {
	const end, pin, thick = 6 * mm, 5 * mm / 2, 7 * mm
	small := regular(smallest)
	tube := page.Box(r.Min.X+pin, r.Min.Y+5*mm, r.Width()-2*pin, thick)
	cloth := page.Rect{Min: page.Point{X: tube.Min.X + end, Y: tube.Min.Y + thick/2}, Max: page.Point{X: tube.Max.X - end, Y: r.Max.Y - mm}}
	on.Polygon(tube.Corners(), line)
	axis := tube.Min.Y + thick/2
	on.Fill(page.Box(r.Min.X, axis-mm*3/4, pin, mm*3/2), page.Black) // the flat pin
	on.Line(page.Point{X: tube.Max.X, Y: axis}, page.Point{X: r.Max.X, Y: axis}, heavy)
	on.Line(page.Point{X: tube.Min.X, Y: axis}, page.Point{X: tube.Max.X, Y: axis}, page.Pen{Width: thin.Width, Dash: []measure.Length{2 * mm, mm}})
	for x := cloth.Min.X + mm/2; x+mm <= cloth.Max.X; x += 2 * mm { // the tape
		on.Line(page.Point{X: x, Y: cloth.Min.Y + 3*mm/2}, page.Point{X: x + mm, Y: cloth.Min.Y + mm/2}, thin)
	}
	on.Line(cloth.Min, page.Point{X: cloth.Max.X, Y: cloth.Min.Y}, heavy)
	on.Line(cloth.Min, page.Point{X: cloth.Min.X, Y: cloth.Max.Y}, line)
	on.Line(page.Point{X: cloth.Max.X, Y: cloth.Min.Y}, cloth.Max, line)

	free := m.units.near(m.Fitting.Free)
	if m.Fitting.Free == 0 {
		free = "" // the text says flush
	}
	for i, x := range []measure.Length{tube.Min.X, cloth.Max.X} {
		for _, tick := range []measure.Length{x, x + end} {
			on.Line(page.Point{X: tick, Y: tube.Min.Y - 2*mm}, page.Point{X: tick, Y: tube.Min.Y}, thin)
		}
		f, at := small, page.Point{X: tube.Min.X, Y: tube.Min.Y - 3*mm}
		if i == 1 {
			f, at.X = ending(small), tube.Max.X
		}
		on.Text(at, legible(free, f), f)
	}
	mid := (cloth.Min.X + cloth.Max.X) / 2
	y := tube.Max.Y + 2*mm
	for _, way := range []measure.Length{-1, 1} { // from the middle outwards
		tip := page.Point{X: mid + way*9*mm, Y: y}
		on.Line(page.Point{X: mid + way*mm, Y: y}, tip, thin)
		arrow(on, tip, page.Point{X: way})
	}
	on.Line(page.Point{X: mid, Y: y - mm}, page.Point{X: mid, Y: y + mm}, thin)
	p := m.shrunk(face, semibold(17*pt/2), cloth.Width()-2*mm, smallest, 3)
	at := page.Point{X: cloth.Min.X + mm, Y: y + 2*mm}
	for _, l := range p.lines {
		f := l[0].face
		f.Align = page.Middle
		on.Text(page.Point{X: mid, Y: at.Y + p.rise}, l[0].text, f)
		at.Y += p.leading
	}
}

package card

import (
	"slices"

	"shadewright/render/page"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

const (
	boxHigh    = 5 * mm  // at most
	leastRoute = 33 * mm // width of a column of the route
)

// A step is one step of the route, laid out. The first step of a bench carries
// the bench's name.
type step struct {
	bench  fitted
	name   para
	height measure.Length
}

// route draws the order of work, by bench: for each step a box for the initials of whoever
// did it.
func (m maker) route() block {
	best := recall(m.routes, m.routeKey(), m.bestRoute)
	h := headHeight + best.height
	return fixed(h, func(on canvas, r page.Rect, _ unit) {
		r = headed(on, r, m.say("card.work-with-initials"))
		best.draw(on, r.Min)
	})
}

// A routeKey identifies a route that is laid out. The tickets of a job share
// their steps, so most tickets reuse one layout.
type routeKey struct {
	first *route.Step
	steps int
	look  look
	width measure.Length
}

func (m maker) routeKey() routeKey {
	k := routeKey{steps: len(m.Route), look: m.look, width: m.width}
	if k.steps > 0 {
		k.first = &m.Route[0]
	}
	return k
}

// bestRoute lays out the route in the number of columns that makes it lowest.
func (m maker) bestRoute() (best routeSet) {
	most := int((m.width + gutter) / (leastRoute + gutter))
	var least measure.Length
	for n := 1; n <= max(most, 1); n++ {
		for _, whole := range []bool{true, false} {
			s := m.routeIn(n, whole)
			cost := s.height
			if !whole {
				cost = cost * 5 / 4 // a bench split between columns is harder to follow
			}
			if least == 0 || cost < least {
				best, least = s, cost
			}
		}
	}
	return best
}

// A routeSet is a route in columns.
type routeSet struct {
	columns [][]step
	width   measure.Length // of one column
	box     measure.Length // height of the boxes
	wide    measure.Length // of the boxes
	height  measure.Length
}

// routeIn lays out the route in n columns. With whole, the steps of a bench
// stay in one column.
func (m maker) routeIn(n int, whole bool) routeSet {
	s := routeSet{width: (m.width - measure.Length(n-1)*gutter) / measure.Length(n), box: min(boxHigh, m.look.pitch-mm), wide: m.boxWide()}
	var units [][]step
	var heights []measure.Length
	for _, g := range m.Route.Groups() {
		steps := m.group(g, s.width)
		if whole {
			units, heights = append(units, steps), append(heights, sum(steps))
			continue
		}
		for _, st := range steps {
			units, heights = append(units, []step{st}), append(heights, st.height)
		}
	}
	starts, high := columns(heights, n)
	s.height = high
	for _, col := range split(units, starts) {
		s.columns = append(s.columns, slices.Concat(col...))
	}
	return s
}

func sum(steps []step) (h measure.Length) {
	for _, s := range steps {
		h += s.height
	}
	return h
}

// group lays out the steps of one bench.
func (m maker) group(g route.Group, width measure.Length) []step {
	var steps []step
	for i, r := range g.Steps {
		var st step
		st.name = m.stepName(m.lang.Put(r.Message()), width-m.boxWide()-3*mm/2)
		st.height = max(m.look.pitch, st.name.height()+mm)
		if i == 0 {
			st.bench.text, st.bench.face = m.fit(m.lang.Put(g.Message()), bold(9*pt), width, smallest)
			st.height += benchHeight
		}
		steps = append(steps, st)
	}
	return steps
}

// stepName lays out the name of a step: on at most two lines, or smaller, or on
// as many lines as it needs.
func (m maker) stepName(name string, width measure.Length) para {
	if p := m.paragraph("", name, regular(smallest), width, mostLines); len(p.lines) > 2 {
		return p
	}
	return m.shrunk(name, regular(m.look.text), width, smallest, 2)
}

// boxWide returns the width of the box for the initials of whoever did a step.
func (m maker) boxWide() measure.Length {
	if m.narrow() {
		return 6 * mm
	}
	return 17 * mm / 2
}

// mostLines is the most lines of a step's name.
const mostLines = 6

const benchHeight = 9 * mm / 2

func (s routeSet) draw(on canvas, at page.Point) {
	for _, col := range s.columns {
		y := at.Y
		for _, st := range col {
			s.step(on, page.Point{X: at.X, Y: y}, st)
			y += st.height
		}
		at.X += s.width + gutter
	}
}

func (s routeSet) step(on canvas, at page.Point, st step) {
	if st.bench.text != "" {
		on.Text(page.Point{X: at.X, Y: at.Y + benchHeight - 3*mm/2}, st.bench.text, st.bench.face)
		at.Y += benchHeight
	}
	on.Polygon(page.Box(at.X, at.Y+mm/4, s.wide, s.box).Corners(), line)
	text := at.Y + mm/4 + (s.box-st.name.leading)/2
	if len(st.name.lines) > 1 {
		text = at.Y
	}
	st.name.draw(on, page.Point{X: at.X + s.wide + 3*mm/2, Y: text})
}

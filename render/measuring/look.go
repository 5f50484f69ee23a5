package measuring

import (
	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// look draws the opening from the front, and below it the recess cut through from
// above, with the number of each reading where it is taken.
func (f form) look(r page.Rect) {
	const above = 27 * mm // of the drawing from above, with its words
	f.front(page.Rect{Min: r.Min, Max: page.Point{X: r.Max.X, Y: r.Max.Y - above}})
	f.fromAbove(page.Rect{Min: page.Point{X: r.Min.X, Y: r.Max.Y - above}, Max: r.Max})
}

// overlap is how far the drawing shows the cloth over the wall.
const overlap = 6 * mm

func middleX(r page.Rect) measure.Length { return (r.Min.X + r.Max.X) / 2 }
func middleY(r page.Rect) measure.Length { return (r.Min.Y + r.Max.Y) / 2 }

// front draws the opening as you face it.
func (f form) front(r page.Rect) {
	o := page.Rect{Min: r.Min.Add(page.Point{X: 15 * mm, Y: 14 * mm}), Max: r.Max.Sub(page.Point{X: 15 * mm, Y: 15 * mm})}
	f.Rect(o, page.Heavy())
	dashed := page.Pen{Width: 250 * measure.Micrometre, Dash: []measure.Length{2 * mm, 3 * mm / 2}}
	f.Rect(o.Inset(-overlap), dashed)
	f.Line(o.Min, o.Max, dashed)
	f.Line(page.Point{X: o.Max.X, Y: o.Min.Y}, page.Point{X: o.Min.X, Y: o.Max.Y}, dashed)
	for i, n := range []string{"1", "2", "3"} {
		y := o.Min.Y + 8*mm + measure.Length(i)*(o.Height()-16*mm)/2
		f.span(page.Point{X: o.Min.X, Y: y}, page.Point{X: o.Max.X, Y: y})
		f.onLine(page.Point{X: o.Min.X + o.Width()*35/100, Y: y}, n)
	}
	for i, n := range []string{"4", "5", "6"} {
		x := o.Min.X + 5*mm + measure.Length(i)*(o.Width()-10*mm)/2
		f.span(page.Point{X: x, Y: o.Min.Y}, page.Point{X: x, Y: o.Max.Y})
		f.onLine(page.Point{X: x, Y: o.Min.Y + o.Height()*66/100}, n)
	}
	// Each diagonal's number lies near the corner that the diagonal begins at.
	for i, n := range []string{"7", "8"} {
		at := page.Point{X: o.Min.X + o.Width()*12/100, Y: o.Min.Y + o.Height()*12/100}
		if i == 1 {
			at.X = o.Max.X - o.Width()*12/100
		}
		f.onLine(at, n)
	}
	// What an outside mount covers, from the opening's edge to the cloth's.
	cloth := o.Inset(-overlap)
	for _, c := range []struct {
		number   string
		from, to page.Point
		out      page.Point // from the cloth's edge to the number
	}{
		{"10", page.Point{X: cloth.Min.X, Y: middleY(o)}, page.Point{X: o.Min.X, Y: middleY(o)}, page.Point{X: -4 * mm}},
		{"11", page.Point{X: o.Max.X, Y: middleY(o)}, page.Point{X: cloth.Max.X, Y: middleY(o)}, page.Point{X: 4 * mm}},
		{"12", page.Point{X: middleX(o), Y: cloth.Min.Y}, page.Point{X: middleX(o), Y: o.Min.Y}, page.Point{Y: -4 * mm}},
		{"13", page.Point{X: middleX(o), Y: o.Max.Y}, page.Point{X: middleX(o), Y: cloth.Max.Y}, page.Point{Y: 4 * mm}},
	} {
		f.span(c.from, c.to)
		edge := c.from
		if c.out.X > 0 || c.out.Y > 0 {
			edge = c.to
		}
		f.badge(edge.Add(c.out), c.number)
	}
}

// span draws a dimension line with an arrow head at each end.
func (f form) span(from, to page.Point) {
	f.Line(from, to, page.Fine())
	const long, half = 5 * mm / 2, 8 * mm / 10
	for _, end := range []struct {
		at   page.Point
		sign measure.Length
	}{{from, 1}, {to, -1}} {
		along, across := page.Point{X: end.sign * long}, page.Point{Y: half}
		if from.X == to.X {
			along, across = page.Point{Y: end.sign * long}, page.Point{X: half}
		}
		base := end.at.Add(along)
		f.FillPolygon([]page.Point{end.at, base.Add(across), base.Sub(across)}, page.Black)
	}
}

// onLine draws a number on a line, with white around it.
func (f form) onLine(at page.Point, number string) {
	f.Disc(at, badge+mm/2, page.White)
	f.badge(at, number)
}

// fromAbove draws the recess cut through from above: glass, depth, and a crank.
func (f form) fromAbove(r page.Rect) {
	face := page.Face{Size: smallest}
	s, face := page.Fit(f.say("measuring.from-above"), face, r.Width(), smallest)
	f.Text(page.Point{X: r.Min.X, Y: r.Min.Y + 4*mm}, s, face)
	left, right := r.Min.X+14*mm, r.Max.X-14*mm
	glass, front := r.Min.Y+9*mm, r.Min.Y+24*mm
	for _, jamb := range []page.Rect{page.Box(left-8*mm, glass-mm, 8*mm, front-glass+mm), page.Box(right, glass-mm, 8*mm, front-glass+mm)} {
		f.hatch(jamb)
		f.Rect(jamb, page.Solid())
	}
	f.Line(page.Point{X: left, Y: glass}, page.Point{X: right, Y: glass}, page.Heavy())
	x := left + (right-left)*30/100
	f.span(page.Point{X: x, Y: glass}, page.Point{X: x, Y: front})
	f.onLine(page.Point{X: x, Y: (glass + front) / 2}, "9")
	// A crank, and how far it stands out.
	const crank = 7 * mm
	at := page.Point{X: left + (right-left)*62/100, Y: glass}
	f.Fill(page.Box(at.X-2*mm, at.Y, 4*mm, crank), 35)
	f.Line(page.Point{X: at.X, Y: at.Y + crank}, page.Point{X: at.X + 9*mm, Y: at.Y + crank}, page.Fine())
	f.span(page.Point{X: at.X + 7*mm, Y: glass}, page.Point{X: at.X + 7*mm, Y: glass + crank})
	f.onLine(page.Point{X: at.X + 13*mm, Y: glass + crank/2 + mm/2}, "14")
	f.Text(page.Point{X: (left + right) / 2, Y: front + 3*mm}, f.say("measuring.room-side"), page.Face{Size: smallest, Align: page.Middle})
}

// hatch fills a cut part with slanted lines.
func (f form) hatch(r page.Rect) {
	const step = 2 * mm
	for d := r.Min.X - r.Height(); d < r.Max.X; d += step {
		from, to := page.Point{X: d, Y: r.Max.Y}, page.Point{X: d + r.Height(), Y: r.Min.Y}
		if from.X < r.Min.X {
			from = page.Point{X: r.Min.X, Y: from.Y - (r.Min.X - from.X)}
		}
		if to.X > r.Max.X {
			to = page.Point{X: r.Max.X, Y: to.Y + (to.X - r.Max.X)}
		}
		f.Line(from, to, page.Pen{Width: 250 * measure.Micrometre})
	}
}

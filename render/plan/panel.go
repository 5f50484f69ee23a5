package plan

import (
	"maps"
	"slices"

	"shadewright/render/page"
	"shadewright/ticket/cutplan"
	"shadewright/ticket/measure"
)

// smallestLabel is the smallest type in the drawing, readable at arm's length. A plan
// is drawn larger, in more rows, before a label gets smaller.
const smallestLabel = 7 * page.Pt

// A label is the name and the size of a panel or an offcut, and an arrow to a panel's top.
type label struct {
	lines []string
	faces [2]page.Face // of the name and of the size
	room  page.Rect
	tip   page.Point // of the arrow; back leads to its tail
	back  page.Point
	whole bool // both lines are there, at no less than smallestLabel
}

// labelOf fits the label of part q, a panel or an offcut to keep, into r, its place on the
// paper.
func (v view) labelOf(q cutplan.Part, r page.Rect) label {
	if q.Kind == cutplan.Offcut {
		return fitLabel(label{room: r.Inset(3 * mm / 2)}, v.Put(q.Name), v.Size(q.Width, q.Length))
	}
	p := v.plan.Panels[q.Panel]
	room := r.Inset(3 * mm / 2)
	if min(r.Width(), r.Height()) < 9*mm {
		room = r.Inset(mm)
	}
	var b label
	long := 5 * mm
	switch {
	case p.Turned && room.Height() > 12*mm: // the top faces the left edge
		b.tip, b.back = page.Point{X: (room.Min.X + room.Max.X) / 2, Y: room.Min.Y}, page.Point{Y: long}
		room.Min.Y += long + mm
	case !p.Turned && room.Width() > 16*mm:
		b.tip, b.back = page.Point{X: room.Max.X, Y: (room.Min.Y + room.Max.Y) / 2}, page.Point{X: -long}
		room.Max.X -= long + mm
	case p.Turned && room.Width() > 6*mm:
		b.tip, b.back = page.Point{X: room.Max.X - mm, Y: room.Min.Y}, page.Point{Y: min(long, room.Height())}
		room.Max.X -= 3 * mm
	case room.Height() > 5*mm:
		b.tip, b.back = page.Point{X: room.Max.X, Y: room.Min.Y + mm}, page.Point{X: -min(long, room.Width())}
		room.Min.Y += 3 * mm
	}
	b.room = room
	s := p.Size()
	return fitLabel(b, v.Put(p.Ticket.Called()), v.Size(s.Width, s.Length))
}

// fitLabel sets a name and a size along the longer side of the label's room, as large as
// they fit.
func fitLabel(b label, name, size string) label {
	w, h := b.room.Width(), b.room.Height()
	turn := 0
	if h > w && w < page.Width(name, page.Face{Size: 9 * page.Pt, Weight: page.Bold}) {
		w, h, turn = h, w, 90
	}
	if w <= 2*mm || h <= 3*mm/2 {
		return b
	}
	bold := page.Face{Size: 11 * page.Pt, Weight: page.Bold, Align: page.Middle, Turn: turn}
	plain := page.Face{Size: 9 * page.Pt, Align: page.Middle, Turn: turn}
	for bold.CapHeight()+plain.Leading() > h && bold.Size > smallestLabel {
		bold.Size = max(bold.Size-page.Pt/2, smallestLabel)
		plain.Size = max(plain.Size-page.Pt/2, smallestLabel)
	}
	short, bold := page.Fit(name, bold, w, smallestLabel)
	b.lines, b.faces = []string{short}, [2]page.Face{bold, plain}
	if s, f := page.Fit(size, plain, w, smallestLabel); s == size && bold.CapHeight()+f.Leading() <= h {
		b.lines, b.faces[1] = append(b.lines, s), f
	}
	b.whole = short == name && len(b.lines) == 2
	return b
}

// clipped returns the place on the paper of the panel or the offcut in part q, without its
// allowance. ok is false if nothing of it is on the span.
func (v view) clipped(q cutplan.Part) (r page.Rect, ok bool) {
	if a := v.plan.Goods.Allowance; q.Kind == cutplan.Done && a > 0 {
		return v.rect(q.X+a, q.Y+a, q.Width-2*a, q.Length-2*a)
	}
	return v.rect(q.X, q.Y, q.Width, q.Length)
}

// panel draws a panel inside its allowance: its name, its size and an arrow to its top.
func (v view) panel(q cutplan.Part, r page.Rect) {
	if v.plan.Goods.Allowance > 0 {
		v.Rect(r, hair)
		var ok bool
		if r, ok = v.clipped(q); !ok {
			return
		}
	}
	v.Rect(r, solid)
	b := v.labelOf(q, r)
	if b.back != (page.Point{}) {
		v.arrow(b.tip, b.back)
	}
	v.write(q, b)
}

// arrow draws an arrow with its tip at a point. back leads from the tip to the
// tail.
func (d *drawing) arrow(tip, back page.Point) {
	const wing = 3 * mm / 2
	d.Line(tip, tip.Add(back), solid)
	pts := []page.Point{tip, {X: tip.X + wing, Y: tip.Y + 2*wing}, {X: tip.X - wing, Y: tip.Y + 2*wing}}
	if back.X != 0 {
		pts = []page.Point{tip, {X: tip.X - 2*wing, Y: tip.Y + wing}, {X: tip.X - 2*wing, Y: tip.Y - wing}}
	}
	if back.X != 0 && -back.X < 2*wing || back.X == 0 && back.Y < 2*wing {
		return // too small for a head: a bare line misleads less than a blot
	}
	d.FillPolygon(pts, page.Black)
}

// write writes a label in the middle of its room. A part that goes on in the next row has
// its label where the label is whole; if it is whole nowhere, on the part's middle.
func (v view) write(q cutplan.Part, b label) {
	mid := q.Y + q.Length/2
	if !b.whole && (mid < v.span.from || mid > v.span.to) {
		return
	}
	high := b.faces[0].CapHeight()
	if len(b.lines) == 2 {
		high += b.faces[1].Leading()
	}
	centre := page.Point{X: (b.room.Min.X + b.room.Max.X) / 2, Y: (b.room.Min.Y + b.room.Max.Y) / 2}
	for i, s := range b.lines {
		f, off := b.faces[i], b.faces[0].CapHeight()-high/2
		if i == 1 {
			off = high / 2
		}
		at := page.Point{X: centre.X, Y: centre.Y + off}
		if f.Turn != 0 {
			at = page.Point{X: centre.X + off, Y: centre.Y}
		}
		v.Text(at, s, f)
		v.take(at, s, f)
	}
}

// readable reports whether every panel and every offcut to keep has its whole label in one
// of the rows, drawn at 1 : n.
func (l *layout) readable(p *cutplan.Plan, rows []strip, n int) bool {
	labelled := map[int]bool{}
	for _, row := range rows {
		for _, sp := range row.spans {
			v := view{&drawing{layout: l}, p, sp, page.Point{X: sp.at}, measure.Length(n)}
			for i, q := range p.Parts {
				if q.Kind != cutplan.Done && q.Kind != cutplan.Offcut || !v.holds(i) {
					continue
				}
				if r, ok := v.clipped(q); ok {
					labelled[i] = labelled[i] || v.labelOf(q, r).whole
				}
			}
		}
	}
	return len(labelled) == len(p.Panels)+len(p.Keep) && !slices.Contains(slices.Collect(maps.Values(labelled)), false)
}

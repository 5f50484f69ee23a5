package plan

import (
	"fmt"

	"shadewright/render/page"
	"shadewright/ticket/cutplan"
	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
)

// A piece is a stretch of goods in the drawing: a section of the roll, or a
// piece on hand.
type piece struct {
	title  string
	short  string         // replaces title where there is no room
	part   int            // index of the whole stretch in Plan.Parts
	from   measure.Length // position along the goods
	to     measure.Length
	across measure.Length // full width
	onRoll bool
}

// pieces lists the stretches of a plan, sections first.
func (l *layout) pieces(p *cutplan.Plan) []piece {
	var list []piece
	for i, s := range p.Sections {
		q := p.Parts[s.Part]
		list = append(list, piece{l.Say("ticket.section", i+1), fmt.Sprint(i + 1), s.Part, q.Y, q.Y + q.Length, q.Width, true})
	}
	for _, h := range p.OnHand {
		q := p.Parts[h.Part]
		list = append(list, piece{l.Say("plan.on-hand", h.Label), h.Label, h.Part, 0, q.Length, q.Width, false})
	}
	return list
}

// A span is a part of a piece on a strip, at a distance from the start of the
// strip.
type span struct {
	piece
	at measure.Length // on paper
}

// A strip is one row of the drawing.
type strip struct {
	spans  []span
	height measure.Length // on paper, including its texts
}

const (
	aboveStrip = 6 * mm // titles
	belowStrip = 5 * mm // distances from the cut end
	apart      = 8 * mm // gap between two pieces that are not connected
)

// strips breaks the goods into rows of at most the given width on paper, at a
// scale of 1 : n. It breaks between sections where possible.
func strips(list []piece, n int, wide measure.Length) []strip {
	scale := measure.Length(n)
	var rows []strip
	var used measure.Length
	for _, p := range list {
		for p.from < p.to {
			s := len(rows) - 1
			gap := measure.Length(0)
			if s >= 0 && len(rows[s].spans) > 0 && !(p.onRoll && rows[s].spans[0].onRoll) {
				gap = apart
			}
			room := wide - used - gap
			if s < 0 || (p.to-p.from)/scale > room && used > 0 {
				rows, used, gap, room = append(rows, strip{}), 0, 0, wide
				s++
			}
			q := p
			q.to = min(p.to, p.from+room*scale)
			rows[s].spans = append(rows[s].spans, span{q, used + gap})
			rows[s].height = max(rows[s].height, aboveStrip+q.across/scale+belowStrip)
			used += gap + (q.to-q.from)/scale
			p.from = q.to
		}
	}
	return rows
}

func total(rows []strip) measure.Length {
	var sum measure.Length
	for _, r := range rows {
		sum += r.height
	}
	return sum
}

// A view maps the goods of one span to the paper.
type view struct {
	*drawing
	plan   *cutplan.Plan
	span   span
	origin page.Point // start of the span, at the left edge of the goods
	scale  measure.Length
}

// strip draws one row of the goods.
func (d *drawing) strip(p *cutplan.Plan, s strip, n int, at measure.Length) {
	for _, sp := range s.spans {
		v := view{d, p, sp, page.Point{X: d.Frame.Min.X + sp.at, Y: at + aboveStrip}, measure.Length(n)}
		v.goods()
	}
	for _, sp := range s.spans {
		v := view{d, p, sp, page.Point{X: d.Frame.Min.X + sp.at, Y: at + aboveStrip}, measure.Length(n)}
		v.numbers()
	}
}

// rect returns the place on the paper of a rectangle of the goods, clipped to
// the span. ok is false if nothing of it is on the span.
func (v view) rect(x, y, w, l measure.Length) (r page.Rect, ok bool) {
	from, to := max(y, v.span.from), min(y+l, v.span.to)
	if from >= to {
		return r, false
	}
	return page.Rect{Min: v.at(x, from), Max: v.at(x+w, to)}, true
}

// at returns the place on the paper of a point of the goods.
func (v view) at(x, y measure.Length) page.Point {
	return page.Point{X: v.origin.X + (y-v.span.from)/v.scale, Y: v.origin.Y + x/v.scale}
}

// goods draws the parts on the span.
func (v view) goods() {
	for i, q := range v.plan.Parts {
		if !v.holds(i) {
			continue
		}
		r, ok := v.rect(q.X, q.Y, q.Width, q.Length)
		if !ok {
			continue
		}
		switch q.Kind {
		case cutplan.Done:
			v.panel(q, r)
		case cutplan.Offcut:
			v.Fill(r, 90)
			v.Rect(r, dash)
			v.words(r.Inset(3*mm/2), v.Put(q.Name), v.Size(q.Width, q.Length))
		case cutplan.Scrap:
			v.hatch(r)
			v.Rect(r, hair)
		case cutplan.Selvage:
			v.Fill(r, 65)
			v.Rect(r, hair)
		}
	}
	v.edges()
}

// holds reports whether a part is on the span's goods.
func (v view) holds(i int) bool {
	q := v.plan.Parts[i]
	if v.span.onRoll {
		return q.OnHand < 0
	}
	return q.OnHand == v.plan.Parts[v.span.part].OnHand
}

// panel draws a panel inside its allowance: its name, its size and an arrow to
// its top.
func (v view) panel(q cutplan.Part, r page.Rect) {
	p := v.plan.Panels[q.Panel]
	a := v.plan.Goods.Allowance
	if a > 0 {
		v.Rect(r, hair)
		s := p.Size()
		var ok bool
		if r, ok = v.rect(q.X+a, q.Y+a, s.Width, s.Length); !ok {
			return
		}
	}
	v.Rect(r, solid)
	room := r.Inset(3 * mm / 2)
	if min(r.Width(), r.Height()) < 9*mm {
		room = r.Inset(mm)
	}
	long := 5 * mm
	switch {
	case p.Turned && room.Height() > 12*mm: // the top faces the left edge
		tip := page.Point{X: (room.Min.X + room.Max.X) / 2, Y: room.Min.Y}
		v.arrow(tip, page.Point{Y: long})
		room.Min.Y += long + mm
	case !p.Turned && room.Width() > 16*mm:
		tip := page.Point{X: room.Max.X, Y: (room.Min.Y + room.Max.Y) / 2}
		v.arrow(tip, page.Point{X: -long})
		room.Max.X -= long + mm
	case p.Turned && room.Width() > 6*mm:
		v.arrow(page.Point{X: room.Max.X - mm, Y: room.Min.Y}, page.Point{Y: min(long, room.Height())})
		room.Max.X -= 3 * mm
	case room.Height() > 5*mm:
		v.arrow(page.Point{X: room.Max.X, Y: room.Min.Y + mm}, page.Point{X: -min(long, room.Width())})
		room.Min.Y += 3 * mm
	}
	s := p.Size()
	v.words(room, v.Put(p.Ticket.Called()), v.Size(s.Width, s.Length))
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

// words writes a name and a size in the middle of a room, along its longer
// side, as large as they fit. It leaves out text too small to read.
func (d *drawing) words(room page.Rect, name, size string) {
	w, h := room.Width(), room.Height()
	turn := 0
	if h > w && w < page.Width(name, page.Face{Size: 9 * page.Pt, Weight: page.Bold}) {
		w, h, turn = h, w, 90
	}
	if w <= 2*mm || h <= 3*mm/2 {
		return
	}
	bold := page.Face{Size: 11 * page.Pt, Weight: page.Bold, Align: page.Middle, Turn: turn}
	plain := page.Face{Size: 9 * page.Pt, Align: page.Middle, Turn: turn}
	for bold.CapHeight()+plain.Leading() > h && bold.Size > 6*page.Pt {
		bold.Size -= page.Pt / 2
		plain.Size = max(plain.Size-page.Pt/2, 6*page.Pt)
	}
	name, bold = page.Fit(name, bold, w, 5*page.Pt)
	lines := []string{name}
	if s, f := page.Fit(size, plain, w, 5*page.Pt); s == size && bold.CapHeight()+plain.Leading() <= h {
		lines, plain = append(lines, s), f
	}
	mid := page.Point{X: (room.Min.X + room.Max.X) / 2, Y: (room.Min.Y + room.Max.Y) / 2}
	high := bold.CapHeight()
	if len(lines) == 2 {
		high += plain.Leading()
	}
	for i, s := range lines {
		f, off := bold, bold.CapHeight()-high/2
		if i == 1 {
			f, off = plain, high/2
		}
		at := page.Point{X: mid.X, Y: mid.Y + off}
		if turn != 0 {
			at = page.Point{X: mid.X + off, Y: mid.Y}
		}
		d.Text(at, s, f)
		d.take(at, s, f)
	}
}

// take remembers the place of a text.
func (d *drawing) take(at page.Point, s string, f page.Face) {
	c := page.Extent(at, s, f)
	r := page.Rect{Min: c[0], Max: c[0]}
	for _, p := range c {
		r.Min.X, r.Min.Y = min(r.Min.X, p.X), min(r.Min.Y, p.Y)
		r.Max.X, r.Max.Y = max(r.Max.X, p.X), max(r.Max.Y, p.Y)
	}
	d.taken = append(d.taken, r)
}

// free reports whether r has no text.
func (d *drawing) free(r page.Rect) bool {
	for _, t := range d.taken {
		if t.Min.X < r.Max.X && r.Min.X < t.Max.X && t.Min.Y < r.Max.Y && r.Min.Y < t.Max.Y {
			return false
		}
	}
	return true
}

// hatch draws slanting lines over r.
func (d *drawing) hatch(r page.Rect) {
	const step = 2 * mm
	w, h := r.Width(), r.Height()
	for s := step; s < w+h; s += step {
		from := page.Point{X: r.Min.X + max(s-h, 0), Y: r.Min.Y + min(s, h)}
		to := page.Point{X: r.Min.X + min(s, w), Y: r.Min.Y + max(s-w, 0)}
		d.Line(from, to, page.Pen{Width: page.Hairline, Gray: 40})
	}
}

// edges draws the outline of the span, with its title and its distances from
// the cut end.
func (v view) edges() {
	s := v.span
	r := page.Rect{Min: v.at(0, s.from), Max: v.at(s.across, s.to)}
	v.Line(r.Min, page.Point{X: r.Max.X, Y: r.Min.Y}, solid)
	v.Line(page.Point{X: r.Min.X, Y: r.Max.Y}, r.Max, solid)
	whole := v.plan.Parts[s.part]
	start, end := whole.Y, whole.Y+whole.Length
	if s.from == start {
		v.Line(page.Point{X: r.Min.X, Y: r.Min.Y - 5*mm}, page.Point{X: r.Min.X, Y: r.Max.Y + mm}, heavy)
	}
	if s.to == end {
		v.Line(page.Point{X: r.Max.X, Y: r.Min.Y - 5*mm}, page.Point{X: r.Max.X, Y: r.Max.Y + mm}, heavy)
	}
	title, f := v.title(r.Width() - 2*mm)
	at := page.Point{X: r.Min.X + mm, Y: r.Min.Y - 2*mm}
	v.Text(at, title, f)
	v.take(at, title, f)
	if !s.onRoll {
		return
	}
	small := page.Face{Size: 7 * page.Pt}
	foot := page.Point{X: r.Min.X, Y: r.Max.Y + 4*mm}
	from := v.Bare(s.from)
	if s.from == 0 {
		from = v.Say("plan.cut-end")
	}
	small.Align = page.End
	v.Text(page.Point{X: r.Max.X - mm/2, Y: foot.Y}, v.Bare(s.to), small)
	if s.at == 0 && page.Width(from, small)+page.Width(v.Bare(s.to), small)+3*mm < r.Width() {
		small.Align = page.Start
		v.Text(foot, from, small)
	}
}

// title returns the longest title of the span that fits.
func (v view) title(width measure.Length) (string, page.Face) {
	s, whole := v.span, v.plan.Parts[v.span.part]
	f := page.Face{Size: 9 * page.Pt, Weight: page.Bold}
	long := s.title + ": " + v.Words(whole.Length)
	if s.from > whole.Y {
		long = v.Say("common.continued", long)
	}
	for _, t := range []string{long, s.title + ": " + v.Bare(whole.Length), s.title} {
		if page.Width(t, f) <= width {
			return t, f
		}
	}
	return page.Fit(s.short, f, width, 6*page.Pt)
}

// numbers writes the number of each cut on its line, where there is room.
func (v view) numbers() {
	f := page.Face{Size: 7 * page.Pt, Weight: page.Bold, Align: page.Middle}
	for _, c := range v.plan.Cuts {
		q := v.plan.Parts[c.From]
		if !v.holds(c.From) {
			continue
		}
		far := v.plan.Parts[c.Far]
		x, y := far.X, far.Y
		dx, dy := q.Width, measure.Length(0)
		if c.Way == nest.Along {
			dx, dy = 0, q.Length
		}
		for _, share := range []measure.Length{50, 30, 70, 15, 85} {
			px, py := x+dx*share/100, y+dy*share/100
			if py < v.span.from || py > v.span.to || c.Way == nest.Across && (y <= v.span.from || y > v.span.to) {
				continue
			}
			at := v.at(px, py)
			s := fmt.Sprint(c.Number)
			half := page.Width(s, f)/2 + mm/2
			box := page.Rect{Min: page.Point{X: at.X - half, Y: at.Y - 3*mm/2}, Max: page.Point{X: at.X + half, Y: at.Y + 3*mm/2}}
			if box.Min.X < v.Frame.Min.X || box.Max.X > v.Frame.Max.X || !v.free(box) {
				continue
			}
			v.Fill(box, page.White)
			v.Rect(box, hair)
			v.Text(page.Point{X: at.X, Y: at.Y + f.CapHeight()/2}, s, f)
			v.taken = append(v.taken, box)
			break
		}
	}
}

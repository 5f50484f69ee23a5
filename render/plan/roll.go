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
	if p.Square > 0 { // the end that the first cut takes off
		list = append(list, piece{part: p.Cuts[0].Near, to: p.Square, across: p.Goods.Width, onRoll: true})
	}
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
			v.write(q, v.labelOf(q, r))
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
	small := page.Face{Size: 7 * page.Pt}
	foot := page.Point{X: r.Min.X, Y: r.Max.Y + 4*mm}
	if s.title == "" {
		v.Text(foot, v.Say("plan.cut-end"), small)
		return
	}
	title, f := v.title(r.Width() - 2*mm)
	at := page.Point{X: r.Min.X + mm, Y: r.Min.Y - 2*mm}
	v.Text(at, title, f)
	v.take(at, title, f)
	if !s.onRoll {
		return
	}
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
	return page.Fit(s.short, f, width, smallestLabel)
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

package template

import (
	"fmt"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

const mm = measure.Millimetre

// Lines are told apart by their dashes and by the words on them, never by
// colour.
var (
	solid    = page.Pen{Width: 350 * measure.Micrometre}
	heavy    = page.Pen{Width: 700 * measure.Micrometre}
	folding  = page.Pen{Width: 350 * measure.Micrometre, Dash: []measure.Length{8 * mm, 3 * mm}}
	stitched = page.Pen{Width: 500 * measure.Micrometre, Dash: []measure.Length{2 * mm, 2 * mm}}
	centred  = page.Pen{Width: 250 * measure.Micrometre, Dash: []measure.Length{8 * mm, 2 * mm, 1 * mm, 2 * mm}}
	joined   = page.Pen{Width: 250 * measure.Micrometre, Dash: []measure.Length{1 * mm, 1 * mm}}
	fine     = page.Pen{Width: 250 * measure.Micrometre}
)

func (k kind) pen() page.Pen {
	return [...]page.Pen{rawEdge: heavy, foldLine: folding, markLine: solid, stitchRow: stitched}[k]
}

var (
	small  = page.Face{Size: 8 * page.Pt}
	plain  = page.Face{Size: 9 * page.Pt}
	strong = page.Face{Size: 9 * page.Pt, Weight: page.Semibold}
)

// A view maps the band to the paper and keeps to the strip's stretch of it.
type view struct {
	*drawing
	at       page.Point     // paper, of the band's (from, 0)
	from, to measure.Length // what of the band is seen
}

func (v view) place(x, y measure.Length) page.Point {
	return page.Point{X: v.at.X + x - v.from, Y: v.at.Y - y}
}

// across draws a line along the band from x1 to x2, as far as it is seen. The
// dashes are counted from x1, so they run on from strip to strip.
func (v view) across(y, x1, x2 measure.Length, pen page.Pen) {
	a, b := max(x1, v.from), min(x2, v.to)
	if a >= b {
		return
	}
	if len(pen.Dash) > 0 {
		pen.Phase += a - x1
	}
	v.Line(v.place(a, y), v.place(b, y), pen)
}

// up draws a line up the band at x from y1 to y2, if x is seen.
func (v view) up(x, y1, y2 measure.Length, pen page.Pen) {
	if v.sees(x) {
		v.Line(v.place(x, y1), v.place(x, y2), pen)
	}
}

func (v view) sees(x measure.Length) bool { return v.from <= x && x <= v.to }

// write sets a text whose left end stands at x, if it is seen whole.
func (v view) write(x, y measure.Length, s string, f page.Face) {
	w := page.Width(s, f)
	left := x
	switch f.Align {
	case page.Middle:
		left -= w / 2
	case page.End:
		left -= w
	}
	if left >= v.from && left+w <= v.to {
		v.Text(v.place(x, y), s, f)
	}
}

// strip draws one strip of a band with its top left corner at at.
func (d *drawing) strip(s *strip, at page.Point) {
	b := s.band
	v := view{drawing: d, from: s.from, to: s.to,
		at: page.Point{X: at.X, Y: at.Y + captionHeight + headroom + b.folds.PocketMark}}
	d.caption(s, at)
	v.sides(b)
	lines := rules(b.folds)
	for i, r := range lines {
		v.across(r.y, -past, b.width+past, r.kind.pen())
		v.label(b.width, lines, i)
	}
	v.scale(b.width)
	v.joints(s)
}

// sides draws what stands across the lines: the cloth's sides, side hems, the
// centre and the ends of the slat.
func (v view) sides(b *band) {
	top := b.folds.PocketMark + headroom - mm
	for _, x := range []measure.Length{0, b.width} {
		v.up(x, 0, top, heavy)
	}
	turned := page.Face{Size: small.Size, Turn: 90}
	v.write(-mm, 2*mm, "left side of the cloth", turned)
	v.write(b.width+3*mm+mm/2, 2*mm, "right side of the cloth", turned)
	if b.sideHem > 0 {
		for _, x := range []measure.Length{b.sideHem, b.width - b.sideHem} {
			v.up(x, 0, top, folding)
		}
		v.write(b.sideHem-mm, 2*mm, "side hem fold", turned)
		v.write(b.width-b.sideHem-mm, 2*mm, "side hem fold", turned)
	}
	v.up(b.width/2, 0, top, centred)
	v.write(b.width/2-mm, b.folds.PocketMark+mm, "centre", page.Face{Size: small.Size, Align: page.End})
	for i, x := range b.slat {
		v.up(x, b.folds.PocketFold, b.folds.Stitch, fine)
		f := page.Face{Size: small.Size, Align: [...]page.Align{page.Start, page.End}[i]}
		dx := [...]measure.Length{mm, -mm}[i]
		v.write(x+dx, b.folds.PocketFold+(b.folds.Stitch-b.folds.PocketFold)/2, "slat ends here", f)
	}
}

// label writes the words of a line: beside the cloth its name, on the cloth what
// to do. They stand above the line, below it where the next line leaves no room.
func (v view) label(width measure.Length, lines []rule, i int) {
	r := lines[i]
	room := headroom
	if i+1 < len(lines) {
		room = lines[i+1].y - r.y
	}
	y := r.y + mm
	if room < plain.Ascent()+2*mm {
		y = r.y - mm - plain.CapHeight()
	}
	v.write(-past+mm, y, r.name, small)
	v.write(width+past-mm, y, r.name, page.Face{Size: small.Size, Align: page.End})
	x := max(v.from+v.opt.Overlap, 0) + 4*mm
	if r.step > 0 {
		c := v.place(x+2*mm, y+plain.CapHeight()/2)
		v.Disc(c, 2*mm+mm/4, page.Black)
		v.Text(page.Point{X: c.X, Y: c.Y + small.CapHeight()/2}, fmt.Sprint(r.step), page.Face{Size: small.Size, Weight: page.Bold, Align: page.Middle, Gray: page.White})
		x += 6 * mm
	}
	face := strong
	if r.step == 0 {
		face = plain
	}
	v.write(x, y, r.words, face)
	if r.y > 0 {
		x += page.Width(r.words+"  ", face)
		v.write(x, y, v.words(r.y)+" from the raw edge", plain)
	}
}

// caption names a strip and shows where on its band it lies.
func (d *drawing) caption(s *strip, at page.Point) {
	base := page.Point{X: at.X, Y: at.Y + 5*mm}
	name := fmt.Sprintf("Band %s, strip %d of %d", s.band.name, s.index+1, s.of)
	f := page.Face{Size: 11 * page.Pt, Weight: page.Bold}
	d.Text(base, name, f)
	base.X += page.Width(name, f) + 3*mm
	mapWidth := 36 * mm
	room := at.X + s.to - s.from - mapWidth - 3*mm - base.X
	if room > 15*mm {
		d.Text(base, page.Fit("for "+s.band.owners(), plain, room), plain)
	}
	d.minimap(s, page.Box(at.X+max(s.to-s.from, 90*mm)-mapWidth, at.Y+mm, mapWidth, 5*mm))
}

// minimap draws the whole band small, the strips as boxes and this one black.
func (d *drawing) minimap(s *strip, r page.Rect) {
	whole := s.band.width + 2*past
	for i, sp := range s.spans {
		to := sp.to
		if i+1 < len(s.spans) {
			to = s.spans[i+1].from
		}
		b := page.Box(r.Min.X+scaled(r.Width(), sp.from+past, whole), r.Min.Y, scaled(r.Width(), to-sp.from, whole), r.Height())
		if i == s.index {
			d.Fill(b, page.Black)
			continue
		}
		d.Rect(b, fine)
	}
}

// scaled returns l·a/b.
func scaled(l, a, b measure.Length) measure.Length {
	return measure.FromMillimetres(l.Millimetres() * float64(a) / float64(b))
}

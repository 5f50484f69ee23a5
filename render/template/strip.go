package template

import (
	"fmt"

	"shadewright/render/page"
	"shadewright/ticket"
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
	plain  = page.Face{Size: 10 * page.Pt}
	strong = page.Face{Size: 10 * page.Pt, Weight: page.Semibold}
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

// write sets a text at (x, y) if it is seen whole. A turned text reads upward and
// stands left of x.
func (v view) write(x, y measure.Length, s string, f page.Face) {
	left, right := x, x
	switch w := page.Width(s, f); {
	case f.Turn == 90:
		left, right = x-f.Ascent(), x+f.Descent()
	case f.Align == page.Middle:
		left, right = x-w/2, x+w/2
	case f.Align == page.End:
		left = x - w
	default:
		right = x + w
	}
	if left >= v.from && right <= v.to {
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
		v.label(b.width, b.slat[0], lines, i)
	}
	v.scale(b.width)
	v.joints(s)
}

// sides draws what stands across the lines: the cloth's sides, side hems, the
// centre and the ends of the slat.
func (v view) sides(b *band) {
	top := b.folds.PocketMark + headroom
	for _, x := range []measure.Length{0, b.width} {
		v.up(x, 0, top, heavy)
	}
	turned := page.Face{Size: small.Size, Turn: 90, Align: page.Middle}
	mid := widestGap(b.folds)
	v.write(-mm, mid, "left side of the cloth", turned)
	v.write(b.width+mm+small.Ascent(), mid, "right side of the cloth", turned)
	if b.sideHem > 0 {
		for _, x := range []measure.Length{b.sideHem, b.width - b.sideHem} {
			v.up(x, 0, top, folding)
		}
		v.write(b.sideHem-mm, mid, "side hem fold", turned)
		v.write(b.width-b.sideHem+mm+small.Ascent(), mid, "side hem fold", turned)
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

// widestGap returns the middle of the widest gap between two lines.
func widestGap(f ticket.Folds) measure.Length {
	var mid, gap measure.Length
	lines := rules(f)
	for i := 1; i < len(lines); i++ {
		if g := lines[i].y - lines[i-1].y; g > gap {
			gap, mid = g, lines[i-1].y+g/2
		}
	}
	return mid
}

// label writes the words of a line: beside the cloth its name, on the cloth what
// to do. They stand above the line, or below it where there is more room, and are
// left out where there is none.
func (v view) label(width, begin measure.Length, lines []rule, i int) {
	r := lines[i]
	above, below := headroom+clear, r.y
	if i+1 < len(lines) {
		above = lines[i+1].y - r.y
	}
	if i > 0 {
		below = r.y - lines[i-1].y
	}
	face, tag := plain, small
	if r.step > 0 {
		face = strong
	}
	room := above
	under := above < face.Ascent()+2*clear && below > above+face.Ascent()+2*clear
	if under {
		room = below / 2
	}
	if most := (room - 2*clear) * 5 / 4; most < face.Size {
		face.Size, tag.Size = most, min(most, tag.Size)
	}
	if face.Size < 5*page.Pt {
		return
	}
	y := r.y + clear
	if under {
		y = r.y - clear - face.Ascent()
	}
	v.write(-past+mm, y, r.name, tag)
	tag.Align = page.End
	v.write(width+past-mm, y, r.name, tag)
	v.act(r, begin, y, face)
}

// clear is what stays bare between a line and the words beside it.
const clear = 1400 * measure.Micrometre

// act writes what is done at a line, in which order, and how far up it lies.
func (v view) act(r rule, begin, y measure.Length, face page.Face) {
	x := max(v.from+v.opt.Overlap, begin) + 4*mm
	where := ""
	if r.y > 0 {
		where = v.words(r.y) + " from the raw edge"
	}
	text := x
	if r.step > 0 {
		text += 6 * mm
	}
	end := text + page.Width(r.words+"  ", face)
	if end > v.to {
		return
	}
	if r.step > 0 {
		c := v.place(x+2*mm, y+face.CapHeight()/2)
		number := page.Face{Size: small.Size, Weight: page.Bold, Align: page.Middle, Gray: page.White}
		v.Disc(c, 19*mm/10, page.Black)
		v.Text(page.Point{X: c.X, Y: c.Y + number.CapHeight()/2}, fmt.Sprint(r.step), number)
	}
	v.write(text, y, r.words, face)
	face.Weight = page.Regular
	v.write(end, y, where, face)
}

// caption names a strip and shows where on its band it lies.
func (d *drawing) caption(s *strip, at page.Point) {
	base := page.Point{X: at.X, Y: at.Y + 5*mm}
	name := fmt.Sprintf("Band %s, strip %d of %d", s.band.name, s.index+1, len(s.spans))
	f := page.Face{Size: 11 * page.Pt, Weight: page.Bold}
	d.Text(base, name, f)
	base.X += page.Width(name, f) + 3*mm
	mapWidth := 36 * mm
	room := at.X + s.to - s.from - mapWidth - 3*mm - base.X
	if room > 15*mm {
		d.Text(base, page.Cut("for "+s.band.owners(), plain, room), plain)
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

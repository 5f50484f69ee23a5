package template

import (
	"fmt"

	"shadewright/render/fullscale"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

const mm = measure.Millimetre

func (k kind) pen() page.Pen {
	return [...]page.Pen{rawEdge: page.Heavy(), foldLine: fullscale.Dashed(), markLine: page.Solid(), stitchRow: fullscale.Broken()}[k]
}

var small, plain, strong = fullscale.Small(), fullscale.Plain(), fullscale.Strong()

// A view is the window on one strip or gauge.
type view struct{ fullscale.Window }

// view returns the window on a band from one x to another, its top left corner
// at at.
func (d *drawing) view(s shape, from, to measure.Length, at page.Point) view {
	top := captionHeight + headroom + s.folds.PocketMark
	return view{fullscale.Window{
		Drawing: d.Drawing, At: page.Point{X: at.X, Y: at.Y + top},
		X: sheet.Span{From: from, To: to}, Y: sheet.Span{From: -scaleDepth, To: top},
	}}
}

// strip draws one strip of a band with its top left corner at at.
func (d *drawing) strip(s *strip, at page.Point) {
	b := s.band
	v := d.view(b.shape, s.from, s.to, at)
	d.caption(s, at)
	v.sides(b)
	lines := rules(b.folds)
	var words []sheet.Span // those on the last line, the topmost
	for i, r := range lines {
		v.Across(r.y, -past, b.width+past, r.kind.pen())
		words = v.label(b.shape, lines, i)
	}
	v.centre(b.shape, words)
	v.scale(b.width)
	v.joints(s)
}

// sides draws what stands across the lines: the cloth's sides, side hems, the
// centre and the ends of the slat.
func (v view) sides(b *band) {
	top := b.folds.PocketMark + headroom
	for _, x := range []measure.Length{0, b.width} {
		v.Up(x, 0, top, page.Heavy())
	}
	mid, gap := widestGap(b.folds)
	turned := func(x measure.Length, e message.ID) {
		words, f := page.Fit(v.Say(e), page.Face{Size: small.Size, Turn: 90, Align: page.Middle}, max(gap, leastGap), least)
		v.Write(x, mid, words, f)
	}
	turned(-mm, "template.left-side-cloth")
	turned(b.width+mm+small.Ascent(), "template.right-side-cloth")
	if b.sideHem > 0 {
		for _, x := range []measure.Length{b.sideHem, b.width - b.sideHem} {
			v.Up(x, 0, top, fullscale.Dashed())
		}
		turned(b.sideHem-mm, "template.side-hem-fold")
		turned(b.width-b.sideHem+mm+small.Ascent(), "template.side-hem-fold")
	}
	v.Up(b.width/2, 0, top, fullscale.Centred())
	for i, x := range b.slat {
		v.Up(x, b.folds.PocketFold, b.folds.Stitch, page.Fine())
		f := page.Face{Size: small.Size, Align: [...]page.Align{page.Start, page.End}[i]}
		dx := [...]measure.Length{mm, -mm}[i]
		v.Write(x+dx, b.folds.PocketFold+(b.folds.Stitch-b.folds.PocketFold)/2, v.Say("template.slat-ends-here"), f)
	}
}

// centre names the centre line: at its top, or lower where words are in the way.
func (v view) centre(s shape, words []sheet.Span) {
	f := page.Face{Size: small.Size, Align: page.End}
	name := v.Say("template.centre")
	x, y := s.width/2-mm, s.folds.PocketMark+mm
	for _, w := range words {
		if w.From < x && w.To > x-page.Width(name, f)-mm {
			y, _ = widestGap(s.folds)
		}
	}
	v.Write(x, y, name, f)
}

// widestGap returns the widest gap between two lines, and its middle.
func widestGap(f ticket.Folds) (mid, gap measure.Length) {
	lines := rules(f)
	for i := 1; i < len(lines); i++ {
		if g := lines[i].y - lines[i-1].y; g > gap {
			gap, mid = g, lines[i-1].y+g/2
		}
	}
	return mid, gap
}

// leastGap is what words along the cloth's side may take even where they then run
// over a line.
const leastGap = 25 * mm

// label writes the words of a line: beside the cloth its name, on the cloth what
// to do. They stand above the line, or below it where there is more room, and are
// left out where there is none. It returns from where to where each act reaches.
func (v view) label(s shape, lines []rule, i int) []sheet.Span {
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
	if face.Size < least {
		return nil
	}
	y := r.y + clear
	if under {
		y = r.y - clear - face.Ascent()
	}
	name, tag := page.Fit(v.Say(r.name), tag, past-2*mm, least)
	v.Write(-past+mm, y, name, tag)
	tag.Align = page.End
	v.Write(s.width+past-mm, y, name, tag)
	return v.acts(r, s, y, face)
}

// clear is what stays bare between a line and the words beside it.
const clear = 1400 * measure.Micrometre

// Sizes of words on the cloth: the smallest, and one that is read at arm's length.
const least, fair = 5 * page.Pt, 8 * page.Pt

// actEvery is how far along a long strip an act is written again, so that it can
// be read wherever one stands at the table.
const actEvery = 600 * mm

// acts writes what is done at a line between the ends of the slat, on roll paper
// again and again. It returns from where to where each reaches.
func (v view) acts(r rule, s shape, y measure.Length, face page.Face) []sheet.Span {
	x := max(v.X.From+v.Overlap, s.slat[0]) + 4*mm
	limit := min(v.X.To, s.slat[1]-mm)
	if v.X.To < s.width {
		limit = v.X.To - v.Overlap - mm
	}
	list := []sheet.Span{v.act(r, s, page.Point{X: x, Y: y}, limit, face)}
	if !v.Paper.Roll {
		return list
	}
	for x += actEvery; x+actEvery/2 < limit; x += actEvery {
		list = append(list, v.act(r, s, page.Point{X: x, Y: y}, limit, face))
	}
	return list
}

// act writes what is done at a line, in which order, and how far up it lies, from
// a place to the limit at most: smaller where there is little room, and where that
// is not enough, without how far up. It returns from where to where.
func (v view) act(r rule, s shape, at page.Point, limit measure.Length, face page.Face) sheet.Span {
	x, y := at.X, at.Y
	what, where := v.Say(r.words), ""
	if r.y > 0 {
		where = v.Say("template.from-raw-edge", v.Words(r.y))
	}
	text := x
	if r.step > 0 {
		text += 6 * mm
	}
	words := func() measure.Length {
		if where == "" {
			return page.Width(what, face)
		}
		return page.Width(what+"  ", face) + page.Width(where, page.Face{Size: face.Size})
	}
	for full := face.Size; text+words() > limit; face.Size -= page.Pt / 2 {
		switch {
		case where != "" && face.Size < fair:
			where, face.Size = "", full+page.Pt/2
		case face.Size < least+page.Pt/2:
			return sheet.Span{}
		}
	}
	used := sheet.Span{From: x, To: text + words()}
	v.crossing(s.width/2, y, used, face)
	if r.step > 0 {
		c := v.Place(x+2*mm, y+face.CapHeight()/2)
		number := page.Face{Size: small.Size, Weight: page.Bold, Align: page.Middle, Gray: page.White}
		v.Disc(c, 19*mm/10, page.Black)
		v.Text(page.Point{X: c.X, Y: c.Y + number.CapHeight()/2}, fmt.Sprint(r.step), number)
	}
	v.Write(text, y, what, face)
	if where != "" {
		v.Write(text+page.Width(what+"  ", face), y, where, page.Face{Size: face.Size})
	}
	return used
}

// crossing breaks the centre line where words run across it.
func (v view) crossing(centre, y measure.Length, words sheet.Span, face page.Face) {
	if words.From < centre && centre < words.To {
		at := v.Place(centre, y)
		v.Fill(page.Box(at.X-mm/2, at.Y-face.Ascent(), mm, face.Ascent()+face.Descent()), page.White)
	}
}

// mapWidth is the width of the small map of a band.
const mapWidth = 36 * mm

// caption names a strip and shows where on its band it lies.
func (d *drawing) caption(s *strip, at page.Point) {
	if d.Paper.Roll {
		d.sign(s, at)
		return
	}
	base := page.Point{X: at.X, Y: at.Y + 5*mm}
	name := d.Say("template.band-strip-of", s.band.name, s.index+1, len(s.spans))
	f := page.Face{Size: 11 * page.Pt, Weight: page.Bold}
	d.Text(base, name, f)
	base.X += page.Width(name, f) + 3*mm
	room := at.X + s.to - s.from - mapWidth - 3*mm - base.X
	if room > 15*mm {
		d.Text(base, page.Cut(d.Say("template.for-shades", s.band.owners()), plain, room), plain)
	}
	d.Map(page.Box(at.X+max(s.to-s.from, 90*mm)-mapWidth, at.Y+mm, mapWidth, 5*mm), s.spans, s.index)
}

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

// view returns the window on a band from one x to another, with its top left
// corner at at.
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
	var words []sheet.Span // the texts on the topmost line
	for i, r := range lines {
		v.Across(r.y, -past, b.width+past, r.kind.pen())
		words = v.label(b.shape, lines, i)
	}
	v.centre(b.shape, words)
	v.scale(b.width)
	v.joints(s)
}

// sides draws the lines that run up the band: the cloth's sides, the side hems,
// the centre and the ends of the slat.
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

// centre labels the centre line: at the top, or lower if other text is in the
// way.
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

// leastGap is the length allowed for text along the cloth's side, even if the
// text then crosses a line.
const leastGap = 25 * mm

// label writes the texts of a line: its name beside the cloth, and its
// instruction on the cloth. The texts stand above the line, or below it where
// there is more room; without room they are left out. label returns the stretch
// of each instruction.
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
	return v.instructions(r, s, y, face)
}

// clear is the bare space between a line and its texts.
const clear = 1400 * measure.Micrometre

// The smallest size of text on the cloth, and a size readable at arm's length.
const least, readable = 5 * page.Pt, 8 * page.Pt

// instructionEvery is the distance after which a long strip repeats an instruction, so
// that a person can read it from anywhere at the table.
const instructionEvery = 600 * mm

// instructions writes the instruction of a line between the ends of the slat; on roll
// paper it repeats it. It returns the stretch of each.
func (v view) instructions(r rule, s shape, y measure.Length, face page.Face) []sheet.Span {
	x := max(v.X.From+v.Overlap, s.slat[0]) + 4*mm
	limit := min(v.X.To, s.slat[1]-mm)
	if v.X.To < s.width {
		limit = v.X.To - v.Overlap - mm
	}
	list := []sheet.Span{v.instruction(r, s, page.Point{X: x, Y: y}, limit, face)}
	if !v.Paper.Roll {
		return list
	}
	for x += instructionEvery; x+instructionEvery/2 < limit; x += instructionEvery {
		list = append(list, v.instruction(r, s, page.Point{X: x, Y: y}, limit, face))
	}
	return list
}

// instruction writes one instruction: its number in the order of work, the text, and
// the distance from the raw edge. It fits them between the given place and the
// limit. If they do not fit, it first makes the text smaller and then leaves
// out the distance. It returns the stretch used.
func (v view) instruction(r rule, s shape, at page.Point, limit measure.Length, face page.Face) sheet.Span {
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
		case where != "" && face.Size < readable:
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

// crossing interrupts the centre line where text crosses it.
func (v view) crossing(centre, y measure.Length, words sheet.Span, face page.Face) {
	if words.From < centre && centre < words.To {
		at := v.Place(centre, y)
		v.Fill(page.Box(at.X-mm/2, at.Y-face.Ascent(), mm, face.Ascent()+face.Descent()), page.White)
	}
}

// mapWidth is the width of the small map of a band.
const mapWidth = 36 * mm

// caption names a strip and shows its place on the band.
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
		words := d.Say("template.for-shades", s.band.owners(d.Language))
		if page.Width(words, plain) <= room {
			d.Text(base, words, plain)
		} else {
			lines, f := page.Shrink(words, small, room, least, 2)
			for i, line := range lines {
				d.Text(page.Point{X: base.X, Y: at.Y + 7*mm/2 + measure.Length(i)*f.Leading()}, line, f)
			}
		}
	}
	d.Map(page.Box(at.X+max(s.to-s.from, 90*mm)-mapWidth, at.Y+mm, mapWidth, 5*mm), s.spans, s.index)
}

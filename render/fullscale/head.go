package fullscale

import (
	"fmt"

	"shadewright/render/page"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A Heading is the text at the top of a sheet.
type Heading struct {
	Title      message.ID      // the kind of sheet
	Of         string          // what the sheet is for, under the title
	Check      message.ID      // asks to measure first the square, whose side it takes as argument, and the rulers
	How        message.Message // how to use the sheet
	Number, In int             // sheet 1 of 3
}

// Head draws the heading of a sheet: its title, how to print it and how to
// check that it printed true, with the check square and the check rulers.
func (d Drawing) Head(s Sheet, h Heading) {
	f := s.Frame
	room := headWidth(f) - checkSquare(d.Style.System) - 8*mm
	at := f.Min
	line := func(lead measure.Length, s string, face page.Face) {
		at.Y += lead
		d.Text(at, page.Cut(s, face, room), face)
	}
	count := d.Say("common.sheet-of", h.Number, h.In)
	d.Text(page.Point{X: f.Min.X + room, Y: f.Min.Y + 6*mm}, count, page.Face{Size: 11 * page.Pt, Weight: page.Semibold, Align: page.End})
	line(6*mm, d.Say(h.Title), page.Face{Size: 18 * page.Pt, Weight: page.Bold})
	line(5*mm, h.Of, page.Face{Size: 11 * page.Pt, Weight: page.Semibold})
	ask, face := page.Fit(d.Say("template.print-actual-size"), page.Face{Size: 13 * page.Pt, Weight: page.Bold}, room, 9*page.Pt)
	line(7*mm, ask, face)
	lines, face := d.wrapped(d.checkWords(h), room)
	for i, w := range lines {
		line([...]measure.Length{5 * mm, 4 * mm}[min(i, 1)], w, face)
	}
	if d.corrected() {
		line(4*mm, d.correctionWords(), Strong())
	}
	d.checks(s)
}

// mostHead is the greatest width of a heading: as much as a person sees at once
// from the left end of a long sheet.
const mostHead = 420 * mm

func headWidth(frame page.Rect) measure.Length { return min(frame.Width(), mostHead) }

// wrapped breaks words into lines that stay clear of the check ruler, in
// smaller type if there would be too many lines.
func (d Drawing) wrapped(words string, room measure.Length) ([]string, page.Face) {
	most, face := 5, Plain()
	if d.corrected() {
		most--
	}
	lines := page.Wrap(words, face, room)
	for len(lines) > most && face.Size > 7*page.Pt {
		face.Size -= page.Pt / 2
		lines = page.Wrap(words, face, room)
	}
	return lines, face
}

func (d Drawing) checkWords(h Heading) string {
	return d.Language.Put(message.Join(" ", message.Of(h.Check, d.Words(checkSquare(d.Style.System))), h.How))
}

// checkSquare returns the side of the check square: 1-1/2 in, or 40 mm.
func checkSquare(s measure.System) measure.Length {
	if s == measure.Millimetres {
		return 40 * mm
	}
	return measure.Inch * 3 / 2
}

// checks draws the check square and the check rulers on both axes.
func (d Drawing) checks(s Sheet) {
	f := s.Frame
	side := checkSquare(d.Style.System)
	sq := page.Box(f.Min.X+headWidth(f)-side, f.Min.Y+mm/2, side, side)
	d.Rect(sq, page.Solid())
	d.Text(page.Point{X: sq.Min.X + side/2, Y: sq.Min.Y + side/2}, d.Words(side), page.Face{Size: 11 * page.Pt, Align: page.Middle})
	d.Text(page.Point{X: sq.Min.X + side/2, Y: sq.Min.Y + side/2 + 5*mm}, d.Say("template.each-way"), page.Face{Size: Small().Size, Align: page.Middle})
	g := GraduationOf(d.Style.System)
	// One ruler runs across below the heading, the other one down the left
	// side.
	y := s.Body.Min.Y - 3*mm
	across := sq.Min.X - 4*mm - f.Min.X
	if f.Width() > mostHead {
		across = f.Width() // continue below the square: on a long sheet a small error adds up
	}
	d.ruler(page.Point{X: f.Min.X, Y: y}, g, across, false)
	d.ruler(page.Point{X: f.Min.X, Y: y}, g, f.Max.Y-y, true)
}

// ruler draws a rule from at to the right, or down, with as many whole numbers
// as fit.
func (d Drawing) ruler(at page.Point, g Graduation, room measure.Length, down bool) {
	per := int(g.Number / g.Step)
	last := int(room/g.Number) * per
	axis := func(along, off measure.Length) page.Point {
		if down {
			return page.Point{X: at.X + off, Y: at.Y + along}
		}
		return page.Point{X: at.X + along, Y: at.Y - off}
	}
	d.Line(axis(0, 0), axis(measure.Length(last)*g.Step, 0), page.Fine())
	for n := 0; n <= last; n++ {
		along := measure.Length(n) * g.Step
		length, numbered := g.Tick(n)
		d.Line(axis(along, 0), axis(along, length), page.Fine())
		if numbered && n > 0 {
			p := axis(along, length)
			if down {
				p = page.Point{X: p.X + mm/2, Y: p.Y - mm/2}
			} else {
				p = page.Point{X: p.X - mm/2, Y: p.Y + mm + Small().CapHeight()}
			}
			f := page.Face{Size: Small().Size}
			if !down {
				f.Align = page.End
			}
			d.Text(p, fmt.Sprint(n/per), f)
		}
	}
}

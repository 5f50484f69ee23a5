package template

import (
	"fmt"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// head writes the heading of a sheet: what it is, how to print it, how to see
// that it came out true.
func (d *drawing) head(s *sheet, number, of int) {
	f := s.frame
	square := checkSquare(d.opt.Style.System)
	d.Text(page.Point{X: f.Max.X, Y: f.Min.Y + 4*mm}, fmt.Sprintf("sheet %d of %d", number, of), page.Face{Size: 10 * page.Pt, Weight: page.Semibold, Align: page.End})
	room := f.Width() - square - 10*mm
	at := page.Point{X: f.Min.X, Y: f.Min.Y + 6*mm}
	line := func(s string, face page.Face, lead measure.Length) {
		d.Text(at, page.Fit(s, face, room), face)
		at.Y += lead
	}
	line("Marking template", page.Face{Size: 18 * page.Pt, Weight: page.Bold}, 6*mm)
	line(d.opt.Job, page.Face{Size: 11 * page.Pt, Weight: page.Semibold}, 8*mm)
	line("Print at 100 %, actual size. Not “fit to page”.", page.Face{Size: 12 * page.Pt, Weight: page.Bold}, 5*mm)
	for _, w := range page.Wrap(d.checkWords(), plain, room) {
		line(w, plain, 4*mm)
	}
	if d.opt.Printer != "" {
		line(d.correctionWords(), plain, 4*mm)
	}
}

func (d *drawing) checkWords() string {
	side := d.opt.Style.Format(checkSquare(d.opt.Style.System))
	return fmt.Sprintf("Before any cloth is marked, measure the square: %s each way, and both check rulers. If one is off, do not use the sheet. Trim each strip at its joint, lay it on the joint of the strip before so that lines and diamonds meet, and tape.", side)
}

func (d *drawing) correctionWords() string {
	return fmt.Sprintf("corrected for printer '%s': %s × %s", d.opt.Printer, d.opt.Correction.X, d.opt.Correction.Y)
}

// checkSquare returns the side of the check square: 2 in, or 50 mm.
func checkSquare(s measure.System) measure.Length {
	if s == measure.Millimetres {
		return 50 * mm
	}
	return 2 * measure.Inch
}

// checks draws the check square and the check rulers on both axes.
func (d *drawing) checks(s *sheet) {
	f := s.frame
	side := checkSquare(d.opt.Style.System)
	sq := page.Box(f.Max.X-side, f.Min.Y+6*mm, side, side)
	d.Rect(sq, solid)
	d.Text(page.Point{X: sq.Min.X + side/2, Y: sq.Min.Y + side/2}, d.words(side), page.Face{Size: 11 * page.Pt, Align: page.Middle})
	d.Text(page.Point{X: sq.Min.X + side/2, Y: sq.Min.Y + side/2 + 5*mm}, "each way", page.Face{Size: small.Size, Align: page.Middle})
	g := graduationOf(d.opt.Style.System)
	// One ruler runs across below the heading, the other down the left column.
	y := s.body.Min.Y - 5*mm
	d.ruler(page.Point{X: f.Min.X, Y: y}, g, sq.Min.X-4*mm-f.Min.X, false)
	d.ruler(page.Point{X: f.Min.X, Y: y}, g, f.Max.Y-y, true)
}

// ruler draws a rule from at to the right, or down, as many whole numbers long
// as fit the room.
func (d *drawing) ruler(at page.Point, g graduation, room measure.Length, down bool) {
	per := int(g.number / g.step)
	last := int(room/g.number) * per
	axis := func(along, off measure.Length) page.Point {
		if down {
			return page.Point{X: at.X + off, Y: at.Y + along}
		}
		return page.Point{X: at.X + along, Y: at.Y - off}
	}
	d.Line(axis(0, 0), axis(measure.Length(last)*g.step, 0), fine)
	for n := 0; n <= last; n++ {
		along := measure.Length(n) * g.step
		length, numbered := g.tick(n)
		d.Line(axis(along, 0), axis(along, length), fine)
		if numbered && n > 0 {
			p := axis(along, length)
			if down {
				p = page.Point{X: p.X + mm/2, Y: p.Y - mm/2}
			} else {
				p = page.Point{X: p.X - mm/2, Y: p.Y + mm + small.CapHeight()}
			}
			f := page.Face{Size: small.Size}
			if !down {
				f.Align = page.End
			}
			d.Text(p, fmt.Sprint(n/per), f)
		}
	}
	d.Text(axis(0, 0).Add(page.Point{X: mm, Y: 0}), "", small)
}

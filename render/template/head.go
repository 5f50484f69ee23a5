package template

import (
	"fmt"
	"strconv"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// head writes the heading of a sheet: what it is, how to print it, how to see
// that it came out true.
func (d *drawing) head(s *leaf, number, of int) {
	f := s.frame
	room := f.Width() - checkSquare(d.opt.Style.System) - 8*mm
	at := page.Point{X: f.Min.X, Y: f.Min.Y}
	line := func(lead measure.Length, s string, face page.Face) {
		at.Y += lead
		d.Text(at, page.Cut(s, face, room), face)
	}
	count := fmt.Sprintf("sheet %d of %d", number, of)
	d.Text(page.Point{X: f.Min.X + room, Y: f.Min.Y + 6*mm}, count, page.Face{Size: 11 * page.Pt, Weight: page.Semibold, Align: page.End})
	line(6*mm, "Marking template", page.Face{Size: 18 * page.Pt, Weight: page.Bold})
	line(5*mm, d.opt.Job, page.Face{Size: 11 * page.Pt, Weight: page.Semibold})
	line(7*mm, "Print at 100 %, actual size. Not “fit to page”.", page.Face{Size: 13 * page.Pt, Weight: page.Bold})
	for i, w := range page.Wrap(d.checkWords(), plain, room) {
		line([...]measure.Length{5 * mm, 4 * mm}[min(i, 1)], w, plain)
	}
	if d.opt.Printer != "" {
		line(4*mm, d.correctionWords(), strong)
	}
}

func (d *drawing) checkWords() string {
	side := d.words(checkSquare(d.opt.Style.System))
	return fmt.Sprintf("Before any cloth is marked, measure the square, %s each way, and both check rulers. If one is off, do not use the sheet. Trim a strip at its joint, lay it on the same joint of the strip before so that lines and diamonds meet, and tape.", side)
}

func (d *drawing) correctionWords() string {
	c := d.opt.Correction
	return fmt.Sprintf("corrected for printer '%s': %s × %s", d.opt.Printer, factorWords(c.X), factorWords(c.Y))
}

// factorWords puts a correction's factor into words: 1.0031.
func factorWords(f measure.Factor) string {
	if f == 0 {
		f = measure.One
	}
	return strconv.FormatFloat(f.Float(), 'f', 4, 64)
}

// checkSquare returns the side of the check square: 1-1/2 in, or 40 mm.
func checkSquare(s measure.System) measure.Length {
	if s == measure.Millimetres {
		return 40 * mm
	}
	return measure.Inch * 3 / 2
}

// checks draws the check square and the check rulers on both axes.
func (d *drawing) checks(s *leaf) {
	f := s.frame
	side := checkSquare(d.opt.Style.System)
	sq := page.Box(f.Max.X-side, f.Min.Y+mm/2, side, side)
	d.Rect(sq, solid)
	d.Text(page.Point{X: sq.Min.X + side/2, Y: sq.Min.Y + side/2}, d.words(side), page.Face{Size: 11 * page.Pt, Align: page.Middle})
	d.Text(page.Point{X: sq.Min.X + side/2, Y: sq.Min.Y + side/2 + 5*mm}, "each way", page.Face{Size: small.Size, Align: page.Middle})
	g := graduationOf(d.opt.Style.System)
	// One ruler runs across below the heading, the other down the left column.
	y := s.body.Min.Y - 3*mm
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
}

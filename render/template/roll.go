package template

import (
	"cmp"
	"fmt"

	"shadewright/render/fullscale"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/measure"
)

// On roll paper, bands lie along the roll, several across its width, and each
// sheet is as long as its bands need. The roll's width is the height of the
// page.

const (
	rollGap  = 8 * mm           // room to cut between pieces
	leastRun = 9 * measure.Inch // of a sheet, so that its heading fits
)

// cutting is the pen for lines to cut along: one long dash and two short ones.
var cutting = page.Pen{Width: 350 * measure.Micrometre, Dash: []measure.Length{12 * mm, 2 * mm, 2 * mm, 2 * mm, 2 * mm, 2 * mm}}

// A cutLine is a level or upright line to cut along.
type cutLine struct{ from, to page.Point }

// A run describes how sheets lie on a roll of paper.
type run struct {
	roll    measure.Length // width
	margin  measure.Length // on every side, because a plotter may turn a short sheet either way
	stretch measure.Factor // the larger factor of the printer's correction; at least 1
	uneven  bool           // the correction differs between the axes
}

func runOf(opt Options) run {
	m := opt.Margins
	c := opt.Correction
	return run{
		roll: opt.Paper.Width, margin: max(m.Left, m.Right, m.Top, m.Bottom),
		stretch: max(c.X, c.Y, measure.One),
		uneven:  cmp.Or(c.X, measure.One) != cmp.Or(c.Y, measure.One),
	}
}

// inside returns the usable part of a sheet's side: the part that stays between
// the margins after the correction has stretched it about the sheet's middle.
// On a sheet of 200 in, the stretch may exceed a margin.
func (r run) inside(side measure.Length) measure.Length {
	room := side - 2*r.margin
	return room - (r.stretch - measure.One).Of(room) // slightly less than room / stretch
}

// least returns the shortest allowed length of a sheet. A plotter may turn a
// sheet that is shorter than the roll is wide, which would swap the axes. If
// the correction differs between the axes, the sheet must be longer than that,
// so that it fits only one way.
func (r run) least(step measure.Length) measure.Length {
	if r.uneven {
		return max(leastRun, min((r.roll+1).Round(step, measure.Up), sheet.Largest))
	}
	return leastRun
}

// outside is the inverse of inside: it returns the length of a sheet that holds
// the given length, rounded up to half inches or centimetres.
func (r run) outside(inside measure.Length, step measure.Length) measure.Length {
	side := (inside + (r.stretch - measure.One).Of(inside) + 2*r.margin).Round(step, measure.Up)
	for r.inside(side) < inside {
		side += step
	}
	return min(side, sheet.Largest)
}

// sheet returns a sheet of the given length.
func (r run) sheet(length measure.Length) (fullscale.Sheet, error) {
	p := sheet.Paper{Size: measure.Size{Width: length, Length: r.roll}}
	along, across := (length-r.inside(length))/2, (r.roll-r.inside(r.roll))/2
	return fullscale.On(p, sheet.Margins{Left: along, Right: along, Top: across, Bottom: across})
}

func layRoll(list pieces, opt Options) ([]*leaf, error) {
	r := runOf(opt)
	room := measure.Size{Width: r.inside(sheet.Largest) - fullscale.ColumnWidth, Length: r.inside(r.roll) - fullscale.HeadHeight}
	if need := tallest(list); need > room.Length {
		return nil, fmt.Errorf("roll paper %s wide is too narrow: the heading and a band take %s of its width, and the margins leave %s; use a wider roll of paper, or sheets",
			opt.Style.Format(r.roll), opt.Style.Format(fullscale.HeadHeight+need), opt.Style.Format(max(r.inside(r.roll), 0)))
	}
	plan, err := sheet.PackRoll(stripsOf(list, room.Width, opt), rollGap, room)
	if err != nil {
		return nil, err
	}
	step := measure.Inch / 2
	if opt.Style.System == measure.Millimetres {
		step = 10 * mm
	}
	sheets := make([]*leaf, plan.Sheets)
	for i := range sheets {
		s, err := r.sheet(max(r.least(step), r.outside(fullscale.ColumnWidth+plan.Used(i), step)))
		if err != nil {
			return nil, err
		}
		sheets[i] = &leaf{Sheet: s, cuts: cuts(plan, i, s.Body)}
	}
	for i, t := range plan.Tiles {
		corner := sheets[t.Sheet].Body.Min
		plan.Tiles[i].Field.X += corner.X
		plan.Tiles[i].Field.Y += corner.Y
	}
	return arrange(plan, sheets, list), nil
}

// cuts returns the lines to cut a sheet along, in the order of work: first
// straight across the sheet between rows, then between the pieces of a row. All
// tiles of a row have the same top.
func cuts(plan sheet.Layout, number int, body page.Rect) []cutLine {
	high := map[measure.Length]measure.Length{} // height of each row, by its top
	for _, t := range plan.Tiles {
		if t.Sheet == number {
			high[t.Field.Y] = max(high[t.Field.Y], t.Field.Length)
		}
	}
	var level, upright []cutLine
	for _, t := range plan.Tiles {
		if t.Sheet != number {
			continue
		}
		y := body.Min.Y + t.Field.Y
		if t.Field.X == 0 && t.Field.Y > 0 {
			level = append(level, cutLine{page.Point{X: body.Min.X, Y: y - rollGap/2}, page.Point{X: body.Max.X, Y: y - rollGap/2}})
		}
		if t.Field.X > 0 {
			x := body.Min.X + t.Field.X - rollGap/2
			upright = append(upright, cutLine{page.Point{X: x, Y: y}, page.Point{X: x, Y: y + high[t.Field.Y]}})
		}
	}
	return append(level, upright...)
}

// markCut draws a line to cut along, with its text.
func (d *drawing) markCut(c cutLine) {
	d.Line(c.from, c.to, cutting)
	const every = 500 * mm
	words := d.Say("template.cut-here")
	if c.from.X == c.to.X {
		d.Text(page.Point{X: c.from.X - mm, Y: c.from.Y + (c.to.Y-c.from.Y)/2}, words, page.Face{Size: small.Size, Turn: 90, Align: page.Middle})
		return
	}
	for x := c.from.X + 10*mm; x+page.Width(words, small) < c.to.X; x += every {
		d.Text(page.Point{X: x, Y: c.from.Y - mm}, words, small)
	}
}

// sign writes the name of a piece on roll paper, large enough to read across
// the table. A long piece gets it at both ends.
func (d *drawing) sign(s *strip, at page.Point) {
	large := page.Face{Size: 20 * page.Pt, Weight: page.Bold}
	long := s.to - s.from
	words := d.Say("template.band-for", s.band.name, s.band.owners(d.Language))
	if n := len(s.spans); n > 1 {
		words = d.Say("template.band-strip", s.band.name, s.index+1, n, s.band.owners(d.Language))
		d.Map(page.Box(at.X+long-mapWidth, at.Y+mm, mapWidth, 5*mm), s.spans, s.index)
		long -= mapWidth + 3*mm
	}
	words = page.Cut(words, large, long)
	y := at.Y + 6*mm + mm/2
	d.Text(page.Point{X: at.X, Y: y}, words, large)
	if w := page.Width(words, large); long > 1200*mm && 3*w < long {
		large.Align = page.End
		d.Text(page.Point{X: at.X + long, Y: y}, words, large)
	}
}

package template

import (
	"cmp"
	"fmt"

	"shadewright/render/fullscale"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/measure"
)

// On roll paper bands lie along the roll, several across its width, and each sheet
// is as long as what lies on it needs. The roll's width is the height of the page.

const (
	rollGap  = 8 * mm           // between pieces, for a cut
	leastRun = 9 * measure.Inch // of a sheet: its heading needs as much
)

// cutting is the pen of the lines to cut along, long and two short.
var cutting = page.Pen{Width: 350 * measure.Micrometre, Dash: []measure.Length{12 * mm, 2 * mm, 2 * mm, 2 * mm, 2 * mm, 2 * mm}}

// A cut is a line to cut along, level or upright.
type cut struct{ from, to page.Point }

// A run is how sheets lie on a roll of paper.
type run struct {
	roll    measure.Length // width
	margin  measure.Length // on every side: a plotter may turn a short sheet either way
	stretch measure.Factor // the larger of what the printer's correction makes of a length; at least 1
	uneven  bool           // the correction is not the same on both axes
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

// inside returns what a side of a sheet holds between the margins, once the
// correction has stretched it about the sheet's middle: over 200 in that may be
// wider than a margin.
func (r run) inside(side measure.Length) measure.Length {
	room := side - 2*r.margin
	return room - (r.stretch - measure.One).Of(room) // a little less than room / stretch
}

// least returns how long a sheet is at least. One that is shorter than the roll is
// wide may go through a plotter either way. Where that decides which axis gets which
// correction, it is made longer than that, and can go through one way alone.
func (r run) least(step measure.Length) measure.Length {
	if r.uneven {
		return max(leastRun, min((r.roll+1).Round(step, measure.Up), sheet.Largest))
	}
	return leastRun
}

// outside returns how long a sheet is that holds a length inside: the other way
// round, in whole half inches or centimetres.
func (r run) outside(inside measure.Length, step measure.Length) measure.Length {
	side := (inside + (r.stretch - measure.One).Of(inside) + 2*r.margin).Round(step, measure.Up)
	for r.inside(side) < inside {
		side += step
	}
	return min(side, sheet.Largest)
}

// sheet returns a sheet of the length.
func (r run) sheet(length measure.Length) (fullscale.Sheet, error) {
	p := sheet.Paper{Size: measure.Size{Width: length, Length: r.roll}}
	along, across := (length-r.inside(length))/2, (r.roll-r.inside(r.roll))/2
	return fullscale.On(p, sheet.Margins{Left: along, Right: along, Top: across, Bottom: across})
}

func layRoll(list []*band, opt Options) ([]*leaf, error) {
	r := runOf(opt)
	room := measure.Size{Width: r.inside(sheet.Largest) - fullscale.ColumnWidth, Length: r.inside(r.roll) - fullscale.HeadHeight}
	if need := tallest(list); need > room.Length {
		return nil, fmt.Errorf("roll paper %s wide is too narrow: the heading and a band take %s of its width, and the margins leave %s; use a wider roll of paper, or sheets",
			opt.Style.Format(r.roll), opt.Style.Format(fullscale.HeadHeight+need), opt.Style.Format(max(r.inside(r.roll), 0)))
	}
	gs := gauges(list)
	plan, err := sheet.PackRoll(stripsOf(gs, list, room.Width, opt), rollGap, room)
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
	return arrange(plan, sheets, gs, list), nil
}

// cuts returns the lines to cut a sheet along, in the order of the work: straight
// across the sheet between rows, then between the pieces of a row. Tiles of a row
// have the same top.
func cuts(plan sheet.Layout, number int, body page.Rect) []cut {
	high := map[measure.Length]measure.Length{} // of each row, by its top
	for _, t := range plan.Tiles {
		if t.Sheet == number {
			high[t.Field.Y] = max(high[t.Field.Y], t.Field.Length)
		}
	}
	var level, upright []cut
	for _, t := range plan.Tiles {
		if t.Sheet != number {
			continue
		}
		y := body.Min.Y + t.Field.Y
		if t.Field.X == 0 && t.Field.Y > 0 {
			level = append(level, cut{page.Point{X: body.Min.X, Y: y - rollGap/2}, page.Point{X: body.Max.X, Y: y - rollGap/2}})
		}
		if t.Field.X > 0 {
			x := body.Min.X + t.Field.X - rollGap/2
			upright = append(upright, cut{page.Point{X: x, Y: y}, page.Point{X: x, Y: y + high[t.Field.Y]}})
		}
	}
	return append(level, upright...)
}

// cut draws a line to cut along, and says what it is.
func (d *drawing) cut(c cut) {
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

// sign names a piece on roll paper so that it is told from the others across the
// table, at both ends of a long one.
func (d *drawing) sign(s *strip, at page.Point) {
	large := page.Face{Size: 20 * page.Pt, Weight: page.Bold}
	long := s.to - s.from
	words := d.Say("template.band-for", s.band.name, s.band.owners())
	if n := len(s.spans); n > 1 {
		words = d.Say("template.band-strip", s.band.name, s.index+1, n, s.band.owners())
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

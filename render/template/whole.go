package template

import (
	"shadewright/render/fullscale"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// A Whole is a band in one piece, for cutting machines and projectors.
type Whole struct {
	Name string // A, B, …
	For  string // the shades to mark with it
	Size measure.Size
	band *band
	opt  Options
}

// Title returns the title of the drawing.
func (w Whole) Title() string { return w.opt.Say("template.band-of", w.Name, w.opt.Job) }

// Wholes returns the bands for a job's tickets, one for each shape. Only the
// style, job and language of the options matter.
func Wholes(tickets []*ticket.Ticket, opt Options) []Whole {
	var all []Whole
	for _, b := range bands(tickets) {
		all = append(all, Whole{Name: b.name, For: b.owners(opt.Language), band: b, opt: opt,
			Size: measure.Size{Width: b.width + 2*past, Length: b.height()}})
	}
	return all
}

// Draw draws the band with its top left corner at the canvas's corner. The
// layers are named after their lines: cloth-edge, fold-lines, mark-lines,
// stitch-row, centre, slat-ends and scale.
func (w Whole) Draw(on fullscale.Layered) {
	b := w.band
	sorted := &fullscale.ByPen{Layered: on, Heavy: "cloth-edge", Dashed: "fold-lines", Solid: "mark-lines",
		Broken: "stitch-row", Centred: "centre", Fine: "slat-ends", Circles: "circles"}
	d := &drawing{fullscale.Drawing{Canvas: sorted, Options: w.opt}}
	d.Overlap = 0
	v := d.view(b.shape, -past, b.width+past, page.Point{})
	v.X = sheet.Span{From: -past, To: b.width + past}
	d.Text(page.Point{Y: 5 * mm}, d.Say("template.band-for", w.Name, w.For), strong)
	v.sides(b)
	lines := rules(b.folds)
	for i, r := range lines {
		v.Across(r.y, -past, b.width+past, r.kind.pen())
		v.label(b.shape, lines, i)
	}
	sorted.Fine = "scale"
	v.scale(b.width)
}

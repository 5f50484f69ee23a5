// Package calibration draws the sheet that a printer is measured with: two long
// rulers and a square. From two readings it works out the correction that makes
// the printer's lengths true. It tells a printer that is slightly off from a
// page that the print dialog scaled. It refuses the scaled page, because a
// correction made from it would be wrong on every other page.
//
// Lengths are exact. The caller provides the readings, as measured on paper.
package calibration

import (
	"cmp"
	"fmt"
	"strconv"

	"shadewright/render/fullscale"
	"shadewright/render/page"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

const mm = measure.Millimetre

const title message.ID = "template.printer-calibration"

// The sizes of the parts around the rulers.
const (
	wordsHeight = 46 * mm // title and words
	inset       = 4 * mm  // from the ruler's ends to the edge of the printable part
	column      = 22 * mm // width of the upright ruler
)

// least is the shortest useful ruler: at 100 mm, a reading to 0.2 mm is a
// reading to 0.2 %. Common practice, no source.
const least = 100 * mm

// A Pair is a length along each axis of the sheet.
type Pair struct{ Across, Down measure.Length }

// Rulers returns the lengths of the sheet's two rulers: as many whole half
// inches or centimetres as fit. It fails if the paper is too small.
func Rulers(o fullscale.Options) (Pair, error) {
	_, p, err := lay(o)
	return p, err
}

func lay(o fullscale.Options) (fullscale.Sheet, Pair, error) {
	s, err := fullscale.On(o.Paper.Portrait(), o.Margins)
	if err != nil {
		return s, Pair{}, err
	}
	step := measure.Inch / 2
	if o.Style.System == measure.Millimetres {
		step = 10 * mm
	}
	p := Pair{
		Across: (s.Frame.Width() - 2*inset).Round(step, measure.Down),
		Down:   (s.Frame.Height() - wordsHeight - 2*inset).Round(step, measure.Down),
	}
	if min(p.Across, p.Down) < least {
		return s, p, fmt.Errorf("calibration: paper of %s × %s is too small to measure a printer; use paper with room for rulers of at least %s", o.Style.Format(o.Paper.Width), o.Style.Format(o.Paper.Length), o.Style.Format(least))
	}
	return s, p, nil
}

// Document returns the sheet, which names the command that takes the readings.
// It ignores any correction, because the sheet must show the uncorrected
// printer.
func Document(o fullscale.Options, command string) (*page.Document, error) {
	s, p, err := lay(o)
	if err != nil {
		return nil, err
	}
	command += " --rulers " + typed(p.Across, o.Style.System) + "," + typed(p.Down, o.Style.System) + " --printer " + strconv.Quote(cmp.Or(o.Printer, o.Say("template.name-printer")))
	o.Correction, o.Printer = page.Correction{}, ""
	doc := o.Document(title)
	d := sketch{fullscale.Drawing{Canvas: doc.Add(s.Size), Options: o}}
	d.instructions(s, p, command)
	corner := page.Point{X: s.Frame.Min.X + inset, Y: s.Frame.Min.Y + wordsHeight}
	d.ruler(corner, p.Across, false)
	d.ruler(corner, p.Down, true)
	d.square(page.Point{X: corner.X + column + 10*mm, Y: corner.Y + column + 10*mm}, min(p.Across, p.Down))
	return doc, nil
}

// typed returns a ruler's length as a person types it without quotes: 7.5in, 190mm.
// The rulers are whole half inches or centimetres, so it is exact.
func typed(l measure.Length, u measure.System) string {
	if u == measure.Inches {
		return strconv.FormatFloat(float64(l)/float64(measure.Inch), 'f', -1, 64) + "in"
	}
	return strconv.FormatInt(int64(l/mm), 10) + "mm"
}

// A sketch is the sheet while it is drawn.
type sketch struct{ fullscale.Drawing }

func (d sketch) instructions(s fullscale.Sheet, p Pair, command string) {
	at := s.Frame.Min
	line := func(lead measure.Length, text string, f page.Face) {
		at.Y += lead
		d.Text(at, page.Cut(text, f, s.Frame.Width()), f)
	}
	line(6*mm, d.Say(title), page.Face{Size: 18 * page.Pt, Weight: page.Bold})
	line(7*mm, d.Say("template.print-actual-size"), page.Face{Size: 13 * page.Pt, Weight: page.Bold})
	for i, w := range page.Wrap(d.Say(
		"template.measure-rulers",
		d.Words(p.Across), d.Words(p.Down), command), fullscale.Plain(), s.Frame.Width()) {
		line([...]measure.Length{6 * mm, 4500 * measure.Micrometre}[min(i, 1)], w, fullscale.Plain())
	}
}

// ruler draws a graduated line to the right or down from the corner, with a
// heavy mark at each end.
func (d sketch) ruler(corner page.Point, length measure.Length, down bool) {
	place := func(along, off measure.Length) page.Point {
		if down {
			return page.Point{X: corner.X + off, Y: corner.Y + along}
		}
		return page.Point{X: corner.X + along, Y: corner.Y + off}
	}
	g := fullscale.GraduationOf(d.Style.System)
	d.Line(place(0, 0), place(length, 0), page.Fine())
	for n := 0; measure.Length(n)*g.Step <= length; n++ {
		along := measure.Length(n) * g.Step
		tick, numbered := g.Tick(n)
		d.Line(place(along, 0), place(along, tick), page.Fine())
		if numbered && n > 0 && along < length {
			d.Text(place(along, tick).Add(page.Point{X: mm / 2, Y: fullscale.Small().CapHeight()}), fmt.Sprint(int(along/g.Number)), fullscale.Small())
		}
	}
	for _, along := range []measure.Length{0, length} {
		d.Line(place(along, -2*mm), place(along, 12*mm), page.Heavy())
	}
	f := page.Face{Size: fullscale.Plain().Size, Weight: page.Semibold, Align: page.Middle}
	at := place(length/2, 14*mm)
	if down {
		f.Turn = 90
	}
	d.Text(at, d.Say("template.mark-to-mark", d.Words(length)), f)
}

// square draws a square with its diagonals. If they differ on paper, the sheet
// went through the printer askew.
func (d sketch) square(at page.Point, room measure.Length) {
	side := 4 * measure.Inch
	if d.Style.System == measure.Millimetres {
		side = 100 * mm
	}
	if side+column+20*mm > room {
		side /= 2
	}
	b := page.Box(at.X, at.Y, side, side)
	d.Rect(b, page.Solid())
	d.Line(b.Min, b.Max, page.Fine())
	d.Line(page.Point{X: b.Max.X, Y: b.Min.Y}, page.Point{X: b.Min.X, Y: b.Max.Y}, page.Fine())
	diagonal := d.Words(measure.Diagonal(side, side))
	d.Text(page.Point{X: b.Min.X, Y: b.Max.Y + 6*mm}, d.Say("template.square-sides", d.Words(side), diagonal), fullscale.Small())
}

package template

import (
	"fmt"

	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// Options says what paper the template is for and who prints it.
type Options struct {
	Paper      sheet.Paper
	Margins    sheet.Margins
	Overlap    measure.Length // of neighbouring strips
	Style      measure.Style  // of the words and the scale
	Job        string         // printed on every sheet
	Correction page.Correction
	Printer    string // whose correction it is; empty if none
}

// A canvas is what the template needs from a page.
type canvas interface {
	Line(from, to page.Point, pen page.Pen)
	Rect(r page.Rect, pen page.Pen)
	Fill(r page.Rect, g page.Gray)
	FillPolygon(pts []page.Point, g page.Gray)
	Polygon(pts []page.Point, pen page.Pen)
	Disc(centre page.Point, radius measure.Length, g page.Gray)
	Text(at page.Point, s string, f page.Face)
}

// Document returns the template of a job's tickets: the gauges, then the bands.
// It fails if the paper cannot hold a band.
func Document(tickets []*ticket.Ticket, opt Options) (*page.Document, error) {
	sheets, err := lay(bands(tickets), opt)
	if err != nil {
		return nil, fmt.Errorf("template: %w", err)
	}
	doc := page.New(page.Info{
		Title: "Marking template, " + opt.Job, Creator: "Shadewright", Lang: "en",
		Correction: opt.Correction,
	})
	for i, s := range sheets {
		d := &drawing{canvas: doc.Add(s.size), opt: opt}
		d.sheet(s, i+1, len(sheets))
	}
	return doc, nil
}

// A drawing is one sheet being drawn.
type drawing struct {
	canvas
	opt Options
}

// words returns a length in words, with a sign where they are rounded.
func (d *drawing) words(l measure.Length) string {
	w := d.opt.Style.Words(l, measure.Nearest)
	if w.Rounded {
		return "≈ " + w.Typeset()
	}
	return w.Typeset()
}

// sheet draws everything on one sheet.
func (d *drawing) sheet(s *leaf, number, of int) {
	d.head(s, number, of)
	d.checks(s)
	for _, it := range s.items {
		if it.gauge != nil {
			d.gauge(it.gauge, it.at, s.body.Width())
		} else {
			d.strip(it.strip, it.at)
		}
	}
}

package fullscale

import (
	"shadewright/render/language"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

const mm = measure.Millimetre

// Options describes the paper of a document, the job and the printer.
type Options struct {
	Paper      sheet.Paper
	Margins    sheet.Margins
	Overlap    measure.Length // between neighbouring pieces
	Style      measure.Style  // of lengths in text and on rulers
	Job        string         // printed on every sheet
	Language   language.Language
	Correction page.Correction
	Printer    string // the printer the correction is for; empty if unnamed
}

// Say returns a text in the language of the paper.
func (o Options) Say(e message.ID, args ...any) string { return o.Language.Say(e, args...) }

// Document returns an empty document with the given title.
func (o Options) Document(title message.ID) *page.Document {
	return page.New(page.Info{
		Title: o.Language.Put(message.Join(", ", message.Of(title), message.Verbatim(o.Job))), Creator: "Shadewright", Lang: o.Language.Tag(),
		Correction: o.Correction,
	})
}

// Words returns a length as text, with a sign if it is rounded.
func (o Options) Words(l measure.Length) string {
	return o.Style.Words(l, measure.Nearest).Printed()
}

// corrected reports whether the sheet must state a correction. Settings can
// give the factors without naming a printer.
func (o Options) corrected() bool {
	one := func(f measure.Factor) bool { return f == 0 || f == measure.One }
	return o.Printer != "" || !one(o.Correction.X) || !one(o.Correction.Y)
}

func (o Options) correctionWords() string {
	c := o.Correction
	if o.Printer == "" {
		return o.Say("template.corrected", o.factor(c.X), o.factor(c.Y))
	}
	return o.Say("template.corrected-for-printer", o.Printer, o.factor(c.X), o.factor(c.Y))
}

// factor returns a correction's factor as text: 1.0031.
func (o Options) factor(f measure.Factor) string {
	if f == 0 {
		f = measure.One
	}
	return o.Style.Decimal(f.Float(), 4)
}

// A Canvas is the part of a page that a sheet draws on.
type Canvas interface {
	Line(from, to page.Point, pen page.Pen)
	Rect(r page.Rect, pen page.Pen)
	Fill(r page.Rect, g page.Gray)
	FillPolygon(pts []page.Point, g page.Gray)
	Polygon(pts []page.Point, pen page.Pen)
	Circle(centre page.Point, radius measure.Length, pen page.Pen)
	Disc(centre page.Point, radius measure.Length, g page.Gray)
	Text(at page.Point, s string, f page.Face)
}

// A Drawing is one sheet while it is drawn.
type Drawing struct {
	Canvas
	Options
}

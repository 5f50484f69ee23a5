package fullscale

import (
	"shadewright/render/language"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

const mm = measure.Millimetre

// Options says what paper a document is for and who prints it.
type Options struct {
	Paper      sheet.Paper
	Margins    sheet.Margins
	Overlap    measure.Length // of neighbouring pieces
	Style      measure.Style  // of the words and the scales
	Job        string         // printed on every sheet
	Language   language.Language
	Correction page.Correction
	Printer    string // whose correction it is; empty if none
}

// Say puts a text into the language of the paper.
func (o Options) Say(e message.English, args ...any) string { return o.Language.Say(e, args...) }

// Document returns an empty document of the given title.
func (o Options) Document(title message.English) *page.Document {
	return page.New(page.Info{
		Title: o.Language.Put(message.Join(", ", message.Of(title), message.Verbatim(o.Job))), Creator: "Shadewright", Lang: o.Language.Tag(),
		Correction: o.Correction,
	})
}

// Words returns a length in words, with a sign where they are rounded.
func (o Options) Words(l measure.Length) string {
	return o.Style.Words(l, measure.Nearest).Printed()
}

// corrected reports whether the sheet is to say that it is corrected: a factor may
// be written out in the settings without the name of a printer.
func (o Options) corrected() bool {
	one := func(f measure.Factor) bool { return f == 0 || f == measure.One }
	return o.Printer != "" || !one(o.Correction.X) || !one(o.Correction.Y)
}

func (o Options) correctionWords() string {
	c := o.Correction
	if o.Printer == "" {
		return o.Say("corrected: %s × %s", o.factor(c.X), o.factor(c.Y))
	}
	return o.Say("corrected for printer '%s': %s × %s", o.Printer, o.factor(c.X), o.factor(c.Y))
}

// factor puts a correction's factor into words: 1.0031.
func (o Options) factor(f measure.Factor) string {
	if f == 0 {
		f = measure.One
	}
	return o.Style.Decimal(f.Float(), 4)
}

// A Canvas is what a sheet needs from a page.
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

// A Drawing is one sheet being drawn.
type Drawing struct {
	Canvas
	Options
}

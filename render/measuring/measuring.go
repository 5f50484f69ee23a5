// Package measuring draws the measuring sheet, the paper that goes to the window: a
// drawing of the opening with a number on each reading, and a box with the same number
// to write it in. The boxes follow the order in which a new job asks for the readings.
//
// It decides no dimension and knows none: every box is empty. What the job already
// knows stands at the head, and the code there is that of the ticket the readings will
// become.
package measuring

import (
	"shadewright/render/language"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/render/symbol"
	"shadewright/ticket/code"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

const (
	mm = measure.Millimetre
	pt = page.Pt
)

// The page's own margins, used where the printer needs less, and the least area: below
// it a thick pencil has no room in the boxes. On larger paper the sheet uses the top
// left corner.
const (
	sideMargin  = 12 * mm
	endMargin   = 11 * mm
	leastWidth  = 180 * mm
	leastHeight = 250 * mm
	mostWidth   = 200 * mm
	mostHeight  = 275 * mm
)

// smallest is the smallest type on the sheet: it is read beside a window, at arm's length.
const smallest = 9 * pt

// An Opening is what the head of a sheet says. In the zero Opening nothing is known,
// and the head has lines to write on.
type Opening struct {
	Job         string
	Shade       message.Message // the unit's name; without an id and arguments if it is not known
	Room, Place string
	Code        code.Code // of the ticket that the readings become; empty if there is none yet
	Content     string    // of the QR symbol of that code
	Mount       *hang.Mount
	Units       measure.System // measure.Undeclared leaves the choice open
}

// Options describes the paper.
type Options struct {
	Info     page.Info
	Language language.Language
	Paper    sheet.Paper
	Margins  sheet.Margins // the strips that the printer cannot print
	Style    measure.Style // for lengths in errors
}

// canvas is the part of a page that a sheet draws on.
type canvas interface {
	Line(from, to page.Point, pen page.Pen)
	Polyline(pts []page.Point, pen page.Pen)
	Rect(r page.Rect, pen page.Pen)
	Fill(r page.Rect, g page.Gray)
	FillPolygon(pts []page.Point, g page.Gray)
	Disc(centre page.Point, radius measure.Length, g page.Gray)
	Text(at page.Point, s string, f page.Face)
}

// Document draws one page for each opening.
func Document(openings []Opening, opt Options) (*page.Document, error) {
	m := opt.Margins
	field, err := sheet.Margins{
		Left: max(m.Left, sideMargin), Right: max(m.Right, sideMargin),
		Top: max(m.Top, endMargin), Bottom: max(m.Bottom, endMargin),
	}.Within(opt.Paper)
	if err != nil {
		return nil, err
	}
	if field.Width < leastWidth || field.Length < leastHeight {
		return nil, &sheet.SmallError{For: "the measuring sheet", Paper: opt.Paper, Style: opt.Style, Use: sheet.LargerPaper,
			Has: field.Size, Needs: measure.Size{Width: leastWidth, Length: leastHeight}}
	}
	opt.Info.Title, opt.Info.Lang = opt.Language.Say(title), opt.Language.Tag()
	doc := page.New(opt.Info)
	area := page.Box(field.X, field.Y, min(field.Width, mostWidth), min(field.Length, mostHeight))
	for _, o := range openings {
		f := form{canvas: doc.Add(opt.Paper.Size), lang: opt.Language, area: area}
		if err := f.draw(o); err != nil {
			return nil, err
		}
	}
	return doc, nil
}

const title message.ID = "measuring.title"

// A form is one page while it is drawn.
type form struct {
	canvas
	lang language.Language
	area page.Rect
}

func (f form) say(id message.ID, args ...any) string { return f.lang.Say(id, args...) }

// The heights of the parts, from the top. The notes take what is left.
const (
	headHeight   = 29 * mm
	choiceHeight = 10 * mm
	lookHeight   = 96 * mm // the drawing and the boxes beside it
	lookWidth    = 82 * mm
	rowHeight    = 18 * mm // a row of boxes
	gutter       = 3 * mm
)

func (f form) draw(o Opening) error {
	if err := f.head(o); err != nil {
		return err
	}
	at := f.area.Min.Add(page.Point{Y: headHeight})
	f.choices(at, o)
	at.Y += choiceHeight
	f.look(page.Box(at.X, at.Y, lookWidth, lookHeight))
	f.readings(page.Box(at.X+lookWidth+gutter, at.Y, f.area.Width()-lookWidth-gutter, lookHeight))
	at.Y += lookHeight + 2*mm
	f.row(at, "measuring.outside", nil, []label{{"10", "measuring.over-left"}, {"11", "measuring.over-right"}, {"12", "measuring.over-above"}, {"13", "measuring.over-below"}})
	at.Y += rowHeight
	at.Y = f.standsOut(at)
	f.fixing(at)
	at.Y += rowHeight
	f.row(at, "measuring.roller", []message.ID{"measuring.telescoping", "measuring.fixed"}, []label{{"17", "measuring.tube"}, {"18", "measuring.shortest"}, {"19", "measuring.longest"}, {"20", "measuring.pins"}, {"21", "measuring.spring"}})
	at.Y += rowHeight
	f.row(at, "measuring.cloth", nil, []label{{"22", "measuring.ten-layers"}, {"23", "measuring.roll-width"}, {"24", "measuring.slat-width"}, {"25", "measuring.slat-thickness"}})
	at.Y += rowHeight
	f.notes(page.Rect{Min: at, Max: f.area.Max})
	return nil
}

// head draws what is known of the opening, its code, and lines for what is not known.
func (f form) head(o Opening) error {
	a := f.area
	width := a.Width()
	if o.Code != "" {
		qr, err := symbol.QR(o.Content, symbol.Medium)
		if err != nil {
			return err
		}
		const side = 24 * mm
		module := side / measure.Length(qr.Wide)
		quiet := measure.Length(qr.Quiet) * module
		qr.Draw(f.canvas, page.Point{X: a.Max.X - measure.Length(qr.Wide)*module - quiet, Y: a.Min.Y - quiet}, module)
		width -= side + quiet + mm
		face := page.Face{Size: 15 * pt, Weight: page.Bold, Align: page.End}
		f.Text(page.Point{X: a.Min.X + width, Y: a.Min.Y + 5*mm}, o.Code.Grouped(), face)
		width -= 40 * mm
	}
	small := page.Face{Size: smallest, Weight: page.Semibold}
	f.Text(page.Point{X: a.Min.X, Y: a.Min.Y + 4*mm}, f.say(title), page.Face{Size: 13 * pt, Weight: page.Semibold})
	shade := f.lang.Put(o.Shade)
	if shade == "" {
		x, y := a.Min.X, a.Min.Y+17*mm
		wide := (a.Width() - 3*gutter) / 4
		for i, id := range []message.ID{"measuring.job", "measuring.shade", "measuring.room", "measuring.place"} {
			left := page.Point{X: x + measure.Length(i)*(wide+gutter), Y: y}
			f.Text(left.Add(page.Point{Y: -7 * mm}), f.say(id), small)
			f.Line(left.Add(page.Point{Y: 5 * mm}), left.Add(page.Point{X: wide, Y: 5 * mm}), page.Solid())
		}
		return nil
	}
	name, face := page.Fit(shade, page.Face{Size: 26 * pt, Weight: page.Bold}, width, 14*pt)
	f.Text(page.Point{X: a.Min.X, Y: a.Min.Y + 14*mm}, name, face)
	width = a.Width() - 30*mm
	if o.Code == "" {
		width = a.Width()
	}
	y := a.Min.Y + 20*mm
	for i, s := range []string{joined(o.Place, o.Room), o.Job} {
		if s == "" {
			continue
		}
		s, face := page.Fit(s, page.Face{Size: []measure.Length{12 * pt, 10 * pt}[i]}, width, smallest)
		f.Text(page.Point{X: a.Min.X, Y: y}, s, face)
		y += 5 * mm
	}
	return nil
}

func joined(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + " · " + b
}

// Package flow stacks blocks on as many sheets as they need. Each sheet has a
// heading and states its number and how many sheets there are.
package flow

import (
	"strings"
	"unicode"

	"shadewright/render/language"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// Options describes the sheets.
type Options struct {
	Paper    sheet.Paper
	Margins  sheet.Margins
	Style    measure.Style
	Job      string // printed on every sheet
	Language language.Language
}

// A Canvas is the part of a page that a block draws on.
type Canvas interface {
	Line(from, to page.Point, pen page.Pen)
	Rect(r page.Rect, pen page.Pen)
	Fill(r page.Rect, g page.Gray)
	FillPolygon(pts []page.Point, g page.Gray)
	Text(at page.Point, s string, f page.Face)
}

// A Sheet is one sheet, laid out.
type Sheet struct {
	*Layout
	title  string
	blocks []block
}

// A block is a Block at its place on a sheet.
type block struct {
	at   measure.Length // top of the block
	draw Block
}

// A Block draws itself with its top at the given height of the sheet.
type Block func(on Canvas, at measure.Length)

// A Layout is shared by all sheets.
type Layout struct {
	Options
	Frame page.Rect // the printable part
}

// Draw draws the sheet.
func (s *Sheet) Draw(on Canvas, number, of int) {
	f := s.Frame
	count := s.Say("common.sheet-of", number, of)
	on.Text(page.Point{X: f.Max.X, Y: f.Min.Y + 6*mm}, count, page.Face{Size: 11 * page.Pt, Weight: page.Semibold, Align: page.End})
	room := f.Width() - page.Width(count, page.Face{Size: 11 * page.Pt, Weight: page.Semibold}) - 6*mm
	title, face := page.Fit(s.title, page.Face{Size: 18 * page.Pt, Weight: page.Bold}, room, 11*page.Pt)
	on.Text(page.Point{X: f.Min.X, Y: f.Min.Y + 6*mm}, title, face)
	below, face := page.Fit(s.Job, page.Face{Size: 11 * page.Pt, Weight: page.Semibold}, f.Width(), 9*page.Pt)
	on.Text(page.Point{X: f.Min.X, Y: f.Min.Y + 12*mm}, below, face)
	for _, b := range s.blocks {
		b.draw(on, b.at)
	}
}

const (
	mm         = measure.Millimetre
	headHeight = 15 * mm
)

// Document draws sheets in order.
func Document(title string, sheets []*Sheet) *page.Document {
	info := page.Info{Title: title, Creator: "Shadewright"}
	if len(sheets) > 0 {
		info.Lang = sheets[0].Language.Tag()
	}
	doc := page.New(info)
	for i, s := range sheets {
		s.Draw(doc.Add(s.Paper.Size), i+1, len(sheets))
	}
	return doc
}

// On returns the layout on the paper as it lies or, if that is too narrow, on
// its side. An error about paper that is too small names the document with
// what.
func On(opt Options, what string, least measure.Size) (*Layout, error) {
	turned := opt
	turned.Paper, turned.Margins = opt.Paper.Landscape(), opt.Margins.Turned()
	var largest measure.Size // for the wider side, which comes last
	for _, o := range []Options{opt, turned} {
		field, err := o.Margins.Within(o.Paper)
		if err != nil {
			return nil, err
		}
		largest = field.Size
		l := &Layout{Options: o, Frame: page.Box(field.X, field.Y, field.Width, field.Length)}
		if l.Frame.Width() >= least.Width && l.Frame.Height() >= least.Length {
			return l, nil
		}
	}
	return nil, &sheet.SmallError{For: what, Paper: opt.Paper, Style: opt.Style, Use: sheet.A5,
		Has: largest, Needs: least}
}

// Body returns the part of the frame below the heading.
func (l *Layout) Body() page.Rect {
	b := l.Frame
	b.Min.Y += headHeight
	return b
}

// Hair is the pen between rows.
func Hair() page.Pen { return page.Pen{Width: page.Hairline} }

// Solid is the pen under a heading.
func Solid() page.Pen { return page.Pen{Width: 500 * measure.Micrometre} }

// Heavy is the pen under a total.
func Heavy() page.Pen { return page.Pen{Width: 900 * measure.Micrometre} }

// Say returns a text in the language of the paper.
func (l *Layout) Say(e message.ID, args ...any) string { return l.Language.Say(e, args...) }

// Put returns a message in the language of the paper.
func (l *Layout) Put(p message.Message) string { return l.Language.Put(p) }

// Words formats a length, with ≈ if it is rounded.
func (l *Layout) Words(v measure.Length) string {
	return l.Style.Words(v, measure.Nearest).Printed()
}

// Bare is [Layout.Words] without the unit.
func (l *Layout) Bare(v measure.Length) string {
	// The space before the unit goes with the unit.
	return strings.TrimRightFunc(strings.TrimSuffix(l.Words(v), l.Style.System.String()), unicode.IsSpace)
}

// Size formats a width across and a length along the roll.
func (l *Layout) Size(w, h measure.Length) string { return l.Bare(w) + " × " + l.Bare(h) }

// Package plan draws the cut plan: the goods to scale with the panels on them,
// the list of cuts in the order they are made, what to buy, and labels for the
// offcuts that are kept.
//
// Every size and every place on the goods comes from a plan of package cutplan;
// this package decides only where on the paper it lies. The roll runs from left
// to right: one stands at the left of the drawing, at the cut end, so the roll's
// left edge is at the top. All of it is read in black and white.
package plan

import (
	"fmt"
	"strings"
	"unicode"

	"shadewright/render/language"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/buying"
	"shadewright/ticket/cutplan"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// Options says what paper the plan is for.
type Options struct {
	Paper    sheet.Paper
	Margins  sheet.Margins
	Style    measure.Style
	Job      string // printed on every sheet
	Language language.Language
	Table    measure.Length // length of the cutting table; zero if it is no limit
}

// A canvas is what the plan needs from a page.
type canvas interface {
	Line(from, to page.Point, pen page.Pen)
	Rect(r page.Rect, pen page.Pen)
	Fill(r page.Rect, g page.Gray)
	FillPolygon(pts []page.Point, g page.Gray)
	Text(at page.Point, s string, f page.Face)
}

// Document returns the cut plans of a job, the list of what to buy, and the
// labels of the offcuts.
func Document(plans []*cutplan.Plan, list buying.List, opt Options) (*page.Document, error) {
	sheets, err := lay(plans, list, opt)
	if err != nil {
		return nil, fmt.Errorf("cut plan: %w", err)
	}
	doc := page.New(page.Info{Title: opt.Language.Say("plan.cut-plan") + ", " + opt.Job, Creator: "Shadewright", Lang: opt.Language.Tag()})
	for i, s := range sheets {
		s.draw(doc.Add(s.opt.Paper.Size), i+1, len(sheets))
	}
	return doc, nil
}

// A leaf is one sheet, laid out.
type leaf struct {
	*layout
	title, below string // heading, and what it is about
	blocks       []block
}

// A block is what stands on a sheet between two heights.
type block struct {
	at   measure.Length // its top
	draw func(d *drawing, at measure.Length)
}

// A layout is what all sheets have in common.
type layout struct {
	opt   Options
	frame page.Rect
}

// A drawing is one sheet being drawn.
type drawing struct {
	canvas
	*layout
	taken []page.Rect // where words lie that must stay free
}

// draw draws the sheet.
func (s *leaf) draw(on canvas, number, of int) {
	d := &drawing{canvas: on, layout: s.layout}
	f := s.frame
	count := d.say("common.sheet-of", number, of)
	d.Text(page.Point{X: f.Max.X, Y: f.Min.Y + 6*mm}, count, page.Face{Size: 11 * page.Pt, Weight: page.Semibold, Align: page.End})
	room := f.Width() - page.Width(count, page.Face{Size: 11 * page.Pt, Weight: page.Semibold}) - 6*mm
	title, face := page.Fit(s.title, page.Face{Size: 18 * page.Pt, Weight: page.Bold}, room, 11*page.Pt)
	d.Text(page.Point{X: f.Min.X, Y: f.Min.Y + 6*mm}, title, face)
	below, face := page.Fit(s.below, page.Face{Size: 11 * page.Pt, Weight: page.Semibold}, f.Width(), 9*page.Pt)
	d.Text(page.Point{X: f.Min.X, Y: f.Min.Y + 12*mm}, below, face)
	for _, b := range s.blocks {
		b.draw(d, b.at)
	}
}

const headHeight = 15 * mm

// lay puts everything on sheets.
func lay(plans []*cutplan.Plan, list buying.List, opt Options) ([]*leaf, error) {
	l, err := layoutOn(opt)
	if err != nil {
		return nil, err
	}
	var sheets []*leaf
	for _, p := range plans {
		sheets = append(sheets, l.plan(p)...)
	}
	sheets = append(sheets, l.buying(list)...)
	return append(sheets, l.labels(plans)...), nil
}

// layoutOn returns the layout on the paper as it lies, or on its side where it is
// too narrow for the list of cuts.
func layoutOn(opt Options) (*layout, error) {
	turned := opt
	turned.Paper, turned.Margins = opt.Paper.Landscape(), opt.Margins.Turned()
	var largest measure.Size // on the wider side, which is looked at last
	for _, o := range []Options{opt, turned} {
		field, err := o.Margins.Within(o.Paper)
		if err != nil {
			return nil, err
		}
		largest = field.Size
		l := &layout{opt: o, frame: page.Box(field.X, field.Y, field.Width, field.Length)}
		if l.frame.Width() >= narrowest && l.frame.Height() >= shortest {
			return l, nil
		}
	}
	return nil, &sheet.SmallError{For: "the cut plan", Paper: opt.Paper, Style: opt.Style, Use: sheet.A5,
		Has: largest, Needs: measure.Size{Width: narrowest, Length: shortest}}
}

// body returns the part of the frame below the heading.
func (l *layout) body() page.Rect {
	b := l.frame
	b.Min.Y += headHeight
	return b
}

const (
	mm = measure.Millimetre

	// Below these a row of the list of cuts does not fit.
	narrowest = 170 * mm
	shortest  = 120 * mm
)

var (
	hair  = page.Pen{Width: page.Hairline}
	solid = page.Pen{Width: 500 * measure.Micrometre}
	heavy = page.Pen{Width: 900 * measure.Micrometre}
	dash  = page.Pen{Width: 300 * measure.Micrometre, Dash: []measure.Length{2 * mm, mm}}
)

// say puts a text into the language of the paper.
func (l *layout) say(e message.ID, args ...any) string { return l.opt.Language.Say(e, args...) }

// put puts a message into the language of the paper.
func (l *layout) put(p message.Message) string { return l.opt.Language.Put(p) }

// length puts a length into words; ≈ marks words that were rounded.
func (l *layout) length(v measure.Length) string {
	return l.opt.Style.Words(v, measure.Nearest).Printed()
}

// bare is length without the unit.
func (l *layout) bare(v measure.Length) string {
	// The unit stands after a space of its own, which goes with it.
	return strings.TrimRightFunc(strings.TrimSuffix(l.length(v), l.opt.Style.System.String()), unicode.IsSpace)
}

// size puts a width across and a length along the roll into words.
func (l *layout) size(w, h measure.Length) string { return l.bare(w) + " × " + l.bare(h) }

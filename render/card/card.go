// Package card draws the paper that travels with a shade: its ticket, one page
// for each unit, and the tags that go on its parts.
//
// It decides no dimension. Every number comes from a [ticket.Ticket] and
// appears in the job's own unit and, smaller, in the other one. Package ticket
// judges the numbers; card only finds room for them. Text too long for its room
// is first wrapped, then set smaller, then cut off with a visible ellipsis.
// Everything is black on white, with no line thinner than 0.25 mm and no type
// smaller than 7.5 pt, so that it survives a poor copier.
package card

import (
	"errors"
	"fmt"
	"strings"

	"shadewright/render/language"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// canvas is the part of a page that a card draws on.
type canvas interface {
	Line(from, to page.Point, pen page.Pen)
	Polyline(pts []page.Point, pen page.Pen)
	Polygon(pts []page.Point, pen page.Pen)
	Fill(r page.Rect, g page.Gray)
	FillPolygon(pts []page.Point, g page.Gray)
	Text(at page.Point, s string, f page.Face)
}

// Options says how to print cards.
type Options struct {
	Info     page.Info
	Language language.Language
	Paper    sheet.Paper   // of tickets; tags use the paper of their grid
	Margins  sheet.Margins // the strips that the printer cannot print
	// Address goes before a ticket's code in its symbol, for example
	// "HTTP://192.168.1.20:8080". If it is empty, the symbol holds the code
	// alone.
	Address string
	Code128 bool  // add a bar code for laser scanners beside the QR symbol
	Insist  bool  // print stopped shades, with the stop on the ticket
	Skip    int   // number of labels already used on the first sheet
	Codes   Codes // of the same tickets; if empty, they are encoded on use
}

// document returns an empty document with the given title.
func (o Options) document(title string) *page.Document {
	o.Info.Title, o.Info.Lang = title, o.Language.Tag()
	return page.New(o.Info)
}

// Content returns the content of a ticket's symbol: the address of its page, in
// capitals because they take the least room, or code and revision alone.
func (o Options) Content(t *ticket.Ticket) string {
	return Address(o.Address, t.Code.With(t.Revision))
}

// Address returns the content of the symbol of a code, with or without its revision:
// see [Options.Content].
func Address(server, code string) string {
	if server == "" {
		return code
	}
	return strings.ToUpper(strings.TrimRight(server, "/")) + "/T/" + code
}

// Tickets draws one page for each ticket. A stopped ticket is an error unless
// Insist is set. If a page has no room for the last sections, they go overleaf.
func Tickets(tickets []*ticket.Ticket, opt Options) (*page.Document, error) {
	if err := opt.check(tickets); err != nil {
		return nil, err
	}
	area, err := printable(opt, tickets[0].Job.Style)
	if err != nil {
		return nil, err
	}
	encoded, err := opt.codesFor(tickets)
	if err != nil {
		return nil, err
	}
	st := newSetter(opt.Language)
	doc := opt.document(st.say("card.tickets", tickets[0].Job.Name))
	var p *layout
	for n, t := range tickets {
		if p == nil || !p.serves(t) {
			p = newLayout(t, area, opt, st)
		}
		for i := range p.pages {
			p.draw(doc.Add(opt.Paper.Size), i, unit{t, encoded[n]})
		}
	}
	return doc, nil
}

// check refuses an empty set of tickets, and stopped shades.
func (o Options) check(tickets []*ticket.Ticket) error {
	if len(tickets) == 0 {
		return errors.New("there is no ticket to print")
	}
	if o.Insist {
		return nil
	}
	var errs []error
	for i, t := range tickets {
		if t.Stopped() && (i == 0 || tickets[i-1].Shade != t.Shade) { // once for the units of a shade
			errs = append(errs, fmt.Errorf("shade %s is stopped: %s; %s", t.Shade.ID, t.Findings[0].Text, t.Findings[0].Remedy))
		}
	}
	return errors.Join(errs...)
}

// The page's own margins, used where the printer needs less.
const (
	sideMargin = 9 * measure.Millimetre
	endMargin  = 8 * measure.Millimetre
)

// The smallest and the largest area of a ticket. On larger paper the ticket
// uses the top left corner, because more room would only move related parts
// away from each other.
const (
	leastWidth  = 110 * measure.Millimetre
	leastHeight = 170 * measure.Millimetre
	mostWidth   = 220 * measure.Millimetre
	mostHeight  = 340 * measure.Millimetre
)

// printable returns the part of the paper for a ticket.
func printable(o Options, style measure.Style) (page.Rect, error) {
	m, side, end := o.Margins, measure.Length(sideMargin), measure.Length(endMargin)
	if o.Paper.Width < 160*mm { // small paper needs its room
		side, end = 13*mm/2, 5*mm
	}
	field, err := sheet.Margins{
		Left: max(m.Left, side), Right: max(m.Right, side), Top: max(m.Top, end), Bottom: max(m.Bottom, end),
	}.Within(o.Paper)
	if err != nil {
		return page.Rect{}, err
	}
	if field.Width < leastWidth || field.Length < leastHeight {
		return page.Rect{}, &sheet.SmallError{For: "the tickets", Paper: o.Paper, Style: style, Use: sheet.A5,
			Has: field.Size, Needs: measure.Size{Width: leastWidth, Length: leastHeight}}
	}
	return page.Box(field.X, field.Y, min(field.Width, mostWidth), min(field.Length, mostHeight)), nil
}

// A unit is the ticket of one page, with its codes.
type unit struct {
	*ticket.Ticket
	codes
}

// count says which unit of its shade this is: unit 1 of 2. A shade without other units
// needs no number.
func (st *setter) count(u unit) string {
	if u.Of == 1 {
		return ""
	}
	return st.say("card.unit-of", u.Unit, u.Of)
}

// revision returns the revision and, for a remade panel, how often it was
// remade.
func (st *setter) revision(u unit) string {
	rev := string(u.Revision)
	if u.Remake > 0 {
		return st.say("card.again-rev", u.Remake, rev)
	}
	return st.say("card.rev", rev)
}

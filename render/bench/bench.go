// Package bench draws the sheet that lies on a bench: codes for steps, people
// and events such as a hold.
package bench

import (
	"fmt"
	"strings"

	"shadewright/render/language"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/render/symbol"
	"shadewright/ticket/mark/scan"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// A Shop lists what the bench sheet has codes for.
type Shop struct {
	Route                         route.Route
	People, Places, Holds, Spoilt []string
}

const (
	mm = measure.Millimetre
	pt = page.Pt
)

// words writes the sheet's text in a language.
type words struct{ lang language.Language }

func (st words) say(e message.ID, args ...any) string { return st.lang.Say(e, args...) }

// A section is a group of codes under one heading.
type section struct {
	name  string
	codes []entry
}

// An entry is the text of a code for people and the content of its symbol.
type entry struct{ says, content string }

// sections returns the groups of codes on a shop's sheet.
func (st words) sections(s Shop) []section {
	code := func(says string, word scan.Word, value string) entry {
		return entry{says, scan.Control{Word: word, Value: strings.ToLower(value)}.String()}
	}
	each := func(word scan.Word, values []string, says func(value string) string) (codes []entry) {
		for _, v := range values {
			codes = append(codes, code(says(v), word, v))
		}
		return codes
	}
	hold := func(why string) string {
		return st.say("card.hold", st.lang.Put(message.ReasonTerm.Term(why).Message()))
	}
	spoilt := func(why string) string {
		return st.say("card.panel-spoilt", st.lang.Put(message.ReasonTerm.Term(why).Message()))
	}
	asIs := func(name string) string { return name }
	steps := []entry{code(st.say("card.bench-next-step"), scan.Next, "")}
	for _, r := range s.Route {
		steps = append(steps, code(st.lang.Put(r.Message()), scan.Step, r.Key))
	}
	next := []entry{code(st.say("card.undo"), scan.Undo, ""), code(st.say("card.release"), scan.Release, "")}
	next = append(next, each(scan.Hold, s.Holds, hold)...)
	next = append(next, each(scan.Remade, s.Spoilt, spoilt)...)
	return []section{
		{st.say("card.bench-every-ticket"), steps},
		{st.say("card.bench-next-ticket"), next},
		{st.say("card.who-works-here"), each(scan.By, s.People, asIs)},
		{st.say("card.this-bench"), each(scan.At, s.Places, asIs)},
		{st.say("card.end-day"), []entry{code(st.say("card.forget"), scan.Clear, "")}},
	}
}

const (
	mostModule = 7 * mm / 10 // readable from arm's length
	codeSide   = 26 * mm     // greatest side of a symbol with its quiet zone
	row        = 32 * mm     // keeps two symbols apart
	headHeight = 11 * mm
	columnWide = 88 * mm // for a code and its text
)

// The sizes of type and gaps.
const (
	gutter   = 4 * mm
	smallest = 15 * pt / 2 // the smallest type that survives a poor copier

	sideMargin = 12 * mm // used where the printer needs less
	endMargin  = 11 * mm

	// On larger paper the sheet uses the top left corner.
	mostWidth  = 220 * mm
	mostHeight = 340 * mm

	barModule = 340 * measure.Micrometre
	barHeight = 8 * mm
)

// Options describes the paper of a bench sheet.
type Options struct {
	Info     page.Info
	Language language.Language
	Paper    sheet.Paper
	Margins  sheet.Margins // the strips that the printer cannot print
	Style    measure.Style // for lengths in errors
	Code128  bool          // add a bar code for laser scanners beside each QR symbol
}

// Document draws the sheet: a code for each step, person and event, with its
// effect beside it in large letters. With Code128 there is one column, and a
// code gets a bar code if there is room.
func Document(shop Shop, opt Options) (*page.Document, error) {
	m := opt.Margins
	field, err := sheet.Margins{
		Left: max(m.Left, sideMargin), Right: max(m.Right, sideMargin),
		Top: max(m.Top, endMargin), Bottom: max(m.Bottom, endMargin),
	}.Within(opt.Paper)
	if err != nil {
		return nil, err
	}
	if field.Width < columnWide || field.Length < headHeight+row {
		return nil, &sheet.SmallError{For: "the bench sheet", Paper: opt.Paper, Style: opt.Style, Use: sheet.A5,
			Has: field.Size, Needs: measure.Size{Width: columnWide, Length: headHeight + row}}
	}
	w := words{opt.Language}
	opt.Info.Title, opt.Info.Lang = w.say("card.bench-sheet"), opt.Language.Tag()
	b := &drawing{doc: page.New(opt.Info), opt: opt, area: page.Box(field.X, field.Y, min(field.Width, mostWidth), min(field.Length, mostHeight)), per: 1}
	if !opt.Code128 {
		b.per = max(int(b.area.Width()/columnWide), 1)
	}
	for _, g := range w.sections(shop) {
		if err := b.group(g); err != nil {
			return nil, fmt.Errorf("bench sheet: %w", err)
		}
	}
	return b.doc, nil
}

// A drawing is the sheet while it is drawn.
type drawing struct {
	doc  *page.Document
	opt  Options
	area page.Rect
	per  int // codes side by side
	on   *page.Page
	y    measure.Length // below the last item drawn
}

// room starts a new page if h no longer fits on this one.
func (b *drawing) room(h measure.Length) {
	if b.on == nil || b.y+h > b.area.Max.Y {
		b.on, b.y = b.doc.Add(b.opt.Paper.Size), b.area.Min.Y
	}
}

func (b *drawing) group(g section) error {
	if len(g.codes) == 0 {
		return nil
	}
	b.room(headHeight + row)
	b.heading(g.name)
	b.y += headHeight - 2*mm
	wide := (b.area.Width() - measure.Length(b.per-1)*gutter) / measure.Length(b.per)
	for i, c := range g.codes {
		column := i % b.per
		if column == 0 {
			b.room(row)
		}
		x := b.area.Min.X + measure.Length(column)*(wide+gutter)
		if err := b.code(c, page.Box(x, b.y, wide, row)); err != nil {
			return fmt.Errorf("%s: %w", c.content, err)
		}
		if column == b.per-1 || i == len(g.codes)-1 {
			b.y += row
		}
	}
	return nil
}

// heading draws the line and the title at the top of a group.
func (b *drawing) heading(name string) {
	left := page.Point{X: b.area.Min.X, Y: b.y}
	b.on.Line(left, page.Point{X: b.area.Max.X, Y: b.y}, page.Heavy())
	name, face := page.Fit(name, page.Face{Weight: page.Bold, Size: 10 * pt}, b.area.Width(), smallest)
	b.on.Text(left.Add(page.Point{Y: 4 * mm}), name, face)
}

func (b *drawing) code(c entry, r page.Rect) error {
	qr, err := symbol.QR(c.content, symbol.Medium)
	if err != nil {
		return err
	}
	modules := measure.Length(qr.Wide + 2*qr.Quiet)
	module := min(mostModule, codeSide/modules)
	qr.Draw(b.on, r.Min, module)
	x, y := r.Min.X+codeSide+2*mm, r.Min.Y+measure.Length(qr.Quiet)*module
	lines, face := page.Shrink(c.says, page.Face{Weight: page.Bold, Size: 17 * pt}, r.Max.X-x, 9*pt, 3)
	base := y + face.Size*88/100
	for _, line := range lines {
		b.on.Text(page.Point{X: x, Y: base}, line, face)
		base += face.Size * 118 / 100
	}
	content, small := page.Fit(c.content, page.Face{Size: 8 * pt}, r.Max.X-x, smallest)
	if !b.opt.Code128 {
		b.on.Text(page.Point{X: x, Y: base - face.Size*88/100 + 3*mm}, content, small)
		return nil
	}
	bar, err := symbol.Code128(c.content)
	if err != nil {
		return err
	}
	if quiet := measure.Length(bar.Quiet) * barModule; bar.Width(barModule) <= r.Max.X-x+quiet {
		bar.DrawBars(b.on, page.Point{X: x - quiet, Y: r.Max.Y - barHeight - 4*mm}, barModule, barHeight)
	}
	return nil
}

package card

import (
	"fmt"
	"strings"

	"shadewright/render/page"
	"shadewright/render/symbol"
	"shadewright/ticket/mark/scan"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

// A Shop is what a bench sheet has codes for.
type Shop struct {
	Route                         route.Route
	People, Places, Holds, Spoilt []string
}

// A benchGroup is codes of the bench sheet under one heading.
type benchGroup struct {
	name  string
	codes []benchCode
}

// A benchCode is what a code says to a person and what its symbol holds.
type benchCode struct{ says, content string }

// benchGroups returns the codes of a shop's sheet.
func (st *setter) benchGroups(s Shop) []benchGroup {
	code := func(says string, word scan.Word, value string) benchCode {
		return benchCode{says, scan.Control{Word: word, Value: strings.ToLower(value)}.String()}
	}
	each := func(word scan.Word, values []string, says func(value string) string) (codes []benchCode) {
		for _, v := range values {
			codes = append(codes, code(says(v), word, v))
		}
		return codes
	}
	hold := func(why string) string { return st.say("Hold: %s", st.lang.Known(why)) }
	spoilt := func(why string) string { return st.say("Panel spoilt: %s", st.lang.Known(why)) }
	asIs := func(name string) string { return name }
	steps := []benchCode{code(st.say("Whatever comes next"), scan.Next, "")}
	for _, r := range s.Route {
		steps = append(steps, code(st.lang.Put(r.Message()), scan.Step, r.Key))
	}
	next := []benchCode{code(st.say("Undo"), scan.Undo, ""), code(st.say("Go on after a hold"), scan.Release, "")}
	next = append(next, each(scan.Hold, s.Holds, hold)...)
	next = append(next, each(scan.Remade, s.Spoilt, spoilt)...)
	return []benchGroup{
		{st.say("Every ticket from now on marks"), steps},
		{st.say("Only the next ticket"), next},
		{st.say("Who works here"), each(scan.By, s.People, asIs)},
		{st.say("Which bench this is"), each(scan.At, s.Places, asIs)},
		{st.say("At the end of the day"), []benchCode{code(st.say("Forget step, person and place"), scan.Clear, "")}},
	}
}

const (
	benchModule = 7 * mm / 10 // reads from an arm's length
	benchSide   = 26 * mm     // of a symbol with its quiet zone, at most
	benchRow    = 32 * mm     // leaves blank paper between two symbols
	benchHead   = 11 * mm
	benchColumn = 88 * mm // of a code and its words
)

// Bench draws the sheet that lies on a bench: a code for each step, person and
// word, with what it does beside it in large letters. A bar code is drawn where
// it is asked for and has room; then there is one column.
func Bench(shop Shop, opt Options) (*page.Document, error) {
	area, err := printable(opt)
	if err != nil {
		return nil, err
	}
	st := newSetter(opt.Language)
	b := &benchSheet{setter: st, doc: opt.document(st.say("Bench sheet")), opt: opt, area: area, per: 1}
	if !opt.Code128 {
		b.per = max(int(area.Width()/benchColumn), 1)
	}
	for _, g := range st.benchGroups(shop) {
		if err := b.group(g); err != nil {
			return nil, fmt.Errorf("bench sheet: %w", err)
		}
	}
	return b.doc, nil
}

// A benchSheet is the sheet as far as it is drawn.
type benchSheet struct {
	*setter
	doc  *page.Document
	opt  Options
	area page.Rect
	per  int // codes side by side
	on   *page.Page
	y    measure.Length // below what is drawn
}

// room starts another page unless h more fits on this one.
func (b *benchSheet) room(h measure.Length) {
	if b.on == nil || b.y+h > b.area.Max.Y {
		b.on, b.y = b.doc.Add(b.opt.Paper.Size), b.area.Min.Y
	}
}

func (b *benchSheet) group(g benchGroup) error {
	if len(g.codes) == 0 {
		return nil
	}
	b.room(benchHead + benchRow)
	headed(b.on, page.Rect{Min: page.Point{X: b.area.Min.X, Y: b.y}, Max: page.Point{X: b.area.Max.X, Y: b.y + benchHead}}, g.name)
	b.y += benchHead - 2*mm
	wide := (b.area.Width() - measure.Length(b.per-1)*gutter) / measure.Length(b.per)
	for i, c := range g.codes {
		column := i % b.per
		if column == 0 {
			b.room(benchRow)
		}
		x := b.area.Min.X + measure.Length(column)*(wide+gutter)
		if err := b.code(c, page.Box(x, b.y, wide, benchRow)); err != nil {
			return fmt.Errorf("%s: %w", c.content, err)
		}
		if column == b.per-1 || i == len(g.codes)-1 {
			b.y += benchRow
		}
	}
	return nil
}

func (b *benchSheet) code(c benchCode, r page.Rect) error {
	qr, err := symbol.QR(c.content, symbol.Medium)
	if err != nil {
		return err
	}
	modules := measure.Length(qr.Wide + 2*qr.Quiet)
	module := min(benchModule, benchSide/modules)
	qr.Draw(b.on, r.Min, module)
	x, y := r.Min.X+benchSide+2*mm, r.Min.Y+measure.Length(qr.Quiet)*module
	words := b.shrunk(c.says, bold(17*pt), r.Max.X-x, 9*pt, 3)
	words.draw(b.on, page.Point{X: x, Y: y})
	content, face := b.fit(c.content, regular(8*pt), r.Max.X-x, smallest)
	if !b.opt.Code128 {
		b.on.Text(page.Point{X: x, Y: y + words.height() + 3*mm}, content, face)
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

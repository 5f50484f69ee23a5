package card

import (
	"fmt"

	"shadewright/render/language"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// A part is a part of the shade that gets a tag: its name and its one important
// number.
type part struct{ name, number string }

// parts returns the parts of a unit in the order they are made.
func (st *setter) parts(t *ticket.Ticket) []part {
	v := unitsOf(t.Job.Style)
	return []part{
		{st.say("card.panel-tag"), by(v.first, t.Cut.Width, t.Cut.Length, measure.Nearest, measure.Nearest)},
		{st.say("card.tube-tag"), v.near(t.Cut.Tube)},
		{st.say("card.slat-tag"), v.near(t.Cut.Slat)},
		{st.say("card.hardware"), st.lang.Put(t.Shade.Roll.Message())},
	}
}

const (
	tagPad       = 2 * mm
	smallestTagW = 38 * mm
	smallestTagH = 20 * mm
	// smallestModule is the smallest module that a phone reads from a hand's
	// distance; guides ask for 0.4 to 0.75 mm.
	smallestModule = 400 * measure.Micrometre
	largestModule  = 3 * mm / 2
)

// Tags draws a label for each part of each ticket on the labels of a grid, unit
// after unit. A label gets a bar code if the options ask for one and there is
// room.
func Tags(tickets []*ticket.Ticket, grid sheet.Grid, opt Options) (*page.Document, error) {
	if err := opt.check(tickets); err != nil {
		return nil, err
	}
	if err := grid.Check(); err != nil {
		return nil, err
	}
	if opt.Skip < 0 || opt.Skip >= grid.PerSheet() {
		return nil, fmt.Errorf("tags cannot start after %s on a sheet of %d; give 0 to %d", measure.Count(opt.Skip, "used label"), grid.PerSheet(), grid.PerSheet()-1)
	}
	doc := opt.document(opt.Language.Say("card.tags", tickets[0].Job.Name))
	var on *page.Page
	err := eachTag(tickets, grid, opt, func(tg tag, number int) error {
		for doc.Pages() <= number {
			on = doc.Add(grid.Paper.Size)
		}
		return tg.draw(on)
	})
	if err != nil {
		return nil, err
	}
	return doc, nil
}

// eachTag calls do for each tag, with the number of its sheet.
func eachTag(tickets []*ticket.Ticket, grid sheet.Grid, opt Options, do func(tg tag, number int) error) error {
	field, err := opt.Margins.Within(grid.Paper)
	if err != nil {
		return err
	}
	encoded, err := opt.codesFor(tickets)
	if err != nil {
		return err
	}
	st := newSetter(opt.Language)
	i := 0
	for n, t := range tickets {
		for _, p := range st.parts(t) {
			number, label := grid.Place(i, opt.Skip)
			if err := do(tag{setter: st, room: within(label, field), part: p, unit: unit{t, encoded[n]}}, number); err != nil {
				return err
			}
			i++
		}
	}
	return nil
}

// Labels returns how many labels the tags of tickets take.
func Labels(tickets []*ticket.Ticket, lang language.Language) (n int) {
	st := newSetter(lang)
	for _, t := range tickets {
		n += len(st.parts(t))
	}
	return n
}

// Barless returns the number of tags that [Tags] prints without the requested
// bar code, because their labels have no room for it.
func Barless(tickets []*ticket.Ticket, grid sheet.Grid, opt Options) (int, error) {
	n := 0
	err := eachTag(tickets, grid, opt, func(tg tag, _ int) error {
		if opt.Code128 && !(tg.stands() && tg.barFits()) {
			n++
		}
		return nil
	})
	return n, err
}

// stands reports whether a label is higher than wide, or nearly so.
func (g tag) stands() bool { return g.room.Height() > g.room.Width()*3/4 }

// barFits reports whether there is a bar code, and room for its width.
func (g tag) barFits() bool {
	b := g.unit.bar
	room := g.room.Inset(2 * tagPad).Width()
	return len(b.Bars) > 0 && b.Width(barModule)-2*measure.Length(b.Quiet)*barModule <= room
}

// within returns the printable part of a label.
func within(label, field sheet.Field) page.Rect {
	return page.Rect{
		Min: page.Point{X: max(label.X, field.X), Y: max(label.Y, field.Y)},
		Max: page.Point{X: min(label.X+label.Width, field.X+field.Width), Y: min(label.Y+label.Length, field.Y+field.Length)},
	}
}

// A tag is one label while it is drawn.
type tag struct {
	*setter
	room page.Rect
	part part
	unit unit
}

func (g tag) draw(on canvas) error {
	w, h := g.room.Width(), g.room.Height()
	modules := measure.Length(g.unit.qr.Wide + 2*g.unit.qr.Quiet)
	side := min(h, w*42/100)
	if g.stands() {
		side = min(w*55/100, h*45/100)
	}
	module := min(side/modules, largestModule)
	if w < smallestTagW || h < smallestTagH || module < smallestModule {
		style := g.unit.Job.Style
		return fmt.Errorf("labels with a printable part of %s × %s are too small for a tag; use labels of at least %s × %s", style.Words(w, measure.Down), style.Words(h, measure.Down),
			style.Words(max(smallestTagW, modules*smallestModule*100/42), measure.Up), style.Words(max(smallestTagH, modules*smallestModule), measure.Up))
	}
	if g.stands() {
		g.upright(on, module, modules*module)
	} else {
		g.lying(on, module, modules*module)
	}
	return nil
}

// lying draws a label that is wider than high: the code at the left, the text
// at the right.
func (g tag) lying(on canvas, module, side measure.Length) {
	r := g.room
	g.unit.qr.Draw(on, page.Point{X: r.Min.X, Y: r.Min.Y + (r.Height()-side)/2}, module)
	r.Min.X += side
	r = page.Rect{Min: page.Point{X: r.Min.X, Y: r.Min.Y + tagPad}, Max: page.Point{X: r.Max.X - tagPad, Y: r.Max.Y - tagPad}}
	g.lines(on, r, true)
}

// upright draws a label that is higher than wide, or nearly so: the text at the
// top, the code at the lower left.
func (g tag) upright(on canvas, module, side measure.Length) {
	r := g.room.Inset(2 * tagPad)
	foot := r.Max.Y
	if b := g.unit.bar; g.barFits() {
		b.DrawBars(on, page.Point{X: r.Min.X - measure.Length(b.Quiet)*barModule, Y: foot - barHeight}, barModule, barHeight)
		foot -= barHeight + 2*mm
	}
	quiet := measure.Length(g.unit.qr.Quiet) * module
	g.unit.qr.Draw(on, page.Point{X: r.Min.X - quiet, Y: foot - side + quiet}, module)
	top := foot - side + quiet
	g.lines(on, page.Rect{Min: r.Min, Max: page.Point{X: r.Max.X, Y: top}}, false)

	x := r.Min.X - quiet + side
	room := r.Max.X - x
	name, f := g.fit(g.unit.Code.Grouped(), bold(22*pt), room, smallest)
	on.Text(page.Point{X: x, Y: foot - quiet - 2*f.Size}, name, f)
	on.Text(page.Point{X: x, Y: foot - quiet - f.Size/2}, g.say("card.rev", string(g.unit.Revision)), regular(max(f.Size*3/4, smallest)))
}

// lines writes the part, its number, the shade, its place and its job below each other.
// With code, the code in letters comes last, for labels that have it nowhere
// else.
func (g tag) lines(on canvas, r page.Rect, code bool) {
	u := g.unit
	h := min(r.Height(), 90*mm)
	w := r.Width()
	rows := []struct {
		text  string
		face  page.Face
		share measure.Length // height in hundredths
	}{
		{g.part.name, bold(0), 24},
		{g.part.number, bold(0), 20},
		{g.lang.Put(u.Called()), semibold(0), 15},
		{u.Shade.Place, regular(0), 12},
		{u.Job.Name, regular(0), 12}, // parts of two jobs lie on one table
		{u.Code.Grouped() + "  " + g.revision(u), regular(0), 12},
	}
	if page.Width(rows[5].text, regular(smallest)) > w {
		rows[5].text = u.Code.Grouped()
	}
	if !code {
		rows[3], rows[4] = rows[4], rows[3] // a long place goes on below the rest
		rows = rows[:5]
	}
	y := r.Min.Y
	for i, row := range rows {
		room := w
		row.face.Size = max(min(h*row.share/100, 48*pt), smallest)
		if i == 0 {
			y += row.face.CapHeight()
		} else {
			y += row.face.Size * 112 / 100
		}
		if lines := (r.Max.Y - y) / (row.face.Size * 118 / 100); i == 4 && !code && lines > 1 {
			p := g.shrunk(row.text, row.face, room, smallest, int(min(lines, 3)))
			p.draw(on, page.Point{X: r.Min.X, Y: y - row.face.Size*8/10})
			continue
		}
		s, f := g.fit(row.text, row.face, room, smallest)
		on.Text(page.Point{X: r.Min.X, Y: y}, s, f)
	}
}

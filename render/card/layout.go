package card

import (
	"slices"

	"shadewright/render/page"
	"shadewright/ticket"
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
)

// A look says how tightly a ticket is set.
type look struct {
	text, small measure.Length // type sizes of text and of remarks
	gap         measure.Length // between sections
	pitch       measure.Length // between the steps of the route
	figure      measure.Length // smallest height of the drawings
	stop        measure.Length // type size of stops
	findings    int            // most lines of findings in a column
}

// looks lists the ways to set a ticket, from the most open to the tightest. The
// first that fits the page is used.
var looks = []look{
	{19 * pt / 2, 17 * pt / 2, 5 * mm, 7 * mm, 48 * mm, 13 * pt, 99},
	{9 * pt, 8 * pt, 4 * mm, 13 * mm / 2, 44 * mm, 13 * pt, 99},
	{17 * pt / 2, 8 * pt, 3 * mm, 6 * mm, 42 * mm, 12 * pt, 99},
	{8 * pt, smallest, 5 * mm / 2, 11 * mm / 2, 40 * mm, 12 * pt, 99},
	{8 * pt, smallest, 2 * mm, 5 * mm, 38 * mm, 12 * pt, 99},
	{smallest, smallest, 2 * mm, 5 * mm, 36 * mm, 11 * pt, 24},
	{smallest, smallest, 3 * mm / 2, 5 * mm, 34 * mm, 11 * pt, 12},
	{smallest, smallest, 3 * mm / 2, 9 * mm / 2, 34 * mm, 10 * pt, 6},
	{smallest, smallest, 5 * mm / 4, 9 * mm / 2, 29 * mm, 10 * pt, 3},
	{smallest, smallest, 1 * mm, 17 * mm / 4, 28 * mm, 10 * pt, 2},
	{smallest, smallest, 3 * mm / 4, 4 * mm, 24 * mm, 10 * pt, 1},
}

// A block is one section across the page. Its height may be anything from least
// to most; draw gets the room it was given.
type block struct {
	least, most measure.Length
	draw        func(on canvas, room page.Rect, u unit)
}

// fixed returns a block with a fixed height.
func fixed(h measure.Length, draw func(on canvas, room page.Rect, u unit)) block {
	return block{h, h, draw}
}

// placed is a block with its room on the page.
type placed struct {
	block
	room page.Rect
}

// A layout is the layout of one shade, shared by all its units.
type layout struct {
	of    *ticket.Ticket
	pages [][]placed
}

// serves reports whether the layout also fits t, another unit of the shade. The
// unit's own number, code and revision are not in the layout but drawn from the
// unit.
func (p *layout) serves(t *ticket.Ticket) bool {
	return p.of.Shade == t.Shade && p.of.Job == t.Job && slices.EqualFunc(p.of.Findings, t.Findings, finding.Finding.Equal) && p.of.Plan.Planned() == t.Plan.Planned()
}

func (p *layout) draw(on canvas, i int, u unit) {
	for _, b := range p.pages[i] {
		b.draw(on, b.room, u)
	}
}

// A maker lays out the sections of one ticket in one look.
type maker struct {
	*ticket.Ticket
	*setter
	look  look
	units units
	width measure.Length
	opt   Options
}

// narrow reports whether the paper is too narrow for the usual columns.
func (m maker) narrow() bool { return m.width < 160*mm }

// newLayout lays out a ticket in the most open look that fits one page. If even
// the tightest does not fit, the last sections go overleaf, in the most open
// look with the fewest pages.
func newLayout(t *ticket.Ticket, area page.Rect, opt Options, st *setter) *layout {
	m := maker{Ticket: t, setter: st, units: unitsOf(t.Job.Style), width: area.Width(), opt: opt}
	var best [][]placed
	for _, m.look = range looks {
		if pages := m.fill(area); best == nil || len(pages) < len(best) {
			best = pages
		}
		if len(best) == 1 {
			break
		}
	}
	return &layout{t, best}
}

// fill distributes the sections over as many pages as they need.
func (m maker) fill(area page.Rect) [][]placed {
	var pages [][]placed
	var list []block
	for _, b := range m.sections() {
		if _, ok := arrange(append(list[:len(list):len(list)], b, m.footer()), m.look.gap, area); !ok && len(list) > 1 {
			pages = append(pages, m.page(list, area))
			list = []block{m.overleafHead()}
		}
		list = append(list, b)
	}
	return append(pages, m.page(list, area))
}

// page arranges the sections of one page, and the footer.
func (m maker) page(list []block, area page.Rect) []placed {
	placed, _ := arrange(append(list, m.footer()), m.look.gap, area)
	return placed
}

// sections returns the blocks of a ticket from top to bottom: which shade this
// is, its stops, what to cut, then the rest in the order of work.
func (m maker) sections() []block {
	list := []block{m.head()}
	list = append(list, m.note()...)
	list = append(list, m.stops()...)
	list = append(list, m.cut()...)
	list = append(list, m.unchecked()...)
	list = append(list, m.findings()...)
	if !m.Stopped() || m.look.findings > 1 { // nothing is folded while a stop stands
		list = append(list, m.figures()...)
	}
	list = append(list, m.facts())
	list = append(list, m.fitting()...)
	return append(list, m.route(), m.cautions())
}

// arrange stacks blocks in the area, the last one at the bottom. Spare height
// goes first to the blocks that can grow and then to the gaps, which at most
// double. arrange reports whether all blocks fit.
func arrange(blocks []block, gap measure.Length, area page.Rect) ([]placed, bool) {
	gaps := measure.Length(len(blocks) - 1)
	spare := area.Height() - gaps*gap
	var growth measure.Length
	for _, b := range blocks {
		spare -= b.least
		growth += b.most - b.least
	}
	fits := spare >= 0
	spare = max(spare, 0)
	grow := min(spare, growth)
	gap += min((spare-grow)/max(gaps, 1), gap)
	var list []placed
	y := area.Min.Y
	for i, b := range blocks {
		h := b.least
		if growth > 0 {
			h += measure.Length(float64(b.most-b.least) / float64(growth) * float64(grow))
		}
		if i == len(blocks)-1 {
			y = max(y, area.Max.Y-h)
		}
		list = append(list, placed{b, page.Box(area.Min.X, y, area.Width(), h)})
		y += h + gap
	}
	return list, fits
}

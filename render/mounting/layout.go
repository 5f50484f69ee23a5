package mounting

import (
	"cmp"
	"errors"
	"fmt"

	"shadewright/render/fullscale"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/measure"
)

// The sizes of the parts around the drawing. They belong to the paper.
const (
	stopHeight    = 8 * mm      // the reason that the shade cannot be made as ordered
	subjectHeight = 6 * mm      // one line: mount, roll, codes
	titleHeight   = 16 * mm     // LEFT or RIGHT, and the distances
	compassHeight = 7 * mm      // the directions up, room and glass
	gutterWidth   = 44 * mm     // names of level lines, to the right of the drawing
	measureHeight = 6 * mm      // one measure below the drawing
	nameHeight    = 23 * mm / 5 // one name of an upright line
	columnWidth   = 58 * mm     // of a column of text
	columnGap     = 5 * mm      // between columns
	leastWidth    = 95 * mm     // a smaller piece of a drawing is useless
	leastHeight   = 40 * mm
	top           = subjectHeight + titleHeight + compassHeight
)

// A leaf is one page. It shows a piece of an end, or only text.
type leaf struct {
	fullscale.Sheet
	shade  *Sheet
	body   page.Rect // room for text and drawing
	end    *end
	xs, ys []sheet.Span // of all pieces of the end
	col    int
	row    int       // counted from the top
	words  page.Rect // room for columns of text; empty if there are none
	way    way
	first  int // sheet number of the end's first piece
}

// A where says where the columns of text go.
type where uint8

const (
	foot   where = iota // in columns below the drawing
	beside              // in a column to the right of it
	apart               // on a separate sheet
)

// lay arranges shades on sheets.
func lay(list []Sheet, opt Options) ([]*leaf, error) {
	var all []*leaf
	for i := range list {
		leaves, err := layOne(&list[i], opt)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", list[i].Shade, err)
		}
		for _, l := range leaves {
			l.first += len(all) + 1
		}
		all = append(all, leaves...)
	}
	return all, nil
}

// layOne tries all ways to lay out a shade and uses the one with the fewest
// sheets. A layout that shows every end whole always wins, even if it leaves
// out the glass of a recess whose front edge places the paper.
func layOne(s *Sheet, opt Options) ([]*leaf, error) {
	if len(s.Drilling.Views) == 0 {
		return nil, errors.New("no bracket to draw; give its plate, holes and axle")
	}
	papers, err := papers(opt)
	if err != nil {
		return nil, err
	}
	for _, loose := range []bool{false, true} {
		var whole []*plan
		for _, w := range []where{foot, beside, apart} {
			for _, on := range papers {
				if p := newPlan(s, on, w, loose, opt); p.whole() {
					whole = append(whole, p)
				}
			}
		}
		if len(whole) > 0 {
			return fewest(whole, opt)
		}
	}
	var cut []*plan
	for _, on := range papers {
		cut = append(cut, newPlan(s, on, apart, true, opt))
	}
	return fewest(cut, opt)
}

// fewest returns the sheets of the plan with the fewest sheets, the first of
// several; or the first error, if no plan works.
func fewest(plans []*plan, opt Options) (best []*leaf, err error) {
	for _, p := range plans {
		list, failed := p.leaves(opt)
		if failed != nil {
			err = cmp.Or(err, failed)
		} else if best == nil || len(list) < len(best) {
			best = list
		}
	}
	if best == nil {
		return nil, err
	}
	return best, nil
}

// papers returns the paper upright and on its side. It leaves out a direction
// in which the heading and the check rulers do not fit.
func papers(opt Options) ([]fullscale.Sheet, error) {
	p := opt.Paper.Portrait()
	upright, err := fullscale.On(p, opt.Margins)
	side, errSide := fullscale.On(p.Landscape(), opt.Margins.Turned())
	switch {
	case err != nil && errSide != nil:
		return nil, err
	case err != nil:
		return []fullscale.Sheet{side}, nil
	case errSide != nil:
		return []fullscale.Sheet{upright}, nil
	}
	return []fullscale.Sheet{upright, side}, nil
}

// A plan is one way to lay out a shade.
type plan struct {
	shade *Sheet
	on    fullscale.Sheet
	where where
	body  page.Rect    // below the stop, if there is one
	room  page.Rect    // for the drawing, its names and the text: the body below the titles
	views measure.Size // the largest piece of a drawing that stays whole
	ends  []*end
	tall  measure.Length // of the columns of text
	way   way
}

func newPlan(s *Sheet, on fullscale.Sheet, w where, loose bool, opt Options) *plan {
	p := &plan{shade: s, on: on, where: w, body: on.Body}
	if !s.Stop.IsZero() {
		p.body.Min.Y += stopHeight
	}
	p.room = p.body
	p.room.Min.Y += top
	size := measure.Size{Width: p.room.Width() - gutterWidth, Length: p.room.Height()}
	if w == beside {
		size.Width -= columnWidth + columnGap
	}
	p.ends = ends(s, size.Width, loose)
	p.way.together = len(p.ends[0].plates) > 1
	switch w {
	case foot:
		p.tall = heightOf(s, opt, p.way, p.room.Width())
		size.Length -= p.tall
	case beside:
		p.tall = heightOf(s, opt, p.way, columnWidth)
	}
	p.views = size
	for _, e := range p.ends {
		p.views.Length = min(p.views.Length, size.Length-e.below(opt))
	}
	return p
}

// whole reports whether every end stays in one piece.
func (p *plan) whole() bool {
	for _, e := range p.ends {
		if e.x.Extent() > p.views.Width || e.y.Extent() > p.views.Length {
			return false
		}
	}
	return p.where != beside || p.tall <= p.room.Height()
}

func (p *plan) leaves(opt Options) ([]*leaf, error) {
	if !p.whole() {
		p.way.tiled = true
		p.views.Length -= 2 * nameHeight // room for the names of two joints
	}
	if v := p.views; v.Width < leastWidth || v.Length < leastHeight {
		return nil, &sheet.SmallError{For: "the mounting sheets", Paper: opt.Paper, Style: opt.Style, Use: sheet.A4,
			Has: v, Needs: measure.Size{Width: leastWidth, Length: leastHeight}}
	}
	var all []*leaf
	if p.where == apart {
		all = append(all, &leaf{Sheet: p.on, shade: p.shade, body: p.body, words: p.room, way: p.way})
	}
	for _, e := range p.ends {
		leaves, err := p.pieces(e, opt, len(all))
		if err != nil {
			return nil, err
		}
		all = append(all, leaves...)
	}
	return all, nil
}

// pieces cuts an end into pieces that fit the paper, starting at the top left.
func (p *plan) pieces(e *end, opt Options, before int) ([]*leaf, error) {
	xs, err := spans(e.x, p.views.Width, opt.Overlap)
	if err != nil {
		return nil, err
	}
	ys, err := spans(e.y, p.views.Length, opt.Overlap)
	if err != nil {
		return nil, err
	}
	var list []*leaf
	for row := range ys {
		for col := range xs {
			list = append(list, &leaf{Sheet: p.on, shade: p.shade, body: p.body, end: e, xs: xs, ys: ys, col: col, row: row, words: p.wordsRoom(e, opt), way: p.way, first: before})
		}
	}
	return list, nil
}

// wordsRoom returns the room for columns of text on a sheet with a drawing.
func (p *plan) wordsRoom(e *end, opt Options) page.Rect {
	r := p.room
	switch p.where {
	case foot:
		r.Min.Y = min(r.Min.Y+e.y.Extent()+e.below(opt)+4*mm, r.Max.Y-p.tall)
		return r
	case beside:
		r.Min.X = r.Max.X - columnWidth
		return r
	}
	return page.Rect{}
}

// spans cuts s into the fewest pieces of at most usable, all equal except the
// last.
func spans(s sheet.Span, usable, overlap measure.Length) ([]sheet.Span, error) {
	list, err := sheet.EvenSpans(s.Extent(), usable, overlap)
	for i := range list {
		list[i].From += s.From
		list[i].To += s.From
	}
	return list, err
}

// ySpan returns the upright part of the end on this leaf. Rows count from the
// top.
func (l *leaf) ySpan() sheet.Span { return l.ys[len(l.ys)-1-l.row] }

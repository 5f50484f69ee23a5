package template

import (
	"fmt"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// Sizes of what stands around the lines. They are paper's, not the panel's.
const (
	captionHeight = 9 * measure.Millimetre  // words above a strip
	headroom      = 5 * measure.Millimetre  // from the topmost line to the caption
	scaleDepth    = 11 * measure.Millimetre // the scale below the raw edge
	stripGap      = 4 * measure.Millimetre  // between strips on a sheet
	headHeight    = 58 * measure.Millimetre // title and check square
	columnWidth   = 11 * measure.Millimetre // the upright check ruler
	leastBody     = 80 * measure.Millimetre // a strip narrower than this is no help
)

// Margins is what the printer leaves bare at the edges of the paper.
type Margins struct{ Left, Right, Top, Bottom measure.Length }

// A strip is a piece of a band on the paper: the part from one x to another.
type strip struct {
	band      *band
	index, of int // from 0
	from, to  measure.Length
	spans     []span // of the whole band
}

// A span is a stretch along the band.
type span struct{ from, to measure.Length }

// A sheet is one page: its paper, the room for strips, and the strips.
type sheet struct {
	size  measure.Size
	frame page.Rect // what the printer can print
	body  page.Rect // where strips and the gauge go
	items []item
}

// An item is a strip or a gauge with its place, the top left corner.
type item struct {
	strip *strip
	gauge *gauge
	at    page.Point
}

// height returns the room a band takes on the paper.
func (s shape) height() measure.Length {
	return captionHeight + headroom + s.folds.PocketMark + scaleDepth
}

// spansOf cuts the stretch from a to b into spans of at most width that overlap
// by overlap. Each is placed from a: nothing adds up. It uses as few as can be.
func spansOf(a, b, width, overlap measure.Length) []span {
	var list []span
	step := width - overlap
	for i := measure.Length(0); ; i++ {
		from := a + i*step
		if from+width >= b {
			return append(list, span{from, b})
		}
		list = append(list, span{from, from + width})
	}
}

// blank returns an empty sheet of the paper.
func blank(size measure.Size, m Margins) *sheet {
	f := page.Box(m.Left, m.Top, size.Width-m.Left-m.Right, size.Length-m.Top-m.Bottom)
	body := f
	body.Min.X += columnWidth
	body.Min.Y += headHeight
	return &sheet{size: size, frame: f, body: body}
}

// lay places gauges and strips on sheets of the paper, upright or on its side,
// whichever takes fewer sheets.
func lay(list []*band, opt Options) ([]*sheet, error) {
	upright, err := layOn(opt.Paper, list, opt)
	if opt.Paper.Width == opt.Paper.Length {
		return upright, err
	}
	turned := measure.Size{Width: opt.Paper.Length, Length: opt.Paper.Width}
	side, errSide := layOn(turned, list, opt)
	switch {
	case err != nil && errSide != nil:
		return nil, err
	case err != nil || errSide == nil && len(side) < len(upright):
		return side, nil
	}
	return upright, nil
}

func layOn(size measure.Size, list []*band, opt Options) ([]*sheet, error) {
	body := blank(size, opt.Margins).body
	tallest := measure.Length(0)
	for _, b := range list {
		tallest = max(tallest, b.height())
	}
	if body.Width() < leastBody || body.Height() < tallest || body.Width() <= 2*opt.Overlap {
		s := opt.Style
		return nil, fmt.Errorf("paper of %s × %s is too small for a band %s high; it leaves %s × %s inside margins and heading: use larger paper",
			s.Format(size.Width), s.Format(size.Length), s.Format(tallest), s.Format(max(body.Width(), 0)), s.Format(max(body.Height(), 0)))
	}
	l := &layout{size: size, opt: opt}
	for _, g := range gauges(list) {
		l.place(item{gauge: g}, g.folds.height())
	}
	l.next()
	for _, b := range list {
		spans := spansOf(-past, b.width+past, body.Width(), opt.Overlap)
		for i, s := range spans {
			l.place(item{strip: &strip{band: b, index: i, of: len(spans), from: s.from, to: s.to, spans: spans}}, b.height())
		}
	}
	return l.sheets, nil
}

// A layout fills sheets from the top down.
type layout struct {
	size   measure.Size
	opt    Options
	sheets []*sheet
	y      measure.Length // where the next item goes; 0: on a new sheet
}

func (l *layout) next() { l.y = 0 }

func (l *layout) place(it item, height measure.Length) {
	var s *sheet
	if n := len(l.sheets); n > 0 {
		s = l.sheets[n-1]
	}
	if l.y == 0 || l.y+height > s.body.Max.Y {
		s = blank(l.size, l.opt.Margins)
		l.sheets = append(l.sheets, s)
		l.y = s.body.Min.Y
	}
	it.at = page.Point{X: s.body.Min.X, Y: l.y}
	s.items = append(s.items, it)
	l.y += height + stripGap
}

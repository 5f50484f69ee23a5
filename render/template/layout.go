package template

import (
	"shadewright/render/fullscale"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// The sizes of the parts around the lines. They belong to the paper, not the
// panel.
const (
	captionHeight = 8 * mm  // the text above a strip
	headroom      = 5 * mm  // from the topmost line to the caption
	scaleDepth    = 13 * mm // the scale below the raw edge
	stripGap      = 4 * mm  // between strips on a sheet
	leastBody     = 80 * mm // a narrower strip is useless
)

// A strip is a piece of a band on the paper, from one x to another.
type strip struct {
	band     *band
	index    int // from 0
	from, to measure.Length
	spans    []sheet.Span // of the whole band
}

// A leaf is one page and the items in its body.
type leaf struct {
	fullscale.Sheet
	items []item
	cuts  []cutLine // of roll paper, between the items
	note  message.Message
}

// An item is a strip or a gauge with its top left corner.
type item struct {
	strip *strip
	gauge *gauge
	at    page.Point
}

// height returns the height of a band on the paper.
func (s shape) height() measure.Length {
	return captionHeight + headroom + s.folds.PocketMark + scaleDepth
}

// lay places gauges and strips on sheets. It turns the paper upright or on its
// side, whichever needs fewer sheets.
func lay(list pieces, opt Options) ([]*leaf, error) {
	if opt.Paper.Roll {
		return layRoll(list, opt)
	}
	upright := opt.Paper.Portrait()
	a, err := layOn(upright, opt.Margins, list, opt)
	if upright.Width == upright.Length {
		return a, err
	}
	b, errB := layOn(upright.Landscape(), opt.Margins.Turned(), list, opt)
	switch {
	case err != nil && errB != nil:
		return nil, err
	case err != nil, errB == nil && len(b) < len(a):
		return b, nil
	}
	return a, nil
}

func layOn(p sheet.Paper, m sheet.Margins, list pieces, opt Options) ([]*leaf, error) {
	frame, err := m.Within(p)
	if err != nil {
		return nil, err
	}
	if need := (measure.Size{Width: fullscale.ColumnWidth + leastBody, Length: fullscale.HeadHeight + tallest(list)}); frame.Width < need.Width || frame.Length < need.Length {
		return nil, &sheet.SmallError{For: "the template", Paper: opt.Paper, Style: opt.Style, Use: sheet.LargerPaper, Has: frame.Size, Needs: need}
	}
	s, err := fullscale.On(p, m)
	if err != nil {
		return nil, err
	}
	plan, err := sheet.Pack(stripsOf(list, s.Body.Width(), opt), stripGap, p, fullscale.Room(m))
	if err != nil {
		return nil, err
	}
	sheets := make([]*leaf, plan.Sheets)
	for i := range sheets {
		sheets[i] = &leaf{Sheet: s}
	}
	return arrange(plan, sheets, list), nil
}

// tallest returns the height of the highest piece.
func tallest(list pieces) measure.Length {
	var h measure.Length
	for _, s := range list.shapes() {
		h = max(h, s.height())
	}
	return h
}

// stripsOf returns the gauges and then the bands, to be laid out in a body of
// the given width.
func stripsOf(list pieces, width measure.Length, opt Options) []sheet.Strip {
	var strips []sheet.Strip
	for _, g := range list.gauges {
		strips = append(strips, sheet.Strip{Length: min(gaugeWidth, width), Height: g.height(), Overlap: opt.Overlap})
	}
	for _, b := range list.bands {
		strips = append(strips, sheet.Strip{Length: b.width + 2*past, Height: b.height(), Overlap: opt.Overlap})
	}
	return strips
}

// arrange moves the gauges and strips of a layout to their sheets.
func arrange(plan sheet.Layout, sheets []*leaf, list pieces) []*leaf {
	gs := list.gauges
	spans := make([][]sheet.Span, len(list.bands))
	for _, t := range plan.Tiles {
		if b := t.Strip - len(gs); b >= 0 {
			spans[b] = append(spans[b], sheet.Span{From: t.Span.From - past, To: t.Span.To - past})
		}
	}
	for _, t := range plan.Tiles {
		it := item{at: page.Point{X: t.Field.X, Y: t.Field.Y}}
		if b := t.Strip - len(gs); b >= 0 {
			s := spans[b][t.Index]
			it.strip = &strip{band: list.bands[b], index: t.Index, from: s.From, to: s.To, spans: spans[b]}
		} else {
			it.gauge = gs[t.Strip]
		}
		sheets[t.Sheet].items = append(sheets[t.Sheet].items, it)
	}
	return sheets
}

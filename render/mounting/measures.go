package mounting

import (
	"slices"

	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A span is a measure along x, with its text.
type span struct {
	sheet.Span
	words string
}

// measures returns the measures across an end, one for each row.
func (e *end) measures(opt Options) []span {
	var list []span
	add := func(a, b measure.Length, words message.ID) {
		s := sheet.Span{From: min(a, b), To: max(a, b)}
		list = append(list, span{s, opt.Say(words, opt.Words(s.Extent()))})
	}
	if e.jamb() {
		if front, ok := e.line(hang.FrontEdge); ok {
			add(front, 0, "mounting.front-edge")
		}
		if glass, ok := e.line(hang.GlassLine); ok {
			add(0, glass, "mounting.measure-to-glass")
		}
		return list
	}
	all := e.view.Plates
	add(all[0].Max.X, all[1].Min.X, "mounting.between-the-plates")
	if len(e.plates) > 1 {
		add(all[0].Axle.X, all[1].Axle.X, "mounting.between-the-bearings")
	} else {
		add(e.plates[0].Axle.X, 0, "mounting.to-the-centre")
	}
	for _, p := range e.plates {
		if at, ok := e.line([...]hang.LineName{hang.OpeningLeft, hang.OpeningRight}[p.Side]); ok {
			add(p.Axle.X, at, "mounting.to-the-opening")
		}
	}
	return list
}

// below returns the height of an end's measures and names below the drawing, if
// the end is in one piece.
func (e *end) below(opt Options) measure.Length {
	var n measure.Length
	for _, l := range e.view.Lines {
		if l.Upright && e.shows(l) {
			n++
		}
	}
	return measure.Length(len(e.measures(opt)))*measureHeight + n*nameHeight + 2*mm
}

// drawn is the visible part of a measure, on the paper.
type drawn struct {
	span
	from, to, y measure.Length
}

// measures draws the visible part of each measure below the drawing. A measure
// that continues on another sheet has an arrowhead only at its near end. The
// text comes last, on bare paper.
func (v view) measures(names []name) {
	if v.row+1 < len(v.ys) {
		return
	}
	foot := v.Place(0, v.Y.From).Y
	var list []drawn
	for i, s := range v.end.measures(v.Options) {
		if seen := overlapOf(s.Span, v.X); seen.Extent() > 0 {
			list = append(list, drawn{s, v.Place(seen.From, 0).X, v.Place(seen.To, 0).X, foot + measure.Length(i)*measureHeight + 7*mm/2})
		}
	}
	for _, m := range list {
		v.Line(page.Point{X: m.from, Y: m.y}, page.Point{X: m.to, Y: m.y}, page.Fine())
		v.tip(m.From, m.y, -1)
		v.tip(m.To, m.y, 1)
	}
	for i, m := range list {
		v.along(m, v.upright(names, list[i+1:]))
	}
}

// tip draws the end of a measure at x of the view, if it is visible: a line
// from the axle down to it, and an arrowhead that points along dx.
func (v view) tip(x, y, dx measure.Length) {
	if !v.Sees(x, v.Y.From) {
		return
	}
	at := page.Point{X: v.Place(x, 0).X, Y: y}
	v.Line(v.Place(x, min(max(0, v.Y.From), v.Y.To)), page.Point{X: at.X, Y: y + mm}, hatching)
	v.FillPolygon([]page.Point{at, {X: at.X - dx*2*mm, Y: y - 6*mm/10}, {X: at.X - dx*2*mm, Y: y + 6*mm/10}}, page.Black)
}

// upright returns the places where upright lines cross the row of a measure:
// the lines to names and to the measures below.
func (v view) upright(names []name, below []drawn) []measure.Length {
	var xs []measure.Length
	for _, n := range names {
		xs = append(xs, n.x)
	}
	for _, m := range below {
		xs = append(xs, v.Place(m.From, 0).X, v.Place(m.To, 0).X)
	}
	return xs
}

// along writes the text of a measure: in its middle or, if a line crosses the
// text there, at the nearest place clear of all lines. A line beside a figure
// could be read as a 1.
func (v view) along(m drawn, lines []measure.Length) {
	words, f := m.words, nameFace
	w := page.Width(words, f)
	x := v.clear(m, w, lines)
	if w+8*mm > m.to-m.from { // beside the measure, on the side with more room
		left, right := m.from-v.body.Min.X-2*mm, v.limit()-m.to-2*mm
		words, f = page.Fit(words, f, max(left, right), 6*page.Pt)
		w = page.Width(words, f)
		x = m.to + 2*mm
		if w > right {
			x = m.from - 2*mm - w
		}
	}
	at := page.Point{X: x, Y: m.y + f.CapHeight()/2}
	v.backed(at, w, f)
	v.Text(at, words, f)
}

// clear returns the start of a text of width w on a measure, clear of lines if
// possible.
func (v view) clear(m drawn, w measure.Length, lines []measure.Length) measure.Length {
	const step, aside = mm, 2 * mm
	middle := (m.from+m.to)/2 - w/2
	for off := measure.Length(0); off <= (m.to-m.from-w)/2-4*mm; off += step {
		for _, x := range []measure.Length{middle + off, middle - off} {
			if !slices.ContainsFunc(lines, func(l measure.Length) bool { return x-aside < l && l < x+w+aside }) {
				return x
			}
		}
	}
	return middle
}

// limit is how far to the right text may extend.
func (v view) limit() measure.Length { return v.Place(v.X.To, 0).X + gutterWidth }

// finer is the style for adding the exact distance if the job's own style
// rounds it.
var finer = measure.Style{System: measure.Millimetres, Metric: mm / 10}

// exact returns a length as text, and also in millimetres if the text is
// rounded.
func (d drawing) exact(l measure.Length) string {
	w := d.Words(l)
	if d.Style.Words(l, measure.Nearest).Rounded {
		f := finer
		f.Comma = d.Style.Comma
		w += " (" + f.Words(l, measure.Nearest).Typeset() + ")"
	}
	return w
}

// distances returns the large text about the two ends together, and the
// addition to it.
func (d drawing) distances(s *Sheet) (first, second string) {
	first, second = d.spread(s)
	if s.stray() {
		first = d.Say("mounting.do-not-drill-hole")
	}
	return first, second
}

// spread returns the text about the distance between the two ends.
func (d drawing) spread(s *Sheet) (first, second string) {
	g := s.Drilling
	if s.Mount == hang.Inside {
		first = d.Say("mounting.from-jamb-jamb", d.exact(g.Between+2*g.Shim))
		takes := d.exact(g.Between)
		switch {
		case g.Shim < 0:
			return d.Say("mounting.do-not-drill-fit"), d.Say("mounting.brackets-take-too-much", takes, d.exact(-2*g.Shim))
		case g.Shim >= d.Style.Step():
			return first, d.Say("mounting.brackets-take-with-packing", takes, d.exact(g.Shim))
		}
		return first, d.Say("mounting.brackets-take", takes)
	}
	return d.Say("mounting.between-the-plates", d.exact(g.Between)),
		d.Say("mounting.between-bearings-and-crosses", d.exact(g.Bearings), d.exact(s.crosses()))
}

// stray reports whether a hole lies in the waste: over the opening, or outside
// the recess.
func (s *Sheet) stray() bool {
	for _, v := range s.Drilling.Views {
		for _, a := range newEnd(s, v, v.Plates, false).cut {
			for _, p := range v.Plates {
				for _, h := range p.Holes {
					if a.meets(h.At, h.Diameter/2) {
						return true
					}
				}
			}
		}
	}
	return false
}

// crosses returns the distance from the first hole of the left plate to the
// first hole of the right one. Both plates are in one view.
func (s *Sheet) crosses() measure.Length {
	v := s.Drilling.Views[0]
	return v.Plates[1].Holes[0].At.X - v.Plates[0].Holes[0].At.X
}

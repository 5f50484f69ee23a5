package fullscale

import (
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/measure"
)

// Overlapping pieces are joined along a line in the middle of the overlap. Both
// pieces carry the same line and the same diamonds, placed from the drawing's
// origin. The diamonds of neighbouring joints are at different places, so a
// piece in the wrong order does not match.

// Joint returns the place where spans n-1 and n are joined.
func Joint(spans []sheet.Span, n int) measure.Length {
	return (spans[n-1].To + spans[n].From) / 2
}

// JointMarks returns the places of the two diamonds of joint n on a line of the
// given length: one low, one high. Each joint moves them up by a fifth of the
// way.
func JointMarks(n int, length measure.Length) [2]measure.Length {
	const room = 6 * mm
	half := length / 2
	move := (half - room) * measure.Length(n%5) / 5
	return [2]measure.Length{room/2 + move, half + room/2 + move}
}

// Map draws the whole drawing small in r: its pieces along x as boxes, with
// piece at (counted from 0) in black.
func (d Drawing) Map(r page.Rect, spans []sheet.Span, at int) {
	first, last := spans[0].From, spans[len(spans)-1].To
	for i, s := range spans {
		to := s.To
		if i+1 < len(spans) {
			to = spans[i+1].From
		}
		b := page.Box(r.Min.X+scaled(r.Width(), s.From-first, last-first), r.Min.Y, scaled(r.Width(), to-s.From, last-first), r.Height())
		if i == at {
			d.Fill(b, page.Black)
			continue
		}
		d.Rect(b, page.Fine())
	}
}

// scaled returns l·a/b.
func scaled(l, a, b measure.Length) measure.Length {
	return measure.FromMillimetres(l.Millimetres() * float64(a) / float64(b))
}

package template

import (
	"fmt"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// joints draws the lines at which a strip meets its neighbours. Both strips draw
// the same line with the same number and the same diamonds, placed from the
// panel's origin; the diamonds of one joint stand at other heights than those of
// the next, so a strip out of turn does not match.
func (v view) joints(s *strip) {
	if s.index > 0 {
		v.joint(s, s.index, true)
	}
	if s.index+1 < len(s.spans) {
		v.joint(s, s.index+1, false)
	}
}

// joint draws joint n, between strips n and n+1, seen from its right side or
// from its left.
func (v view) joint(s *strip, n int, right bool) {
	top := s.band.folds.PocketMark + headroom
	x := (s.spans[n-1].to + s.spans[n].from) / 2
	v.up(x, -scaleDepth+mm, top, joined)
	for _, y := range jointHeights(n, top) {
		v.diamond(x, y)
	}
	words, align, dx := fmt.Sprintf("lay joint %s%d of strip %d here", s.band.name, n, n+1), page.End, -mm
	if right {
		words, align, dx = fmt.Sprintf("trim here: joint %s%d", s.band.name, n), page.Start, mm
	}
	v.write(x+dx, -scaleDepth+mm, words, page.Face{Size: small.Size, Weight: page.Semibold, Align: align})
}

// jointHeights returns where the diamonds of joint n stand: one low, one high,
// moved up by a fifth of the way from joint to joint.
func jointHeights(n int, top measure.Length) [2]measure.Length {
	const room = 6 * mm
	half := top / 2
	move := (half - room) * measure.Length(n%5) / 5
	return [2]measure.Length{room/2 + move, half + room/2 + move}
}

// diamond draws an alignment mark: an outline with a cross in it.
func (v view) diamond(x, y measure.Length) {
	const r = 3 * mm
	v.Polygon([]page.Point{v.place(x-r, y), v.place(x, y+r), v.place(x+r, y), v.place(x, y-r)}, fine)
	v.Line(v.place(x-r, y), v.place(x+r, y), fine)
}

package template

import (
	"shadewright/render/fullscale"
	"shadewright/render/page"
)

// joints draws the lines where a strip meets its neighbours. Both strips carry
// the same line, the same number and the same diamonds.
func (v view) joints(s *strip) {
	if s.index > 0 {
		v.joint(s, s.index, true)
	}
	if s.index+1 < len(s.spans) {
		v.joint(s, s.index+1, false)
	}
}

// joint draws joint n, between strips n and n+1. With right it is seen from its
// right side, on strip n+1.
func (v view) joint(s *strip, n int, right bool) {
	top := s.band.folds.PocketMark + headroom
	x := fullscale.Joint(s.spans, n)
	v.Up(x, -scaleDepth+mm, top, fullscale.Joined())
	for _, y := range fullscale.JointMarks(n, top) {
		v.Diamond(x, y)
	}
	words, align, dx := v.Say("template.lay-joint-strip-here", s.band.name, n, n+1), page.End, -mm
	if right {
		words, align, dx = v.Say("template.trim-here-joint", s.band.name, n), page.Start, mm
	}
	v.Write(x+dx, -scaleDepth+mm, words, page.Face{Size: fullscale.Small().Size, Weight: page.Semibold, Align: align})
}

package interview

import (
	"cmp"
	"math"

	"shadewright/ticket/form"
	"shadewright/ticket/goods"
	"shadewright/ticket/measure"
)

// pocketTight reports whether the shop's usual pocket leaves too little room for the
// slat in this cloth, so that the pocket has to be asked for.
func (g *group) pocketTight() bool {
	if textAt(g.n, "allow.pocket") != "" {
		return true
	}
	return g.pocketLeast() > g.usualPocket()
}

// usualPocket returns the pocket of the job that is changed, or of the shop.
func (g *group) usualPocket() measure.Length {
	if l, err := measure.Parse(textAt(g.w.top, "allow.pocket"), g.w.units); err == nil {
		return l
	}
	return g.w.opt.Practice.Allow.Pocket
}

// pocketLeast returns the depth of a pocket that holds the slat with room to spare: half
// the slat's girth, the stitch row's inset, the cloth that the fold takes, and the room
// below which a pocket counts as snug. It returns zero while something is unknown.
func (g *group) pocketLeast() measure.Length {
	length := func(n *form.Node, key string) measure.Length {
		l, err := measure.Parse(textAt(n, key), g.w.units)
		if err != nil {
			return 0 // it is not known
		}
		return l
	}
	slat, cloth := g.w.parts["slats"].At(textAt(g.n, "slat")), g.w.parts["goods"].At(textAt(g.n, "goods"))
	thick := length(cloth, "thickness")
	if kind, ok := goods.ParseKind(textAt(cloth, "kind")); thick == 0 && ok {
		thick = kind.Cloth().Likely.Thick // the pocket must do for any likely cloth
	}
	if thick == 0 {
		return 0
	}
	need := length(slat, "width") + length(slat, "thickness")
	if d := length(slat, "diameter"); d > 0 {
		need = measure.FromMillimetres(math.Pi / 2 * d.Millimetres())
	}
	inset := g.w.opt.Practice.Allow.StitchInset
	if l := length(g.w.top, "allow.stitch_inset"); l > 0 {
		inset = l
	}
	return need + inset + thick + g.w.opt.Practice.Limits.Snug
}

// pair names the slat and the cloth that a pocket is for.
func (g *group) pair() string { return textAt(g.n, "slat") + "\n" + textAt(g.n, "goods") }

// pocketFor proposes the least pocket, rounded up to a mark of the tape.
func (g *group) pocketFor() string {
	step := cmp.Or(g.w.opt.Style(g.w.units).Step(), measure.Inch/16)
	return form.LengthText(g.pocketLeast().Round(step, measure.Up), g.w.units)
}

package ticket

import (
	"shadewright/ticket/goods"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// figure works out every dimension of a shade except the seam. It trusts that
// lengths are not negative, and judges nothing: judge does that.
func (t *Ticket) figure() {
	s, a := t.Shade, t.Shade.Allow
	cloth := s.Finished.Width
	t.Panel = Panel{
		Width:  cloth + 2*a.SideHem,
		Length: s.Finished.Length + a.Wrap + a.Hem + a.Pocket,
		Cloth:  cloth,
	}
	t.Panel.Diagonal = measure.Diagonal(t.Panel.Width, t.Panel.Length)
	t.Folds = Folds{
		HemFold:    a.Hem,
		HemMark:    2 * a.Hem,
		PocketFold: a.Hem + a.Pocket,
		PocketMark: a.Hem + 2*a.Pocket,
		Stitch:     a.Hem + 2*a.Pocket - a.StitchInset,
	}
	t.Pocket = pocketOf(a, s.Slat, s.Goods.Thickness)
	t.Tube = Tube{Trim: cloth + a.TubeOver}
	if t.Fit != nil { // the opening's own deductions set the length of the tube
		t.Tube.Trim = t.Fit.TubeTrim
	}
	t.Slat = Trim{Trim: cloth - 2*a.SlatGap, EndGap: a.SlatGap}
	t.Tape = Tape{Run: cloth, Total: 3 * cloth} // hem, pocket and tube
	c := s.Goods.Kind.Cloth()
	t.Edge = Edge{Method: c.Seal.Message(), Note: message.Of(c.SealNote), Heat: c.Seal.Heat(), Length: 2 * t.Panel.Length}
	t.roundCut()
}

// pocketOf works out the room in the pocket. The flat depth from turned edge to
// stitch row is p − s. The turn itself uses up to one thickness of cloth (a half
// circle about the middle of the cloth uses π/4 of it on each face). A flat slat
// needs half its girth, width + thickness; a rod π·d/2.
func pocketOf(a Allow, s Slat, thickness measure.Length) Pocket {
	p := Pocket{Inside: a.Pocket - a.StitchInset - thickness}
	if s.Round() {
		p.Needs = halfGirth(s.Diameter)
	} else {
		p.Needs = s.Width + s.Thickness
	}
	p.Spare = p.Inside - p.Needs
	return p
}

// halfGirth returns π·d/2 to the nearest nanometre.
func halfGirth(d measure.Length) measure.Length {
	const halfPi = 1.57079632679489661923132169163975144
	return measure.FromMillimetres(d.Millimetres() * halfPi)
}

// sew works out the seam. It trusts that the thread is in the table. The row passes
// through the front of the pocket and the two plies of the hem.
func (t *Ticket) sew() error {
	const plies = 3
	s := t.Shade.Sewing
	thread, _ := goods.ThreadOf(s.Thread)
	needle := s.Needle
	if needle == 0 {
		needle = thread.Needle
	}
	metric, _ := goods.NeedleMetric(needle)
	run := t.Panel.Cloth + 2*s.BackTack
	used, err := goods.LockstitchThread(run, plies*t.Shade.Goods.Thickness, s.StitchLength, s.Waste)
	if err != nil {
		return err
	}
	t.Stitch = Stitch{
		Type: "301", Length: s.StitchLength, PerInch: float64(measure.Inch) / float64(s.StitchLength),
		Seam: t.Panel.Cloth, Plies: plies,
		ThreadSize: s.Thread, Tex: thread.Tex, Needle: needle, NeedleMetric: metric, Thread: used,
	}
	return nil
}

// roundCut rounds the lengths that a rule is set to, so that the parts still fit.
// With side hems that are not whole steps, panel and tube would otherwise round
// apart.
func (t *Ticket) roundCut() {
	step, hems := t.Job.Style.Step(), 2*t.Shade.Allow.SideHem
	t.Cut = Cut{
		Width:  t.Panel.Width.Round(step, measure.Down),
		Length: t.Panel.Length.Round(step, measure.Up),
		Tube:   t.Tube.Trim.Round(step, measure.Down),
		Slat:   t.Slat.Trim.Round(step, measure.Down),
	}
	if t.Tube.Trim >= t.Panel.Cloth { // otherwise the order itself is at fault, which judge reports
		t.Cut.Width = min(t.Cut.Width, (t.Cut.Tube+hems).Round(step, measure.Down))
	}
	if cloth := t.Cut.Width - hems; t.Cut.Slat > cloth {
		t.Cut.Slat = cloth.Round(step, measure.Down)
	}
	t.Cut.Diagonal = measure.Diagonal(t.Cut.Width, t.Cut.Length).Round(step, measure.Nearest)
}

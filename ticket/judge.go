package ticket

import (
	"fmt"

	"shadewright/ticket/finding"
	"shadewright/ticket/goods"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

const practice = "common practice, no source"

// A judgement collects the findings of one ticket.
type judgement struct {
	finding.List
	t     *Ticket
	lim   Limits
	style measure.Style
}

// judge reports everything that is wrong or worth knowing about a ticket, except
// how it hangs. It trusts that figure has run.
func judge(t *Ticket, lim Limits) []finding.Finding {
	j := &judgement{t: t, lim: lim, style: t.Job.Style}
	j.folds()
	j.pocket()
	j.tube()
	j.slat()
	j.goods()
	j.sewing()
	j.edges()
	return j.List
}

func (j *judgement) say(l measure.Length) string { return j.style.Format(l) }

// folds refuses lines that cannot be folded in their order.
func (j *judgement) folds() {
	a, fin := j.t.Shade.Allow, j.t.Shade.Finished
	const source = "geometry of the two folds"
	if a.Hem > a.Pocket {
		hem, pocket := j.style.Apart(a.Hem, a.Pocket)
		j.Add(finding.Finding{Level: finding.Stop, Field: "allow.hem",
			Text:  message.Of("ticket.hem-too-deep", hem, pocket),
			Value: hem, Limit: pocket, Source: source, Remedy: message.Of("ticket.fix-hem-to", j.style.AtMost(a.Pocket))})
	}
	if a.StitchInset >= a.Hem {
		inset, hem := j.style.Apart(a.StitchInset, a.Hem)
		j.Add(finding.Finding{Level: finding.Stop, Field: "allow.stitch_inset",
			Text:  message.Of("ticket.stitch-row-misses-hem", inset, hem),
			Value: inset, Limit: hem, Source: source, Remedy: message.Of("ticket.fix-stitch-row-to", j.style.AtLeast(a.StitchInset+1))})
	}
	if a.Pocket > fin.Length {
		pocket, length := j.style.Apart(a.Pocket, fin.Length)
		j.Add(finding.Finding{Level: finding.Stop, Field: "allow.pocket",
			Text:  message.Of("ticket.pocket-too-deep", pocket, length),
			Value: pocket, Limit: length, Source: source, Remedy: message.Of("ticket.fix-pocket-to", j.style.AtMost(fin.Length))})
	}
}

// pocket compares the room in the pocket with the slat.
func (j *judgement) pocket() {
	p := j.t.Pocket
	const source = "half the slat's girth against the flat pocket"
	switch {
	case p.Spare < 0:
		needs, inside := j.style.Apart(p.Needs, p.Inside)
		j.Add(finding.Finding{Level: finding.Stop, Field: "slat",
			Text:  message.Of("ticket.slat-too-big", needs, inside),
			Value: needs, Limit: inside, Source: source,
			Remedy: message.Of("ticket.fix-pocket-for-slat", j.style.AtLeast(j.t.Shade.Allow.Pocket-p.Spare))})
	case p.Spare < j.lim.Snug:
		j.Add(finding.Finding{Level: finding.Note, Field: "slat",
			Text:  j.snug(p.Spare),
			Value: j.say(p.Spare), Limit: j.say(j.lim.Snug), Source: source + "; limit: " + practice,
			Remedy: message.Of("ticket.try-slat-first")})
	}
}

// snug says how little room is to spare, and never says "0 in" for a small rest.
func (j *judgement) snug(spare measure.Length) message.Message {
	if step := j.style.Step(); spare > 0 && spare.Round(step, measure.Nearest) == 0 {
		return message.Of("ticket.pocket-snug-under", j.say(step))
	}
	return message.Of("ticket.pocket-snug", j.say(spare))
}

// tube compares the trim with the range of the donor's tube.
func (j *judgement) tube() {
	r, trim := j.t.Shade.Roller, j.t.Tube.Trim
	const source = "the roller's own range"
	width := j.t.Shade.Finished.Width
	f := finding.Finding{Level: finding.Stop, Field: "roller", Value: j.say(trim), Source: source}
	switch {
	case r.Longest > 0 && trim > r.Longest:
		f.Value, f.Limit = j.style.Apart(trim, r.Longest)
		f.Text = message.Of("ticket.tube-too-long", f.Value, r.Name, f.Limit)
		f.Remedy = message.Of("ticket.fix-width-at-most", j.style.AtMost(width-(trim-r.Longest)))
	case trim < r.Shortest:
		f.Value, f.Limit = j.style.Apart(trim, r.Shortest)
		f.Text = message.Of("ticket.tube-too-short", f.Value, r.Name, f.Limit)
		f.Remedy = message.Of("ticket.fix-width-at-least", j.style.AtLeast(width+r.Shortest-trim))
	case r.Shortest > 0 && r.Longest-trim < j.lim.TrimMargin:
		f.Level = finding.Note
		f.Text = message.Of("ticket.roller-nearly-drawn-out", r.Name, j.say(r.Longest-trim))
		f.Limit, f.Source = j.say(j.lim.TrimMargin), practice
		f.Remedy = message.Of("ticket.check-barrel-overlap")
	default:
		return
	}
	j.Add(f)
}

// slat refuses a slat without length.
func (j *judgement) slat() {
	if t := j.t.Slat.Trim; t <= 0 {
		j.Add(finding.Finding{Level: finding.Stop, Field: "allow.slat_gap",
			Text:  message.Of("ticket.no-slat-left", j.say(j.t.Shade.Allow.SlatGap), j.say(j.t.Panel.Cloth)),
			Value: j.say(j.t.Shade.Allow.SlatGap), Limit: j.say(j.t.Panel.Cloth / 2), Source: "geometry", Remedy: message.Of("ticket.fix-slat-gap")})
	}
}

// sewing compares needle and stitch with the thread's range.
func (j *judgement) sewing() {
	s := j.t.Stitch
	thread, ok := goods.ThreadOf(s.ThreadSize)
	if ok && (s.Needle < thread.NeedleLeast || s.Needle > thread.NeedleMost) {
		j.Add(finding.Finding{Level: finding.Caution, Field: "sewing.needle",
			Text:  message.Of("ticket.needle-wrong", s.Needle, s.ThreadSize),
			Value: fmt.Sprint(s.Needle), Limit: fmt.Sprintf("%d to %d", thread.NeedleLeast, thread.NeedleMost),
			Source: thread.Source, Remedy: message.Of("ticket.use-needle", thread.Needle)})
	}
	const shortest, longest = 2 * measure.Millimetre, 8 * measure.Millimetre
	if s.Length < shortest || s.Length > longest {
		own := measure.Style{System: measure.Millimetres, Metric: measure.Nanometre, Comma: j.style.Comma}
		j.Add(finding.Finding{Level: finding.Caution, Field: "sewing.stitch",
			Text:  message.Of("ticket.stitch-unusual", own.Format(s.Length)),
			Value: s.Length.String(), Limit: fmt.Sprintf("%s to %s", shortest, longest), Source: practice,
			Remedy: message.Of("ticket.usual-stitch")})
	}
}

// edges notes cloth that frays and has no hem to hide its sides.
func (j *judgement) edges() {
	if j.t.Shade.Goods.Kind.Cloth().Seal == goods.SideHem && j.t.Shade.Allow.SideHem == 0 {
		j.Add(finding.Finding{Level: finding.Note, Field: "allow.side_hem",
			Text:   message.Of("ticket.ravels-without-side-hem", j.t.Shade.Goods.Name),
			Source: practice, Remedy: message.Of("ticket.fix-raveling")})
	}
}

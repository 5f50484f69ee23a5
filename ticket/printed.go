package ticket

import (
	"shadewright/ticket/finding"
	"shadewright/ticket/hang"
	"shadewright/ticket/message"
)

// Printed lists everything that a person can read on the ticket, from top to
// bottom, and what stands on its mounting sheet. The revision is made from this list and from nothing else: a value that
// the page shows and the list lacks would let two different tickets share a
// revision. Language, wording, preview and the other units have no part in it.
//
// A key is for good. Where its meaning or the form of its value changes, give it
// another key and raise [PrintedFormat].
func (t *Ticket) Printed() Printed {
	l := &values{list: make([]Value, 0, 128)}
	t.printHead(l)
	t.printPanel(l)
	t.printParts(l)
	t.printSeam(l)
	t.printOpening(l)
	t.printRoll(l)
	t.printSpring(l)
	t.printWork(l)
	t.printMounting(l)
	return Printed{Format: PrintedFormat, Values: l.list}
}

// printHead lists which shade of which job this is, and in which unit it reads.
func (t *Ticket) printHead(l *values) {
	s := t.Shade
	l.text("shade.id", s.ID)
	l.text("shade.place", s.Place)
	l.text("shade.note", s.Note)
	l.text("job.name", t.Job.Name)
	l.text("job.client", t.Job.Client)
	l.plain("job.due", t.Job.DueText())
	l.count("unit", t.Unit)
	l.count("unit.of", t.Of)
	l.count("unit.remake", t.Remake)
	l.plain("unit.code", string(t.Code))
	l.plain("rule.unit", t.Job.Style.System.String())
	l.length("rule.step", t.Job.Style.Step())
}

// printPanel lists what is cut, from which goods, and the lines on it.
func (t *Ticket) printPanel(l *values) {
	s, a := t.Shade, t.Shade.Allow
	if p := t.Plan; p.Planned() {
		l.text("plan.piece", p.On)
		l.count("plan.section", p.Section)
		l.counts("plan.count-cuts", p.Cuts)
	}
	l.text("goods.name", s.Goods.Name)
	l.message("goods.kind", message.Of(s.Goods.Kind.Cloth().Name))
	l.length("cut.width", t.Cut.Width)
	l.length("cut.length", t.Cut.Length)
	l.length("cut.diagonal", t.Cut.Diagonal)
	l.length("cut.square", t.Square)
	l.length("panel.width", t.Panel.Width)
	l.length("panel.length", t.Panel.Length)
	l.length("finished.width", s.Finished.Width)
	l.length("finished.length", s.Finished.Length)
	l.length("allow.wrap", a.Wrap)
	l.length("allow.hem", a.Hem)
	l.length("allow.pocket", a.Pocket)
	l.length("allow.stitch_inset", a.StitchInset)
	l.length("allow.side_hem", a.SideHem)
	l.length("line.hem_fold", t.Folds.HemFold)
	l.length("line.hem_mark", t.Folds.HemMark)
	l.length("line.pocket_fold", t.Folds.PocketFold)
	l.length("line.stitch", t.Folds.Stitch)
	l.length("line.pocket_mark", t.Folds.PocketMark)
	l.plain("roll", s.Roll.String())
}

// printParts lists tube, slat and tape.
func (t *Ticket) printParts(l *values) {
	r, s := t.Shade.Roller, t.Shade.Slat
	l.length("tube.trim", t.Cut.Tube)
	l.text("roller.name", r.Name)
	l.length("roller.tube", r.Tube)
	l.length("roller.shortest", r.Shortest)
	l.length("roller.longest", r.Longest)
	l.length("slat.trim", t.Cut.Slat)
	l.length("slat.end_gap", t.Slat.EndGap)
	l.text("slat.name", s.Name)
	if s.Round() {
		l.length("slat.diameter", s.Diameter)
	} else {
		l.length("slat.width", s.Width)
		l.length("slat.thickness", s.Thickness)
	}
	l.length("tape.total", t.Tape.Total)
	if t.Tape.Run > 0 {
		l.count("tape.runs", int(t.Tape.Total/t.Tape.Run))
		l.length("tape.run", t.Tape.Run)
	}
}

// printSeam lists the seam and the sides.
func (t *Ticket) printSeam(l *values) {
	s := t.Stitch
	l.length("stitch.length", s.Length)
	l.plain("stitch.per_inch", neutral.Decimal(s.PerInch, 1))
	l.plain("stitch.type", s.Type)
	l.count("stitch.plies", s.Plies)
	l.length("stitch.seam", s.Seam)
	l.length("stitch.backtack", t.Shade.Sewing.BackTack)
	l.count("thread.size", s.ThreadSize)
	l.count("thread.tex", s.Tex)
	l.plain("thread.metres", neutral.Decimal(s.Thread.Metres(), 1))
	l.count("needle.number", s.Needle)
	l.count("needle.metric", s.NeedleMetric)
	l.message("needle.note", message.Of(t.Shade.Goods.Kind.Cloth().Needle))
	l.message("edge.method", t.Edge.Method)
	l.message("edge.note", t.Edge.Note)
	l.length("edge.length", t.Edge.Length)
}

// printOpening lists what was measured at the opening and what became of it.
func (t *Ticket) printOpening(l *values) {
	fit := t.Fit
	if fit == nil {
		return
	}
	o := t.Shade.Opening
	l.plain("opening.mount", o.Mount.String())
	l.length("opening.width", fit.Opening.Width)
	l.length("opening.length", fit.Opening.Length)
	l.length("opening.tip_to_tip", fit.TipToTip)
	l.lengths("opening.measured_width", o.Widths...)
	l.lengths("opening.measured_height", o.Heights...)
	if o.Diagonals[0] > 0 && o.Diagonals[1] > 0 {
		l.lengths("opening.measured_diagonal", o.Diagonals[:]...)
	}
	for _, s := range fit.Steps {
		if s.Kind == hang.TakenOff || s.Kind == hang.Added {
			l.length("opening."+s.Key, s.Value)
		}
	}
}

// printRoll lists the rolled-up shade and its tube.
func (t *Ticket) printRoll(l *values) {
	if t.Roll == nil || t.Fit == nil && t.Weight == nil {
		return // that part of the ticket is left out
	}
	l.length("rolled.diameter", micrometre(t.Roll.DiameterUp))
	l.plain("rolled.turns", hang.TurnsText(neutral, t.Roll.Turns))
	l.plain("rolled.wraps_left", hang.TurnsText(neutral, t.Roll.WrapsLeft))
	if c := t.Clearance(); c != nil {
		l.message("clear.of", c.What())
		l.plain("clear.gap", nanometres(micrometre(c.Gap))) // none left is printed, too
		l.length("clear.axle", micrometre(t.Axle))
	}
	if s := t.Sag; s != nil {
		l.plain("sag", neutral.Decimal(s.Sag.Millimetres(), 2))
		l.length("sag.limit", s.Limit)
	}
}

// printSpring lists how the spring is wound, or where a scale is to be read.
func (t *Ticket) printSpring(l *values) {
	w := t.Wind
	if w == nil {
		if t.TrialAt != nil {
			l.lengths("trial.at", t.TrialAt[:]...)
		}
		return
	}
	l.plain("spring.rate", neutral.Decimal(w.Rate, 2))
	if w.OK {
		l.plain("spring.turns", hang.TurnsText(neutral, w.Turns))
		l.plain("spring.least", hang.TurnsText(neutral, w.Least))
		l.plain("spring.most", hang.TurnsText(neutral, w.Most))
	}
	if n := len(w.Pulls); n > 0 {
		l.count("spring.pulls", n)
		l.length("spring.pull", micrometre(w.Pulls[0]))
	}
	l.plain("weight", neutral.Decimal(t.Weight.Total.Grams(), 0))
}

// printWork lists the findings, the steps and the cautions.
func (t *Ticket) printWork(l *values) {
	for _, f := range t.Findings {
		if !t.asksItself(f) {
			l.messages("finding", f.Level.Message(), f.Text, f.Remedy)
		}
	}
	for _, g := range t.Route.Groups() {
		for _, s := range g.Steps {
			l.messages("step", message.Verbatim(s.Key), s.Message(), g.Message())
		}
	}
	for _, c := range t.Cautions {
		l.messages("caution", c.Head, c.Text)
	}
}

// printMounting lists what is on the unit's mounting sheet, which carries the
// revision, too.
func (t *Ticket) printMounting(l *values) {
	d := t.Drilling
	if d == nil {
		return
	}
	l.length("mount.bearings", d.Bearings)
	l.length("mount.between", d.Between)
	l.length("mount.shim", d.Shim)
	if t.Fastener != nil {
		l.plain("mount.behind", t.Fastener.Behind.String())
	}
	for _, v := range d.Views {
		for _, p := range v.Plates {
			l.fields("mount.plate", v.Name+" "+p.Side.String()+" "+p.Pin.String(), p.Min.X, p.Min.Y, p.Max.X, p.Max.Y, p.Axle.X, p.Axle.Y)
			for _, h := range p.Holes {
				l.fields("mount.hole", v.Name+" "+p.Side.String(), h.At.X, h.At.Y, h.Diameter)
			}
		}
		for _, line := range v.Lines {
			l.fields("mount.line", v.Name+" "+string(line.Name), line.At)
		}
	}
}

// asksItself reports whether a cell of the ticket asks for what a finding says is
// missing; the finding is not printed then.
func (t *Ticket) asksItself(f finding.Finding) bool {
	return t.TrialAt != nil && f.Level == finding.Note && f.Unchecked
}

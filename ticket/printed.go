package ticket

import (
	"shadewright/ticket/finding"
	"shadewright/ticket/hang"
	"shadewright/ticket/message"
)

// Printed lists everything that a person can read on the ticket, from top to
// bottom, and on its mounting sheet. The revision is made from this list alone: if
// the page showed a value that the list lacks, two different tickets could share a
// revision. Language, wording, preview and the other units have no effect on it.
//
// A key is permanent. If its meaning or the form of its value changes, use a new
// key and raise [PrintedFormat].
func (t *Ticket) Printed() Printed {
	l := &List{Values: make([]Value, 0, 128)}
	t.printHead(l)
	t.printPanel(l)
	t.printParts(l)
	t.printSeam(l)
	t.printOpening(l)
	t.printRoll(l)
	t.printSpring(l)
	t.printFitting(l)
	t.printWork(l)
	t.printMounting(l)
	return Printed{Format: PrintedFormat, Values: l.Values}
}

// printHead lists which shade of which job this is, and the units of its lengths.
func (t *Ticket) printHead(l *List) {
	s := t.Shade
	l.Text("shade.id", s.ID)
	l.Text("shade.place", s.Place)
	l.Text("shade.note", s.Note)
	l.Text("job.name", t.Job.Name)
	l.Text("job.client", t.Job.Client)
	l.Plain("job.due", t.Job.DueText())
	l.Count("unit", t.Unit)
	l.Count("unit.of", t.Of)
	l.Count("unit.remake", t.Remake)
	l.Plain("unit.code", string(t.Code))
	l.Plain("rule.unit", t.Job.Style.System.String())
	l.Length("rule.step", t.Job.Style.Step())
}

// printPanel lists the panel to cut, its goods, and the lines on it.
func (t *Ticket) printPanel(l *List) {
	s, a := t.Shade, t.Shade.Allow
	if p := t.Plan; p.Planned() {
		l.Text("plan.piece", p.On)
		l.Count("plan.section", p.Section)
		l.Counts("plan.cuts", p.Cuts)
	}
	l.Text("goods.name", s.Goods.Name)
	l.Message("goods.kind", message.Of(s.Goods.Kind.Cloth().Name))
	l.Length("cut.width", t.Cut.Width)
	l.Length("cut.length", t.Cut.Length)
	l.Length("cut.diagonal", t.Cut.Diagonal)
	l.Length("cut.square", t.Square)
	l.Length("panel.width", t.Panel.Width)
	l.Length("panel.length", t.Panel.Length)
	l.Length("finished.width", s.Finished.Width)
	l.Length("finished.length", s.Finished.Length)
	l.Length("allow.wrap", a.Wrap)
	l.Length("allow.hem", a.Hem)
	l.Length("allow.pocket", a.Pocket)
	l.Length("allow.stitch_inset", a.StitchInset)
	l.Length("allow.side_hem", a.SideHem)
	l.Length("line.hem_fold", t.Folds.HemFold)
	l.Length("line.hem_mark", t.Folds.HemMark)
	l.Length("line.pocket_fold", t.Folds.PocketFold)
	l.Length("line.stitch", t.Folds.Stitch)
	l.Length("line.pocket_mark", t.Folds.PocketMark)
	l.Plain("roll", s.Roll.String())
}

// printParts lists tube, slat and tape.
func (t *Ticket) printParts(l *List) {
	r, s := t.Shade.Roller, t.Shade.Slat
	l.Length("tube.trim", t.Cut.Tube)
	l.Text("roller.name", r.Name)
	l.Length("roller.tube", r.Tube)
	l.Length("roller.shortest", r.Shortest)
	l.Length("roller.longest", r.Longest)
	l.Length("slat.trim", t.Cut.Slat)
	l.Length("slat.end_gap", t.Slat.EndGap)
	l.Text("slat.name", s.Name)
	if s.Round() {
		l.Length("slat.diameter", s.Diameter)
	} else {
		l.Length("slat.width", s.Width)
		l.Length("slat.thickness", s.Thickness)
	}
	l.Length("tape.total", t.Tape.Total)
	if t.Tape.Run > 0 {
		l.Count("tape.runs", int(t.Tape.Total/t.Tape.Run))
		l.Length("tape.run", t.Tape.Run)
	}
}

// printSeam lists the seam and the sides.
func (t *Ticket) printSeam(l *List) {
	s := t.Stitch
	l.Length("stitch.length", s.Length)
	l.Plain("stitch.per_inch", neutral.Decimal(s.PerInch, 1))
	l.Plain("stitch.type", s.Type)
	l.Count("stitch.plies", s.Plies)
	l.Length("stitch.seam", s.Seam)
	l.Length("stitch.backtack", t.Shade.Sewing.BackTack)
	l.Count("thread.size", s.ThreadSize)
	l.Count("thread.tex", s.Tex)
	l.Plain("thread.metres", neutral.Decimal(s.Thread.Metres(), 1))
	l.Count("needle.number", s.Needle)
	l.Count("needle.metric", s.NeedleMetric)
	l.Message("needle.note", message.Of(t.Shade.Goods.Kind.Cloth().Needle))
	l.Message("edge.method", t.Edge.Method)
	l.Message("edge.note", t.Edge.Note)
	l.Length("edge.length", t.Edge.Length)
}

// printOpening lists the measurements of the opening and the steps to the finished
// size.
func (t *Ticket) printOpening(l *List) {
	fit := t.Fit
	if fit == nil {
		return
	}
	o := t.Shade.Opening
	l.Plain("opening.mount", o.Mount.String())
	l.Length("opening.width", fit.Opening.Width)
	l.Length("opening.length", fit.Opening.Length)
	l.Length("opening.tip_to_tip", fit.TipToTip)
	l.Lengths("opening.measured_width", o.Widths...)
	l.Lengths("opening.measured_height", o.Heights...)
	if o.Diagonals[0] > 0 && o.Diagonals[1] > 0 {
		l.Lengths("opening.measured_diagonal", o.Diagonals[:]...)
	}
	for _, s := range fit.Steps {
		if s.Kind == hang.TakenOff || s.Kind == hang.Added {
			l.Length("opening."+s.Key, s.Value)
		}
	}
}

// printRoll lists the rolled-up shade and its tube.
func (t *Ticket) printRoll(l *List) {
	if t.Roll == nil || t.Fit == nil && t.Weight == nil {
		return // the ticket leaves that part out
	}
	l.Length("rolled.diameter", micrometre(t.Roll.DiameterUp))
	l.Plain("rolled.turns", hang.TurnsText(neutral, t.Roll.Turns))
	l.Plain("rolled.wraps_left", hang.TurnsText(neutral, t.Roll.WrapsLeft))
	if c := t.Clearance(); c != nil {
		l.Message("clear.of", c.What())
		l.Plain("clear.gap", nanometres(micrometre(c.Gap))) // printed even if it is zero
		l.Length("clear.axle", micrometre(t.Axle))
	}
	if s := t.Sag; s != nil {
		l.Plain("sag", neutral.Decimal(s.Sag.Millimetres(), 2))
		l.Length("sag.limit", s.Limit)
	}
}

// printSpring lists how far to wind the spring, or where to read a scale.
func (t *Ticket) printSpring(l *List) {
	w := t.Wind
	if w == nil {
		if t.TrialAt != nil {
			l.Lengths("trial.at", t.TrialAt[:]...)
		}
		return
	}
	l.Plain("spring.rate", neutral.Decimal(w.Rate, 2))
	if w.OK {
		l.Plain("spring.turns", hang.TurnsText(neutral, w.Turns))
		l.Plain("spring.least", hang.TurnsText(neutral, w.Least))
		l.Plain("spring.most", hang.TurnsText(neutral, w.Most))
	}
	if n := len(w.Pulls); n > 0 {
		l.Count("spring.pulls", n)
		l.Length("spring.pull", micrometre(w.Pulls[0]))
	}
	l.Plain("weight", neutral.Decimal(t.Weight.Total.Grams(), 0))
}

// printWork lists the findings, the steps and the cautions.
func (t *Ticket) printWork(l *List) {
	for _, f := range t.Findings {
		if f.Level != finding.Unchecked {
			l.Messages("notice", f.Level.Message(), f.Text, f.Remedy)
		}
	}
	for _, m := range t.Missing() {
		l.Messages("unchecked", m)
	}
	for _, g := range t.Route.Groups() {
		for _, s := range g.Steps {
			l.Messages("work", message.Verbatim(s.Key), s.Message(), g.Message())
		}
	}
	for _, c := range t.Cautions {
		l.Messages("caution", c.Head, c.Text)
	}
}

// printMounting lists what is on the unit's mounting sheet, which also shows the
// revision.
func (t *Ticket) printMounting(l *List) {
	d := t.Drilling
	if d == nil {
		return
	}
	l.Length("mount.bearings", d.Bearings)
	l.Length("mount.between", d.Between)
	l.Length("mount.shim", d.Shim)
	if t.Fastener != nil {
		l.Plain("mount.behind", t.Fastener.Behind.String())
	}
	for _, v := range d.Views {
		for _, p := range v.Plates {
			l.Fields("mount.plate", v.Name+" "+p.Side.String()+" "+p.Pin.String(), p.Min.X, p.Min.Y, p.Max.X, p.Max.Y, p.Axle.X, p.Axle.Y)
			for _, h := range p.Holes {
				l.Fields("mount.hole", v.Name+" "+p.Side.String(), h.At.X, h.At.Y, h.Diameter)
			}
		}
		for _, line := range v.Lines {
			l.Fields("mount.line", v.Name+" "+string(line.Name), line.At)
		}
	}
}

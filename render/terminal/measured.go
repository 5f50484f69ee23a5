package terminal

import (
	"io"

	"shadewright/ticket"
	"shadewright/ticket/finding"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/square"
)

// Square writes what two diagonals show about a panel. It returns the first
// error of w.
func Square(w io.Writer, q square.Quad, r square.Result, found []finding.Finding, style measure.Style) error {
	l := &lines{w: w, style: style}
	l.print("%s × %s: both diagonals should read %s and may differ by at most %s\n",
		style.Format(q.Size.Width), style.Format(q.Size.Length), style.Format(r.Target), style.Format(r.Allowed))
	word := "not square"
	if r.Square {
		word = "square within tolerance"
	}
	l.print("they differ by %s: %s\n", l.fine(r.Difference), word)
	if r.Lean != square.Upright {
		l.print("the top leans %s by %s over the length\n", r.Lean, l.fine(r.TopOver))
		l.print("trim both ends: cut %s off at the %s and %s corners, tapering to nothing at the other corner of each end\n", l.fine(r.Trim), r.Corners[0], r.Corners[1])
	}
	for _, f := range found {
		l.print("%-8s %s; %s\n", f.Level, f.Text, f.Remedy)
	}
	return l.err
}

// fine formats a small length. If the rule's step would round it, fine adds the
// length to a hundredth of a millimetre.
func (l *lines) fine(v measure.Length) string {
	if v.Round(l.style.Step(), measure.Nearest) == v {
		return l.style.Format(v)
	}
	mm := l.style.Decimal(v.Millimetres(), 2) + " mm"
	if l.style.System == measure.Millimetres || v < l.style.Step() {
		return mm
	}
	return l.style.Format(v) + " (" + mm + ")"
}

// Spring writes how to wind a shade's spring, or how to find the spring's rate.
// It returns the first error of w.
func Spring(w io.Writer, t *ticket.Ticket) error {
	l := &lines{w: w, style: t.Job.Style}
	l.print("%s", t.Shade.Called())
	if t.Weight != nil {
		l.print(": %s g hangs from the tube with the shade down", l.style.Decimal(t.Weight.Total.Grams(), 0))
	}
	l.print("\n")
	if r := t.Rate; r != nil {
		l.print("result of the trial: %s ± %s N·mm per turn, and %s ± %s turns on the spring with the shade up\n",
			l.style.Decimal(r.PerTurn, 2), l.style.Decimal(r.PerTurnError, 2), l.style.Decimal(r.Turns, 1), l.style.Decimal(r.TurnsError, 1))
	}
	switch {
	case t.Wind != nil:
		l.wind(t)
	case t.TrialAt != nil:
		l.trial(t)
	}
	for _, f := range t.Findings {
		switch f.Field {
		case "trial", "roller.spring", "slat.mass", "goods.mass", "goods.thickness":
			l.print("%-9s %s: %s; %s\n", f.Level, f.Field, f.Text, f.Remedy)
		}
	}
	return l.err
}

// wind writes how far to wind the spring, how to do it by hand, and the torque
// at each height.
func (l *lines) wind(t *ticket.Ticket) {
	w := t.Wind
	l.print("spring: %s N·mm per turn\n", l.style.Decimal(w.Rate, 2))
	if !w.OK {
		return
	}
	l.print("wind it %s turns with the shade up; %s to %s turns work\n", ticket.TurnsText(l.style, w.Turns), hang.TurnsText(l.style, w.Least), hang.TurnsText(l.style, w.Most))
	if len(w.Pulls) > 0 {
		l.print("by hand, starting with a slack spring: pull the cloth %s down, lift the roller out and hold its flat pin, roll the cloth up by hand, hang the roller again; do this %s\n",
			l.style.Format(w.Pulls[0]), ticket.TimesText(len(w.Pulls)))
	}
	rows := [][]string{{"cloth down", "needs N·mm", "has N·mm"}}
	for _, at := range w.At {
		rows = append(rows, []string{l.style.Format(at.Below), l.style.Decimal(at.Needed, 0), l.style.Decimal(at.Given, 0)})
	}
	l.table(rows)
}

// trial writes how to find the spring's rate.
func (l *lines) trial(t *ticket.Ticket) {
	l.print("the spring's rate is unknown; find it like this:\n")
	for i, step := range hang.TrialSteps(t.Shade.Finished.Length, l.style) {
		l.print("%d. %s\n", i+1, step)
	}
	l.print("then run: shadewright spring JOB %s --at '%s=READING' --at '%s=READING'\n", t.Shade.ID, l.style.Format(t.TrialAt[0]), l.style.Format(t.TrialAt[1]))
}

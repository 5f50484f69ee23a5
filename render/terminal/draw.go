package terminal

import (
	"io"
	"strings"

	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// The size of the drawing, in characters. A character is about twice as high as
// wide.
const (
	drawnWidth = 44
	mostRows   = 24
	aspect     = 2
)

// Draw writes each shade's panel laid flat, with its lines and their distances
// from the raw bottom edge. The outline keeps the panel's proportions as far as
// characters allow. The lines are in order but not to scale. Draw returns the
// first error of w.
func Draw(w io.Writer, job *ticket.Job, tickets []*ticket.Ticket) error {
	l := &lines{w: w, style: job.Style}
	for _, t := range firsts(tickets) {
		l.panel(t)
	}
	return l.err
}

// A drawnLine is one line across the panel: its distance from the raw edge, the
// characters that draw it, and its name.
type drawnLine struct {
	at   measure.Length
	ink  string
	name string
}

func (l *lines) panel(t *ticket.Ticket) {
	f := t.Folds
	across := []drawnLine{ // from the top down
		{f.PocketMark, "-", "pocket mark"}, {f.Stitch, ".", "stitch row"}, {f.PocketFold, "- ", "pocket fold"},
		{f.HemMark, "-", "hem mark"}, {f.HemFold, "- ", "hem fold"},
	}
	l.print("\n%s: the panel laid flat, %s wide\n\n", t.Shade.Called(), l.style.Format(t.Cut.Width))
	row := func(left, ink, right string, at measure.Length, name string) {
		body := strings.Repeat(ink, drawnWidth)[:drawnWidth]
		if t.Shade.Allow.SideHem > 0 && ink == " " {
			body = " :" + body[4:] + ": "
		}
		words := name
		if name != "" {
			words = " " + l.style.Format(at) + "  " + name
		}
		l.print("  %s\n", strings.TrimRight(left+body+right+words, " "))
	}
	row("+", "-", "+", t.Cut.Length, "top edge, at the tube")
	for range l.plainRows(t, len(across)) {
		row("|", " ", "|", 0, "")
	}
	for _, a := range across {
		row("|", a.ink, "|", a.at, a.name)
	}
	row("+", "=", "+", 0, "raw edge")
	if t.Shade.Allow.SideHem > 0 {
		l.print("  fold side hems of %s at the dotted lines\n", l.style.Format(t.Shade.Allow.SideHem))
	}
}

// plainRows returns the number of empty rows above the lines.
func (l *lines) plainRows(t *ticket.Ticket, across int) int {
	rows := int(t.Panel.Length * drawnWidth / t.Panel.Width / aspect)
	return max(2, min(rows, mostRows)-across)
}

// Package terminal writes a job as plain text for a terminal: the sizes to cut,
// the fold lines and the findings. It aligns columns with spaces and uses no
// colour, so that a screen reader and a pipe get the same text.
package terminal

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// Check writes the sizes to cut for each shade, the fold lines, how it hangs,
// and all findings, worst first. It returns the first error of w.
func Check(w io.Writer, job *ticket.Job, tickets []*ticket.Ticket) error {
	l := &lines{w: w, style: job.Style}
	l.heading(job, tickets)
	shades := firsts(tickets)
	l.cuts(shades)
	l.folds(shades)
	l.openings(shades)
	l.hanging(shades)
	l.findings(shades)
	return l.err
}

// lines writes text and keeps the first error.
type lines struct {
	w     io.Writer
	style measure.Style
	err   error
}

func (l *lines) print(format string, args ...any) {
	if l.err == nil {
		_, l.err = fmt.Fprintf(l.w, format, args...)
	}
}

// table writes rows in columns, padded with spaces.
func (l *lines) table(rows [][]string) {
	if l.err != nil {
		return
	}
	tw := tabwriter.NewWriter(l.w, 0, 0, 2, ' ', 0)
	for _, r := range rows {
		if _, l.err = fmt.Fprintln(tw, strings.Join(r, "\t")); l.err != nil {
			return
		}
	}
	l.err = tw.Flush()
}

// firsts returns the first unit of every shade.
func firsts(tickets []*ticket.Ticket) []*ticket.Ticket {
	var list []*ticket.Ticket
	for _, t := range tickets {
		if t.Unit == 1 {
			list = append(list, t)
		}
	}
	return list
}

func (l *lines) heading(job *ticket.Job, tickets []*ticket.Ticket) {
	l.print("%s: %s", job.Name, measure.Count(len(tickets), "shade"))
	if due := job.DueText(); due != "" {
		l.print(", due %s", due)
	}
	l.print("\n\n")
}

func (l *lines) words(v measure.Length) string {
	return strings.TrimSuffix(l.style.Format(v), " "+l.unit())
}

func (l *lines) unit() string { return l.style.System.String() }

func (l *lines) units() string {
	if l.style.System == measure.Millimetres {
		return "millimetres"
	}
	return "inches"
}

// cuts lists the sizes to cut, in the unit of the job.
func (l *lines) cuts(shades []*ticket.Ticket) {
	l.print("Cut, in %s:\n", l.units())
	rows := [][]string{{"shade", "units", "panel width", "length", "diagonal", "tube", "slat", "tape", "thread", "goods"}}
	for _, t := range shades {
		c := t.Cut
		rows = append(rows, []string{
			t.Shade.ID, fmt.Sprint(t.Of), l.words(c.Width), l.words(c.Length), l.words(c.Diagonal),
			l.words(c.Tube), l.words(c.Slat), l.up(t.Tape.Total), l.style.Metres(t.Stitch.Thread, measure.Up), t.Shade.Goods.Name,
		})
	}
	l.table(rows)
}

// up rounds up a length that is bought or torn off a roll, so that it is never
// too short.
func (l *lines) up(v measure.Length) string {
	return strings.TrimSuffix(l.style.Words(v, measure.Up).String(), " "+l.unit())
}

// folds lists the five lines from the raw edge, once for all shades with the
// same lines.
func (l *lines) folds(shades []*ticket.Ticket) {
	var order []ticket.Folds
	ids := map[ticket.Folds][]string{}
	for _, t := range shades {
		if ids[t.Folds] == nil {
			order = append(order, t.Folds)
		}
		ids[t.Folds] = append(ids[t.Folds], t.Shade.Called().String())
	}
	l.print("\nLines from the raw bottom edge, in %s:\n", l.units())
	rows := [][]string{{"hem fold", "hem mark", "pocket fold", "stitch row", "pocket mark", "shades"}}
	for _, f := range order {
		rows = append(rows, []string{
			l.words(f.HemFold), l.words(f.HemMark), l.words(f.PocketFold), l.words(f.Stitch), l.words(f.PocketMark),
			strings.Join(ids[f], ", "),
		})
	}
	l.table(rows)
}

// findings lists every finding with its remedy, worst first, and each once for all
// shades that it is about.
func (l *lines) findings(tickets []*ticket.Ticket) {
	l.print("\n")
	all := ticket.JobFindings(tickets)
	for _, f := range all {
		l.finding(f)
	}
	if len(all) == 0 {
		l.print("no findings\n")
	}
}

func (l *lines) finding(f ticket.JobFinding) {
	l.print("%-9s %s, %s: %s; %s\n", f.Level, names(f.Shades), f.Field, f.Text, f.Remedy)
}

// Unchecked lists what could not be checked, each once for the job. It returns the first
// error of w.
func Unchecked(w io.Writer, list []ticket.JobFinding) error {
	l := &lines{w: w}
	for _, f := range list {
		l.finding(f)
	}
	return l.err
}

// names names shades. Of many it names the first and says how many more there are.
func names(shades []*ticket.Shade) string {
	const most = 6
	var list []string
	for i, s := range shades {
		if i == most && len(shades) > most+1 {
			list = append(list, fmt.Sprintf("%d more shades", len(shades)-most))
			break
		}
		list = append(list, s.Called().String())
	}
	return measure.And(list)
}

package terminal

import (
	"fmt"
	"slices"

	"shadewright/ticket"
)

// A column is one fact about shades. It returns "" for a shade without that
// fact.
type column struct {
	head string
	of   func(*ticket.Ticket) string
}

// facts prints a table below a heading, with the columns and the shades that
// have at least one fact. It prints nothing if no shade has any.
func (l *lines) facts(heading string, shades []*ticket.Ticket, columns []column) {
	rows := [][]string{{"shade"}}
	for _, t := range shades {
		rows = append(rows, []string{t.Shade.ID})
	}
	some := make([]bool, len(shades))
	for _, c := range columns {
		cells := make([]string, len(shades))
		for i, t := range shades {
			cells[i] = c.of(t)
			some[i] = some[i] || cells[i] != ""
		}
		if !slices.ContainsFunc(cells, func(s string) bool { return s != "" }) {
			continue
		}
		rows[0] = append(rows[0], c.head)
		for i, cell := range cells {
			if cell == "" {
				cell = "-"
			}
			rows[i+1] = append(rows[i+1], cell)
		}
	}
	if len(rows[0]) == 1 {
		return
	}
	kept := rows[:1]
	for i, row := range rows[1:] {
		if some[i] {
			kept = append(kept, row)
		}
	}
	l.print("\n%s, in %s:\n", heading, l.units())
	l.table(kept)
}

// openings lists measured openings and the finished sizes worked out from them.
func (l *lines) openings(shades []*ticket.Ticket) {
	fit := func(say func(*ticket.Ticket) string) func(*ticket.Ticket) string {
		return func(t *ticket.Ticket) string {
			if t.Fit == nil {
				return ""
			}
			return say(t)
		}
	}
	l.facts("Openings", shades, []column{
		{"mount", fit(func(t *ticket.Ticket) string { return t.Shade.Opening.Mount.String() })},
		{"opening", fit(func(t *ticket.Ticket) string {
			return l.words(t.Fit.Opening.Width) + " × " + l.words(t.Fit.Opening.Length)
		})},
		{"finished", fit(func(t *ticket.Ticket) string {
			return l.words(t.Fit.Finished.Width) + " × " + l.words(t.Fit.Finished.Length)
		})},
		{"tip to tip", fit(func(t *ticket.Ticket) string { return l.words(t.Fit.TipToTip) })},
	})
}

// hanging lists for each shade the roll, its clearance, the weight, the spring
// and the sag.
func (l *lines) hanging(shades []*ticket.Ticket) {
	l.facts("Hanging", shades, []column{
		{"roll", func(t *ticket.Ticket) string {
			if t.Roll == nil {
				return ""
			}
			return l.up(t.Roll.DiameterUp)
		}},
		{"turns", func(t *ticket.Ticket) string {
			if t.Roll == nil {
				return ""
			}
			return ticket.TurnsText(l.style, t.Roll.Turns)
		}},
		{"wraps left", func(t *ticket.Ticket) string {
			if t.Roll == nil {
				return ""
			}
			return ticket.TurnsText(l.style, t.Roll.WrapsLeft)
		}},
		{"clears", func(t *ticket.Ticket) string {
			c := t.Clearance()
			if c == nil {
				return ""
			}
			if c.Gap < 0 {
				return c.To + " hit by " + l.words(c.Gap.Abs())
			}
			return c.To + " by " + l.words(c.Gap)
		}},
		{"weight", func(t *ticket.Ticket) string {
			if t.Weight == nil {
				return ""
			}
			return fmt.Sprintf("%.0f g", t.Weight.Total.Grams())
		}},
		{"spring", l.spring},
		{"sag", func(t *ticket.Ticket) string {
			if t.Sag == nil {
				return ""
			}
			return l.style.Decimal(t.Sag.Sag.Millimetres(), 2) + " mm"
		}},
	})
}

// spring says how to wind the spring: its turns, and the pulls that give them.
func (l *lines) spring(t *ticket.Ticket) string {
	w := t.Wind
	switch {
	case w == nil:
		return ""
	case !w.OK:
		return "none fits"
	case len(w.Pulls) == 0:
		return ticket.TurnsText(l.style, w.Turns) + " turns"
	}
	return fmt.Sprintf("%s turns: pull %s, %s", ticket.TurnsText(l.style, w.Turns), l.words(w.Pulls[0]), ticket.TimesText(len(w.Pulls)))
}

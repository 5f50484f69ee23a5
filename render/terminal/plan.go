package terminal

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"

	"shadewright/ticket/buying"
	"shadewright/ticket/cutplan"
	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
)

// Nest writes the place of every piece of an order on the roll, and every cut
// in order. It returns the first error of w.
func Nest(w io.Writer, o nest.Order, p nest.Plan, style measure.Style) error {
	l := &lines{w: w, style: style}
	l.print("%s of the roll, %s\n\nPieces, in %s; x across the roll, y along it:\n", style.Format(p.Used), cutplan.Verdict(p, style, style.Format), l.units())
	rows := [][]string{{"piece", "x", "y", "wide", "long", "turned"}}
	for _, q := range p.Pieces {
		turned := "no"
		if q.Turned {
			turned = "yes"
		}
		rows = append(rows, []string{o.Pieces[q.Piece].Label, l.near(q.X), l.near(q.Y), l.near(q.Width), l.near(q.Length), turned})
	}
	l.table(rows)
	l.print("\nCuts, in order:\n")
	rows = [][]string{{"cut", "take", "how to cut", "cut off", "remains"}}
	names := partNames(o, p)
	part := func(i int) string {
		q := p.Parts[i]
		if q.Length == 0 {
			return names[i]
		}
		return fmt.Sprintf("%s  %s × %s", names[i], l.near(q.Width), l.near(q.Length))
	}
	for i, c := range p.Cuts {
		how := fmt.Sprintf("%s, %s from %s", c.Way, l.near(c.At), c.Way.Edge())
		rows = append(rows, []string{strconv.Itoa(i + 1), names[c.From], how, part(c.Near), part(c.Far)})
	}
	l.table(rows)
	return l.err
}

// near formats a length with a sign if it is rounded, because the lengths of
// cuts must add up.
func (l *lines) near(v measure.Length) string {
	return strings.TrimSuffix(l.style.Words(v, measure.Nearest).Spoken(), " "+l.unit())
}

// partNames names the parts of a plan. A part that is cut again later gets the
// number of the cut that made it, and a or b for the side of that cut.
func partNames(o nest.Order, p nest.Plan) []string {
	names := make([]string, len(p.Parts))
	for i, q := range p.Parts {
		switch {
		case q.Kind == nest.Ready:
			names[i] = o.Pieces[p.Pieces[q.Piece].Piece].Label
		case q.Kind == nest.Offcut:
			names[i] = "left over"
		case q.Length == 0:
			names[i] = "roll"
		}
	}
	for i, c := range p.Cuts {
		for _, made := range []int{c.Near, c.Far} {
			if names[made] == "" {
				side := "a"
				if made == c.Far {
					side = "b"
				}
				names[made] = strconv.Itoa(i+1) + side
			}
		}
	}
	return names
}

// Buying writes the list of what to buy. It returns the first error of w.
func Buying(w io.Writer, list buying.List, style measure.Style) error {
	l := &lines{w: w, style: style}
	l.table(buyingRows(list, style, true))
	for _, b := range list.Bars {
		l.print("%s, %s:", b.Slat, style.Format(b.Stock))
		for _, p := range b.Pieces {
			l.print(" %s: %s;", p.Ticket.Name(), style.Format(p.Length))
		}
		l.print(" left %s\n", style.Words(b.Left, measure.Down))
	}
	if list.Unpriced > 0 {
		l.print("%s without a price, not included in the total\n", measure.Count(list.Unpriced, "line"))
	}
	return l.err
}

// BuyingCSV writes the list for a spreadsheet, without the cutting list of the
// slats.
func BuyingCSV(w io.Writer, list buying.List, style measure.Style) error {
	rows := buyingRows(list, style, false)
	rows[0] = append(rows[0], "needs number", "on hand number", "buy number", "step number", "unit")
	for i, n := range list.Lines {
		rows[i+1] = append(rows[i+1], numbersOf(n, style)...)
	}
	for i := len(list.Lines) + 1; i < len(rows); i++ {
		rows[i] = append(rows[i], "", "", "", "", "")
	}
	return csv.NewWriter(w).WriteAll(rows)
}

// numbersOf returns a line's quantities as bare decimal numbers and the unit of all of
// them, for a spreadsheet to add up. They are the numbers of the JSON list.
func numbersOf(n buying.Line, style measure.Style) []string {
	number := func(l measure.Length, unit measure.Length) string {
		return strconv.FormatFloat(float64(l)/float64(unit), 'f', -1, 64)
	}
	all := func(unit measure.Length, name string) []string {
		return []string{number(n.Needs, unit), number(n.OnHand, unit), number(n.Length(), unit), number(n.Step, unit), name}
	}
	switch {
	case n.Kind == buying.Tape || n.Kind == buying.Thread:
		return all(measure.Metre, "m")
	case n.Kind == buying.Goods && style.System == measure.Inches:
		return all(measure.Inch, "in")
	case n.Kind == buying.Goods:
		return all(measure.Millimetre, "mm")
	}
	return []string{strconv.Itoa(n.NeedsCount), strconv.Itoa(n.OnHandCount), strconv.Itoa(n.Buy), "1", "piece"}
}

// buyingRows puts the list into cells. With spoken, goods are also in yards,
// the way a customer asks for them.
func buyingRows(list buying.List, style measure.Style, spoken bool) [][]string {
	rows := [][]string{{"kind", "what", "needs", "on hand", "buy", "step", "price", "per", "amount", "note"}}
	for _, n := range list.Lines {
		needs, have, buy, step, per := strconv.Itoa(n.NeedsCount), strconv.Itoa(n.OnHandCount), strconv.Itoa(n.Buy), "", ""
		if n.Step > 0 {
			step = style.Format(n.Step)
		}
		switch n.Kind {
		case buying.Goods:
			needs, have = style.Words(n.Needs, measure.Up).String(), style.Words(n.OnHand, measure.Down).String()
			buy = style.Format(n.Length())
			if yards, ok := n.Yards(); ok && spoken {
				buy = yards + ", " + buy
			}
		case buying.Tape, buying.Thread:
			needs, have, step = style.Metres(n.Needs, measure.Up), style.Metres(n.OnHand, measure.Down), style.Metres(n.Step, measure.Nearest)
		}
		price, sum := "", ""
		if n.Price > 0 {
			price, sum = n.Price.String(), n.Amount.String()
			if n.Per > 0 {
				per = style.Format(n.Per)
			}
		}
		rows = append(rows, []string{string(n.Kind), n.Name.String(), needs, have, buy, step, price, per, sum, n.Note.String()})
	}
	for _, w := range list.Work {
		rows = append(rows, []string{"labour", w.Step.Name.String(), fmt.Sprintf("%d min", w.Minutes), "", "", "", "", "", w.Amount.String(), ""})
	}
	sum := func(name string, m measure.Money) {
		rows = append(rows, []string{"sum", name, "", "", "", "", "", "", m.String(), list.Currency})
	}
	if list.Priced() {
		sum("materials", list.Materials)
	}
	if len(list.Work) > 0 {
		sum("labour", list.Labour)
		sum("total", list.Total())
	}
	return rows
}

package scan

import (
	"errors"
	"fmt"
	"strings"

	"shadewright/ticket/mark"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

// readingWords are typed before what was measured or counted.
var readingWords = map[string]route.Reading{
	"diagonals": route.Diagonals, "width": route.Width, "turns": route.Turns,
}

// partReading parts a line at the first word for a reading: a ticket's code may
// stand before it.
func partReading(line string) (before string, asked route.Reading, text string) {
	fields := strings.Fields(line)
	for i, f := range fields {
		if r, ok := readingWords[strings.ToLower(f)]; ok {
			return strings.Join(fields[:i], " "), r, strings.Join(fields[i+1:], " ")
		}
	}
	return line, route.None, ""
}

// parseReading reads a line with a word for a reading.
func (p Parser) parseReading(line, before string, asked route.Reading, text string) (Line, error) {
	var l Line
	if before != "" {
		var err error
		if l, err = p.Parse(before); err != nil {
			return Line{}, err
		}
		if l.Control.Word != "" {
			return Line{}, &Error{Text: line, Problem: "has a code of the bench sheet before what was measured", Fix: "scan the ticket, then type what was measured on it"}
		}
	}
	var err error
	switch l.Reading = asked; asked {
	case route.Diagonals:
		l.Readings.Diagonals, err = p.diagonals(text)
	case route.Width:
		l.Readings.Width, err = measure.Parse(text, p.Units)
	default:
		l.Readings.Turns, err = mark.ParseTurns(text)
	}
	if err != nil {
		return Line{}, &Error{Text: line, Problem: "cannot be taken: " + err.Error(), Fix: "write for example " + examples[asked]}
	}
	return l, nil
}

var examples = map[route.Reading]string{
	route.Diagonals: "diagonals 59-1/16 59-1/8, or diagonals 1500 mm and 1502 mm",
	route.Width:     "width 27-1/2, or width 700 mm",
	route.Turns:     "turns 12-1/2",
}

// diagonals reads two lengths, with "and" or nothing but a space between them if
// only one way to part them gives two.
func (p Parser) diagonals(text string) (both [2]measure.Length, err error) {
	parts := 0
	fields := strings.Fields(text)
	for i := 1; i < len(fields); i++ {
		first, second := fields[:i], fields[i:]
		if second[0] == "and" {
			second = second[1:]
		}
		a, errA := measure.Parse(strings.Join(first, " "), p.Units)
		b, errB := measure.Parse(strings.Join(second, " "), p.Units)
		if errA == nil && errB == nil {
			both = [2]measure.Length{a, b}
			parts++
		}
	}
	switch {
	case parts == 0:
		return both, errors.New("two lengths are wanted")
	case parts > 1:
		return both, fmt.Errorf("it is not clear where the first of %q ends; put and between the two", text)
	}
	return both, nil
}

// reading marks what was measured on a ticket: the one before it on the line,
// or the one that was scanned last.
func (d *Desk) reading(l Line) (m mark.Mark, refusal string) {
	switch {
	case l.Code != "" && d.armed.Word != "":
		return m, fmt.Sprintf("NO  %s waits for a ticket, which must come without a reading; scan the ticket alone", d.armed.Word)
	case l.Code == "" && d.lately.Code == "":
		return m, "NO  no ticket was scanned and marked just before; scan it, then type what was measured on it"
	case l.Code == "":
		m = mark.Mark{Code: d.lately.Code, Revision: d.lately.Revision, Kind: d.lately.Kind, Step: d.lately.Step}
	default:
		m = mark.Mark{Code: l.Code, Revision: l.Revision, Kind: mark.Done, Step: d.Step}
	}
	m.Readings = l.Readings
	return m, ""
}

// Heard tells the desk what was said to the mark that it made last: a reading
// that is typed next belongs to that ticket and step.
func (d *Desk) Heard(a mark.Answer) {
	d.lately = mark.Mark{}
	m := a.Entry.Mark
	if !a.Recorded() || m.Kind != mark.Done && m.Kind != mark.Measured {
		return
	}
	d.lately = mark.Mark{Code: m.Code, Revision: m.Revision, Kind: mark.Done, Step: m.Step}
	if _, done := a.State.Step(m.Step); done {
		d.lately.Kind = mark.Measured // the step is marked: its reading is added
	}
}

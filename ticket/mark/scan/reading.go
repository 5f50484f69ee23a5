package scan

import (
	"errors"
	"fmt"
	"strings"

	"shadewright/ticket/mark"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

// readingWords are the words that a person types before a reading.
var readingWords = map[string]route.Reading{
	"diagonals": route.Diagonals, "width": route.Width, "turns": route.Turns,
}

// partReading splits a line at the first word for a reading. A ticket's code may
// precede that word.
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
			return Line{}, &Error{Text: line, Problem: "has a code of the bench sheet before the reading", Fix: "scan the ticket, then type the reading"}
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
		return Line{}, &Error{Text: line, Problem: "cannot be read: " + err.Error(), Fix: "write for example " + examples[asked]}
	}
	return l, nil
}

var examples = map[route.Reading]string{
	route.Diagonals: "diagonals 59-1/16 59-1/8, or diagonals 1500 mm and 1502 mm",
	route.Width:     "width 27-1/2, or width 700 mm",
	route.Turns:     "turns 12-1/2",
}

// diagonals reads two lengths with "and" or a space between them. A space is enough
// only if there is one way to split the text into two lengths.
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
		return both, errors.New("it needs two lengths")
	case parts > 1:
		return both, fmt.Errorf("it is not clear where the first length in %q ends; put and between the two", text)
	}
	return both, nil
}

// reading returns the mark for a reading of a ticket: the one on the same line, or
// the one scanned last.
func (d *Desk) reading(l Line) (m mark.Mark, refusal string) {
	switch {
	case l.Code != "" && d.pending.Word != "":
		return m, fmt.Sprintf("NO  %s needs a ticket without a reading; scan the ticket alone", d.pending.Word)
	case l.Code == "" && d.lastMark.Code == "":
		return m, "NO  no ticket was scanned and marked just before; scan the ticket, then type the reading"
	case l.Code == "":
		m = mark.Mark{Code: d.lastMark.Code, Revision: d.lastMark.Revision, Kind: d.lastMark.Kind, Step: d.lastMark.Step}
	default:
		m = mark.Mark{Code: l.Code, Revision: l.Revision, Kind: mark.Done, Step: d.Step}
	}
	m.Readings = l.Readings
	return m, ""
}

// Answered tells the desk the answer to the mark that it made last. A reading typed
// next belongs to that ticket and step.
func (d *Desk) Answered(a mark.Answer) {
	d.lastMark = mark.Mark{}
	m := a.Entry.Mark
	if !a.Recorded() || m.Kind != mark.Done && m.Kind != mark.Measured {
		return
	}
	d.lastMark = mark.Mark{Code: m.Code, Revision: m.Revision, Kind: mark.Done, Step: m.Step}
	if _, done := a.State.Step(m.Step); done {
		d.lastMark.Kind = mark.Measured // the step is already marked, so its reading is added
	}
}

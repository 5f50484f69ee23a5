// Package finding holds what the arithmetic notices about a shade and which input
// it refuses, in one shape for all packages. Numbers in a finding are already text,
// with their unit: a person reads a finding, and a program lists it beside the
// numbers themselves.
package finding

import (
	"cmp"
	"slices"

	"shadewright/ticket/message"
)

// A Level says how serious a finding is.
type Level uint8

// The levels, from the lightest: the zero Level is a note.
const (
	Note      Level = iota // good to know; the shade can be made as it stands
	Unchecked              // something could not be judged, because a measure is missing
	Caution                // the shade can be made, but something is probably wrong
	Stop                   // the shade cannot be made
)

// String returns "note", "unchecked", "caution" or "stop".
func (l Level) String() string {
	switch l {
	case Note:
		return "note"
	case Unchecked:
		return "unchecked"
	case Caution:
		return "caution"
	case Stop:
		return "stop"
	}
	return "unknown level"
}

// Message returns the word for a person.
func (l Level) Message() message.Message {
	switch l {
	case Unchecked:
		return message.Of("ticket.unchecked")
	case Caution:
		return message.Of("ticket.caution")
	case Stop:
		return message.Of("ticket.stop")
	}
	return message.Of("ticket.note")
}

// A Finding is one thing noticed about a shade. Text and Remedy are for people;
// Value, Limit and Source are for programs, so they are in English.
type Finding struct {
	Level  Level
	Field  string          // the key of the job file within the shade, for example "slat"
	Text   message.Message // one plain sentence with the number, lower case, no full stop
	Value  string          // the number found, with its unit; may be empty
	Limit  string          // the limit for Value, with its unit; may be empty
	Source string          // where the limit comes from
	Remedy message.Message // how to put it right

	// Missing says in a few words what is not known, for an Unchecked finding.
	Missing message.Message
}

// NoGuess is the Source of a finding that is [Unchecked] and for which no likely range
// is known.
const NoGuess = "no guess is made for a missing measure"

// A List collects findings.
type List []Finding

// Add adds a finding to the list.
func (l *List) Add(f Finding) { *l = append(*l, f) }

// Equal reports whether two findings say the same.
func (f Finding) Equal(o Finding) bool { return f.report() == o.report() }

// Sort puts the worst findings first. Findings of one level keep their order.
func Sort(f []Finding) {
	slices.SortStableFunc(f, func(a, b Finding) int { return cmp.Compare(b.Level, a.Level) })
}

// A Report is a finding for programs.
type Report struct {
	Level  string `json:"level"`
	Field  string `json:"field"`
	Text   string `json:"text"`
	Value  string `json:"value,omitempty"`
	Limit  string `json:"limit,omitempty"`
	Source string `json:"source,omitempty"`
	Remedy string `json:"remedy,omitempty"`
}

func (f Finding) report() Report {
	return Report{f.Level.String(), f.Field, f.Text.String(), f.Value, f.Limit, f.Source, f.Remedy.String()}
}

// Reports returns the findings for programs, in their order. It never returns nil.
func Reports(list []Finding) []Report {
	all := make([]Report, len(list))
	for i, f := range list {
		all[i] = f.report()
	}
	return all
}

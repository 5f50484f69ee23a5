package form

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// A Fault says what is wrong with a value and how to put it right. Both parts are
// worded to follow the value: lower case, no full stop.
type Fault struct {
	Problem string // "is negative"
	Fix     string // "write a length above zero"
}

// A Problem is a fault at its place in a file.
type Problem struct {
	File  string // as the person named it
	Line  int    // counted from 1; zero if the fault concerns the whole file
	Field string // the keys that lead to it, with dots between; may be empty
	Value string // as it was written; empty to show no value
	Fault
}

// longestShown is the most characters of a value that a message repeats.
const longestShown = 60

// String returns `file:line: field: "value" problem; fix`.
func (p Problem) String() string {
	var b strings.Builder
	b.WriteString(p.File)
	if p.Line > 0 {
		b.WriteByte(':')
		b.WriteString(strconv.Itoa(p.Line))
	}
	b.WriteString(": ")
	if p.Field != "" {
		b.WriteString(p.Field)
		b.WriteString(": ")
	}
	if p.Value != "" {
		fmt.Fprintf(&b, "%q ", Shorten(p.Value))
	}
	b.WriteString(p.Problem)
	if p.Fix != "" {
		b.WriteString("; ")
		b.WriteString(p.Fix)
	}
	return b.String()
}

// Shorten cuts a text that is too long for a message.
func Shorten(s string) string {
	n := 0
	for i := range s {
		if n == longestShown {
			return s[:i] + "…"
		}
		n++
	}
	return s
}

// Problems lists everything that is wrong with a file, in the order of its lines.
type Problems []Problem

// mostShown limits a message about a file that is wrong everywhere.
const mostShown = 100

// Error returns one line for each problem.
func (ps Problems) Error() string {
	lines := make([]string, 0, min(len(ps), mostShown+1))
	for i, p := range ps {
		if i == mostShown {
			lines = append(lines, fmt.Sprintf("%s: %d more problems", p.File, len(ps)-i))
			break
		}
		lines = append(lines, p.String())
	}
	return strings.Join(lines, "\n")
}

// sorted sorts the problems by line. Problems on one line keep the order in which
// they were found.
func (ps Problems) sorted() Problems {
	slices.SortStableFunc(ps, func(a, b Problem) int { return cmp.Compare(a.Line, b.Line) })
	return ps
}

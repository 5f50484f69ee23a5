// Package scan reads the lines that a scanner types, and turns them into marks at a
// bench.
//
// [Parser.Parse] reads one line. It is a ticket's code with whatever the scanner
// puts around it, a code of the bench sheet (a [Control]), or a reading that a
// person types: diagonals 1500 1502. A [Desk] remembers what the bench sheet said
// and makes the marks. The package reads no stream and no clock.
package scan

import (
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"shadewright/ticket/code"
	"shadewright/ticket/mark"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

// A Parser knows what the shop's scanner adds to every line.
type Parser struct {
	Prefix, Suffix string         // as set in the scanner; may be empty
	Units          measure.System // of a bare number in a reading
}

// A Line is one line: a ticket, a control, or a reading with or without its ticket.
type Line struct {
	Code     code.Code
	Revision code.Revision
	Control  Control       // its Word is empty if the line is a ticket
	Reading  route.Reading // what was measured; usually none
	Readings mark.Readings
	Remark   string // what to set right in the scanner; usually empty
}

// An Error says why a line is neither a ticket nor a control.
type Error struct {
	Text    string // as it was read, cut short if very long
	Problem string
	Fix     string
}

func (e *Error) Error() string { return fmt.Sprintf("%q %s; %s", e.Text, e.Problem, e.Fix) }

// longestLine limits the work done on a hostile line.
const longestLine = 500

// longestShown is the most characters of such a line that an error quotes.
const longestShown = 40

// Parse reads one line without its line end. The error is a [*code.Error] if the
// line most resembles a ticket's code, else an [*Error]. For an empty line it is a
// [*code.Error] with [code.Empty].
//
// Parse understands a scanner that is set to another keyboard than the computer, if
// two conditions hold: the restored code has a valid check, and characters other
// than letters had to be changed. If only letters had to be changed, a typing
// mistake could have the same result, so Parse refuses the line and names the
// likely cause.
func (p Parser) Parse(line string) (Line, error) {
	if len(line) > longestLine {
		return Line{}, &Error{Text: clean(line[:longestShown]) + "…", Problem: "is too long for a code", Fix: "scan the code on the ticket or tag"}
	}
	line = clean(line)
	if before, asked, text := partReading(line); asked != route.None {
		return p.parseReading(line, before, asked, text)
	}
	l, err := p.read(line)
	if err == nil {
		return l, nil
	}
	found, hint := p.readOtherKeyboards(line)
	switch {
	case found != nil:
		return *found, nil
	case hint != "":
		return Line{}, &Error{Text: line, Problem: "is mistyped, or " + hint, Fix: "set the scanner to the computer's keyboard, or type the code again"}
	}
	return Line{}, err
}

// readOtherKeyboards returns the one line that a mismatch of keyboards explains, or
// a hint if a mismatch is likely but not certain.
func (p Parser) readOtherKeyboards(line string) (found *Line, hint string) {
	for _, m := range mismatches {
		meant, certain, ok := m.restore(line)
		if !ok || meant == line {
			continue
		}
		l, err := p.read(meant)
		if err != nil {
			continue
		}
		cause := fmt.Sprintf("the scanner is set to a %s keyboard and the computer to a %s one", m.scanner, m.computer)
		if !certain {
			hint = cause
			continue
		}
		l.Remark = cause
		if found != nil && (found.Code != l.Code || found.Control != l.Control) {
			return nil, "scanner and computer are set to different keyboards"
		}
		if found == nil {
			found = &l
		}
	}
	return found, hint
}

// read reads a line as it stands.
func (p Parser) read(line string) (Line, error) {
	line = p.strip(line)
	if isControl(line) {
		c, err := parseControl(line)
		return Line{Control: c}, err
	}
	c, r, err := code.Parse(line)
	if err == nil {
		return Line{Code: c, Revision: r}, nil
	}
	if l, ok := within(line); ok {
		return l, nil
	}
	return Line{}, err
}

// clean removes what no code has: control characters, byte order marks and marks of
// text direction. A line that is not UTF-8 counts as Latin-1, which a terminal with
// that setting sends for the characters of a wrong keyboard.
func clean(line string) string {
	if !utf8.ValidString(line) {
		r := make([]rune, len(line))
		for i := range len(line) {
			r[i] = rune(line[i])
		}
		line = string(r)
	}
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) {
			return -1
		}
		return r
	}, line))
}

// strip removes the shop's own prefix and suffix and a symbology identifier: a
// closing bracket, a letter and a digit or letter (ISO/IEC 15424).
func (p Parser) strip(line string) string {
	if n := len(p.Prefix); len(line) >= n && strings.EqualFold(line[:n], p.Prefix) {
		line = line[n:]
	}
	if n := len(line) - len(p.Suffix); n >= 0 && strings.EqualFold(line[n:], p.Suffix) {
		line = line[:n]
	}
	if len(line) > 3 && line[0] == ']' && letter(rune(line[1])) && line[2] < utf8.RuneSelf {
		line = line[3:]
	}
	return strings.TrimSpace(line)
}

// mostAround is the most characters that a scanner may add before or after a code
// on its own.
const mostAround = 8

// within finds CODE-REV or an address within other characters that a scanner added.
// The dash fixes the position of the code and the check confirms it, so no other
// position is tried.
func within(line string) (found Line, ok bool) {
	line = strings.ToUpper(line)
	for i := range len(line) {
		from, to := i-code.Length, i+1+code.RevisionLength
		if line[i] != '-' || from < 0 || to > len(line) || len(line)-to > mostAround {
			continue
		}
		c, r := code.Code(line[from:i]), code.Revision(line[i+1:to])
		if errors.Join(c.Check(), r.Check()) != nil {
			continue
		}
		if before := line[:from]; len(before) > mostAround && !(strings.HasSuffix(before, "/T/") && strings.Contains(before, "HTTP")) {
			continue
		}
		if ok {
			return Line{}, false // two codes on one line
		}
		found, ok = Line{Code: c, Revision: r}, true
	}
	return found, ok
}

// Package scan reads what a scanner that types sends, a line at a time, and
// turns it into marks at a bench.
//
// [Parser.Parse] reads one line: a ticket's code with whatever the scanner puts
// around it, a code of the bench sheet, a [Control], or a reading that a hand
// types: diagonals 1500 1502. A [Desk] remembers what the bench sheet said and
// makes the marks. The package reads no stream and no
// clock.
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
	Units          measure.System // of a bare number that is typed as a reading
}

// A Line is what one line said: a ticket, a control, or what was measured on a
// ticket, with its code or alone.
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

// longestLine bounds the work done on a hostile line.
const longestLine = 500

// longestShown is how much of such a line an error quotes.
const longestShown = 40

// Parse reads one line without its end. The error is a [*code.Error] if the
// line is most like a ticket's code, else an [*Error]. An empty line is a
// [*code.Error] with [code.Empty].
//
// A scanner that is set to another keyboard than the computer is understood if
// that gives a code whose check character fits and characters other than
// letters had to be changed; if only letters had to be, which a slip of the
// hand may do too, the line is refused and the likely cause named.
func (p Parser) Parse(line string) (Line, error) {
	if len(line) > longestLine {
		return Line{}, &Error{Text: clean(line[:longestShown]) + "…", Problem: "is far longer than any code", Fix: "scan the code on the ticket or tag"}
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

// readOtherKeyboards returns the one line that a mismatch of keyboards
// explains, or a hint if it is likely but not certain.
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

// clean drops what no code has: control characters, marks of byte order and
// text direction. A line that is not UTF-8 is taken for Latin-1, which is what
// a terminal set to that sends for the characters of a wrong keyboard.
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

// strip takes off the shop's own prefix and suffix and a symbology identifier:
// a closing bracket, a letter and a digit or letter (ISO/IEC 15424).
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

// mostAround is how much a scanner may put before or after a code unasked.
const mostAround = 8

// within finds CODE-REV or an address inside of what a scanner put around it.
// The dash fixes where the code lies and the check character confirms it, so
// nothing is shifted along until it fits.
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
			return Line{}, false // two codes in one line
		}
		found, ok = Line{Code: c, Revision: r}, true
	}
	return found, ok
}

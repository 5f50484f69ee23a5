package form

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"
)

// Parse reads the text of a file into nodes. The top node has the shape [Keys], or
// [Blank] if the file has only comments; it is nil if nothing can be read. Parse
// accepts Windows line ends and a byte order mark. It returns every problem that it
// finds, but only the first syntax problem, because YAML cannot tell what follows
// it.
func Parse(file string, data []byte) (*Node, Problems) {
	data, bad := text(file, data)
	if bad != nil {
		return nil, bad
	}
	dec := yaml.NewDecoder(bytes.NewReader(data))
	var top, next yaml.Node
	err := decode(dec, &top)
	if errors.Is(err, io.EOF) {
		return &Node{}, nil
	}
	if err == nil {
		switch err = decode(dec, &next); {
		case errors.Is(err, io.EOF):
			err = nil
		case err == nil:
			return nil, Problems{{File: file, Line: next.Line, Fault: Fault{"starts a second document", "keep one document in the file, and remove the line of three dashes"}}}
		}
	}
	if err != nil {
		return nil, Problems{syntaxProblem(file, data, err)}
	}
	t := &tree{file: file}
	out := t.node(top.Content[0], 0)
	if out != nil && out.Shape != Keys && out.Shape != Blank {
		t.refuse(top.Content[0], "", out.Shape.String()+", not a group of keys", "write lines such as key: value")
		out = nil
	}
	return out, t.problems.sorted()
}

// decode reads the next document. The library panics at comments in places that it
// does not expect; decode turns that into an ordinary error.
func decode(dec *yaml.Decoder, into *yaml.Node) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("yaml: %v", r)
		}
	}()
	return dec.Decode(into)
}

// syntaxFaults explains the commonest errors of the library in plain words. Its
// errors have no types, only sentences, so each row looks for a part of a sentence.
// An error without a row is shown as it is. The library's scanner and parser count
// lines differently; counted says how.
var syntaxFaults = []struct {
	words   string
	counted counting
	Fault
}{
	{"mapping values are not allowed", fromOne, Fault{"has a misplaced colon", "check the indentation, and put text with a colon in quotes"}},
	{"block sequence entries are not allowed", fromOne, Fault{"has a misplaced dash", "start the list on a new line, or put the text in quotes"}},
	{"cannot start any token", fromOne, Fault{"has a character that cannot start a value", "put text that starts with @, %, ` or a tab in quotes"}},
	{"could not find expected ':'", fromOne, Fault{"has no colon and space after the key", "write key: value"}},
	{"found unexpected end of stream", fromOne, Fault{"opens a quote that is never closed", "close the quote, or leave the quotes out: 2' 7 5/8\" needs none"}},
	{"expected alphabetic or numeric character", fromOne, Fault{"has a * or & that cannot start a value", "put the text in quotes"}},
	{"unknown escape character", fromOne, escaped},
	{"expected hexdecimal number", fromOne, escaped},
	{"exceeded max depth", fromOne, Fault{"has too many brackets or groups inside each other", "check the brackets and dashes"}},
	{"did not find expected node content", fromZero, Fault{"lacks a value between two commas or at an end", "write the value, or remove the comma"}},
	{"expected ',' or '}'", fromZero, Fault{"opens a { that is not closed, or lacks a comma inside", "write {key: value, key: value}"}},
	{"expected ',' or ']'", fromZero, Fault{"opens a [ that is not closed, or lacks a comma inside", "close it, or put the text in quotes"}},
	{"expected '-' indicator", atEnd, Fault{"is not aligned with the list above it", "indent it like its neighbours"}},
	{"expected key", atEnd, Fault{"is not aligned with the keys above it, or has text after a closing quote", "check the indentation and the quotes"}},
}

// escaped is the fault of a path such as "C:\Users" in double quotes.
var escaped = Fault{`has a \ in double quotes`, "use single quotes, or none"}

// A counting says what the line number in an error of the library means.
type counting uint8

const (
	fromOne  counting = iota // counted from one
	fromZero                 // counted from zero
	atEnd                    // the start of a long block: find the line that breaks it
)

var (
	lineWords   = regexp.MustCompile(`^yaml: (?:line (\d+): )?(.*)$`)
	anchorWords = regexp.MustCompile(`^unknown anchor '(.*)' referenced$`)
)

// syntaxProblem turns an error of the library into a problem in plain words.
func syntaxProblem(file string, data []byte, err error) Problem {
	if n := tabbed(data); n > 0 {
		return Problem{File: file, Line: n, Fault: Fault{"is indented with a tab", "use spaces"}}
	}
	m := lineWords.FindStringSubmatch(strings.ReplaceAll(err.Error(), "\n", " "))
	if m == nil {
		return Problem{File: file, Fault: Fault{"cannot be read: " + err.Error(), "compare it with the sample"}}
	}
	if a := anchorWords.FindStringSubmatch(m[2]); a != nil {
		at := bytes.Index(data, []byte("*"+a[1]))
		return Problem{File: file, Line: 1 + bytes.Count(data[:max(at, 0)], []byte("\n")), Value: "*" + a[1],
			Fault: Fault{"is read as a reference", "put the text in quotes"}}
	}
	line := reportedLine(data)
	for _, s := range syntaxFaults {
		if !strings.Contains(m[2], s.words) {
			continue
		}
		switch s.counted {
		case fromZero:
			line++
		case atEnd:
			line = brokenAt(data, m[2])
		}
		return Problem{File: file, Line: min(max(line, 1), 1+bytes.Count(data, []byte("\n"))), Fault: s.Fault}
	}
	return Problem{File: file, Line: max(line, 1), Fault: Fault{"cannot be read (" + m[2] + ")", "check the quotes, brackets and indentation"}}
}

// reportedLine returns the line number that the library reports. The library omits
// the number for the first line, so reportedLine parses the text again one line
// further down.
func reportedLine(data []byte) int {
	var n yaml.Node
	err := decode(yaml.NewDecoder(bytes.NewReader(append([]byte("\n"), data...))), &n)
	if err == nil {
		return 1
	}
	m := lineWords.FindStringSubmatch(strings.ReplaceAll(err.Error(), "\n", " "))
	if m == nil {
		return 1
	}
	line, err := strconv.Atoi(m[1])
	if err != nil {
		return 1
	}
	return line - 1
}

// tabbed returns the first line that is indented with a tab, or 0.
func tabbed(data []byte) int {
	n := 0
	for l := range bytes.Lines(data) {
		n++
		rest := bytes.TrimLeft(l, " ")
		if len(rest) > 0 && rest[0] == '\t' && len(bytes.TrimSpace(rest)) > 0 {
			return n
		}
	}
	return 0
}

// brokenAt returns the line that breaks a block. The library reports only where the
// block starts. brokenAt bisects: the lines before the break parse without this
// error, and the lines up to the break do not.
func brokenAt(data []byte, words string) int {
	lines := bytes.SplitAfter(data, []byte("\n"))
	lo, hi := 0, len(lines) // the first lo lines parse without this error, the first hi lines do not
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		var n yaml.Node
		err := decode(yaml.NewDecoder(bytes.NewReader(bytes.Join(lines[:mid], nil))), &n)
		if err != nil && strings.Contains(err.Error(), words) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

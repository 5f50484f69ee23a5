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

// Parse reads the text of a file into nodes. The top one has the shape [Keys],
// or [Blank] if there is nothing in the file but remarks; it is nil if nothing
// can be read. It takes Windows line ends and a byte order mark, and returns every
// problem it can; after a slip in the writing itself there is only that one,
// because what follows cannot be told apart.
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
			return nil, Problems{{File: file, Line: next.Line, Fault: Fault{"begins a second document", "keep one in a file, and take out the line of three dashes"}}}
		}
	}
	if err != nil {
		return nil, Problems{slip(file, data, err)}
	}
	t := &tree{file: file}
	out := t.node(top.Content[0], 0)
	if out != nil && out.Shape != Keys && out.Shape != Blank {
		t.refuse(top.Content[0], "", out.Shape.String()+" and not a form", "write lines such as key: value")
		out = nil
	}
	return out, t.problems.sorted()
}

// decode reads the next document. The library panics where remarks stand in a
// place that it did not foresee; to the person that is a file that cannot be
// read like any other.
func decode(dec *yaml.Decoder, into *yaml.Node) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("yaml: %v", r)
		}
	}()
	return dec.Decode(into)
}

// slips explains the library's words for the commonest slips. Its errors have no
// types, only sentences, so a part of each is looked for here; every row has a
// remedy of its own, and a sentence without a row is told as it is. What the line
// numbers mean differs between its scanner and its parser; counted says so.
var slips = []struct {
	words   string
	counted counting
	Fault
}{
	{"mapping values are not allowed", fromOne, Fault{"has a colon where none belongs", "check the indentation, and put text that holds a colon in quotes"}},
	{"block sequence entries are not allowed", fromOne, Fault{"has a dash where none belongs", "begin the list on a line of its own, or put the text in quotes"}},
	{"cannot start any token", fromOne, Fault{"has a mark that cannot begin a value", "put text that begins with @, %, ` or a tab in quotes"}},
	{"could not find expected ':'", fromOne, Fault{"has no colon and space after the key", "write key: value"}},
	{"found unexpected end of stream", fromOne, Fault{"opens a quote that is never closed", "close it, or leave the quotes out: 2' 7 5/8\" needs none"}},
	{"expected alphabetic or numeric character", fromOne, Fault{"has a * or & that cannot begin a value", "put the text in quotes"}},
	{"unknown escape character", fromOne, escaped},
	{"expected hexdecimal number", fromOne, escaped},
	{"exceeded max depth", fromOne, Fault{"has brackets or groups without end", "check the brackets and dashes"}},
	{"did not find expected node content", fromZero, Fault{"has nothing where a value belongs, between two commas or at an end", "write the value, or take the comma out"}},
	{"expected ',' or '}'", fromZero, Fault{"opens a { that is not closed, or lacks a comma inside", "write {key: value, key: value}"}},
	{"expected ',' or ']'", fromZero, Fault{"opens a [ that is not closed, or lacks a comma inside", "close it, or put the text in quotes"}},
	{"expected '-' indicator", atEnd, Fault{"is not in line with the list above it", "give it the indentation of its neighbours"}},
	{"expected key", atEnd, Fault{"is not in line with the keys above it, or goes on after a closing quote", "check the indentation and the quotes"}},
}

// escaped is the fault of a path such as "C:\Users" in double quotes.
var escaped = Fault{`has a \ in double quotes`, "use single quotes, or none"}

// A counting says what the library's line number means.
type counting uint8

const (
	fromOne  counting = iota // counted from one
	fromZero                 // counted from zero
	atEnd                    // the start of a long construct: look where it broke
)

var (
	lineWords   = regexp.MustCompile(`^yaml: (?:line (\d+): )?(.*)$`)
	anchorWords = regexp.MustCompile(`^unknown anchor '(.*)' referenced$`)
)

// slip puts a slip in the writing into words.
func slip(file string, data []byte, err error) Problem {
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
			Fault: Fault{"is taken for a reference", "put the text in quotes"}}
	}
	told := toldLine(data)
	for _, s := range slips {
		if !strings.Contains(m[2], s.words) {
			continue
		}
		switch s.counted {
		case fromZero:
			told++
		case atEnd:
			told = brokenAt(data, m[2])
		}
		return Problem{File: file, Line: min(max(told, 1), 1+bytes.Count(data, []byte("\n"))), Fault: s.Fault}
	}
	return Problem{File: file, Line: max(told, 1), Fault: Fault{"cannot be read (" + m[2] + ")", "check the quotes, brackets and indentation"}}
}

// toldLine returns the line that the library tells. It takes the first line
// for none at all, so it gets the text once more, one line further down.
func toldLine(data []byte) int {
	var n yaml.Node
	err := decode(yaml.NewDecoder(bytes.NewReader(append([]byte("\n"), data...))), &n)
	if err == nil {
		return 1
	}
	m := lineWords.FindStringSubmatch(strings.ReplaceAll(err.Error(), "\n", " "))
	if m == nil {
		return 1
	}
	told, err := strconv.Atoi(m[1])
	if err != nil {
		return 1
	}
	return told - 1
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

// brokenAt returns the line that breaks a block. The library says only where
// the block began; but the lines before the break can be read without that
// complaint, and those up to it cannot.
func brokenAt(data []byte, words string) int {
	lines := bytes.SplitAfter(data, []byte("\n"))
	lo, hi := 0, len(lines) // the first lo lines are without the complaint, the first hi are not
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

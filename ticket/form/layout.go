package form

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"
)

// A layout knows where each value of a file stands in its text. The library gives only
// the line and column at which a value begins; a layout works out where it ends.
type layout struct {
	text  string
	lines []int  // offset of each line
	eol   string // the line end of the file
	lost  int    // line of the first value that the layout does not follow
}

// A place is a value and its bytes.
type place struct {
	node       *Node
	start, end int // of the value; equal if the value is blank
	after      int // behind the colon or dash in front of the value; 0 at the top
	entry      int // where the entry begins: its key, its dash, or in [ ] the value itself
	column     int // of the entry, from 0
	flowing    bool
	inside     []*place // the values of the entries or items, in the order of the file
}

// newLayout splits a text, which has no byte order mark, into lines.
func newLayout(text string) *layout {
	l := &layout{text: text, lines: []int{0}}
	for i := 0; i < len(text); {
		n := l.breakAt(i)
		if n == 0 {
			i++
			continue
		}
		if l.eol == "" {
			l.eol = text[i : i+n]
		}
		i += n
		l.lines = append(l.lines, i)
	}
	if l.eol == "" {
		l.eol = "\n"
	}
	return l
}

// breakAt returns the width of the line end at an offset, or 0. The library ends a line
// at each of these, as YAML 1.1 does.
func (l *layout) breakAt(i int) int {
	switch c := l.text[i]; {
	case c == '\n':
		return 1
	case c == '\r' && l.at(i+1, '\n'):
		return 2
	case c == '\r':
		return 1
	case c == 0xc2 && strings.HasPrefix(l.text[i:], "\u0085"):
		return 2
	case c == 0xe2 && (strings.HasPrefix(l.text[i:], "\u2028") || strings.HasPrefix(l.text[i:], "\u2029")):
		return 3
	}
	return 0
}

// offset returns the offset of a line and a column, both counted from 1. A column is a
// character, not a byte.
func (l *layout) offset(line, column int) int {
	if line < 1 || line > len(l.lines) {
		return len(l.text)
	}
	at := l.lines[line-1]
	for range column - 1 {
		_, n := utf8.DecodeRuneInString(l.text[at:])
		at += n
	}
	return min(at, len(l.text))
}

// lineOf returns the index of the line that holds an offset.
func (l *layout) lineOf(at int) int {
	lo, hi := 0, len(l.lines)
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; l.lines[mid] <= at {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

func (l *layout) lineStart(at int) int { return l.lines[l.lineOf(at)] }

// next returns the start of a line, or the end of the text for a line behind the last.
func (l *layout) next(line int) int {
	if line < len(l.lines) {
		return l.lines[line]
	}
	return len(l.text)
}

// lineEnd returns the offset of the line end behind an offset.
func (l *layout) lineEnd(at int) int {
	for at < len(l.text) && l.breakAt(at) == 0 {
		at++
	}
	return at
}

// line returns the text of a line without its line end, and its indentation.
func (l *layout) line(i int) (text string, indent int) {
	start := l.lines[i]
	text = l.text[start:l.lineEnd(start)]
	return text, len(text) - len(strings.TrimLeft(text, " "))
}

// skip passes over spaces, line ends and comments.
func (l *layout) skip(at int) int {
	for at < len(l.text) {
		switch c := l.text[at]; {
		case c == ' ' || c == '\t':
			at++
		case c == '#':
			at = l.lineEnd(at)
		default:
			n := l.breakAt(at)
			if n == 0 {
				return at
			}
			at += n
		}
	}
	return at
}

// at returns whether the text has a byte at an offset.
func (l *layout) at(i int, c byte) bool { return i < len(l.text) && l.text[i] == c }

// top returns the place of the whole file, or nil if it has only comments. It returns
// false if the text has a form that a layout does not follow.
func (l *layout) top(n *Node) (*place, bool) {
	var doc yaml.Node
	err := decode(yaml.NewDecoder(bytes.NewReader([]byte(l.text))), &doc)
	if errors.Is(err, io.EOF) {
		return nil, true
	}
	if err != nil || len(doc.Content) != 1 {
		return nil, false
	}
	p := &place{node: n}
	return p, l.find(p, doc.Content[0], -1)
}

// find fills in a place. The indent is that of the block around it.
func (l *layout) find(p *place, y *yaml.Node, indent int) bool {
	ok := l.shape(p, y, indent)
	if !ok && l.lost == 0 {
		l.lost = y.Line
	}
	return ok
}

func (l *layout) shape(p *place, y *yaml.Node, indent int) bool {
	p.start = l.offset(y.Line, y.Column)
	switch {
	case y.Kind == yaml.MappingNode && y.Style&yaml.FlowStyle != 0:
		return l.braces(p, y, '{', '}')
	case y.Kind == yaml.SequenceNode && y.Style&yaml.FlowStyle != 0:
		return l.braces(p, y, '[', ']')
	case y.Kind == yaml.MappingNode:
		return l.group(p, y)
	case y.Kind == yaml.SequenceNode:
		return l.list(p, y)
	case y.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		return l.paragraph(p, indent)
	case y.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0:
		return l.quoted(p)
	}
	end, ok := l.plain(p.start, y.Value)
	p.end = end
	return ok
}

// blank reports whether nothing is written where the value would be.
func blank(y *yaml.Node) bool {
	return y.Kind == yaml.ScalarNode && y.Value == "" && y.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) == 0
}

// value fills in the place behind a colon or a dash.
func (l *layout) value(p *place, y *yaml.Node, indent int) bool {
	if blank(y) {
		p.start, p.end = p.after, p.after
		return true
	}
	return l.find(p, y, indent) && p.start >= p.after
}

// pair fills in the place of an entry from its key and value.
func (l *layout) pair(p *place, k, v *yaml.Node, indent int) bool {
	ok := l.keyed(p, k, v, indent) && (p.flowing || p.column == indent)
	if !ok && l.lost == 0 {
		l.lost = k.Line
	}
	return ok
}

func (l *layout) keyed(p *place, k, v *yaml.Node, indent int) bool {
	key := &place{}
	if k.Kind != yaml.ScalarNode || !l.find(key, k, indent) {
		return false
	}
	p.entry, p.column = key.start, k.Column-1
	switch colon := l.skip(key.end); {
	case l.at(colon, ':'):
		p.after = colon + 1
	case p.flowing && blank(v): // {a, b: 1}
		p.after = key.end
	default:
		return false
	}
	return l.value(p, v, indent)
}

func (l *layout) group(p *place, y *yaml.Node) bool {
	for i := 0; i+1 < len(y.Content); i += 2 {
		in := &place{node: p.node.Entries[i/2].Value}
		if !l.pair(in, y.Content[i], y.Content[i+1], y.Column-1) {
			return false
		}
		p.inside = append(p.inside, in)
		p.end = in.end
	}
	return true
}

func (l *layout) list(p *place, y *yaml.Node) bool {
	at := p.start
	for i, c := range y.Content {
		if !l.at(at, '-') {
			return false
		}
		in := &place{node: p.node.Items[i], entry: at, after: at + 1, column: y.Column - 1}
		if !l.value(in, c, y.Column-1) {
			return false
		}
		p.inside = append(p.inside, in)
		p.end = in.end
		at = l.skip(in.end)
	}
	return true
}

func (l *layout) braces(p *place, y *yaml.Node, open, shut byte) bool {
	if !l.at(p.start, open) {
		return false
	}
	end := p.start + 1
	step := 1
	if open == '{' {
		step = 2
	}
	for i := 0; i+step <= len(y.Content); i += step {
		in := &place{flowing: true}
		var ok bool
		if open == '{' {
			in.node = p.node.Entries[i/2].Value
			ok = l.pair(in, y.Content[i], y.Content[i+1], -1)
		} else {
			in.node = p.node.Items[i]
			ok = l.find(in, y.Content[i], -1)
			in.entry, in.after = in.start, in.start
		}
		if !ok || in.entry < end {
			return false
		}
		p.inside = append(p.inside, in)
		end = in.end
	}
	if end = l.skip(end); l.at(end, ',') {
		end = l.skip(end + 1)
	}
	p.end = end + 1
	return l.at(end, shut)
}

func (l *layout) quoted(p *place) bool {
	if p.start >= len(l.text) {
		return false
	}
	quote := l.text[p.start]
	for i := p.start + 1; i < len(l.text); i++ {
		switch c := l.text[i]; {
		case c == '\\' && quote == '"':
			i++
		case c == quote && quote == '\'' && l.at(i+1, quote):
			i++
		case c == quote:
			p.end = i + 1
			return quote == '"' || quote == '\''
		}
	}
	return false
}

// plain returns the end of a text without quotes. A line end within it reads as a
// space, and each empty line as a line end.
func (l *layout) plain(at int, value string) (end int, ok bool) {
	for len(value) > 0 {
		i, breaks := at, 0
		for i < len(l.text) {
			if n := l.breakAt(i); n > 0 {
				breaks++
				i += n
			} else if c := l.text[i]; c == ' ' || c == '\t' {
				i++
			} else {
				break
			}
		}
		read := l.text[at:i]
		if breaks == 1 {
			read = " "
		} else if breaks > 1 {
			read = strings.Repeat("\n", breaks-1)
		}
		if i == at {
			if i == len(l.text) {
				return 0, false
			}
			i++
			read = l.text[at:i]
		}
		if !strings.HasPrefix(value, read) {
			return 0, false
		}
		value = value[len(read):]
		at = i
	}
	return at, true
}

// paragraph finds the end of a text after | or >. The indent is that of the block
// around it.
func (l *layout) paragraph(p *place, indent int) bool {
	end := l.lineEnd(p.start)
	head, _, _ := strings.Cut(l.text[p.start:end], "#")
	if strings.ContainsAny(head, "123456789") {
		return false // an indentation of its own
	}
	p.end = p.start + len(strings.TrimRight(head, " \t"))
	own, line := -1, l.lineOf(p.start)+1
	for ; line < len(l.lines); line++ {
		text, in := l.line(line)
		switch {
		case strings.Trim(text, " ") == "":
			continue
		case own < 0 && in > indent:
			own = in
		}
		if own < 0 || in < own {
			break
		}
		p.end = l.lines[line] + len(text)
	}
	if strings.Contains(head, "+") { // empty lines at the end are part of the text
		p.end = l.next(line)
	}
	return true
}

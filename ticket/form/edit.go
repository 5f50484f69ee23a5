package form

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"go.yaml.in/yaml/v3"
)

// ErrByHand says that only a person can safely change the file: its form is one
// that [Edit] does not handle.
var ErrByHand = errors.New("has a form that Shadewright cannot change safely")

// Edit changes or adds the value at a path of keys and returns the new text.
// Everything else, including comments and blank lines, stays as it was typed. Edit
// parses the result to check it. The error is a [Problems] if the file cannot be
// read, or [ErrByHand].
func Edit(file string, data []byte, path []string, value string) ([]byte, error) {
	before, bad := Parse(file, data)
	if bad != nil {
		return nil, bad
	}
	var doc yaml.Node
	if err := decode(yaml.NewDecoder(bytes.NewReader(data)), &doc); err != nil {
		doc = yaml.Node{} // only comments
	}
	out, ok := editor{strings.ReplaceAll(strings.TrimPrefix(string(data), "\ufeff"), "\r\n", "\n")}.set(&doc, path, value)
	if !ok {
		return nil, fmt.Errorf("%s: %w", file, ErrByHand)
	}
	after, bad := Parse(file, []byte(out))
	if bad != nil || !sameNodes(after, with(before, path, value)) {
		return nil, fmt.Errorf("%s: %w", file, ErrByHand)
	}
	return []byte(out), nil
}

// An editor changes the text of a file at the positions that the library reports.
type editor struct{ text string }

func (e editor) set(doc *yaml.Node, path []string, value string) (string, bool) {
	if len(doc.Content) == 0 || doc.Content[0].Kind != yaml.MappingNode || len(doc.Content[0].Content) == 0 {
		return e.end(path, value), true
	}
	at := doc.Content[0]
	for i, key := range path {
		k, v := pair(at, key)
		switch {
		case k == nil && i == 0:
			return e.end(path, value), true
		case k == nil:
			return e.into(at, path[i:], value)
		case i == len(path)-1:
			return e.replace(v, value)
		case v.Kind != yaml.MappingNode || len(v.Content) == 0:
			return "", false
		}
		at = v
	}
	return "", false
}

func pair(n *yaml.Node, key string) (k, v *yaml.Node) {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i], n.Content[i+1]
		}
	}
	return nil, nil
}

// offset returns the offset in the text of a line and a column, both counted from
// 1.
func (e editor) offset(line, column int) int {
	at := 0
	for range line - 1 {
		n := strings.IndexByte(e.text[at:], '\n')
		if n < 0 {
			return len(e.text)
		}
		at += n + 1
	}
	for range column - 1 {
		for _, r := range e.text[at:] { // a column is a character, not a byte
			at += len(string(r))
			break
		}
	}
	return min(at, len(e.text))
}

func (e editor) replace(v *yaml.Node, value string) (string, bool) {
	if v.Kind != yaml.ScalarNode || v.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 {
		return "", false
	}
	at := e.offset(v.Line, v.Column)
	length := len(v.Value)
	if v.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0 {
		length = 1 + strings.IndexByte(e.text[at+1:], e.text[at]) + 1
	}
	if at+length > len(e.text) {
		return "", false
	}
	return e.text[:at] + scalarText(value) + e.text[at+length:], true
}

// into adds a path to an existing group, before its first key.
func (e editor) into(group *yaml.Node, path []string, value string) (string, bool) {
	first := group.Content[0]
	at := e.offset(first.Line, first.Column)
	if group.Style&yaml.FlowStyle != 0 {
		n := nest(path, value)
		inner, ok := flow(n)
		if !ok {
			return "", false
		}
		return e.text[:at] + strings.TrimSuffix(strings.TrimPrefix(inner, "{"), "}") + ", " + e.text[at:], true
	}
	indent := strings.Repeat(" ", first.Column-1)
	line := at - (first.Column - 1)
	var b strings.Builder
	lines(&b, path, value, indent)
	return e.text[:line] + b.String() + e.text[line:], true
}

// end adds a path at the end of the file.
func (e editor) end(path []string, value string) string {
	text := e.text
	if text != "" && !strings.HasSuffix(text, "\n") {
		text += "\n"
	}
	var b strings.Builder
	lines(&b, path, value, "")
	return text + b.String()
}

func lines(b *strings.Builder, path []string, value, indent string) {
	for i, key := range path {
		b.WriteString(indent + strings.Repeat("  ", i) + scalarText(key) + ":")
		if i == len(path)-1 {
			b.WriteString(" " + scalarText(value))
		}
		b.WriteByte('\n')
	}
}

func nest(path []string, value string) *Node {
	n := &Node{Shape: Plain, Text: value}
	for i := len(path) - 1; i >= 0; i-- {
		n = &Node{Shape: Keys, Entries: []Entry{{Key: path[i], Value: n}}}
	}
	return n
}

// with returns a copy of n that has the value at a path.
func with(n *Node, path []string, value string) *Node {
	if len(path) == 0 {
		return &Node{Shape: Plain, Text: value}
	}
	out := &Node{Shape: Keys}
	found := false
	if n != nil {
		for _, e := range n.Entries {
			if e.Key == path[0] {
				e.Value, found = with(e.Value, path[1:], value), true
			}
			out.Entries = append(out.Entries, e)
		}
	}
	if !found {
		out.Entries = append(out.Entries, Entry{Key: path[0], Value: with(nil, path[1:], value)})
	}
	return out
}

// sameNodes reports whether two nodes have the same content, whatever the order of
// keys.
func sameNodes(a, b *Node) bool {
	if a.Shape != b.Shape || a.Text != b.Text || len(a.Entries) != len(b.Entries) || len(a.Items) != len(b.Items) {
		return false
	}
	for _, e := range a.Entries {
		if v := b.At(e.Key); v == nil || !sameNodes(e.Value, v) {
			return false
		}
	}
	for i := range a.Items {
		if !sameNodes(a.Items[i], b.Items[i]) {
			return false
		}
	}
	return true
}

package form

import (
	"regexp"
	"strings"
)

// widest is the most characters on a line of a written file. A longer group in { }
// gets one line for each key.
const widest = 100

// Format writes a file that [Parse] reads as the node n, which must have the shape
// [Keys]. Above each top key it writes the remark of that name, if there is one.
// Remarks under the name "" come first.
func Format(n *Node, remarks map[string][]string) []byte {
	var b strings.Builder
	remark := func(name string) {
		for _, line := range remarks[name] {
			if line != "" { // an empty line separates two paragraphs
				line = "# " + line
			}
			b.WriteString(strings.TrimRight(line, " ") + "\n")
		}
	}
	remark("")
	for _, e := range n.Entries {
		if b.Len() > 0 {
			b.WriteByte('\n')
		}
		remark(e.Key)
		b.WriteString(scalarText(e.Key) + ":")
		block(&b, e.Value, "  ", false)
	}
	return []byte(b.String())
}

// block writes the value after a key or a dash, and the line end. Groups below the
// first level are written in { } if they fit on a line.
func block(b *strings.Builder, n *Node, indent string, flowing bool) {
	switch {
	case n.Shape == Plain && inLines(n.Text):
		b.WriteString(" |-\n")
		for line := range strings.SplitSeq(n.Text, "\n") {
			b.WriteString(indent + line + "\n")
		}
	case n.Shape == Plain:
		b.WriteString(" " + scalarText(n.Text) + "\n")
	case n.Shape == List && flowing && fits(n, indent):
		s, _ := flow(n)
		b.WriteString(" " + s + "\n")
	case n.Shape == List:
		b.WriteByte('\n')
		for i, item := range n.Items {
			if i > 0 && item.Shape == Keys {
				b.WriteByte('\n')
			}
			b.WriteString(indent + "-")
			items(b, item, indent+"  ")
		}
	case len(n.Entries) == 0:
		b.WriteString(" {}\n")
	default:
		if s, ok := flow(n); ok && (flowing || leaves(n)) && len(indent)+len(s) <= widest {
			b.WriteString(" " + s + "\n")
			return
		}
		b.WriteByte('\n')
		for _, e := range n.Entries {
			b.WriteString(indent + scalarText(e.Key) + ":")
			block(b, e.Value, indent+"  ", true)
		}
	}
}

// items writes the keys of a list item, the first one behind the dash.
func items(b *strings.Builder, n *Node, indent string) {
	if n.Shape != Keys || len(n.Entries) == 0 {
		block(b, n, indent, true)
		return
	}
	for i, e := range n.Entries {
		lead := indent
		if i == 0 {
			lead = " "
		}
		b.WriteString(lead + scalarText(e.Key) + ":")
		block(b, e.Value, indent+"  ", true)
	}
}

// inLines reports whether a text has several lines that can be written as they are.
// A reader would lose a space at either end of a line.
func inLines(s string) bool {
	if !strings.Contains(s, "\n") {
		return false
	}
	for line := range strings.SplitSeq(s, "\n") {
		if line == "" || strings.TrimSpace(line) != line {
			return false
		}
	}
	return true
}

// leaves reports whether a group contains only texts.
func leaves(n *Node) bool {
	for _, e := range n.Entries {
		if e.Value.Shape != Plain {
			return false
		}
	}
	return true
}

// fits reports whether a list fits on one line.
func fits(n *Node, indent string) bool {
	s, ok := flow(n)
	return ok && len(indent)+len(s) <= widest
}

// flow writes a group in { } or a list in [ ]. It returns false if the node
// contains a text of several lines.
func flow(n *Node) (string, bool) {
	if n.Shape == Plain {
		return scalarText(n.Text), !strings.Contains(n.Text, "\n")
	}
	if n.Shape == List {
		parts := make([]string, len(n.Items))
		for i, item := range n.Items {
			v, ok := flow(item)
			if !ok {
				return "", false
			}
			parts[i] = v
		}
		return "[" + strings.Join(parts, ", ") + "]", true
	}
	parts := make([]string, len(n.Entries))
	for i, e := range n.Entries {
		v, ok := flow(e.Value)
		if !ok {
			return "", false
		}
		parts[i] = scalarText(e.Key) + ": " + v
	}
	return "{" + strings.Join(parts, ", ") + "}", true
}

var (
	// bare matches text that needs no quotes: it starts with a letter or digit and
	// has no character that means something to YAML.
	bare = regexp.MustCompile(`^[\pL\pN][\pL\pN \-./'"_()+%;°“”‘’–—]*$`)
	// null matches the words that mean no value (YAML 1.2.2, 10.3.2).
	null   = regexp.MustCompile(`^(?i:null)$`)
	escape = strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`)
)

// scalarText returns a text as YAML, in quotes if it needs them.
func scalarText(s string) string {
	if bare.MatchString(s) && !strings.HasSuffix(s, " ") && !null.MatchString(s) {
		return s
	}
	return `"` + escape.Replace(s) + `"`
}

package form

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// letters are plain characters and those that YAML gives a meaning to.
var letters = []rune("abcXYZ 0123-:#,[]{}&*!|>'\"%@`~?=<\\/.½é鷺\u00a0\n")

func anyNode(depth int) *rapid.Generator[*Node] {
	text := rapid.Custom(func(t *rapid.T) string {
		s := rapid.StringOfN(rapid.SampledFrom(letters), 1, 20, -1).Draw(t, "text")
		return strings.TrimSpace(s)
	}).Filter(func(s string) bool { return s != "" })
	return rapid.Custom(func(t *rapid.T) *Node {
		shape := rapid.SampledFrom([]Shape{Plain, Plain, Keys, List}).Draw(t, "shape")
		if depth == 0 {
			shape = Keys
		}
		if depth > 3 {
			shape = Plain
		}
		n := &Node{Shape: shape}
		switch shape {
		case Plain:
			n.Text = text.Draw(t, "value")
		case Keys:
			seen := map[string]bool{}
			for range rapid.IntRange(1, 4).Draw(t, "keys") {
				key := strings.ReplaceAll(text.Draw(t, "key"), "\n", "x")
				if !seen[key] {
					seen[key] = true
					n.Entries = append(n.Entries, Entry{Key: key, Value: anyNode(depth+1).Draw(t, "value")})
				}
			}
		case List:
			for range rapid.IntRange(1, 3).Draw(t, "items") {
				n.Items = append(n.Items, anyNode(depth+1).Draw(t, "item"))
			}
		}
		return n
	})
}

// Format and Parse return the same text, whatever characters it contains.
func TestFormatLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := anyNode(0).Draw(t, "node")
		text := Format(n, nil)
		back, bad := Parse("written.yaml", text)
		if bad != nil {
			t.Fatalf("%v\n%s", bad, text)
		}
		if !sameNodes(n, back) {
			t.Fatalf("reads back otherwise:\n%s", text)
		}
	})
}

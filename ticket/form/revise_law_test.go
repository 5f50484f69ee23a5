package form

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// put returns a copy of n with another value at a path of positions; nil removes it.
func put(n *Node, path []int, v *Node) *Node {
	if len(path) == 0 {
		return v
	}
	out := &Node{Shape: n.Shape, Text: n.Text}
	for i, e := range n.Entries {
		if i == path[0] {
			e.Value = put(e.Value, path[1:], v)
		}
		if e.Value != nil {
			out.Entries = append(out.Entries, e)
		}
	}
	for i, item := range n.Items {
		if i == path[0] {
			item = put(item, path[1:], v)
		}
		if item != nil {
			out.Items = append(out.Items, item)
		}
	}
	return out
}

// outcomes counts what a law saw, so that it cannot pass by skipping.
type outcomes struct{ done, refused int }

func (o *outcomes) of(t *rapid.T, err error) bool {
	if errors.Is(err, ErrByHand) {
		o.refused++
		return false
	}
	if err != nil {
		t.Fatal(err)
	}
	o.done++
	return true
}

func (o *outcomes) judge(t *testing.T) {
	t.Helper()
	if o.done < 20 || o.refused*5 > o.done {
		t.Errorf("%d changes were made and %d refused", o.done, o.refused)
	}
}

func mustBe(t *rapid.T, out []byte, want *Node) {
	n, bad := Parse("page.yaml", out)
	if bad != nil || !sameNodes(n, want) {
		t.Fatalf("%v\n%s", bad, out)
	}
}

// A new value changes the bytes of the old value and no others.
func TestReviseValueLaw(t *testing.T) {
	var o outcomes
	rapid.Check(t, func(rt *rapid.T) {
		text, n, spots := page(rt)
		at := spots[rapid.IntRange(0, len(spots)-1).Draw(rt, "spot")]
		if !at.leaf {
			rt.Skip("not a text")
		}
		v := rapid.SampledFrom([]string{"31-5/8", "a: b", "", "- x", "# y", "two\nlines", "tab\there", "null", "{", "\u2028"}).Draw(rt, "value")
		want := put(n, at.path, text1(v))
		out, err := Revise("page.yaml", []byte(text), want)
		if !o.of(rt, err) {
			return
		}
		mustBe(rt, out, want)
		before, after := text[:at.start], text[at.end:]
		if strings.ContainsAny(text[at.start:at.start+1], "|>") {
			after = after[:0] // its comment moves to the new value; the counting below holds
		}
		if v != "two\nlines" && (!strings.HasPrefix(string(out), strings.TrimRight(before, " \n")) || !strings.HasSuffix(string(out), after)) {
			rt.Fatalf("more than the value changed:\n%s\nto\n%s", text, out)
		}
		if got, want := strings.Count(string(out), "# "), strings.Count(text, "# "); got < want && !strings.Contains(text[at.start:at.end], "# ") {
			rt.Fatalf("%d of %d comments are left:\n%s\nto\n%s", got, want, text, out)
		}
	})
	o.judge(t)
}

// A removed entry takes its own bytes, and only comments and empty lines beside it.
func TestReviseRemoveLaw(t *testing.T) {
	var o outcomes
	rapid.Check(t, func(rt *rapid.T) {
		text, n, spots := page(rt)
		at := spots[rapid.IntRange(0, len(spots)-1).Draw(rt, "spot")]
		if at.only {
			rt.Skip("the only one")
		}
		want := put(n, at.path, nil)
		out, err := Revise("page.yaml", []byte(text), want)
		if !o.of(rt, err) {
			return
		}
		mustBe(rt, out, want)
		if !onlyEntry(text, string(out), at) {
			rt.Fatalf("more than the entry is gone:\n%s\nto\n%s", text, out)
		}
	})
	o.judge(t)
}

// onlyEntry reports whether text became out by the loss of one stretch, which holds the
// entry and beside it only comments, empty lines and a comma or a dash.
func onlyEntry(text, out string, at spot) bool {
	gone := len(text) - len(out)
	for from := 0; from <= len(out) && (from == 0 || text[from-1] == out[from-1]); from++ {
		if text[from+gone:] != out[from:] || from > at.entry || from+gone < at.end-1 {
			continue
		}
		beside := strings.Split(text[from:at.entry]+"\n"+text[min(at.end, from+gone):from+gone], "\n")
		if !slices.ContainsFunc(beside, func(line string) bool {
			line = strings.Trim(line, " ,")
			return line != "" && line[0] != '#'
		}) {
			return true
		}
	}
	return false
}

// A new key or item adds bytes and changes none.
func TestReviseAddLaw(t *testing.T) {
	var o outcomes
	rapid.Check(t, func(rt *rapid.T) {
		text, n, spots := page(rt)
		at := spots[rapid.IntRange(0, len(spots)-1).Draw(rt, "spot")]
		parent := at.path[:len(at.path)-1]
		group := n
		for _, i := range parent {
			if group.Shape == Keys {
				group = group.Entries[i].Value
			} else {
				group = group.Items[i]
			}
		}
		more := &Node{Shape: group.Shape, Items: append([]*Node(nil), group.Items...), Entries: append([]Entry(nil), group.Entries...)}
		v := rapid.SampledFrom([]*Node{text1("31"), group1("id", "new", "width", "3/8"), {Shape: List, Items: []*Node{text1("1"), text1("2")}}}).Draw(rt, "value")
		i := rapid.IntRange(0, at.path[len(parent)]+1).Draw(rt, "position")
		if group.Shape == Keys {
			more.Entries = append(more.Entries[:i:i], append([]Entry{{Key: "fresh", Value: v}}, more.Entries[i:]...)...)
		} else {
			more.Items = append(more.Items[:i:i], append([]*Node{v}, more.Items[i:]...)...)
		}
		want := put(n, parent, more)
		out, err := Revise("page.yaml", []byte(text), want)
		if !o.of(rt, err) {
			return
		}
		mustBe(rt, out, want)
		from := 0
		for from < len(text) && text[from] == out[from] {
			from++
		}
		if rest := text[from:]; !strings.HasSuffix(string(out[from:]), rest) {
			rt.Fatalf("bytes changed:\n%s\nto\n%s", text, out)
		}
	})
	o.judge(t)
}

// Many changes at once give exactly the file that was meant, with Windows line ends and a
// byte order mark, too.
func TestReviseManyLaw(t *testing.T) {
	var o outcomes
	rapid.Check(t, func(rt *rapid.T) {
		text, _, _ := page(rt)
		_, want, _ := page(rt)
		if rapid.Bool().Draw(rt, "Windows") {
			text = "\ufeff" + strings.ReplaceAll(text, "\n", "\r\n")
		}
		out, err := Revise("page.yaml", []byte(text), want)
		if !o.of(rt, err) {
			return
		}
		mustBe(rt, out, want)
		if strings.HasPrefix(text, "\ufeff") && strings.Count(string(out), "\n") != strings.Count(string(out), "\r\n") {
			rt.Fatalf("line ends are mixed: %q", out)
		}
	})
	o.judge(t)
}

package form

import "testing"

// Only what differs between from and to reaches base. The wanted texts were written by
// hand.
func TestCarry(t *testing.T) {
	for _, tt := range []struct{ base, from, to, want string }{
		{"{a: 1, b: 2}", "{a: 1}", "{a: 1}", "{a: 1, b: 2}"},
		{"{a: 1, b: 2}", "{a: 1}", "{a: 3}", "{a: 3, b: 2}"},
		{"{a: 1, b: 2}", "{a: 1, b: 2}", "{a: 1}", "{a: 1}"},
		{"{a: 1, b: 2}", "{a: 1}", "{a: 1, c: 3}", "{a: 1, b: 2, c: 3}"},
		{"{a: 1}", "{a: 1, d: 4}", "{a: 1, d: 4}", "{a: 1}"},
		{"{a: 1}", "{a: 1, d: 4}", "{a: 1, d: 5}", "{a: 1, d: 5}"},
		{"{s: [{i: 1, x: 9}, {i: 2}]}", "{s: [{i: 1}, {i: 2}]}", "{s: [{i: 1}, {i: 3}, {i: 4}]}", "{s: [{i: 1, x: 9}, {i: 3}, {i: 4}]}"},
		{"{s: none}", "{s: none}", "{s: [1, 2]}", "{s: [1, 2]}"},
	} {
		node := func(text string) *Node {
			n, bad := Parse("a.yaml", []byte(text))
			if bad != nil {
				t.Fatal(bad)
			}
			return n
		}
		if got := Carry(node(tt.base), node(tt.from), node(tt.to)); !got.Same(node(tt.want)) {
			t.Errorf("%s, from %s to %s: %s; want %s", tt.base, tt.from, tt.to, Format(got, nil), tt.want)
		}
	}
}

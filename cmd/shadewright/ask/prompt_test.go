package ask

import "testing"

func TestFold(t *testing.T) {
	for _, tt := range []struct {
		text  string
		width int
		want  string
	}{
		{"write 1125 or 1.125", 14, "write 1125 or\n1.125"},
		{"write 1125 or 1.125", 19, "write 1125 or 1.125"},
		{"write 1125 or 1.125", 0, "write 1125 or 1.125"},
		{"one\ntwo three", 5, "one\ntwo\nthree"},
		{"unbreakable", 4, "unbreakable"},
		{"¼ ½ ¾", 3, "¼ ½\n¾"},
	} {
		if got := fold(tt.text, tt.width); got != tt.want {
			t.Errorf("fold(%q, %d) = %q; want %q", tt.text, tt.width, got, tt.want)
		}
	}
}

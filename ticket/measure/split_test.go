package measure

import (
	"slices"
	"strings"
	"testing"
)

// Each reading is told from its neighbours by hand.
func TestSplit(t *testing.T) {
	for _, tt := range []struct {
		text string
		want []string
	}{
		{"27 1/2 27 1/2 27 5/8", []string{"27 1/2", "27 1/2", "27 5/8"}},
		{"27 1/2, 27 1/2, 27 5/8", []string{"27 1/2", "27 1/2", "27 5/8"}},
		{"27 1/2; 27 1/2;27 5/8", []string{"27 1/2", "27 1/2", "27 5/8"}},
		{"27½ 28 27⅝", []string{"27 1/2", "28", "27 5/8"}},
		{"845 846 845,5", []string{"845", "846", "845,5"}},
		{"845, 846, 845,5", []string{"845", "846", "845,5"}},
		{"27-1/2 27.5 27 1/2\"", []string{"27-1/2", "27.5", `27 1/2"`}},
		{"2' 3 1/2 2' 3 5/8", []string{"2' 3 1/2", "2' 3 5/8"}},
		{"2 ft 3 in 2 ft 4 in", []string{"2 ft 3 in", "2 ft 4 in"}},
		{"2 ft 3 ft", []string{"2 ft", "3 ft"}},
		{"3' 3' 3'", []string{"3'", "3'", "3'"}},
		{"27 inches 28 inches", []string{"27 inches", "28 inches"}},
		{"3/4 x 1-1/2", []string{"3/4", "1-1/2"}},
		{"3/8 1/4 5/32", []string{"3/8", "1/4", "5/32"}},
		{"27", []string{"27"}},
		{"", nil},
	} {
		got, err := Split(tt.text)
		if err != nil || !slices.Equal(got, tt.want) {
			t.Errorf("Split(%q) = %q, %v; want %q", tt.text, got, err, tt.want)
		}
	}
}

// What could be read in two ways is refused, with what to write.
func TestSplitAmbiguous(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"27,28", `"27,28" could be one length or two; write 27.28 for one, or 27 28 for two`},
		{"845,846,845", `has commas that could part numbers or decimals; put a space or a semicolon between two readings`},
		{"27;;28", `has nothing between two semicolons`},
	} {
		if got, err := Split(tt.text); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("Split(%q) = %q, %v; want %s", tt.text, got, err, tt.want)
		}
	}
}

package ticket

import (
	"fmt"
	"testing"
)

func TestUnitName(t *testing.T) {
	tests := []struct {
		id       string
		unit, of int
		want     string
	}{
		{"bunk-left", 1, 1, "bunk-left"},
		{"bunk-left", 2, 2, "bunk-left, unit 2"},
		{"1", 2, 2, "shade 1, unit 2"},
		{"12", 1, 1, "shade 12"},
		{"3-1", 1, 3, "shade 3-1, unit 1"},
		{"3b", 1, 1, "3b"},
	}
	for _, tt := range tests {
		if got := UnitName(tt.id, tt.unit, tt.of).String(); got != tt.want {
			t.Errorf("UnitName(%q, %d, %d) = %q; want %q", tt.id, tt.unit, tt.of, got, tt.want)
		}
	}
}

// No two units of a job with shades from 1 to 15 read alike, and none reads like a shade
// that stands alone, in letters and figures or with the spaces and commas lost.
func TestUnitNamesDiffer(t *testing.T) {
	seen := map[string]string{}
	for n := 1; n <= 15; n++ {
		for _, of := range []int{1, 12} {
			for unit := 1; unit <= of; unit++ {
				name := UnitName(fmt.Sprint(n), unit, of).String()
				var bare []rune
				for _, r := range name {
					if r != ' ' && r != ',' {
						bare = append(bare, r)
					}
				}
				is := fmt.Sprintf("shade %d, unit %d of %d", n, unit, of)
				if other, ok := seen[string(bare)]; ok {
					t.Errorf("%s and %s are both %q", is, other, name)
				}
				seen[string(bare)] = is
			}
		}
	}
}

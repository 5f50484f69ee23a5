package ticket_test

import (
	"strings"
	"testing"

	"shadewright/ticket"
	"shadewright/ticket/finding"
)

// A donor roller exists once: two shades on it are a stop that names both.
func TestRollerExistsOnce(t *testing.T) {
	a, b := usual(), usual()
	a.ID, b.ID, a.Quantity = "a", "b", 2
	for _, tt := range []struct {
		count int
		stops bool
	}{{1, true}, {2, true}, {3, false}, {0, false}} { // zero: as many as are needed
		a.Roller.Count, b.Roller.Count = tt.count, tt.count
		for _, k := range mustMake(t, jobOf(a, b), options()) {
			if k.Stopped() != tt.stops {
				t.Errorf("count %d: %s stopped is %v; want %v", tt.count, k.Name(), k.Stopped(), tt.stops)
			}
			if !tt.stops {
				continue
			}
			f := k.Findings[0]
			for _, want := range []string{"a, unit 1", "a, unit 2", "b"} {
				if f.Level != finding.Stop || f.Field != "roller" || !strings.Contains(f.Text.String(), want) {
					t.Errorf("count %d: %+v; want a stop on the roller that names %s", tt.count, f, want)
				}
			}
			if !strings.Contains(f.Remedy.String(), "count: 3") {
				t.Errorf("count %d: remedy %q; want the count that would do", tt.count, f.Remedy)
			}
		}
	}
	b.Roller.Name = "other"
	b.Roller.Count, a.Roller.Count = 1, 2
	if all := mustMake(t, jobOf(a, b), options()); len(ticket.UncheckedOf(all)) > 0 || all[0].Stopped() || all[2].Stopped() {
		t.Error("rollers that are enough stop a shade")
	}
}

package hang

import (
	"testing"

	"shadewright/ticket/measure"
)

// Rounding hides no turns: numbers below one keep two figures. By hand: a spring of
// 900 N·mm per turn that has to give 9 N·mm needs 9/900 turns.
func TestTurnsText(t *testing.T) {
	st := measure.Usual(measure.Inches)
	for turns, want := range map[float64]string{
		0: "0.0", 12: "12.0", 9.26: "9.3", 1: "1.0", 0.95: "0.95", 0.5: "0.50", 0.04: "0.040", 9.0 / 900: "0.010", 0.0012: "0.0012", -0.25: "-0.25", -3: "-3.0",
	} {
		if got := TurnsText(st, turns); got != want {
			t.Errorf("TurnsText(%g) = %q; want %q", turns, got, want)
		}
	}
}

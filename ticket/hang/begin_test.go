package hang

import (
	"math"
	"testing"

	"shadewright/ticket/measure"
)

// By hand, for 0.9 m of 540 g/m², 50 mm of it always down, and 250 g of slat: at 375 mm
// 0.9 × 0.425 × 540 + 250 = 456.55 g hang, at 1125 mm 0.9 × 1.175 × 540 + 250 = 821.05 g.
// With 1.15 and 2 times the torque, the scale shows 15 % of it, 68.5 and 123.2 g, to all of
// it.
func TestBegin(t *testing.T) {
	l := window()
	at := TrialHeights(l.Load.Drop, metric)
	b := l.Begin(0, at, UsualLimits(measure.Millimetres))
	for i, want := range [2][2]int{{69, 456}, {124, 821}} {
		if least, most := b.Scales[i].Grams(); least != want[0] || most != want[1] {
			t.Errorf("at %s the scale reads %d to %d g; want %v (by hand)", b.Scales[i].Below, least, most, want)
		}
	}
	// A spring that just holds the shade at both ends does so with these turns, but for the
	// step of the pull.
	travel := l.Winding.Unrolled(l.Load.Drop)
	rate := (l.Torque(l.Load.Drop) - l.Torque(0)) / travel
	if held := rate * b.Turns; held > l.Torque(0) || l.Torque(0)-held > rate {
		t.Errorf("%.2f turns hold %.1f N·mm with the shade up; want just under %.1f", b.Turns, held, l.Torque(0))
	}
	if most := travel + 1; math.Abs(l.Begin(most, at, UsualLimits(measure.Millimetres)).Most-1) > 1e-9 {
		t.Errorf("a spring that binds one turn after the shade is down takes more than one turn before")
	}
}

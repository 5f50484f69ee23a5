package hang

import (
	"math"
	"strings"
	"testing"

	"shadewright/ticket/measure"
)

// A spring of 5.5 N·mm per turn with 9 turns on it is recovered from what a scale
// would show at two heights, in whole grams.
func TestMeasure(t *testing.T) {
	const rate, wound = 5.5, 9.0
	l := window()
	lim := UsualLimits(measure.Millimetres)
	pull := func(below measure.Length, wound float64) measure.Mass {
		i, at, shown := 0, int(below*4000/l.Load.Drop), 0.0
		unroll(l, 4000, func(turns, torque float64) {
			if i == at {
				// torque/radius = weight; the scale adds what is missing.
				all := (l.Winding.Wrap + l.Winding.Drop - below).Millimetres()
				r0, th := l.Winding.Tube.Millimetres()/2, l.Winding.Cloth.Millimetres()
				r := r0 + th*turnsOf(all, r0, th)
				shown = (rate*(wound+turns) - torque) / r / 9.80665 * 1000
			}
			i++
		})
		return massOf(math.Round(shown))
	}
	at := TrialHeights(l.Load.Drop, metric)
	trial := Trial{ScaleStep: measure.Gram, TapeStep: mm, Readings: [2]Reading{{at[0], pull(at[0], wound)}, {at[1], pull(at[1], wound)}}}
	got, found, err := l.Measure(trial, lim, metric)
	if err != nil {
		t.Fatal(err)
	}
	if !within(got.PerTurn, rate, 3*got.PerTurnError) || !within(got.Turns, wound, 3*got.TurnsError) || len(found) != 0 {
		t.Errorf("measured %+v, findings %v; made with %v and %v turns", got, found, rate, wound)
	}
	if got.PerTurnError > 0.05 || got.PerTurnError <= 0 {
		t.Errorf("error %v N·mm per turn; a scale of 1 g does better", got.PerTurnError)
	}
	// The order of the readings does not matter.
	trial.Readings[0], trial.Readings[1] = trial.Readings[1], trial.Readings[0]
	if back, _, err := l.Measure(trial, lim, metric); err != nil || back != got {
		t.Errorf("swapped: %+v, %v; want %+v", back, err, got)
	}
	// A coarse scale gets a finding.
	trial.ScaleStep = 500 * measure.Gram
	_, found, _ = l.Measure(trial, lim, metric)
	complete(t, found)
	if levels(found) != "caution trial" {
		t.Errorf("coarse scale: findings %v", found)
	}
	// A spring that lacks a turn to be taut must be carried by the scale.
	trial.ScaleStep = measure.Gram
	trial.Readings = [2]Reading{{at[0], pull(at[0], -1)}, {at[1], pull(at[1], -1)}}
	got, found, err = l.Measure(trial, lim, metric)
	complete(t, found)
	if err != nil || levels(found) != "note trial" || !within(got.Turns, -1, 3*got.TurnsError) ||
		!strings.Contains(texts(found), "slack by "+TurnsText(metric, -got.Turns)+" turns") {
		t.Errorf("slack spring: findings %v, %v", found, err)
	}
}

// The error carried through equals that of small changes in each reading.
func TestMeasureError(t *testing.T) {
	l := window()
	lim := UsualLimits(measure.Millimetres)
	base := Trial{ScaleStep: 10 * measure.Gram, Readings: [2]Reading{{375 * mm, 200 * measure.Gram}, {1125 * mm, 500 * measure.Gram}}}
	got, _, err := l.Measure(base, lim, metric)
	if err != nil {
		t.Fatal(err)
	}
	var rate, turns float64
	for i := range base.Readings {
		moved := base
		moved.Readings[i].Scale += measure.Gram
		m, _, err := l.Measure(moved, lim, metric)
		if err != nil {
			t.Fatal(err)
		}
		sigma := 5 / math.Sqrt(3) // half a mark of 10 g, rectangular
		rate = math.Hypot(rate, (m.PerTurn-got.PerTurn)*sigma)
		turns = math.Hypot(turns, (m.Turns-got.Turns)*sigma)
	}
	if !within(got.PerTurnError/rate, 1, 1e-6) || !within(got.TurnsError/turns, 1, 2e-2) {
		t.Errorf("errors %v, %v; by small changes %v, %v", got.PerTurnError, got.TurnsError, rate, turns)
	}
}

func TestMeasureRefuses(t *testing.T) {
	lim := UsualLimits(measure.Millimetres)
	g := measure.Gram
	for _, c := range []struct {
		a, b  Reading
		words []string
	}{
		{Reading{375 * mm, 200 * g}, Reading{375 * mm, 300 * g}, []string{"too short a distance between the two heights", "at least 150 mm apart"}},
		{Reading{375 * mm, 2000 * g}, Reading{1125 * mm, 100 * g}, []string{"cannot be the rate of a spring", "not swapped"}},
		{Reading{375 * mm, 200 * g}, Reading{1600 * mm, 300 * g}, []string{"more cloth than the shade has"}},
		{Reading{-mm, 200 * g}, Reading{1125 * mm, 300 * g}, []string{"negative"}},
	} {
		_, _, err := window().Measure(Trial{Readings: [2]Reading{c.a, c.b}}, lim, metric)
		wantInputError(t, err, "trial", c.words...)
	}
	if _, _, err := (Lift{}).Measure(Trial{}, lim, metric); err == nil {
		t.Error("nothing at all was accepted")
	}
}

func TestTrialSteps(t *testing.T) {
	if at := TrialHeights(48*in, inches); at != [2]measure.Length{12 * in, 36 * in} {
		t.Errorf("heights %v; want a quarter and three quarters", at)
	}
	if s := strings.Join(TrialSteps(48*in, inches), "; "); !strings.Contains(s, "12 in") || !strings.Contains(s, "36 in") {
		t.Errorf("steps %q name no heights", s)
	}
}

package hang

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
)

// window is a shade of common size: 900 × 1500 mm of 540 g/m² on a 25.4 mm tube.
func window() Lift {
	const drop = 1500 * mm
	return Lift{
		Winding: Winding{Tube: 25*mm + 400*um, Cloth: 700 * um, Wrap: 160 * mm, Drop: drop},
		Load:    Load{Width: 900 * mm, Drop: drop, Fold: 50 * mm, Cloth: 540 * measure.GramPerSquareMetre, Slat: 250 * measure.Gram},
	}
}

// 0.85 × 1.80 m at 540 g/m² is 826.2 g, at 560 it is 856.8 g (by hand: 1.53 m² × 540 and 560).
func TestWeight(t *testing.T) {
	l := Load{Width: 850 * mm, Drop: 1800 * mm, Cloth: 540 * measure.GramPerSquareMetre, Slat: 100 * measure.Gram}
	if got := l.Weight(); got.Cloth.Grams() != 826.2 || got.Total.Grams() != 926.2 {
		t.Errorf("weight %+v; want 826.2 g of cloth, 926.2 g in all", got)
	}
	l.Cloth = 560 * measure.GramPerSquareMetre
	if got := l.Weight(); got.Cloth.Grams() != 856.8 {
		t.Errorf("cloth %v g; want 856.8", got.Cloth.Grams())
	}
	l.Fold = 50 * mm
	// By hand: 0.85 × 0.05 m of 560 g/m² is 23.8 g; half the drop adds 428.4 g.
	if got := l.At(900 * mm); !within(got.Cloth.Grams(), 23.8+428.4, 1e-6) {
		t.Errorf("half down %v g; want 452.2", got.Cloth.Grams())
	}
	if l.At(-mm) != l.At(0) || l.At(5000*mm) != l.At(1800*mm) {
		t.Error("heights beyond the travel are not held")
	}
}

// By hand, for thin cloth on a 20 mm tube: 1 kg hanging at radius 10 mm needs
// 98.0665 N·mm; a spring of 10 N·mm per turn then holds it with 9.80665 turns.
func TestTorque(t *testing.T) {
	l := Lift{
		Winding{Tube: 20 * mm, Cloth: measure.Nanometre, Drop: 1000 * mm},
		Load{Width: 1000 * mm, Drop: 1000 * mm, Cloth: 1000 * measure.GramPerSquareMetre},
	}
	if got := l.Torque(1000 * mm); !within(got, 98.0665, 1e-4) {
		t.Errorf("torque %v; want 98.0665", got)
	}
	l.Load.Slat, l.Load.Cloth = measure.Kilogram, measure.GramPerSquareMetre
	if got := l.Torque(0); !within(got, 98.0665, 1e-3) {
		t.Errorf("torque of the slat alone %v; want 98.0665", got)
	}
}

// unroll walks the shade down in small steps without any formula of this package.
// The roll turns by dy/r, its radius falls by one thickness per turn, and each step
// of cloth adds to the weight. unroll calls visit with the turns unrolled and the
// torque needed.
func unroll(l Lift, steps int, visit func(turns, torque float64)) {
	t, r0 := l.Winding.Cloth.Millimetres(), l.Winding.Tube.Millimetres()/2
	r := r0 + t*turnsOf((l.Winding.Wrap+l.Winding.Drop).Millimetres(), r0, t)
	dy := l.Load.Drop.Millimetres() / float64(steps)
	perStep := l.Load.Cloth.GramsPerSquareMetre() / 1000 * l.Load.Width.Metres() * dy / 1000 * 9.80665
	weight := l.Load.Slat.Grams()/1000*9.80665 + perStep*l.Load.Fold.Millimetres()/dy
	turns := 0.0
	for range steps {
		visit(turns, weight*r)
		half := r - t*(dy/(2*math.Pi*r))/2 // midpoint rule
		step := dy / (2 * math.Pi * half)
		turns, r, weight = turns+step, r-t*step, weight+perStep
	}
	visit(turns, weight*r)
}

// brute finds the range of turns by trying every step.
func brute(l Lift, rate float64, lim Limits) (least, most float64) {
	most = math.Inf(1)
	unroll(l, 4000, func(turns, torque float64) {
		least = math.Max(least, lim.Lift*torque/rate-turns)
		most = math.Min(most, lim.Fly*torque/rate-turns)
	})
	return least, math.Max(0, most)
}

// No published table of turns was found, so the statics, solved step by step, are
// the check.
func TestWindAgainstStatics(t *testing.T) {
	lim := UsualLimits(measure.Millimetres)
	possible := 0
	for _, rate := range []float64{1, 2, 3, 4, 5, 6, 7, 8, 10, 15, 30} {
		l := window()
		w := l.Wind(Spring{Rate: rate}, lim)
		least, most := brute(l, rate, lim)
		tol := 2e-3 + 3e-5*least // the steps of the walk
		if !within(w.Least, least, tol) || !within(w.Most, most, tol) {
			t.Errorf("rate %v: %.4f to %.4f turns; statics %.4f to %.4f", rate, w.Least, w.Most, least, most)
		}
		if w.OK != (least <= most) {
			t.Errorf("rate %v: OK %v; statics %.4f to %.4f", rate, w.OK, least, most)
		}
		if !w.OK {
			continue
		}
		possible++
		checkWind(t, l, w, rate, lim)
	}
	if possible < 3 {
		t.Errorf("only %d rates can do it; the cases test little", possible)
	}
}

// checkWind compares the chosen turns and the pulls with the statics.
func checkWind(t *testing.T, l Lift, w Wind, rate float64, lim Limits) {
	t.Helper()
	unroll(l, 2000, func(turns, torque float64) {
		given := rate * (w.Turns + turns)
		if given < lim.Lift*torque-0.05 || given > lim.Fly*torque+0.05 {
			t.Fatalf("rate %v, %v turns: after %.2f turns the spring gives %.2f, the shade needs %.2f", rate, w.Turns, turns, given, torque)
		}
	})
	wound := 0.0
	for _, p := range w.Pulls {
		if p <= 0 || p > l.Load.Drop || p%lim.PullStep != 0 {
			t.Errorf("rate %v: a pull of %v on a drop of %v", rate, p, l.Load.Drop)
		}
		all := turnsOf((l.Winding.Wrap + l.Winding.Drop).Millimetres(), l.Winding.Tube.Millimetres()/2, l.Winding.Cloth.Millimetres())
		left := turnsOf((l.Winding.Wrap + l.Winding.Drop - p).Millimetres(), l.Winding.Tube.Millimetres()/2, l.Winding.Cloth.Millimetres())
		wound += all - left
	}
	if wound < w.Least-1e-3 || wound > w.Most+1e-3 {
		t.Errorf("rate %v: pulls %v wind %.3f turns; wanted %.3f to %.3f", rate, w.Pulls, wound, w.Least, w.Most)
	}
}

func TestWindRandom(t *testing.T) {
	lim := UsualLimits(measure.Inches)
	rapid.Check(t, func(t *rapid.T) {
		drop := lengths(t, "drop", 300*mm, 2500*mm)
		l := Lift{
			Winding{Tube: lengths(t, "tube", 20*mm, 60*mm), Cloth: lengths(t, "cloth", 200*um, 1500*um), Wrap: lengths(t, "wrap", 0, 300*mm), Drop: drop},
			Load{Width: lengths(t, "width", 300*mm, 2500*mm), Drop: drop, Fold: lengths(t, "fold", 0, 100*mm),
				Cloth: measure.ArealMass(rapid.Int64Range(100_000, 900_000).Draw(t, "mass")),
				Slat:  measure.Mass(rapid.Int64Range(0, int64(measure.Kilogram)).Draw(t, "slat"))},
		}
		rate := rapid.Float64Range(0.5, 40).Draw(t, "rate")
		least, most := l.bounds(rate, lim)
		bl, bm := brute(l, rate, lim)
		tol := 5e-3 * (1 + bl)
		if !within(least.turns, bl, tol) || !within(math.Max(0, most.turns), bm, tol) {
			t.Fatalf("bounds %.5f to %.5f; statics %.5f to %.5f", least.turns, most.turns, bl, bm)
		}
	})
}

// No slat heavier than a bar of solid steel is proposed: 900 mm of 25 × 10 mm weigh
// 1.8 kg at 2 g/mm.
func TestOtherSlatIsASlat(t *testing.T) {
	lim := UsualLimits(measure.Millimetres)
	proposed := 0
	for rate := 15.5; rate < 40; rate += 0.5 {
		if m, ok := window().otherSlat(Spring{Rate: rate}, lim); ok {
			proposed++
			if m > 1800*measure.Gram {
				t.Errorf("rate %v: a slat of %v g", rate, m.Grams())
			}
		}
	}
	if proposed == 0 {
		t.Error("no slat was proposed; the test says nothing")
	}
}

// Common practice, no source: about 20 in pulled, then 12 in more, tensions a small
// shade, and it takes trials. Springs exist for which our range contains those
// turns, and they lie between too soft and too stiff.
func TestWindPractice(t *testing.T) {
	const drop = 30 * in
	l := Lift{
		Winding{Tube: in, Cloth: 700 * um, Wrap: 6 * in, Drop: drop},
		Load{Width: 24 * in, Drop: drop, Fold: 2 * in, Cloth: 540 * measure.GramPerSquareMetre, Slat: 120 * measure.Gram},
	}
	wound := l.Winding.Unrolled(20*in) + l.Winding.Unrolled(12*in)
	// By hand: with 36 in wound the roll is √(25.4² + 4·0.7·914/π) = 38.2 mm, after
	// 20 in 31.7, after 12 in 34.5: means of 35.0 and 36.4 mm give 4.62 + 2.67
	// turns.
	if !within(wound, 7.29, 0.02) {
		t.Errorf("the pulls wind %.2f turns; want 7.29", wound)
	}
	var verdicts []string
	for _, rate := range []float64{1, 5.5, 40} {
		least, most := brute(l, rate, UsualLimits(measure.Inches))
		w := l.Wind(Spring{Rate: rate}, UsualLimits(measure.Inches))
		verdict := "in range"
		if wound < w.Least {
			verdict = "too few"
		} else if wound > w.Most {
			verdict = "too many"
		}
		if (wound < least-0.01) != (verdict == "too few") {
			t.Errorf("rate %v: %s; statics %v to %v", rate, verdict, least, most)
		}
		verdicts = append(verdicts, verdict)
	}
	if got := strings.Join(verdicts, ", "); got != "too few, in range, too many" {
		t.Errorf("springs of 1, 5.5 and 40 N·mm per turn: %s", got)
	}
}

// Findings report impossible springs, and what they propose works.
func TestWindImpossible(t *testing.T) {
	lim := UsualLimits(measure.Millimetres)
	for _, c := range []struct {
		rate  float64
		words []string
		slat  bool
	}{
		// Soft: the turns that lift the cloth throw the slat; a heavier slat evens
		// the load.
		{1, []string{"heavier slat", "stiffer spring"}, true},
		// Stiff: over 17 turns its torque grows by 680 N·mm. By hand, a weight G at
		// radii of about 20 mm up and 14 mm down would have to be 680/(2·14 −
		// 1.15·20) = 136 N.
		{40, []string{"softer spring"}, false},
	} {
		l, s := window(), Spring{Rate: c.rate}
		w := l.Wind(s, lim)
		if w.OK || w.Turns != 0 || w.Pulls != nil {
			t.Fatalf("rate %v: %+v; statics say no turns can do it", c.rate, w)
		}
		var found finding.List
		w.judge(&found, l, s, lim, metric)
		complete(t, found)
		if levels(found) != "stop roller.spring" {
			t.Fatalf("rate %v: findings %v", c.rate, found)
		}
		for _, word := range c.words {
			if !strings.Contains(found[0].Remedy.String(), word) {
				t.Errorf("rate %v: remedy %q; want a %s", c.rate, found[0].Remedy.String(), word)
			}
		}
		k, ok := l.otherRate(s, lim)
		if least, most := brute(l, k, lim); !ok || least > most+1e-3 {
			t.Errorf("rate %v: the proposed %v needs %v but bears %v", c.rate, k, least, most)
		}
		m, ok := l.otherSlat(s, lim)
		if ok != c.slat {
			t.Errorf("rate %v: another slat would do: %v; want %v", c.rate, ok, c.slat)
		}
		l.Load.Slat = m
		if least, most := brute(l, c.rate, lim); ok && least > most+1e-3 {
			t.Errorf("rate %v: with a slat of %v g it needs %v but bears %v", c.rate, m.Grams(), least, most)
		}
	}
}

// What is proposed for a spring that holds only so many turns does not bind it, and
// the chosen turns leave it free.
func TestWindMost(t *testing.T) {
	lim, l := UsualLimits(measure.Millimetres), window()
	stops := func(s Spring) (Wind, finding.List) {
		w := l.Wind(s, lim)
		var found finding.List
		w.judge(&found, l, s, lim, metric)
		return w, found
	}
	travel := l.Winding.Unrolled(l.Load.Drop)
	for _, soft := range []float64{1, 2, 4} {
		s := Spring{Rate: soft, Most: travel + 8}
		if _, found := stops(s); levels(found) != "stop roller.spring" {
			t.Fatalf("rate %v: %v; want a stop", soft, levels(found))
		}
		k, ok := l.otherRate(s, lim)
		if !ok {
			t.Fatalf("rate %v: nothing is proposed", soft)
		}
		w, found := stops(Spring{Rate: k, Most: s.Most})
		if len(found) != 0 || w.Down > s.Most {
			t.Errorf("rate %v: the proposed %v gives %v, with %.1f of %.1f turns", soft, k, levels(found), w.Down, s.Most)
		}
		if least, most := brute(l, k, lim); w.Turns < least-1e-3 || w.Turns > most+1e-3 {
			t.Errorf("rate %v: of the proposed %v %.2f turns are chosen; statics say %v to %v", soft, k, w.Turns, least, most)
		}
	}
	free := l.Wind(Spring{Rate: 5.5}, lim) // in range, as the statics above say
	tight := l.Wind(Spring{Rate: 5.5, Most: travel + free.Least + (free.Turns-free.Least)/2}, lim)
	if tight.Down > travel+free.Turns || tight.Turns < free.Least || tight.binds(Spring{Most: travel + free.Least + (free.Turns-free.Least)/2}) {
		t.Errorf("%.2f turns are chosen from %.2f on, of a spring that takes half way to %.2f", tight.Turns, free.Least, free.Turns)
	}
}

func TestSpringCheck(t *testing.T) {
	for _, rate := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		c := &finding.Checker{Style: metric}
		Spring{Rate: rate}.check(c)
		wantInputError(t, c.Err(), "roller.spring.rate", "measure it: hang a scale")
	}
}

func TestSpringBinds(t *testing.T) {
	l, s := window(), Spring{Rate: 6, Most: 12}
	lim := UsualLimits(measure.Millimetres)
	var found finding.List
	l.Wind(s, lim).judge(&found, l, s, lim, metric)
	complete(t, found)
	if levels(found) != "stop roller.spring" || !strings.Contains(found[0].Text.String(), "more than it takes") {
		t.Errorf("findings %v", found)
	}
	if worst := found[0].Level; worst != finding.Stop {
		t.Error("a spring that binds stops the shade")
	}
}

// A spring so weak under so heavy a slat that no hand can wind it by pulling: by
// hand 10 kg at about 20 mm is 1961 N·mm, some 200,000 turns of 0.01 N·mm.
func TestWindBeyondHands(t *testing.T) {
	l, s := window(), Spring{Rate: 0.01}
	l.Load.Slat = 10 * measure.Kilogram
	lim := UsualLimits(measure.Millimetres)
	w := l.Wind(s, lim)
	var found finding.List
	w.judge(&found, l, s, lim, metric)
	complete(t, found)
	if !w.OK || w.Turns < 200_000 || w.Pulls != nil || levels(found) != "caution roller.spring" {
		t.Errorf("%+v, %v; want turns and no pulls, with a caution", w, found)
	}
}

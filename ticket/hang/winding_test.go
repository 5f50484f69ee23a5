package hang

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"

	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
)

const (
	remaining = "mathforum.org 67031, length of material on a roll: D = √(d² + 4Lt/π), N = (D − d)/2t"
	girth     = "π·d·n, the girth of a tube; python3 decimal"
)

// shades are lengths, thicknesses and tubes in mm with what they come to, computed
// apart from this program with python3's decimal: diameter and turns by the
// formula; the turns counted by taking rings of mean diameter d + t, d + 3t, … off
// the length; and the outside over the last part-ring.
var shades = []struct {
	length, t, tube      float64
	diameter, turns      float64
	ringTurns, ringsOver float64
	src                  string
}{
	{1500, 0.50, 25.40, 40.001, 14.601, 14.598, 40.40, remaining},
	{1800, 0.75, 25.40, 48.621, 15.481, 15.477, 49.40, remaining},
	{2000, 0.60, 31.75, 50.358, 15.507, 15.504, 50.95, remaining},
	{2400, 0.55, 38.10, 55.967, 16.243, 16.241, 56.80, remaining},
	{914.4, 0.75, 25.40, 38.966, 9.044, 9.043, 40.40, remaining},
}

func TestRollUp(t *testing.T) {
	for _, s := range shades {
		w := Winding{Tube: millimetres(s.tube), Cloth: millimetres(s.t), Drop: millimetres(s.length)}
		r := w.RollUp()
		if got := r.SpiralUp.Millimetres(); !within(got, s.diameter, 0.0005) {
			t.Errorf("%+v: spiral %.4f mm; want %.3f (%s)", w, got, s.diameter, s.src)
		}
		if !within(r.Turns, s.turns, 0.0005) || !within(r.Turns, s.ringTurns, 0.0045) {
			t.Errorf("%+v: %.4f turns; want %.3f by the formula, %.3f by rings", w, r.Turns, s.turns, s.ringTurns)
		}
		if got := r.DiameterUp.Millimetres(); !within(got, s.ringsOver, 0.0005) {
			t.Errorf("%+v: outside %.4f mm; want %.2f (rings, the last one whole)", w, got, s.ringsOver)
		}
	}
}

// Rolls whose length is printed. Half an inch of length, the last digit printed, is
// 2·12.7·t/(πD) of diameter: 0.0027 and 0.0013 mm.
func TestRollsPublished(t *testing.T) {
	for _, c := range []struct {
		length, t, tube float64 // mm
		diameter, tol   float64 // mm
		src             string
	}{
		{1280 * math.Pi, 10, 80, 240, 1e-5, "mathforum.org 56471, length of a roll of carpet: radii 12 and 4 cm, thickness 1 cm, 128π ≈ 402 cm"},
		{26_507 * 25.4, 0.004 * 25.4, 3 * 25.4, 12 * 25.4, 0.003, "novacalculator.com, roll length, example 1: 12 in on 3 in of 0.004 in, 26,507 in"},
		{20_617 * 25.4, 0.0008 * 25.4, 2 * 25.4, 5 * 25.4, 0.0013, "novacalculator.com, roll length, example 2: 5 in on 2 in of 0.0008 in, 20,617 in"},
	} {
		w := Winding{Tube: millimetres(c.tube), Cloth: millimetres(c.t), Drop: millimetres(c.length)}
		if got := w.RollUp().SpiralUp.Millimetres(); !within(got, c.diameter, c.tol) {
			t.Errorf("%v mm of %v mm on %v mm: %.5f mm; want %v (%s)", c.length, c.t, c.tube, got, c.diameter, c.src)
		}
	}
	// The carpet has eight turns: (24 − 8) / 2, by hand.
	w := Winding{Tube: 80 * mm, Cloth: 10 * mm, Drop: millimetres(1280 * math.Pi)}
	if r := w.RollUp(); !within(r.Turns, 8, 1e-6) || r.DiameterUp != 240*mm {
		t.Errorf("carpet: outside %v, %v turns; want 240 mm, 8", r.DiameterUp, r.Turns)
	}
	if got := w.ForWraps(8).Millimetres(); !within(got, 1280*math.Pi, 1e-5) {
		t.Errorf("cloth for 8 wraps = %v mm; want 1280π", got)
	}
}

// Cloth for wraps on the bare tube, for cloth so thin that it does not count.
func TestWrapsOfThinCloth(t *testing.T) {
	for _, c := range []struct {
		tube, wraps, cloth float64
		src                string
	}{
		{25.4, 1.5, 119.7, girth}, {31.75, 1.5, 149.6, girth}, {38.1, 1.5, 179.5, girth},
		{25.4, 2, 159.6, girth}, {31.75, 2, 199.5, girth}, {38.1, 2, 239.4, girth},
		{25.4, 3.82, 304.8, girth + ": 12 in on a tube of 1 in"}, {25.4, 1.91, 152.4, girth + ": 6 in on a tube of 1 in"},
	} {
		w := Winding{Tube: millimetres(c.tube), Cloth: um, Drop: mm}
		if got := w.ForWraps(c.wraps).Millimetres(); !within(got, c.cloth, 0.07) && !within(got, c.cloth, c.cloth*0.002) {
			t.Errorf("ForWraps(%v) on %v mm = %.2f mm; want %v (%s)", c.wraps, c.tube, got, c.cloth, c.src)
		}
		if got := w.Wraps(millimetres(c.cloth)); !within(got, c.wraps, 0.002) {
			t.Errorf("Wraps(%v mm) on %v mm = %.4f; want %v (%s)", c.cloth, c.tube, got, c.wraps, c.src)
		}
	}
}

// arc returns the length of an Archimedean spiral whose middle line starts at
// radius r0 and grows by t per turn: ∫ √(r² + (dr/dθ)²) dθ, by Gauss-Legendre
// quadrature.
func arc(r0, t, turns float64) float64 {
	rise := t / (2 * math.Pi)
	f := func(a float64) float64 { return math.Hypot(r0+rise*a, rise) }
	return quad.Fixed(f, 0, 2*math.Pi*turns, 64, nil, 0)
}

// turnsOf finds the turns of that spiral by bisection.
func turnsOf(length, r0, t float64) float64 {
	low, high := 0.0, length/(2*math.Pi*r0)
	for range 100 {
		if m := (low + high) / 2; arc(r0, t, m) < length {
			low = m
		} else {
			high = m
		}
	}
	return low
}

// The true spiral, solved numerically, agrees at every height: turns unrolled to a
// thousandth, and radius to about a micrometre.
func TestSpiral(t *testing.T) {
	for _, s := range shades {
		w := Winding{Tube: millimetres(s.tube), Cloth: millimetres(s.t), Drop: millimetres(s.length), Wrap: 100 * mm}
		all := turnsOf(s.length+100, s.tube/2, s.t)
		for i := range measure.Length(11) {
			below := w.Drop * i / 10
			left := turnsOf(s.length+100-below.Millimetres(), s.tube/2, s.t)
			if got := w.Unrolled(below); !within(got, all-left, 1e-3) {
				t.Errorf("%+v: Unrolled(%v) = %.5f; the spiral gives %.5f", w, below, got, all-left)
			}
			if got, want := w.Radius(below).Millimetres(), s.tube/2+s.t*left; !within(got, want, 2e-3) {
				t.Errorf("%+v: Radius(%v) = %.5f mm; the spiral gives %.5f", w, below, got, want)
			}
		}
	}
}

func TestWindingProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := Winding{
			Tube: lengths(t, "tube", 10*mm, 100*mm), Cloth: lengths(t, "cloth", 50*um, 3*mm),
			Wrap: lengths(t, "wrap", 0, 500*mm), Drop: lengths(t, "drop", 50*mm, 5000*mm),
		}
		r := w.RollUp()
		if r.DiameterUp < r.SpiralUp-mm/1000 || r.DiameterUp > r.SpiralUp+2*w.Cloth {
			t.Fatalf("outside %v and spiral %v differ by more than a layer on each side", r.DiameterUp, r.SpiralUp)
		}
		more := w
		more.Wrap += lengths(t, "more", 0, 500*mm)
		if m := more.RollUp(); m.DiameterUp < r.DiameterUp || m.SpiralUp < r.SpiralUp || m.WrapsLeft < r.WrapsLeft {
			t.Fatalf("more wraps made the roll smaller: %+v then %+v", r, m)
		}
		y := lengths(t, "below", 0, w.Drop)
		if w.Radius(y) > w.Radius(0) || w.Radius(y) < r.RadiusDown {
			t.Fatalf("radius %v at %v lies outside %v to %v", w.Radius(y), y, r.RadiusDown, w.Radius(0))
		}
		if back := w.Pull(w.Unrolled(y)); (back - y).Abs() > um {
			t.Fatalf("Pull(Unrolled(%v)) = %v", y, back)
		}
		if back := w.Wraps(w.ForWraps(1.5)); !within(back, 1.5, 1e-6) {
			t.Fatalf("Wraps(ForWraps(1.5)) = %v", back)
		}
	})
}

func TestWindingCheck(t *testing.T) {
	good := Winding{Tube: 25 * mm, Cloth: mm / 2, Wrap: 100 * mm, Drop: 1500 * mm}
	if err := good.Check(metric); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		change func(*Winding)
		field  string
		words  string
	}{
		{func(w *Winding) { w.Tube = 0 }, "roller.tube", "zero or missing"},
		{func(w *Winding) { w.Tube = -mm }, "roller.tube", "negative"},
		{func(w *Winding) { w.Cloth = 0 }, "goods.thickness", "zero or missing"},
		{func(w *Winding) { w.Cloth = 30 * mm }, "goods.thickness", "not thinner than the tube"},
		{func(w *Winding) { w.Wrap = -1 }, "allow.wrap", "negative"},
		{func(w *Winding) { w.Drop = 0 }, "finished.length", "zero or missing"},
		{func(w *Winding) { w.Drop = finding.Reach + 1 }, "finished.length", "longer than any shade"},
	} {
		w := good
		c.change(&w)
		wantInputError(t, w.Check(metric), c.field, c.words)
	}
}

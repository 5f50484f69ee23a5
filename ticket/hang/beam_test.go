package hang

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"

	"shadewright/ticket/measure"
)

func TestMidspan(t *testing.T) {
	const poundPerInch, psi, inch4 = 4.4482216152605 / 25.4, 4.4482216152605 / 645.16, 416231.4256
	for _, c := range []struct {
		w, span, e, i float64 // N/mm, mm, N/mm², mm⁴
		want, tol     float64 // mm
		src           string
	}{
		{6, 5000, 200_000, 81_960_000, 2.979, 0.0005, "engineering beam page, inputs copied at i-geodezja.pl; answer computed"},
		{100 * poundPerInch, 100 * 25.4, 29_000_000 * psi, 285 * inch4, 0.01575 * 25.4, 0.0002, "the same page in pounds and inches"},
		{2, 6000, 200_000, 8_000_000, 21.09, 0.005, "worked example in a public collection of mathematics: 2 kN/m, 6 m, 200 GPa, 8e-6 m⁴ → 0.021 m"},
		{6, 5000, 210_000, 3_180_000, 73.1, 0.05, "pickedshares.com beam calculator: 6 kN/m, 5 m, 318 cm⁴ → 73 mm; E inferred"},
		{2, 6000, 200_000, 6_000_000, 28.125, 0.0005, "computed; a page that prints 10 mm for it is wrong"},
	} {
		if got := midspan(c.w, c.span, c.e, c.i); !within(got, c.want, c.tol) {
			t.Errorf("midspan(%v, %v, %v, %v) = %.5f; want %v (%s)", c.w, c.span, c.e, c.i, got, c.want, c.src)
		}
	}
}

// Second moments in mm⁴ and masses in kg/m, from π(D⁴ − d⁴)/64 and the densities of
// the table (computed).
func TestSections(t *testing.T) {
	for _, c := range []struct {
		material          string
		outside, wall     float64
		inertia, perMetre float64
	}{
		{"steel", 25.4, 0.5, 3032.5, 0.3074},
		{"steel", 25.4, 0.6, 3596.0, 0.3674},
		{"steel", 31.75, 0.7, 8233.1, 0.5367},
		{"aluminium", 25.4, 1.0, 5714.2, 0.2077},
		{"aluminium", 38, 1.52, 29028, 0.4721},
		{"wood", 25.4, 12.7, 20431.7, 0.525e-3 * 506.7075}, // solid; mass by hand, π/4·25.4² = 506.7075 mm²
	} {
		m, ok := MaterialNamed(c.material)
		if !ok {
			t.Fatalf("no material %q", c.material)
		}
		b := Beam{Span: measure.Metre, Outside: millimetres(c.outside), Wall: millimetres(c.wall), Material: m}
		if err := b.Check(metric); err != nil {
			t.Error(err)
		}
		if got := b.Inertia(); !within(got/c.inertia, 1, 2e-5) {
			t.Errorf("%+v: I = %.2f; want %v", c, got, c.inertia)
		}
		if got := b.Own().Grams() / 1000; !within(got, c.perMetre, 6e-5) {
			t.Errorf("%+v: %.5f kg/m; want %v", c, got, c.perMetre)
		}
	}
}

// Sags in mm for 900, 1200 and 1500 mm, under the tube's own weight, 1.5 m of cloth
// of 540 g/m² and a bar of 0.25 kg/m, with standard gravity (computed).
var sags = []struct {
	material      Material
	outside, wall float64
	sag           [3]float64
}{
	{Material{"steel", 200_000, 7860, ""}, 25.4, 0.6, [3]float64{0.1663, 0.5255, 1.2830}},
	{Material{"steel", 200_000, 7860, ""}, 25.4, 0.5, [3]float64{0.1889, 0.5970, 1.4575}},
	{Material{"aluminium", 70_000, 2710, ""}, 25.4, 1.0, [3]float64{0.2655, 0.8392, 2.0488}},
	{Material{"wood, stiff", 12_400, 525, ""}, 25.4, 12.7, [3]float64{0.4385, 1.3858, 3.3834}},
}

func TestSag(t *testing.T) {
	for _, c := range sags {
		for i, span := range []measure.Length{900 * mm, 1200 * mm, 1500 * mm} {
			b := Beam{Span: span, Outside: millimetres(c.outside), Wall: millimetres(c.wall), Material: c.material}
			load := massOf((540*1.5 + 250) * span.Metres())
			got := b.Sag(load).Millimetres()
			if !within(got, c.sag[i], 1.1e-4) {
				t.Errorf("%s, %v: sag %.4f mm; want %.4f", c.material.Name, span, got, c.sag[i])
			}
			if slow := unitLoad(b, load); !within(got, slow, 2e-6) {
				t.Errorf("%s, %v: sag %.7f mm; the unit load method gives %.7f", c.material.Name, span, got, slow)
			}
		}
	}
}

// unitLoad finds the sag by another method: ∫ M·m/(E·I) dx by quadrature. M is the
// moment of the load and m that of one newton at mid-span; the section's second
// moment is summed over rings.
func unitLoad(b Beam, load measure.Mass) float64 {
	span := b.Span.Millimetres()
	ring := func(r float64) float64 { return math.Pi * r * r * r }
	i := quad.Fixed(ring, b.Outside.Millimetres()/2-b.Wall.Millimetres(), b.Outside.Millimetres()/2, 20, nil, 0)
	area := quad.Fixed(func(r float64) float64 { return 2 * math.Pi * r }, b.Outside.Millimetres()/2-b.Wall.Millimetres(), b.Outside.Millimetres()/2, 20, nil, 0)
	w := (area*b.Material.Density*1e-9 + load.Grams()/1000/span) * gravity
	moment := func(x float64) float64 { return w * x * (span - x) / 2 * x / 2 }
	return 2 * quad.Fixed(moment, 0, span/2, 20, nil, 0) / (b.Material.Modulus * i)
}

func TestSagProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Float64Range(0.001, 1).Draw(t, "w")
		span := rapid.Float64Range(300, 3000).Draw(t, "span")
		one := midspan(w, span, 70_000, 5000)
		if !within(midspan(w, 2*span, 70_000, 5000)/one, 16, 1e-9) {
			t.Fatal("doubling the span must multiply the sag by 16")
		}
		if !within(midspan(2*w, span, 70_000, 5000)/one, 2, 1e-9) {
			t.Fatal("doubling the load must double the sag")
		}
		// The same through Beam, with an equal load for each length.
		m, _ := MaterialNamed("aluminium")
		b := Beam{Span: lengths(t, "beam", 300*mm, 1500*mm), Outside: 38 * mm, Wall: 1520 * um, Material: m}
		load := massOf(300 * b.Span.Metres())
		short := b.Sag(load)
		b.Span *= 2
		if long := b.Sag(2 * load); (long - 16*short).Abs() > 20 { // nanometres: 16 halves and a rounding
			t.Fatalf("span doubled: %v from %v", long, short)
		}
	})
}

func TestBeamCheck(t *testing.T) {
	steel, _ := MaterialNamed("Steel")
	good := Beam{Span: 900 * mm, Outside: 25*mm + 400*um, Wall: 600 * um, Material: steel}
	if err := good.Check(metric); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		change func(*Beam)
		field  string
		words  string
	}{
		{func(b *Beam) { b.Wall = 13 * mm }, "roller.wall", "more than half the tube's diameter, 25.5 mm"},
		{func(b *Beam) { b.Wall = 0 }, "roller.wall", "for a solid pole, give half its diameter"},
		{func(b *Beam) { b.Span = 0 }, "roller.length", "zero or missing"},
		{func(b *Beam) { b.Outside = 0 }, "roller.tube", "zero or missing"},
		{func(b *Beam) { b.Material = Material{} }, "roller.material.modulus", "out of range"},
		{func(b *Beam) { b.Material.Density = math.NaN() }, "roller.material.density", "out of range"},
	} {
		b := good
		c.change(&b)
		wantInputError(t, b.Check(metric), c.field, c.words)
	}
}

func TestMaterials(t *testing.T) {
	for _, m := range Materials() {
		if m.Source == "" || m.Modulus <= 0 || m.Density <= 0 {
			t.Errorf("%+v lacks a figure or its source", m)
		}
	}
	if _, ok := MaterialNamed("cheese"); ok {
		t.Error("there is no cheese")
	}
	// By hand: a steel slat 25 × 3 × 900 mm is 67,500 mm³ × 7.86e-3 g/mm³ = 530.55
	// g.
	steel, _ := MaterialNamed("steel")
	if got := steel.Flat(25*mm, 3*mm, 900*mm); got != 530_550*measure.Milligram {
		t.Errorf("slat %v g; want 530.55 g", got.Grams())
	}
	if !strings.Contains(steel.Source, "200 GPa") {
		t.Error("steel's source does not carry its figure")
	}
}

package hang

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"

	"shadewright/ticket/measure"
)

// Sources of beams and what they are made of.
const (
	uniform = "onlinestructuraldesign.com, simple beam, uniformly distributed load: 5wL⁴/(384EI)"
	tube    = "designerdata.nl, section of a circular tube: π(A⁴ − (A−2B)⁴)/64"
	college = "Halliday, Resnick and Walker, Fundamentals of Physics, table of elastic properties"
	triton  = "academics.triton.edu, strength of materials constants"
	oregon  = "Oregon State University, table of wood properties"
	pvcData = "azom.com, article 770"
	rods    = "substech.com, pultruded glass and polyester"
)

// Answers that are printed with their examples, to the digits that are printed.
func TestMidspanPublished(t *testing.T) {
	for _, c := range []struct {
		w, span, e, i float64 // N/mm, mm, N/mm², mm⁴
		want, tol     float64 // mm; half a unit of the last digit printed
		src           string
	}{
		{2, 6000, 200_000, 8_000_000, 21, 0.5, "Nemotron-CC-Math-v1, huggingface.co, worked example: 2 kN/m, 6 m, 200 GPa, 8e-6 m⁴ → 0.021 m"},
		{6, 5000, 210_000, 3_180_000, 73, 0.5, "pickedshares.com, beam calculator: 6 kN/m, 5 m, 318 cm⁴ → 73 mm; no modulus is printed, and 210 GPa is steel's in EN 1993-1-1, 3.2.6"},
	} {
		if got := midspan(c.w, c.span, c.e, c.i); !within(got, c.want, c.tol) {
			t.Errorf("midspan(%v, %v, %v, %v) = %.5f; want %v (%s)", c.w, c.span, c.e, c.i, got, c.want, c.src)
		}
	}
}

// Answers computed apart from this program, from the formula with python3's
// decimal: 5*w*L**4/(384*E*I).
func TestMidspanComputed(t *testing.T) {
	const poundPerInch, psi, inch4 = 4.4482216152605 / 25.4, 4.4482216152605 / 645.16, 416231.4256
	for _, c := range []struct {
		w, span, e, i float64 // N/mm, mm, N/mm², mm⁴
		want          float64 // mm
		src           string
	}{
		{6, 5000, 200_000, 81_960_000, 2.97877776, uniform + "; figures of the Engineering ToolBox, beams, metric example"},
		{100 * poundPerInch, 100 * 25.4, 29_000_000 * psi, 285 * inch4, 0.40015628, uniform + "; figures of the Engineering ToolBox, beams, example in pounds: 0.0157542 in"},
		{2, 6000, 200_000, 8_000_000, 21.09375, uniform},
		{2, 6000, 200_000, 6_000_000, 28.125, uniform + "; tech-calculation.com prints 10 mm for these figures, which is wrong"},
	} {
		if got := midspan(c.w, c.span, c.e, c.i); !within(got/c.want, 1, 1e-8) {
			t.Errorf("midspan(%v, %v, %v, %v) = %.8f; want %v (%s)", c.w, c.span, c.e, c.i, got, c.want, c.src)
		}
	}
}

// Second moments in mm⁴ and masses in kg/m, computed with python3's decimal:
// pi*(D**4-d**4)/64 and pi*(D**2-d**2)/4 * density.
func TestSections(t *testing.T) {
	for _, c := range []struct {
		material          string
		outside, wall     float64
		inertia, perMetre float64
		src               string
	}{
		{"steel", 25.4, 0.5, 3032.52, 0.30743, tube + "; 7860 kg/m³: " + college},
		{"steel", 25.4, 0.6, 3596.01, 0.36743, tube + "; 7860 kg/m³: " + college},
		{"steel", 31.75, 0.7, 8233.10, 0.53670, tube + "; 7860 kg/m³: " + college},
		{"aluminium", 25.4, 1.0, 5714.24, 0.20773, tube + "; 2710 kg/m³: " + college},
		{"aluminium", 38, 1.52, 29028.28, 0.47208, tube + "; 2710 kg/m³: " + college + "; the tube of docest.com 141191, section 12500"},
		{"wood", 25.4, 12.7, 20431.71, 0.26602, tube + ", solid; 525 kg/m³: " + college},
	} {
		m, ok := MaterialNamed(c.material)
		if !ok {
			t.Fatalf("no material %q", c.material)
		}
		b := Beam{Span: measure.Metre, Outside: millimetres(c.outside), Wall: millimetres(c.wall), Material: m}
		if err := b.Check(metric); err != nil {
			t.Error(err)
		}
		if got := b.Inertia(); !within(got, c.inertia, 0.006) {
			t.Errorf("%s %v × %v: I = %.3f; want %v (%s)", c.material, c.outside, c.wall, got, c.inertia, c.src)
		}
		if got := b.Own().Grams() / 1000; !within(got, c.perMetre, 6e-6) {
			t.Errorf("%s %v × %v: %.6f kg/m; want %v (%s)", c.material, c.outside, c.wall, got, c.perMetre, c.src)
		}
	}
}

// Sags in mm for 900, 1200 and 1500 mm, under the tube's own weight, 1.5 m of cloth of
// 540 g/m² and a bar of 0.25 kg/m, standard gravity 9.80665; computed with
// python3's decimal from the two formulas.
var sags = []struct {
	material      Material
	outside, wall float64
	sag           [3]float64
	src           string
}{
	{Material{"steel", 200_000, 7860, ""}, 25.4, 0.6, [3]float64{0.1663, 0.5255, 1.2830}, uniform + "; " + college},
	{Material{"steel", 200_000, 7860, ""}, 25.4, 0.5, [3]float64{0.1889, 0.5970, 1.4575}, uniform + "; " + college},
	{Material{"aluminium", 70_000, 2710, ""}, 25.4, 1.0, [3]float64{0.2655, 0.8392, 2.0488}, uniform + "; " + college},
	{Material{"wood, stiff", 12_400, 525, ""}, 25.4, 12.7, [3]float64{0.4385, 1.3858, 3.3834}, uniform + "; " + triton + ": red oak 1,800 ksi"},
}

func TestSag(t *testing.T) {
	for _, c := range sags {
		for i, span := range []measure.Length{900 * mm, 1200 * mm, 1500 * mm} {
			b := Beam{Span: span, Outside: millimetres(c.outside), Wall: millimetres(c.wall), Material: c.material}
			load := massOf((540*1.5 + 250) * span.Metres())
			got := b.Sag(load).Millimetres()
			if !within(got, c.sag[i], 1.1e-4) {
				t.Errorf("%s, %v: sag %.4f mm; want %.4f (%s)", c.material.Name, span, got, c.sag[i], c.src)
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

// Figures of materials. Where tables disagree the softer one is taken, so that no
// sag is understated: the others are bounds. 1 lbf/in² is 0.006894757 N/mm².
func TestMaterialFigures(t *testing.T) {
	const ksi, million = 6.894757, 6894.757
	const modulus, density = "modulus", "density"
	for _, c := range []struct {
		material, figure string
		least, most      float64
		src              string
	}{
		{"steel", modulus, 200_000, 200_000, college},
		{"steel", modulus, 0, 29_100 * ksi, triton + ": 29,000 ksi, ASTM A36"},
		{"steel", density, 7860, 7860, college},
		{"aluminium", modulus, 70_000, 70_000, college},
		{"aluminium", modulus, 0, 10_400 * ksi, "diracdelta.co.uk, 6061 aluminium: 10,400 ksi"},
		{"aluminium", density, 2710, 2710, college},
		{"wood", modulus, 1.29 * million, 1.95 * million, oregon + ": from subalpine fir, 1.29 million lbf/in², to Douglas-fir, 1.95"},
		{"wood", modulus, 0, 1.31 * million, oregon + ": Engelmann spruce, 1.30 million lbf/in²"},
		{"wood", modulus, 0, 13_000, college + ": Douglas fir 13 GPa"},
		{"wood", density, 525, 525, college + ": Douglas fir"},
		{"pvc", modulus, 3000, 3000, pvcData},
		{"pvc", density, 1400, 1400, pvcData},
		{"fibreglass", modulus, 12_400, 12_400, rods},
		{"fibreglass", density, 1800, 1800, rods},
	} {
		m, _ := MaterialNamed(c.material)
		got := m.Modulus
		if c.figure == density {
			got = m.Density
		}
		if got < c.least || got > c.most {
			t.Errorf("%s: %s %v; want %v to %v (%s)", c.material, c.figure, got, c.least, c.most, c.src)
		}
	}
}

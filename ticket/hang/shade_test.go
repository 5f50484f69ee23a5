package hang

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
)

// whole is a shade with everything known and nothing wrong.
func whole() Shade {
	l := window()
	steel, _ := MaterialNamed("steel")
	return Shade{
		Winding: l.Winding, Load: l.Load,
		Place:  &Place{Mount: Inside, Axle: 40 * mm, Depth: deep(90 * mm), Slat: 5 * mm},
		Spring: &Spring{Rate: 6},
		Beam:   &Beam{Span: 910 * mm, Outside: 25*mm + 400*um, Wall: 600 * um, Material: steel},
	}
}

func TestWork(t *testing.T) {
	r, found, err := whole().Work(UsualLimits(measure.Millimetres), metric)
	if err != nil || len(found) != 0 {
		t.Fatal(err, found)
	}
	if r.Weight == nil || r.Wind == nil || r.Sag == nil || r.Clearance == nil {
		t.Fatalf("%+v lacks a part", r)
	}
	// By hand: 1.55 m × 0.9 m × 540 g/m² = 753.3 g of cloth.
	if r.Weight.Cloth.Grams() != 753.3 || r.Weight.Total.Grams() != 1003.3 {
		t.Errorf("weight %+v; want 753.3 g and 1003.3 g", *r.Weight)
	}
	// The tube bears all the cloth, wound or not: 1.71 m × 0.9 m × 540 g/m² =
	// 831.06 g.
	if want := whole().Beam.Sag(massOf(831.06 + 250)); r.Sag.Sag != want {
		t.Errorf("sag %v; want %v", r.Sag.Sag, want)
	}
	if !r.Wind.OK || len(r.Wind.At) != 5 || r.Wind.At[4].Below != 1500*mm {
		t.Errorf("wind %+v", r.Wind)
	}
}

func TestWorkFindings(t *testing.T) {
	lim := UsualLimits(measure.Millimetres)
	for _, c := range []struct {
		name   string
		change func(*Shade)
		levels string
		words  string
	}{
		// By hand, N = 2ℓ/(π·(D + d)) with D = √(d² + 4tℓ/π): 75 mm → D 26.68, N 0.917; 30 mm → D 25.92, N 0.372.
		{"few wraps", func(s *Shade) { s.Winding.Wrap = 75 * mm }, "caution allow.wrap", "only 0.92 wraps stay"},
		{"hardly a wrap", func(s *Shade) { s.Winding.Wrap = 30 * mm }, "stop allow.wrap", "only 0.37 wraps stay"},
		{"no mass", func(s *Shade) { s.Load.Cloth = 0 }, "unchecked goods.mass", "mass of the cloth is unknown"},
		{"no spring", func(s *Shade) { s.Spring = nil }, "unchecked roller.spring", "hang a scale"},
		{"no tube", func(s *Shade) { s.Beam = nil }, "unchecked roller.wall", "its sag is not worked out"},
		{"no place", func(s *Shade) { s.Place = nil }, "unchecked opening.axle", "place of the axle is unknown"},
		{"soft spring", func(s *Shade) { s.Spring = &Spring{Rate: 1} }, "stop roller.spring", "no number of turns"},
		{"weak tube", func(s *Shade) { b := *s.Beam; b.Span = 2400 * mm; s.Beam = &b }, "caution roller", "the cloth will ripple"},
		{"hopeless tube", func(s *Shade) { b := *s.Beam; b.Span = 12000 * mm; s.Beam = &b }, "stop roller", "cannot carry the shade"},
		{"recess alone", func(s *Shade) { s.Place = &Place{Mount: Inside, Depth: deep(90 * mm)} }, "", ""},
		{"shallow recess alone", func(s *Shade) { s.Place = &Place{Mount: Inside, Depth: deep(30 * mm)} }, "caution opening.depth", "out of the recess"},
		{"recess of nothing", func(s *Shade) { s.Place = &Place{Mount: Inside, Depth: deep(0)} }, "stop opening.depth", "outside the recess"},
		{"wide", func(s *Shade) { s.Load.Width, s.Spring = 1500*mm, nil }, "unchecked roller.spring, note roller.tube", "thicker than 28 mm; this one is 25.5 mm"},
	} {
		s := whole()
		c.change(&s)
		r, found, err := s.Work(lim, metric)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		complete(t, found)
		if levels(found) != c.levels || !strings.Contains(texts(found), c.words) {
			t.Errorf("%s: %q\n%s\nwant %q with %q", c.name, levels(found), texts(found), c.levels, c.words)
		}
		if r.Roll.DiameterUp == 0 {
			t.Errorf("%s: the roll was not worked out", c.name)
		}
	}
}

// All faults are reported at once.
func TestWorkRefuses(t *testing.T) {
	s := whole()
	s.Winding.Cloth, s.Spring, s.Beam = 0, &Spring{}, &Beam{}
	_, _, err := s.Work(UsualLimits(measure.Millimetres), metric)
	for _, field := range []string{"goods.thickness", "roller.spring.rate", "roller.length", "roller.wall", "roller.material.modulus"} {
		wantInputError(t, err, field)
	}
	s = whole()
	s.Load.Drop += mm
	_, _, err = s.Work(UsualLimits(measure.Millimetres), metric)
	wantInputError(t, err, "finished.length", "differs between the roll and the load")
	s = whole()
	s.Place = &Place{Mount: Outside}
	_, _, err = s.Work(UsualLimits(measure.Millimetres), metric)
	wantInputError(t, err, "opening.axle", "zero or missing")
	lim := UsualLimits(measure.Millimetres)
	lim.Fly = 1
	_, _, err = whole().Work(lim, metric)
	wantInputError(t, err, "fly", "more than lift")
}

// Findings write lengths in the job's style.
func TestWorkStyle(t *testing.T) {
	s := whole()
	s.Place = &Place{Mount: Outside, Axle: in}
	_, found, _ := s.Work(UsualLimits(measure.Inches), inches)
	if !strings.Contains(texts(found), " in") || strings.Contains(texts(found), " mm") {
		t.Errorf("inches: %q", texts(found))
	}
	comma := metric
	comma.Comma = true
	s.Winding.Wrap = 30 * mm
	if _, found, _ = s.Work(UsualLimits(measure.Millimetres), comma); !strings.Contains(texts(found), "0,37 wraps") {
		t.Errorf("comma: %q", texts(found))
	}
}

// finite fails for a number that is NaN or infinite.
func finite(t *testing.T, r Result, found []finding.Finding) {
	t.Helper()
	numbers := []float64{r.Roll.Turns, r.Roll.WrapsUp, r.Roll.WrapsLeft}
	if r.Wind != nil {
		numbers = append(numbers, r.Wind.Least, r.Wind.Most, r.Wind.Turns, r.Wind.Down)
		for _, at := range r.Wind.At {
			numbers = append(numbers, at.Needed, at.Given)
		}
	}
	for _, n := range numbers {
		if math.IsNaN(n) || math.IsInf(n, 0) || n < 0 {
			t.Errorf("%+v holds %v", r, n)
		}
	}
	if r.Roll.DiameterUp <= 0 || r.Roll.RadiusDown <= 0 || r.Sag != nil && r.Sag.Sag < 0 || r.Weight != nil && r.Weight.Total < 0 {
		t.Errorf("%+v holds a length or mass below zero", r)
	}
	if s := texts(found); strings.Contains(s, "NaN") || strings.Contains(s, "Inf") {
		t.Error(s)
	}
}

// FuzzWork: no panic, no NaN and no overflow for any lengths, up to 100 m and
// beyond.
func FuzzWork(f *testing.F) {
	seed := whole()
	add := func(s Shade) {
		f.Add(int64(s.Winding.Tube), int64(s.Winding.Cloth), int64(s.Winding.Wrap), int64(s.Winding.Drop), int64(s.Load.Width), int64(s.Load.Fold),
			int64(s.Load.Cloth), int64(s.Load.Slat), s.Spring.Rate, int64(s.Place.Axle), int64(*s.Place.Depth), int64(s.Beam.Wall), uint8(0))
	}
	add(seed)
	seed.Winding = Winding{Tube: finding.Reach, Cloth: 1, Wrap: finding.Reach, Drop: finding.Reach}
	seed.Load.Width, seed.Load.Drop, seed.Load.Fold = finding.Reach, finding.Reach, finding.Reach
	add(seed)
	seed.Winding = Winding{Tube: 2, Cloth: 1, Wrap: finding.Reach, Drop: finding.Reach}
	add(seed)
	seed.Winding = Winding{Tube: finding.Reach, Cloth: finding.Reach - 1, Drop: 1}
	seed.Load.Drop, seed.Load.Width, seed.Load.Slat, seed.Load.Fold = 1, 1, 0, 0
	add(seed)
	f.Fuzz(func(t *testing.T, tube, cloth, wrap, drop, width, fold, mass, slat int64, rate float64, axle, depth, wall int64, bits uint8) {
		steel, _ := MaterialNamed("steel")
		d := measure.Length(depth)
		s := Shade{
			Winding: Winding{measure.Length(tube), measure.Length(cloth), measure.Length(wrap), measure.Length(drop)},
			Load:    Load{measure.Length(width), measure.Length(drop), measure.Length(fold), measure.ArealMass(mass), measure.Mass(slat)},
			Place: &Place{Mount: Mount(bits & 3), Roll: Roll(bits >> 2 & 1), Axle: measure.Length(axle), Depth: &d, Slat: measure.Length(wall),
				Proud: []Obstruction{{Name: "handle", Proud: measure.Length(wrap), Below: &d}}},
			Spring: &Spring{Rate: rate},
			Beam:   &Beam{measure.Length(width), measure.Length(tube), measure.Length(wall), steel},
		}
		st := metric
		if bits&8 != 0 {
			st = inches
		}
		r, found, err := s.Work(UsualLimits(st.System), st)
		if err != nil {
			return
		}
		finite(t, r, found)
		l := Lift{s.Winding, s.Load}
		if rate, _, err := l.Measure(Trial{ScaleStep: measure.Gram, Readings: [2]Reading{{0, s.Load.Slat}, {s.Load.Drop, 2 * s.Load.Slat}}}, UsualLimits(st.System), st); err == nil {
			if math.IsNaN(rate.PerTurn+rate.Turns+rate.PerTurnError+rate.TurnsError) || rate.PerTurn <= 0 {
				t.Errorf("rate %+v", rate)
			}
		}
	})
}

// FuzzFit: the same for openings, squareness and brackets.
func FuzzFit(f *testing.F) {
	f.Add(int64(900*mm), int64(901*mm), int64(899*mm), int64(1500*mm), int64(1501*mm), int64(80*mm), int64(40*mm), uint8(0))
	f.Add(int64(finding.Reach), int64(finding.Reach), int64(1), int64(finding.Reach), int64(finding.Reach), int64(0), int64(finding.Reach), uint8(1))
	f.Fuzz(func(t *testing.T, w1, w2, h1, d1, d2, depth, over int64, bits uint8) {
		d := measure.Length(depth)
		o := Opening{
			Mount: Mount(bits & 3), Widths: []measure.Length{measure.Length(w1), measure.Length(w2), measure.Length(w1)}, Heights: []measure.Length{measure.Length(h1)},
			Diagonals: [2]measure.Length{measure.Length(d1), measure.Length(d2)}, Depth: &d,
			Overlap: Overlap{measure.Length(over), measure.Length(over), measure.Length(over), 0},
		}
		fit, found, err := UsualRules(measure.Inches).Fit(o, 0, inches)
		if err != nil {
			return
		}
		if o.Mount == Inside && (fit.Finished.Width > min(o.Widths[0], o.Widths[1]) || fit.Finished.Length > o.Heights[0]) {
			t.Errorf("%+v is larger than %+v", fit.Finished, o)
		}
		if fit.Square != nil && (math.IsNaN(fit.Square.Angle) || fit.Square.TopOver < 0 || fit.Square.Trim < 0) {
			t.Errorf("%+v", fit.Square)
		}
		if strings.Contains(texts(found), "NaN") {
			t.Error(texts(found))
		}
		s := Site{Bracket: plate(), Mount: o.Mount, TipToTip: fit.TipToTip, Opening: fit.Opening, Axle: d, Depth: d, Overlap: o.Overlap}
		if _, found, err := s.Drill(inches); err == nil {
			complete(t, found)
		}
	})
}

// Every length from a nanometre to 100 m, evenly by order of magnitude, and many of
// them accepted: still no panic and no NaN.
func TestWorkExtreme(t *testing.T) {
	accepted := 0
	rapid.Check(t, func(r *rapid.T) {
		size := func(name string) measure.Length {
			return min(finding.Reach, measure.Length(math.Pow(10, rapid.Float64Range(0, 11).Draw(r, name))))
		}
		number := func(name string, low, high float64) float64 {
			return math.Pow(10, rapid.Float64Range(low, high).Draw(r, name))
		}
		tube, drop := size("tube"), size("drop")
		s := Shade{
			Winding: Winding{tube, max(1, tube/measure.Length(number("layers", 0.1, 5))), size("wrap"), drop},
			Load: Load{size("width"), drop, size("fold"), measure.ArealMass(number("mass", 0, 8)),
				measure.Mass(number("slat", 0, 11))},
			Place:  &Place{Mount: Mount(rapid.IntRange(0, 2).Draw(r, "mount")), Roll: Roll(rapid.IntRange(0, 1).Draw(r, "roll")), Axle: size("axle"), Depth: deep(size("depth"))},
			Spring: &Spring{Rate: number("rate", -6, 8)},
			Beam:   &Beam{size("span"), tube, max(1, tube/measure.Length(number("wall", 0.4, 3))), materials[rapid.IntRange(0, len(materials)-1).Draw(r, "material")]},
		}
		result, found, err := s.Work(UsualLimits(measure.Millimetres), metric)
		if err != nil {
			return
		}
		accepted++
		finite(t, result, found)
		complete(t, found)
	})
	if accepted < 20 {
		t.Errorf("only %d of the cases were accepted; the test says little", accepted)
	}
}

// More cloth or a thicker tube never makes the roll thinner, and a heavier slat
// never needs fewer turns.
func TestWorkMonotone(t *testing.T) {
	lim := UsualLimits(measure.Millimetres)
	rapid.Check(t, func(t *rapid.T) {
		s := whole()
		more := lengths(t, "more", 0, 1000*mm)
		a, _, err := s.Work(lim, metric)
		if err != nil {
			t.Fatal(err)
		}
		s.Winding.Drop += more
		s.Load.Drop += more
		s.Load.Slat += measure.Mass(rapid.Int64Range(0, int64(measure.Kilogram)).Draw(t, "slat"))
		b, _, err := s.Work(lim, metric)
		if err != nil {
			t.Fatal(err)
		}
		if b.Roll.DiameterUp < a.Roll.DiameterUp || b.Roll.Turns < a.Roll.Turns || b.Weight.Total < a.Weight.Total || b.Clearance.Gap > a.Clearance.Gap || b.Sag.Sag < a.Sag.Sag {
			t.Fatalf("%+v then %+v", a, b)
		}
	})
}

// The whole arithmetic of one shade: opening, roll, clearances, weight, spring,
// sag, and the drilling template.
func BenchmarkShade(b *testing.B) {
	b.ReportAllocs()
	rules, lim := UsualRules(measure.Inches), UsualLimits(measure.Inches)
	o := Opening{Widths: sixteenths(551, 550, 552), Heights: sixteenths(960, 961, 960), Depth: deep(4 * in),
		Diagonals: [2]measure.Length{69*in + in/8, 69*in + in/8}}
	s := whole()
	for b.Loop() {
		fit, _, err := rules.Fit(o, 0, inches)
		if err != nil {
			b.Fatal(err)
		}
		r, _, err := s.Work(lim, inches)
		if err != nil {
			b.Fatal(err)
		}
		site := Site{Bracket: plate(), TipToTip: fit.TipToTip, Play: rules.TipOff, Opening: fit.Opening, Axle: r.Axle, RollUp: r.Roll}
		if _, _, err := site.Drill(inches); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWork(b *testing.B) {
	b.ReportAllocs()
	s, lim := whole(), UsualLimits(measure.Millimetres)
	for b.Loop() {
		if _, _, err := s.Work(lim, metric); err != nil {
			b.Fatal(err)
		}
	}
}

// A spring that cannot work is the slow case, because other slats and springs are
// tried.
func BenchmarkImpossibleSpring(b *testing.B) {
	b.ReportAllocs()
	s, lim := whole(), UsualLimits(measure.Millimetres)
	s.Spring = &Spring{Rate: 40}
	for b.Loop() {
		if _, _, err := s.Work(lim, metric); err != nil {
			b.Fatal(err)
		}
	}
}

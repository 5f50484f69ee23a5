package ticket_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"shadewright/ticket"
	"shadewright/ticket/finding"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

// measured is a shade in a recess with every value about how it hangs, and nothing
// wrong.
func measured() ticket.Shade {
	s := usual()
	depth := 4 * in
	behind := hang.Wood
	s.Finished, s.AsBefore = measure.Size{}, false
	s.Opening = &ticket.Opening{Opening: hang.Opening{
		Mount:   hang.Inside,
		Widths:  []measure.Length{34*in + in*7/16, 34*in + in*3/8, 34*in + in*7/16},
		Heights: []measure.Length{40 * in, 40 * in, 40*in + in/16},
		Depth:   &depth,
		// √(34.417² + 40.021²) = 52.784, to 1/32
		Diagonals: [2]measure.Length{52*in + in*25/32, 52*in + in*25/32},
	}, Unobstructed: true}
	s.Bracket = &hang.Bracket{
		Name: "jamb", Plate: measure.Size{Width: in, Length: in}, Axle: hang.Point{X: in / 2, Y: in / 2}, Projection: in / 16,
		Holes: []hang.Hole{{At: hang.Point{X: in / 2, Y: in / 4}, Diameter: in / 8}},
	}
	s.Behind = &behind
	s.Roller.Pins, s.Roller.ByTrial = &hang.Pins{Flat: in / 4, Round: in / 4}, false
	s.Goods.Mass = 440 * measure.GramPerSquareMetre
	s.Roller.Material, _ = hang.MaterialNamed("steel")
	s.Roller.Wall, s.Roller.Spring, s.Roller.Most = 600*measure.Micrometre, 9*measure.NewtonMillimetre, 40
	s.Slat.Width, s.Slat.Mass = in*7/8, 400*measure.GramPerMetre
	return s
}

// The steps of the opening: widths and deductions of the guides that package hang
// names. 34-3/8 − 1/8, − 5/8, − 1-1/8 in, by hand.
func TestOpening(t *testing.T) {
	k := one(t, measured())
	if len(k.Findings) != 0 {
		t.Errorf("findings %+v; want none", k.Findings)
	}
	for _, tt := range []struct {
		name      string
		got, want measure.Length
	}{
		{"finished width", k.Shade.Finished.Width, 33*in + in/4},
		{"finished length", k.Shade.Finished.Length, 40 * in},
		{"tip to tip", k.Fit.TipToTip, 34*in + in/4},
		{"tube", k.Tube.Trim, 33*in + in*3/4},
		{"panel width", k.Panel.Width, 33*in + in/4},
		{"panel length", k.Panel.Length, 48*in + in*3/4},
		{"square: 33-1/4 × 48-3/4 in is 11.3 square feet", k.Square, in / 8},
	} {
		if tt.got != tt.want {
			t.Errorf("%s = %s; want %s", tt.name, tt.got, tt.want)
		}
	}
	// Tips and both brackets fill the opening: 34-1/4 + 2 × 1/16 = 34-3/8 in.
	if d := k.Drilling; d == nil || len(d.Views) != 2 || d.Between != 34*in+in*3/8 || d.Shim != 0 {
		t.Errorf("drilling %+v; want both jambs, 34-3/8 in apart, without packing", d)
	}
	if k.Fastener == nil || k.Fastener.Behind != hang.Wood {
		t.Errorf("fastener %+v; want that for wood", k.Fastener)
	}
	// The axle lies below the head by half the roll and 1/8 in, rounded up to the
	// next 1/16.
	want := (k.Roll.DiameterUp/2 + in/8).Round(in/16, measure.Up)
	if k.Head != want {
		t.Errorf("head %s; want %s", k.Head, want)
	}
}

// Roll, weight and sag, compared with published and computed cases.
func TestHanging(t *testing.T) {
	s := measured()
	s.Opening, s.Bracket, s.Behind = nil, nil, nil
	s.Allow = ticket.Allow{Wrap: 160 * mm, Hem: 10 * mm, Pocket: 40 * mm, StitchInset: 3 * mm}
	s.Finished = measure.Size{Width: 900 * mm, Length: 1290 * mm}
	s.Goods.Thickness, s.Goods.Mass = 750*measure.Micrometre, 540*measure.GramPerSquareMetre
	s.Roller.Tube, s.Roller.Shortest = 25*mm+400*measure.Micrometre, 0
	s.Slat.Mass = 250 * measure.GramPerMetre
	k := one(t, s)
	// Steel 25.4 × 0.6 mm, 900 mm, own weight, 1.5 m of 540 g/m² (1290 + 160 + 10 + 40)
	// and 0.25 kg/m: 5wL⁴/(384EI), E 200 GPa, I 3596.0 mm⁴: 0.1663 mm, with python3's decimal.
	if got := k.Sag.Sag.Millimetres(); math.Abs(got-0.1663) > 0.0001 {
		t.Errorf("sag %.4f mm; want 0.1663", got)
	}
	// By hand: 0.9 × (1.290 + 0.050) m × 540 g/m² = 651.24 g; 0.9 m × 250 g/m = 225 g.
	if w := k.Weight; math.Abs(w.Cloth.Grams()-651.24) > 1e-6 || w.Slat.Grams() != 225 || math.Abs(w.Total.Grams()-876.24) > 1e-6 {
		t.Errorf("weight %+v; want 651.24 + 225 g", w)
	}
	// 1800 mm of 0.75 mm on 25.4 mm make 15.48 wraps, 49.40 mm over the last ring
	// (summing rings, with python3's decimal).
	s.Finished.Length = 1640 * mm
	k = one(t, s)
	if got := k.Roll.DiameterUp.Millimetres(); math.Abs(got-49.40) > 0.001 || math.Abs(k.Roll.WrapsUp-15.481) > 0.001 {
		t.Errorf("up %.3f mm, %.3f wraps; want 49.40, 15.481", got, k.Roll.WrapsUp)
	}
	// A side hem doubles what is wound: 1.5 mm, D = √(25.4² + 4·1800·1.5/π) = 63.908,
	// N = (63.908 − 25.4)/3 = 12.836 → 13 rings, 25.4 + 2·1.5·13 = 64.4 mm, by hand.
	s.Allow.SideHem = 10 * mm
	if got := one(t, s).Roll.DiameterUp.Millimetres(); math.Abs(got-64.4) > 0.001 {
		t.Errorf("with side hems %.3f mm; want 64.4", got)
	}
}

// The shade is wound so that it lifts at every height and is thrown at none: at
// each height listed, the spring gives between 1.15 and 2 times the torque needed.
func TestSpring(t *testing.T) {
	k := one(t, measured())
	if k.Wind == nil || !k.Wind.OK || len(k.Wind.Pulls) == 0 || k.TrialAt != nil {
		t.Fatalf("wind %+v; want turns and pulls", k.Wind)
	}
	for _, at := range k.Wind.At {
		if ratio := at.Given / at.Needed; ratio < 1.15 || ratio > 2 {
			t.Errorf("with %s down the spring gives %.2f times the torque needed", at.Below, ratio)
		}
	}
	s := measured()
	s.Roller.Spring = 0
	k = one(t, s)
	if k.Wind != nil || k.TrialAt == nil || *k.TrialAt != [2]measure.Length{10 * in, 30 * in} {
		t.Errorf("an unknown spring: wind %+v, trial at %v; want none, at a quarter and three quarters of 40 in", k.Wind, k.TrialAt)
	}
	// Readings that a spring of 9 N·mm per turn wound 12 turns would give, by
	// statics: radius √(r0² + t·on/π), turns (R − r)/t, pull k·(n + u)/r less the
	// hanging weight.
	readings := [2]hang.Reading{}
	for i, below := range []measure.Length{10 * in, 30 * in} {
		r0, thick, on := 28.575/2, 0.6, 47*25.4-below.Millimetres()
		up, r := math.Sqrt(r0*r0+thick*47*25.4/math.Pi), math.Sqrt(r0*r0+thick*on/math.Pi)
		hangs := (844.55*(below.Millimetres()+44.45)*440e-6 + 838.2*0.4) / 1000 * 9.80665
		pull := 9*(12+(up-r)/thick)/r - hangs
		readings[i] = hang.Reading{Below: below, Scale: measure.Mass(math.Round(pull / 9.80665 * 1e9))}
	}
	s.Trial = &readings
	k = one(t, s)
	if k.Rate == nil || math.Abs(k.Rate.PerTurn-9) > 0.001 || math.Abs(k.Rate.Turns-12) > 0.002 || k.Wind == nil {
		t.Errorf("rate %+v; want 9 N·mm per turn, 12 turns", k.Rate)
	}
}

func TestHangingFindings(t *testing.T) {
	length := func(l measure.Length) *measure.Length { return &l }
	tests := []struct {
		name   string
		change func(*ticket.Shade)
		level  finding.Level
		field  string
	}{
		{"an inch slip", func(s *ticket.Shade) { s.Opening.Widths[1] += in }, finding.Stop, "opening.widths"},
		{"inches for millimetres", func(s *ticket.Shade) { s.Opening.Heights[0] = 40 * mm }, finding.Stop, "opening.heights"},
		{"a reading missing", func(s *ticket.Shade) { s.Opening.Widths = s.Opening.Widths[:2] }, finding.Caution, "opening.widths"},
		{"no depth measured", func(s *ticket.Shade) { s.Opening.Depth, s.Opening.Axle = nil, 2*in }, finding.Unchecked, "opening.depth"},
		{"no depth at all", func(s *ticket.Shade) { s.Opening.Depth = length(0) }, finding.Stop, "opening.depth"},
		{"a shallow recess", func(s *ticket.Shade) { s.Opening.Depth = length(in * 7 / 4) }, finding.Caution, "opening.depth"},
		{"out of square", func(s *ticket.Shade) {
			s.Opening.Diagonals = [2]measure.Length{52*in + in*3/4, 52*in + in/4}
		}, finding.Caution, "opening.diagonals"},
		{"a handle in the way", func(s *ticket.Shade) {
			s.Opening.Axle, s.Opening.Obstructions = 3*in/2, []hang.Obstruction{{Name: "handle", Proud: in}}
		}, finding.Stop, "opening.obstructions"},
		{"brackets too thick", func(s *ticket.Shade) { s.Bracket.Projection = in / 4 }, finding.Stop, "bracket.projection"},
		{"an outside bracket too short", func(s *ticket.Shade) { s.Opening.Mount, s.Bracket.Projection = hang.Outside, in/2 }, finding.Stop, "bracket.projection"},
		{"few wraps", func(s *ticket.Shade) { s.Allow.Wrap = 3 * in }, finding.Caution, "allow.wrap"},
		{"hardly a wrap", func(s *ticket.Shade) { s.Allow.Wrap = in }, finding.Stop, "allow.wrap"},
		{"a weak spring", func(s *ticket.Shade) { s.Roller.Spring = measure.NewtonMillimetre / 2 }, finding.Stop, "roller.spring"},
		{"a spring that binds", func(s *ticket.Shade) { s.Roller.Most = 10 }, finding.Stop, "roller.spring"},
		{"a soft tube", func(s *ticket.Shade) { s.Roller.Material, _ = hang.MaterialNamed("pvc") }, finding.Caution, "roller"},
		{"the spring not known", func(s *ticket.Shade) { s.Roller.Spring = 0 }, finding.Unchecked, "roller.spring"},
		{"the slat's mass not known", func(s *ticket.Shade) { s.Slat.Mass = 0 }, finding.Unchecked, "slat.mass"},
		{"the cloth's mass not known", func(s *ticket.Shade) { s.Goods.Mass = 0 }, finding.Unchecked, "goods.mass"},
	}
	for _, tt := range tests {
		s := measured()
		tt.change(&s)
		k := one(t, s)
		found := false
		for _, f := range k.Findings {
			found = found || f.Level == tt.level && f.Field == tt.field
			if f.Text.IsZero() || f.Source == "" || f.Remedy.IsZero() || strings.Contains(f.Text.String(), "NaN") {
				t.Errorf("%s: finding without text, source or remedy: %+v", tt.name, f)
			}
		}
		if !found {
			t.Errorf("%s: no %s on %s in %+v", tt.name, tt.level, tt.field, k.Findings)
		}
	}
}

// Values with which nothing can be worked out are an error from Try, and a stop on
// a ticket.
func TestTry(t *testing.T) {
	s := measured()
	s.Roller.Wall = in
	var wrong *finding.InputError
	if err := ticket.Try(jobOf(), &s, options()); !errors.As(err, &wrong) || wrong.Field != "roller.wall" {
		t.Errorf("a wall of 1 in gives %v", err)
	}
	if k := one(t, s); !k.Stopped() || k.Findings[0].Field != "roller.wall" {
		t.Errorf("a wall of 1 in gives %+v", k.Findings)
	}
	s = measured()
	s.Opening.Widths = nil
	if _, err := ticket.Make(jobOf(s), options()); !errors.As(err, &wrong) || wrong.Field != "opening.widths" {
		t.Errorf("no widths give %v", err)
	}
	if s = measured(); ticket.Try(jobOf(), &s, options()) != nil {
		t.Error("a sound shade is refused")
	}
}

// For any measurements: no panic and no NaN (which JSON lacks). The shade fits its
// opening inside, and covers it outside.
func TestAnyOpening(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string, least, most measure.Length) measure.Length {
			return measure.Length(rapid.Int64Range(int64(least), int64(most)).Draw(t, name))
		}
		s := measured()
		o := s.Opening
		o.Diagonals = [2]measure.Length{} // any would contradict most openings
		o.Mount = hang.Mount(rapid.IntRange(0, 2).Draw(t, "mount"))
		for i := range o.Widths {
			o.Widths[i] = length("width", 40*mm, 10*measure.Metre)
			o.Heights[i] = length("height", 40*mm, 10*measure.Metre)
		}
		depth := length("depth", 0, measure.Metre)
		o.Depth, o.Axle = &depth, length("axle", 0, 200*mm)
		o.Overlap = hang.Overlap{Left: length("left", 0, measure.Metre), Below: length("below", 0, measure.Metre)}
		s.Goods.Thickness = length("thickness", 20*measure.Micrometre, 10*mm)
		s.Roller.Tube = length("tube", 5*mm, 200*mm)
		s.Roller.Wall = length("wall", measure.Nanometre, 100*mm)
		s.Roller.Spring = measure.SpringRate(rapid.Int64Range(0, 10_000_000).Draw(t, "spring"))
		s.Slat.Mass = measure.LinearMass(rapid.Int64Range(0, 20_000_000_000).Draw(t, "slat"))
		s.Roll = rapid.SampledFrom([]ticket.Roll{ticket.Standard, ticket.Reverse}).Draw(t, "roll")
		job := jobOf(s)
		all, err := ticket.Make(job, options())
		if err != nil {
			t.Fatal(err)
		}
		if _, err := json.Marshal(ticket.ReportOf(job, all)); err != nil {
			t.Fatal(err)
		}
		k := all[0]
		for _, w := range o.Widths {
			if fits := k.Shade.Finished.Width <= w; o.Mount == hang.Inside && !fits {
				t.Fatalf("%s wide does not go into %s", k.Shade.Finished.Width, w)
			}
			if covers := k.Shade.Finished.Width >= w; o.Mount != hang.Inside && !covers {
				t.Fatalf("%s wide does not cover %s", k.Shade.Finished.Width, w)
			}
		}
	})
}

// The keys for programs: present when the value is known, absent when not.
func TestReportHanging(t *testing.T) {
	report := func(s ticket.Shade) map[string]any {
		job := jobOf(s)
		data, err := json.Marshal(ticket.ReportOf(job, mustMake(t, job, options())).Shades[0])
		if err != nil {
			t.Fatal(err)
		}
		var doc map[string]any
		if err := json.Unmarshal(data, &doc); err != nil {
			t.Fatal(err)
		}
		return doc
	}
	at := func(doc any, path string) any {
		for key := range strings.SplitSeq(path, ".") {
			m, _ := doc.(map[string]any)
			doc = m[key]
		}
		return doc
	}
	light := usual()
	light.Goods.Mass = 0
	full, plain := report(measured()), report(light)
	for _, tt := range []struct {
		path string
		want any // nil: only that the key is present
	}{
		// Inches of the guides, by hand, times 25.4; see TestOpening.
		{"opening.mount", "inside"}, {"opening.width_mm", 873.125}, {"opening.finished.width_mm", 844.55}, {"opening.tip_to_tip_mm", 869.95},
		{"opening.tube_trim_mm", 857.25}, {"opening.light_gap_mm", 14.2875}, {"opening.widths_mm", "[874.7125 873.125 874.7125]"}, {"opening.steps", nil},
		{"roll.diameter_up_mm", nil}, {"roll.turns", nil}, {"roll.wraps_left", nil}, {"roll.clearance_mm", nil},
		// 0.84455 × (1.016 + 0.04445) m × 440 g/m² and 0.8382 m × 400 g/m, by hand.
		{"weight.cloth_g", 394.065341}, {"weight.slat_g", 335.28}, {"weight.total_g", 729.345341},
		{"spring.rate_nmm_per_turn", 9.0}, {"spring.prewind_turns", nil}, {"spring.pulls_mm", nil},
		{"sag.mm", nil}, {"sag.limit_mm", 3.175}, {"square.allowed_mm", 3.175},
	} {
		got := at(full, tt.path)
		if g, ok := got.(float64); ok {
			got = math.Round(g*1e6) / 1e6
		}
		if got == nil || tt.want != nil && fmt.Sprint(got) != fmt.Sprint(tt.want) {
			t.Errorf("%s = %v; want %v", tt.path, got, tt.want)
		}
	}
	if at(full, "square.diagonal_mm") != at(full, "panel.diagonal_mm") {
		t.Error("the target diagonal is not the panel's")
	}
	for _, path := range []string{"opening", "weight", "spring", "sag", "roll.clearance_mm"} {
		if got := at(plain, path); got != nil {
			t.Errorf("a plain shade has %s: %v", path, got)
		}
	}
}

func BenchmarkHanging(b *testing.B) {
	job := jobOf(measured())
	b.ReportAllocs()
	for b.Loop() {
		if err := ticket.Try(job, &job.Shades[0], options()); err != nil {
			b.Fatal(err)
		}
	}
}

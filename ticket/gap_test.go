package ticket_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"shadewright/ticket"
	"shadewright/ticket/finding"
	"shadewright/ticket/finding/findingtest"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

// drops lists every measure that a job may leave out, and the field that then is
// unchecked. A bounded one is a gap that counts as closed if no likely value fails.
var drops = []struct {
	field   string
	drop    func(*ticket.Shade)
	bounded bool
}{
	{"goods.thickness", func(s *ticket.Shade) { s.Goods.Thickness = 0 }, false},
	{"goods.mass", func(s *ticket.Shade) { s.Goods.Mass = 0 }, false},
	{"roller.tube", func(s *ticket.Shade) { s.Roller.Tube = 0 }, false},
	{"roller.spring", func(s *ticket.Shade) { s.Roller.Spring = 0 }, false},
	{"roller.pins", func(s *ticket.Shade) { s.Roller.Pins = nil }, false},
	{"roller.wall", func(s *ticket.Shade) { s.Roller.Wall = 0 }, true},
	{"slat.width", func(s *ticket.Shade) { s.Slat.Width = 0 }, false},
	{"slat.thickness", func(s *ticket.Shade) { s.Slat.Thickness = 0 }, false},
	{"slat.mass", func(s *ticket.Shade) { s.Slat.Mass = 0 }, false},
	{"bracket", func(s *ticket.Shade) { s.Bracket = nil }, false},
	{"behind", func(s *ticket.Shade) { s.Behind = nil }, false},
	{"opening.depth", func(s *ticket.Shade) { s.Opening.Depth = nil }, false},
	{"opening.diagonals", func(s *ticket.Shade) { s.Opening.Diagonals = [2]measure.Length{} }, false},
	{"opening.obstructions", func(s *ticket.Shade) { s.Opening.Unobstructed, s.Opening.Obstructions = false, nil }, false},
}

func unchecked(k *ticket.Ticket) (fields []string) {
	for _, f := range k.Findings {
		if f.Level == finding.Unchecked {
			fields = append(fields, f.Field)
		}
	}
	return fields
}

// A measure that is left out is named, alone, with what to measure.
func TestEachGapIsSaid(t *testing.T) {
	if got := unchecked(one(t, measured())); got != nil {
		t.Fatalf("a shade with every measure has the gaps %q", got)
	}
	for _, d := range drops {
		s := measured()
		s.Roller.Tube = 38 * mm // stiff enough for every likely wall
		d.drop(&s)
		k := one(t, s)
		want := []string{d.field}
		if d.bounded {
			want = nil
		}
		if got := unchecked(k); fmt.Sprint(got) != fmt.Sprint(want) {
			t.Errorf("without %s: unchecked is %q; want %q", d.field, got, want)
		}
		findingtest.Complete(t, k.Findings)
	}
	s := usual()
	s.AsBefore = false
	if got := unchecked(one(t, s)); fmt.Sprint(got) != "[opening]" {
		t.Errorf("a finished size without an opening: unchecked is %q; want the opening", got)
	}
}

// By hand: the pocket of 1-1/4 in has 1-1/8 in (28.575 mm) inside the stitch row, less
// one thickness; the slat needs 1-3/32 in (27.781 mm). It goes in up to 0.79 mm. The likely
// range of coated mesh is 0.3 to 0.9 mm.
func TestPocketOverTheRange(t *testing.T) {
	const text = "the slat needs"
	for _, tt := range []struct {
		slat measure.Length // width; the thickness is 3/32 in
		want finding.Level
		with string
	}{
		{in, finding.Caution, "with cloth 0.9 mm thick: "},
		{in * 17 / 16, finding.Stop, "even with cloth 0.3 mm thick: "}, // needs 29.369 mm
		{in * 15 / 16, finding.Unchecked, ""},                          // needs 26.194 mm: goes in up to 2.38 mm
	} {
		s := usual()
		s.Goods.Thickness, s.Slat.Width = 0, tt.slat
		k := one(t, s)
		if k.Findings[0].Level != tt.want {
			t.Errorf("slat %s: the worst is %s; want %s", tt.slat, k.Findings[0].Level, tt.want)
		}
		if got := k.Findings[0].Text.String(); tt.with != "" && !strings.HasPrefix(got, tt.with+text) {
			t.Errorf("slat %s: %q; want it to begin with %q", tt.slat, got, tt.with+text)
		}
		if got := unchecked(k); fmt.Sprint(got) != "[goods.thickness]" {
			t.Errorf("slat %s: unchecked is %q", tt.slat, got)
		}
	}
}

// A gap never makes a bad shade good: with a stop when every measure is known, it has a
// stop, a caution or something unchecked when some are not. Weight and sag need no
// thickness.
func TestGapsNeverHide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := measured()
		length := func(name string, least, most measure.Length) measure.Length {
			return measure.Length(rapid.Int64Range(int64(least), int64(most)).Draw(t, name))
		}
		s.Goods.Thickness = length("thickness", 300*measure.Micrometre, 900*measure.Micrometre)
		s.Roller.Tube = length("tube", 19*mm, 51*mm)
		s.Slat.Width = length("slat", 19*mm, 32*mm)
		s.Allow.Wrap = length("wrap", 0, 300*mm)
		s.Roller.Spring = measure.SpringRate(rapid.IntRange(1, 40).Draw(t, "spring")) * measure.NewtonMillimetre
		depth := length("depth", 20*mm, 150*mm)
		s.Opening.Depth = &depth
		if rapid.Bool().Draw(t, "crank") {
			s.Opening.Unobstructed = false
			s.Opening.Obstructions = []hang.Obstruction{{Name: "crank", Proud: length("proud", mm, 60*mm)}}
		}
		whole := mustMakeIn(t, s)
		dropped := map[string]bool{}
		for _, d := range drops {
			if rapid.Bool().Draw(t, "without "+d.field) {
				d.drop(&s)
				dropped[d.field] = true
			}
		}
		part := mustMakeIn(t, s)
		if whole.Stopped() && (len(part.Findings) == 0 || part.Findings[0].Level < finding.Unchecked) {
			t.Fatalf("%v hides the stop %q", dropped, whole.Findings[0].Text)
		}
		for _, f := range unchecked(part) {
			if !dropped[f] {
				t.Fatalf("%s is unchecked but was given", f)
			}
		}
		for f := range dropped {
			if f != "roller.wall" && !strings.Contains(fmt.Sprint(unchecked(part)), f) {
				t.Fatalf("%s was not given, and nobody says so: %q", f, unchecked(part))
			}
		}
		if dropped["goods.thickness"] && !dropped["goods.mass"] && !dropped["slat.mass"] && !dropped["slat.width"] && !dropped["slat.thickness"] &&
			(part.Weight == nil || part.Weight.Total != whole.Weight.Total) {
			t.Fatal("without the thickness the weight is gone")
		}
	})
}

func mustMakeIn(t *rapid.T, s ticket.Shade) *ticket.Ticket {
	t.Helper()
	all, err := ticket.Make(jobOf(s), options())
	if err != nil {
		t.Fatal(err)
	}
	return all[0]
}

// What several shades share is said once for the job, with their names.
func TestSaidOnce(t *testing.T) {
	var shades []ticket.Shade
	for _, id := range []string{"a", "b", "c"} {
		s := usual()
		s.ID, s.Quantity, s.Slat.Width = id, 2, in*15/16
		if id != "b" {
			s.Goods.Thickness = 0
		}
		shades = append(shades, s)
	}
	list := ticket.UncheckedOf(mustMake(t, jobOf(shades...), options()))
	if len(list) != 1 || list[0].Field != "goods.thickness" || len(list[0].Shades) != 2 || list[0].Shades[1].ID != "c" || list[0].Units != 4 {
		t.Errorf("UncheckedOf: %+v; want the thickness once, for 4 units of a and c", list)
	}
}

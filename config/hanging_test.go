package config

import (
	"testing"

	"shadewright/ticket"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

// The built-in rules are those of package hang, which has their sources.
func TestBuiltInRules(t *testing.T) {
	s := load(t, Options{})
	for _, u := range []measure.System{measure.Inches, measure.Millimetres} {
		if got, want := s.Rules(u), ticket.UsualRules(u); got != want {
			t.Errorf("rules in %s = %+v; want %+v", u, got, want)
		}
	}
	if got := s.Practice().RulesFor(measure.Millimetres); got != s.Rules(measure.Millimetres) {
		t.Errorf("the practice has other rules: %+v", got)
	}
}

// A setting with one length applies to both units; with two, each applies to
// its own.
func TestRulesOfTheShop(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, `opening: {cloth_off: 1-1/4 in or 33 mm, height: shortest, overlap: {left: 50 mm}}
square: {small: 2 mm, area: 1.5 m2}
limits: {fly: 1.8, gap: 1/4 in or 5 mm, scale_step: 1 oz}
`)
	s := load(t, Options{JobDir: dir})
	for u, want := range map[measure.System][2]measure.Length{measure.Inches: {in + in/4, in / 4}, measure.Millimetres: {33 * mm, 5 * mm}} {
		r := s.Rules(u)
		if r.Opening.ClothOff != want[0] || r.Hang.Gap != want[1] {
			t.Errorf("in %s: %s and %s off; want %v", u, r.Opening.ClothOff, r.Hang.Gap, want)
		}
		if r.Opening.Height != hang.Shortest || r.Opening.Overlap.Left != 50*mm || r.Opening.Square.Small != 2*mm || r.Opening.Square.Area != measure.SquareMetre*3/2 || r.Hang.Fly != 1.8 {
			t.Errorf("in %s: rules %+v", u, r)
		}
		if r.Scale != 28_349_523 { // 1 oz = 28.349523125 g
			t.Errorf("in %s: scale step %d µg", u, r.Scale)
		}
	}
}

// Every rule has its own reason, and only rules without a source say so.
func TestReasonsOfRules(t *testing.T) {
	for _, r := range append(openingRows(), hangRows()...) {
		if r.reason == "" {
			t.Errorf("%s has no reason", r.Name)
		}
	}
	for name, want := range map[string]string{
		"opening.overlap.left": "measuring guides range from 3/4 to 2 in at each side; two say 1-1/2 in",
		"square.area":          "a window maker's guide: diagonals within 1/8 in up to 20 square feet, 1/4 in above",
		"limits.sag":           "common practice, no source: no standard for shades was found",
	} {
		if got := reasonOf(name); got != want {
			t.Errorf("reasonOf(%q) = %q; want %q", name, got, want)
		}
	}
}

package hang

import (
	"fmt"
	"testing"

	"shadewright/ticket/measure"
)

// The words of job files, tickets and findings.
func TestWords(t *testing.T) {
	for _, c := range []struct {
		got  fmt.Stringer
		want string
	}{
		{Inside, "inside"}, {Outside, "outside"}, {Ceiling, "ceiling"},
		{Standard, "standard"}, {Reverse, "reverse"},
		{Longest, "longest"}, {Shortest, "shortest"}, {Middle, "middle"},
		{Left, "left"}, {Right, "right"}, {FlatPin, "flat pin"}, {RoundPin, "round pin"},
		{Wood, "wood"}, {Drywall, "drywall"}, {AluminiumSkin, "aluminium skin"}, {SteelSkin, "steel skin"},
		{Measured, "measured"}, {Reached, "reached"},
	} {
		if got := c.got.String(); got != c.want {
			t.Errorf("%T prints as %q; want %q", c.got, got, c.want)
		}
	}
	if got := grams(metric, 1250*measure.Gram); got != "1.25 kg" {
		t.Errorf("1250 g prints as %q", got)
	}
}

func TestSettingsCheck(t *testing.T) {
	for _, s := range []measure.System{measure.Inches, measure.Millimetres} {
		if err := UsualRules(s).Check(measure.Usual(s)); err != nil {
			t.Errorf("usual rules in %v: %v", s, err)
		}
		if err := UsualLimits(s).Check(measure.Usual(s)); err != nil {
			t.Errorf("usual limits in %v: %v", s, err)
		}
	}
	for _, c := range []struct {
		change func(*Rules)
		field  string
	}{
		{func(r *Rules) { r.WidthStep = 0 }, "width_step"},
		{func(r *Rules) { r.LengthStep = -in }, "length_step"},
		{func(r *Rules) { r.ClothOff = 0 }, "cloth_off"},
		{func(r *Rules) { r.Height = 9 }, "height"},
		{func(r *Rules) { r.Slip = -in }, "slip"},
		{func(r *Rules) { r.Differ = in / 32 }, "differ"},
		{func(r *Rules) { r.Largest = in }, "largest"},
		{func(r *Rules) { r.Square.Large = -in }, "square"},
	} {
		r := UsualRules(measure.Inches)
		c.change(&r)
		wantInputError(t, r.Check(inches), c.field)
	}
	for _, c := range []struct {
		change func(*Limits)
		field  string
	}{
		{func(l *Limits) { l.WrapsCaution = 0.1 }, "wraps_caution"},
		{func(l *Limits) { l.Lift = 0.5 }, "lift"},
		{func(l *Limits) { l.Sag = 0 }, "sag"},
		{func(l *Limits) { l.PullStep = 0 }, "pull_step"},
		{func(l *Limits) { l.Gap = -in }, "gap"},
	} {
		l := UsualLimits(measure.Inches)
		c.change(&l)
		wantInputError(t, l.Check(inches), c.field)
	}
	if err := window().Check(metric); err != nil {
		t.Error(err)
	}
}

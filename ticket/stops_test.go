package ticket_test

import (
	"testing"

	"pgregory.net/rapid"

	"shadewright/ticket"
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
)

// A stop never prints a value that reads like the limit it breaks, in either unit and at
// any step of the rule.
func TestStopsReadApart(t *testing.T) {
	seen := map[string]bool{}
	rapid.Check(t, func(t *rapid.T) {
		near := func(name string, l measure.Length) measure.Length {
			return l + measure.Length(rapid.Int64Range(-int64(mm), int64(mm)).Draw(t, name))
		}
		s := usual()
		if rapid.Bool().Draw(t, "opening") {
			s = measured()
			s.Roller.Pins.Flat = near("pin", s.Roller.Pins.Flat+in/16)
			depth := near("depth", 2*in)
			s.Opening.Depth, s.Opening.Axle = &depth, near("axle", 2*in)
		} else {
			s.Finished.Width = near("width", 36*in)
		}
		s.Slat.Width = near("slat", in)
		s.Allow.Pocket = near("pocket", s.Allow.Pocket)
		s.Allow.Hem = near("hem", rapid.SampledFrom([]measure.Length{in / 2, s.Allow.Pocket, s.Allow.StitchInset}).Draw(t, "about"))
		job := jobOf(s)
		job.Style = measure.Usual(rapid.SampledFrom([]measure.System{measure.Inches, measure.Millimetres}).Draw(t, "units"))
		if job.Style.System == measure.Inches {
			job.Style.Denominator = rapid.SampledFrom([]int{16, 32, 64}).Draw(t, "step")
		}
		all, err := ticket.Make(job, options())
		if err != nil {
			t.Skip(err)
		}
		for _, f := range all[0].Findings {
			if f.Level == finding.Stop && f.Value != "" && f.Value == f.Limit && !(f.Field == "allow.stitch_inset" && s.Allow.StitchInset == s.Allow.Hem) {
				t.Fatalf("%s: %q is refused against %q: %s", f.Field, f.Value, f.Limit, f.Text)
			}
			if f.Level == finding.Stop {
				seen[f.Field] = true
			}
		}
	})
	for _, field := range []string{"slat", "roller", "allow.hem", "allow.stitch_inset", "roller.pins", "opening.depth"} {
		if !seen[field] {
			t.Errorf("no try stopped at %s", field)
		}
	}
}

// What a stop advises does: made so, the shade no longer stops there. Values by hand.
func TestStopsSayWhatWouldDo(t *testing.T) {
	s := usual()
	s.Slat.Width = in * 5 / 4
	f := one(t, s).Findings[0]
	// Needs 1-1/4 + 3/32 in; the pocket loses 1/8 in to the row and 0.6 mm to the turn:
	// 1.3438 + 0.125 + 0.0236 = 1.4924 in, and the next sixteenth is 1-1/2 in.
	if want := "make the pocket at least 1-1/2 in, or use a narrower slat"; f.Remedy.String() != want {
		t.Errorf("remedy %q; want %q", f.Remedy, want)
	}
	s.Allow.Pocket = in * 3 / 2
	if k := one(t, s); k.Stopped() {
		t.Errorf("with the pocket that the stop advised: %s", k.Findings[0].Text)
	}
	s = usual()
	s.Finished.Width = 36 * in // the tube is 1/8 in longer, and the roller reaches 36 in
	f = one(t, s).Findings[0]
	if want := "use another roller, or make the finished width at most 35-7/8 in"; f.Remedy.String() != want {
		t.Errorf("remedy %q; want %q", f.Remedy, want)
	}
	s.Finished.Width = 35*in + in*7/8
	if k := one(t, s); k.Stopped() {
		t.Errorf("with the width that the stop advised: %s", k.Findings[0].Text)
	}
}

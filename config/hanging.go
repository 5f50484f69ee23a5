package config

import (
	"errors"
	"slices"
	"strings"

	"shadewright/ticket"
	"shadewright/ticket/finding"
	"shadewright/ticket/form"
	"shadewright/ticket/hang"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
)

// Rules returns the shop's rules for openings and for hanging shades, for jobs
// in a unit system. A job without a unit gets the rules for inches.
func (s Settings) Rules(u measure.System) ticket.Rules {
	if u == measure.Millimetres {
		return s.rules[1]
	}
	return s.rules[0]
}

// openingRows are the rules that turn an opening into a finished size, and the
// limits for square panels.
func openingRows() []setting {
	step := form.Length{Least: mm / 10, Most: 50 * mm}
	off := form.Length{Most: 500 * mm}
	size := form.Length{Least: mm, Most: 100 * measure.Metre}
	overlap := func(r *hang.Rules) *hang.Overlap { return &r.Overlap }
	rows := []setting{
		pair("opening.width_step", step, "An opening's width is rounded to this step: down for an inside mount, up for an outside mount.", "1/8 in or 1 mm", func(r *hang.Rules) *measure.Length { return &r.WidthStep }),
		pair("opening.length_step", step, "An opening's height is rounded to this step: down for an inside mount, up for an outside mount.", "1/8 in or 1 mm", func(r *hang.Rules) *measure.Length { return &r.LengthStep }),
		{key("opening.height", policies, "Which measured height of an opening counts.", "longest",
			func(s *Settings) *hang.Policy { return &s.rules[0].Opening.Height }), "longest", reasonOf("height")},
		pair("opening.tip_off", off, "Inside mount: deduction from the opening's width to the roller, tip to tip.", "1/8 in or 4 mm", func(r *hang.Rules) *measure.Length { return &r.TipOff }),
		pair("opening.barrel_off", off, "Inside mount: deduction from the opening's width to the tube.", "5/8 in or 16 mm", func(r *hang.Rules) *measure.Length { return &r.BarrelOff }),
		pair("opening.cloth_off", off, "Inside mount: deduction from the opening's width to the cloth.", "1-1/8 in or 29 mm", func(r *hang.Rules) *measure.Length { return &r.ClothOff }),
		pair("opening.height_off", off, "Inside mount: deduction from the opening's height.", "0 in", func(r *hang.Rules) *measure.Length { return &r.HeightOff }),
		pair("opening.play", form.Length{Most: 50 * mm}, "Outside mount: distance between the brackets beyond the roller's length.", "1/16 in or 1 mm", func(r *hang.Rules) *measure.Length { return &r.Play }),
	}
	for _, k := range jobfile.OverlapKeys() {
		into := k.Into
		rows = append(rows, pair("opening.overlap."+k.Name, k.Kind.(form.Length), k.Doc, "1-1/2 in or 40 mm", func(r *hang.Rules) *measure.Length {
			return into(overlap(r)).(*measure.Length)
		}))
	}
	return append(rows,
		pair("opening.agree", off, "Readings of an opening that differ by more than this get a note.", "1/16 in or 1.5 mm", func(r *hang.Rules) *measure.Length { return &r.Agree }),
		pair("opening.differ", off, "Readings of an opening that differ by more than this get a caution.", "1/8 in or 3 mm", func(r *hang.Rules) *measure.Length { return &r.Differ }),
		pair("opening.slip", off, "A reading this far from two that agree is treated as a mistake.", "1/2 in or 12 mm", func(r *hang.Rules) *measure.Length { return &r.Slip }),
		pair("opening.smallest", size, "An opening smaller than this is treated as a wrong unit.", "6 in or 150 mm", func(r *hang.Rules) *measure.Length { return &r.Smallest }),
		pair("opening.largest", size, "An opening larger than this is treated as a wrong unit.", "20 ft or 6 m", func(r *hang.Rules) *measure.Length { return &r.Largest }),
		pair("square.small", off, "Largest difference between the diagonals of a panel up to square.area.", "1/8 in or 3 mm", func(r *hang.Rules) *measure.Length { return &r.Square.Small }),
		pair("square.large", off, "Largest difference between the diagonals of a panel above square.area.", "1/4 in or 6 mm", func(r *hang.Rules) *measure.Length { return &r.Square.Large }),
		setting{key("square.area", form.Quantity[measure.Area]{
			Parse: measure.ParseArea, Show: func(a measure.Area) string { return form.Decimal(a.SquareMetres()) + " m2" }, Most: 1000 * measure.SquareMetre,
		}, "Area above which square.large applies instead of square.small.", "20 ft2",
			func(s *Settings) *measure.Area { return &s.rules[0].Opening.Square.Area }), "20 ft2", reasonOf("square.area")},
	)
}

// hangRows are the limits for findings about hanging shades.
func hangRows() []setting {
	length := form.Length{Most: 10_000 * mm}
	above0 := form.Length{Least: mm / 10, Most: 1000 * mm}
	return []setting{
		plain("limits.wraps_caution", form.Number{Most: 100 * measure.One}, "Fewer wraps than this on the tube with the shade down are a caution.", "1", func(l *hang.Limits) *float64 { return &l.WrapsCaution }),
		plain("limits.wraps_stop", form.Number{Most: 100 * measure.One}, "Fewer wraps than this on the tube with the shade down are a stop.", "0.5", func(l *hang.Limits) *float64 { return &l.WrapsStop }),
		limit("limits.gap", form.Length{Most: 500 * mm}, "Smallest clearance around the roll.", "1/8 in or 3 mm", func(l *hang.Limits) *measure.Length { return &l.Gap }),
		plain("limits.lift", form.Number{Least: measure.One, Most: 10 * measure.One}, "The spring must give at least this many times the torque needed.", "1.15", func(l *hang.Limits) *float64 { return &l.Lift }),
		plain("limits.fly", form.Number{Least: measure.One, Most: 100 * measure.One}, "The spring must give at most this many times the torque needed.", "2", func(l *hang.Limits) *float64 { return &l.Fly }),
		limit("limits.pull_step", above0, "The pulls that wind a spring are rounded to this step.", "1/2 in or 10 mm", func(l *hang.Limits) *measure.Length { return &l.PullStep }),
		limit("limits.sag", above0, "A tube that sags more than this gets a caution.", "1/8 in or 3 mm", func(l *hang.Limits) *measure.Length { return &l.Sag }),
		limit("limits.wide_shade", length, "A shade wider than this needs a tube thicker than limits.wide_tube.", "48 in or 1200 mm", func(l *hang.Limits) *measure.Length { return &l.WideShade }),
		limit("limits.wide_tube", form.Length{Most: 500 * mm}, "Tube diameter to exceed for a shade wider than limits.wide_shade.", "1-1/8 in or 28 mm", func(l *hang.Limits) *measure.Length { return &l.WideTube }),
		plain("limits.rate_error", form.Number{Most: measure.One}, "A spring rate with a relative error above this gets a caution.", "0.25", func(l *hang.Limits) *float64 { return &l.RateError }),
		{key("limits.scale_step", form.Quantity[measure.Mass]{
			Parse: measure.ParseMass, Show: func(m measure.Mass) string { return form.Decimal(m.Grams()) + " g" }, Most: measure.Kilogram,
		}, "Finest mark of the hanging scale that springs are tested with.", "10 g",
			func(s *Settings) *measure.Mass { return &s.rules[0].Scale }), "10 g", practice},
	}
}

// policies are the words for the height that counts.
var policies = form.Word[hang.Policy]{
	Words: []string{hang.Longest.String(), hang.Shortest.String(), hang.Middle.String()},
	Parse: func(s string) (hang.Policy, bool) { return policyOf(s), true },
}

// pair makes the row of a rule with one value in inches and one in millimetres.
func pair(name string, kind form.Length, doc, builtIn string, pick func(*hang.Rules) *measure.Length) setting {
	return pairOf(name, kind, doc, builtIn, func(r *ticket.Rules) *measure.Length { return pick(&r.Opening) })
}

// limit makes the row of a limit in the same way.
func limit(name string, kind form.Length, doc, builtIn string, pick func(*hang.Limits) *measure.Length) setting {
	return pairOf(name, kind, doc, builtIn, func(r *ticket.Rules) *measure.Length { return pick(&r.Hang) })
}

func pairOf(name string, kind form.Length, doc, builtIn string, pick func(*ticket.Rules) *measure.Length) setting {
	k := form.Key{Name: name, Kind: form.Pair{Length: kind}, Doc: doc, Example: builtIn, Into: func(s any) any {
		r := &s.(*Settings).rules
		return &form.BySystem{Inches: pick(&r[0]), Millimetres: pick(&r[1])}
	}}
	return setting{k, builtIn, reasonOf(name)}
}

// plain makes the row of a limit without a unit.
func plain(name string, kind form.Number, doc, builtIn string, pick func(*hang.Limits) *float64) setting {
	return setting{key(name, kind, doc, builtIn, func(s *Settings) *float64 { return pick(&s.rules[0].Hang) }), builtIn, reasonOf(name)}
}

// reasonOf returns the reason for a rule or limit. If its own name has none,
// the reason for its group holds: all overlaps share one.
func reasonOf(name string) string {
	parts := strings.Split(name, ".")
	for _, part := range slices.Backward(parts) {
		for _, r := range hang.Reasons() {
			if r.Setting == part {
				return r.Why
			}
		}
	}
	return practice
}

// rule copies the values that do not depend on the unit to both unit systems,
// and checks that the rules do not contradict each other.
func (s *Settings) rule() form.Problems {
	var bad form.Problems
	reported := map[string]bool{}
	for i, u := range []measure.System{measure.Inches, measure.Millimetres} {
		r := &s.rules[i]
		alike := s.rules[0] // the rows of settings that are not lengths fill only the first
		r.Scale, r.Opening.Square.Area, r.Opening.Height = alike.Scale, alike.Opening.Square.Area, alike.Opening.Height
		n := alike.Hang
		r.Hang.WrapsCaution, r.Hang.WrapsStop, r.Hang.Lift, r.Hang.Fly, r.Hang.RateError = n.WrapsCaution, n.WrapsStop, n.Lift, n.Fly, n.RateError
		err := errors.Join(r.Opening.Check(s.Style(u)), r.Hang.Check(s.Style(u)))
		for _, e := range finding.InputErrors(err) {
			row := s.rowNamed(e.Field)
			if reported[row.Key] {
				continue
			}
			reported[row.Key] = true
			p := row.problem(form.Fault{Problem: e.Problem, Fix: e.Fix})
			p.Value = row.Value
			bad = append(bad, p)
		}
	}
	return bad
}

// rowNamed returns the row of a rule or limit by its name in package hang.
func (s *Settings) rowNamed(field string) Row {
	for _, group := range []string{"opening.", "limits.", "square."} {
		if r := s.row(group + field); r.Doc != "" {
			return r
		}
	}
	return Row{Key: field, From: BuiltIn}
}

func policyOf(word string) hang.Policy {
	for _, p := range []hang.Policy{hang.Shortest, hang.Middle} {
		if p.String() == word {
			return p
		}
	}
	return hang.Longest
}

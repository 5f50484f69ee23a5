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

// Rules returns the shop's rules for openings and for shades that hang, for jobs
// in a unit system. Until a job has declared one they are those for inches.
func (s Settings) Rules(u measure.System) ticket.Rules {
	if u == measure.Millimetres {
		return s.rules[1]
	}
	return s.rules[0]
}

// openingRows are the rules that turn an opening into a finished size, and what
// counts as square.
func openingRows() []setting {
	step := form.Length{Least: mm / 10, Most: 50 * mm}
	off := form.Length{Most: 500 * mm}
	size := form.Length{Least: mm, Most: 100 * measure.Metre}
	overlap := func(r *hang.Rules) *hang.Overlap { return &r.Overlap }
	rows := []setting{
		pair("opening.width_step", step, "The width of an opening is rounded to this: down inside, up outside.", "1/8 in or 1 mm", func(r *hang.Rules) *measure.Length { return &r.WidthStep }),
		pair("opening.length_step", step, "The height of an opening is rounded to this: down inside, up outside.", "1/8 in or 1 mm", func(r *hang.Rules) *measure.Length { return &r.LengthStep }),
		{key("opening.height", policies, "Which of the heights of an opening is taken.", "longest",
			func(s *Settings) *hang.Policy { return &s.rules[0].Opening.Height }), "longest", reasonOf("height")},
		pair("opening.tip_off", off, "Inside mount: from the width of the opening to the roller, tip to tip.", "1/8 in or 4 mm", func(r *hang.Rules) *measure.Length { return &r.TipOff }),
		pair("opening.barrel_off", off, "Inside mount: from the width of the opening to the roller's barrel.", "5/8 in or 16 mm", func(r *hang.Rules) *measure.Length { return &r.BarrelOff }),
		pair("opening.cloth_off", off, "Inside mount: from the width of the opening to the cloth.", "1-1/8 in or 29 mm", func(r *hang.Rules) *measure.Length { return &r.ClothOff }),
		pair("opening.height_off", off, "Inside mount: taken off the height of the opening.", "0 in", func(r *hang.Rules) *measure.Length { return &r.HeightOff }),
		pair("opening.play", form.Length{Most: 50 * mm}, "Outside mount: the brackets bear so much further apart than the roller is long.", "1/16 in or 1 mm", func(r *hang.Rules) *measure.Length { return &r.Play }),
	}
	for _, k := range jobfile.OverlapKeys() {
		into := k.Into
		rows = append(rows, pair("opening.overlap."+k.Name, k.Kind.(form.Length), k.Doc, "1-1/2 in or 40 mm", func(r *hang.Rules) *measure.Length {
			return into(overlap(r)).(*measure.Length)
		}))
	}
	return append(rows,
		pair("opening.agree", off, "Readings of an opening that differ by more are noted.", "1/16 in or 1.5 mm", func(r *hang.Rules) *measure.Length { return &r.Agree }),
		pair("opening.differ", off, "Readings of an opening that differ by more are a caution.", "1/8 in or 3 mm", func(r *hang.Rules) *measure.Length { return &r.Differ }),
		pair("opening.slip", off, "One reading this far from two that agree is taken for a slip.", "1/2 in or 12 mm", func(r *hang.Rules) *measure.Length { return &r.Slip }),
		pair("opening.smallest", size, "An opening smaller than this is taken for a slip of the unit.", "6 in or 150 mm", func(r *hang.Rules) *measure.Length { return &r.Smallest }),
		pair("opening.largest", size, "An opening larger than this is taken for a slip of the unit.", "20 ft or 6 m", func(r *hang.Rules) *measure.Length { return &r.Largest }),
		pair("square.small", off, "Diagonals may differ by this up to square.area.", "1/8 in or 3 mm", func(r *hang.Rules) *measure.Length { return &r.Square.Small }),
		pair("square.large", off, "Diagonals may differ by this above square.area.", "1/4 in or 6 mm", func(r *hang.Rules) *measure.Length { return &r.Square.Large }),
		setting{key("square.area", form.Quantity[measure.Area]{
			Parse: measure.ParseArea, Show: func(a measure.Area) string { return form.Decimal(a.SquareMetres()) + " m2" }, Most: 1000 * measure.SquareMetre,
		}, "From which size on the larger difference of the diagonals holds.", "20 ft2",
			func(s *Settings) *measure.Area { return &s.rules[0].Opening.Square.Area }), "20 ft2", reasonOf("square.area")},
	)
}

// hangRows are the limits of findings about a shade that hangs.
func hangRows() []setting {
	length := form.Length{Most: 10_000 * mm}
	above0 := form.Length{Least: mm / 10, Most: 1000 * mm}
	return []setting{
		plain("limits.wraps_caution", form.Number{Most: 100 * measure.One}, "Fewer wraps left on the tube with the shade down are a caution.", "1", func(l *hang.Limits) *float64 { return &l.WrapsCaution }),
		plain("limits.wraps_stop", form.Number{Most: 100 * measure.One}, "Fewer wraps left on the tube with the shade down are a stop.", "0.5", func(l *hang.Limits) *float64 { return &l.WrapsStop }),
		limit("limits.gap", form.Length{Most: 500 * mm}, "Least clearance around the roll.", "1/8 in or 3 mm", func(l *hang.Limits) *measure.Length { return &l.Gap }),
		plain("limits.lift", form.Number{Least: measure.One, Most: 10 * measure.One}, "The spring gives at least this many times the torque needed.", "1.15", func(l *hang.Limits) *float64 { return &l.Lift }),
		plain("limits.fly", form.Number{Least: measure.One, Most: 100 * measure.One}, "The spring gives at most this many times the torque needed.", "2", func(l *hang.Limits) *float64 { return &l.Fly }),
		limit("limits.pull_step", above0, "How far a shade is pulled down to wind its spring is rounded to this.", "1/2 in or 10 mm", func(l *hang.Limits) *measure.Length { return &l.PullStep }),
		limit("limits.sag", above0, "A tube that sags more is a caution.", "1/8 in or 3 mm", func(l *hang.Limits) *measure.Length { return &l.Sag }),
		limit("limits.wide_shade", length, "A shade wider than this wants a tube thicker than limits.wide_tube.", "48 in or 1200 mm", func(l *hang.Limits) *measure.Length { return &l.WideShade }),
		limit("limits.wide_tube", form.Length{Most: 500 * mm}, "See limits.wide_shade.", "1-1/8 in or 28 mm", func(l *hang.Limits) *measure.Length { return &l.WideTube }),
		plain("limits.rate_error", form.Number{Most: measure.One}, "A spring's rate less certain than this share of itself is a caution.", "0.25", func(l *hang.Limits) *float64 { return &l.RateError }),
		{key("limits.scale_step", form.Quantity[measure.Mass]{
			Parse: measure.ParseMass, Show: func(m measure.Mass) string { return form.Decimal(m.Grams()) + " g" }, Most: measure.Kilogram,
		}, "The finest mark of the hanging scale that springs are tried with.", "10 g",
			func(s *Settings) *measure.Mass { return &s.rules[0].Scale }), "10 g", practice},
	}
}

// policies are the words for which height is taken.
var policies = form.Word[hang.Policy]{
	Words: []string{hang.Longest.String(), hang.Shortest.String(), hang.Middle.String()},
	Parse: func(s string) (hang.Policy, bool) { return policyOf(s), true },
}

// pair makes the row of a rule that has a value in inches and one in millimetres.
func pair(name string, kind form.Length, doc, builtIn string, pick func(*hang.Rules) *measure.Length) setting {
	return pairOf(name, kind, doc, builtIn, func(r *ticket.Rules) *measure.Length { return pick(&r.Opening) })
}

// limit does the same for a limit.
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

// plain makes the row of a limit that is a plain number.
func plain(name string, kind form.Number, doc, builtIn string, pick func(*hang.Limits) *float64) setting {
	return setting{key(name, kind, doc, builtIn, func(s *Settings) *float64 { return pick(&s.rules[0].Hang) }), builtIn, reasonOf(name)}
}

// reasonOf returns the reason of a rule or limit: that of its own name, else
// that of its group, as all overlaps have one.
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

// rule puts together what is the same in both unit systems, and checks that the
// rules do not contradict each other.
func (s *Settings) rule() form.Problems {
	var bad form.Problems
	told := map[string]bool{}
	for i, u := range []measure.System{measure.Inches, measure.Millimetres} {
		r := &s.rules[i]
		alike := s.rules[0] // where the rows of what is no length have put it
		r.Scale, r.Opening.Square.Area, r.Opening.Height = alike.Scale, alike.Opening.Square.Area, alike.Opening.Height
		n := alike.Hang
		r.Hang.WrapsCaution, r.Hang.WrapsStop, r.Hang.Lift, r.Hang.Fly, r.Hang.RateError = n.WrapsCaution, n.WrapsStop, n.Lift, n.Fly, n.RateError
		err := errors.Join(r.Opening.Check(s.Style(u)), r.Hang.Check(s.Style(u)))
		for _, e := range finding.InputErrors(err) {
			row := s.rowNamed(e.Field)
			if told[row.Key] {
				continue
			}
			told[row.Key] = true
			field := row.Key
			if strings.HasSuffix(row.From, " "+field) || strings.HasSuffix(row.From, " "+envName(field)) {
				field = "" // the flag or the variable has named it
			}
			bad = append(bad, form.Problem{File: row.From, Field: field, Value: row.Value, Fault: form.Fault{Problem: e.Problem, Fix: e.Fix}})
		}
	}
	return bad
}

// rowNamed returns the row of a rule or limit as package hang names it.
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

package jobfile

import (
	"slices"
	"strings"
	"testing"

	"shadewright/ticket"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

// hung is a job without a fault whose shade uses every key about hanging. Each case
// changes it in one place.
const hung = `job: Heron Landing
id: 5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31
units: in
allow: {wrap: 9, hem: 5/8, pocket: 1-3/8}
goods:
  mesh: {kind: coated-mesh, width: 58, thickness: 0.6 mm, mass: 440 g/m2, lay: any}
rollers:
  donor: {tube: 1-1/8, length: 36, material: steel, wall: 0.6 mm, spring: {rate: 6.5 Nmm/turn, most: 30}}
  other: {tube: 1-1/8, length: 36}
slats:
  flat: {width: 1, thickness: 3/32, mass: 1.3 oz/ft}
brackets:
  jamb: {plate: {width: 3/4, height: 1-1/2}, axle: {across: 3/8, up: 3/4}, projection: 1/16,
    holes: [{across: 3/8, up: 1/4, diameter: 5/32}]}
shades:
  - id: left
    goods: mesh
    roller: donor
    slat: flat
    opening:
      mount: inside
      widths: [34-7/16, 34-3/8, 34-1/2]
      heights: [52, 52-1/16, 52]
      diagonals: [62-3/8, 62-5/16]
      depth: 3-1/2
      head: 1-1/4
      axle: 1-3/4
      obstructions: [{name: crank, proud: 1, below: 40}]
    bracket: jamb
    behind: wood
    roll: reverse
`

func TestReadHanging(t *testing.T) {
	f, err := Read("job.yaml", []byte(hung), practiceOf)
	if err != nil {
		t.Fatal(err)
	}
	s := f.Job.Shades[0]
	o := s.Opening
	if o == nil || s.Bracket == nil || s.Behind == nil {
		t.Fatalf("shade %+v lacks its opening, its bracket or what is behind", s)
	}
	crank := o.Obstructions[0]
	switch {
	case s.Finished != measure.Size{}:
		t.Errorf("finished %+v; want none before the opening is worked out", s.Finished)
	case o.Mount != hang.Inside || !slices.Equal(o.Widths, []measure.Length{34*in + 7*in/16, 34*in + 3*in/8, 34*in + in/2}) ||
		!slices.Equal(o.Heights, []measure.Length{52 * in, 52*in + in/16, 52 * in}):
		t.Errorf("opening %+v", o)
	case o.Diagonals != [2]measure.Length{62*in + 3*in/8, 62*in + 5*in/16} || *o.Depth != 3*in+in/2 || *o.Head != in+in/4 || o.Axle != in+3*in/4 || o.Valance != nil:
		t.Errorf("opening %+v", o)
	case crank.Name != "crank" || crank.Proud != in || *crank.Below != 40*in:
		t.Errorf("obstruction %+v", crank)
	case s.Bracket.Name != "jamb" || s.Bracket.Plate != measure.Size{Width: 3 * in / 4, Length: 3 * in / 2} || s.Bracket.Axle != hang.Point{X: 3 * in / 8, Y: 3 * in / 4} ||
		s.Bracket.Projection != in/16 || !slices.Equal(s.Bracket.Holes, []hang.Hole{{At: hang.Point{X: 3 * in / 8, Y: in / 4}, Diameter: 5 * in / 32}}):
		t.Errorf("bracket %+v", s.Bracket)
	case *s.Behind != hang.Wood || s.Roll != ticket.Reverse || s.Trial != nil:
		t.Errorf("shade %+v", s)
	case s.Roller.Material.Name != "steel" || s.Roller.Wall != 600*um || s.Roller.Spring != 6500 || s.Roller.Most != 30:
		t.Errorf("roller %+v", s.Roller)
	case s.Slat.Mass != 120_913_320: // 1.3 × 28.349523125 g / 0.3048 m, by hand
		t.Errorf("slat %+v", s.Slat)
	}
}

// An outside mount starts with the shop's overlaps, and the job replaces those it
// gives.
func TestOverlap(t *testing.T) {
	text := strings.NewReplacer("mount: inside", "mount: outside\n      overlap: {left: 2}", "roll: reverse", "roll: standard").Replace(hung)
	f, err := Read("job.yaml", []byte(text), practiceOf)
	if err != nil {
		t.Fatal(err)
	}
	// 1-1/2 in: two measuring guides, see package hang.
	want := hang.Overlap{Left: 2 * in, Right: 3 * in / 2, Above: 3 * in / 2, Below: 3 * in / 2}
	if got := f.Job.Shades[0].Opening.Overlap; got != want {
		t.Errorf("overlap %+v; want %+v", got, want)
	}
	opt := practiceOf
	opt.Practice.Rules = func(u measure.System) ticket.Rules {
		r := ticket.UsualRules(u)
		r.Opening.Overlap.Below = 0
		return r
	}
	if f, err = Read("job.yaml", []byte(text), opt); err != nil || f.Job.Shades[0].Opening.Overlap.Below != 0 {
		t.Errorf("a shop's own overlap is not taken: %v", err)
	}
}

// trial replaces the spring's known rate with readings.
var trial = strings.NewReplacer(
	"roller: donor", "roller: other",
	"    behind: wood\n", "    behind: wood\n    trial: [{below: 12, scale: 200 g}, {below: 40, scale: 700 g}]\n",
).Replace(hung)

func TestReadTrial(t *testing.T) {
	f, err := Read("job.yaml", []byte(trial), practiceOf)
	if err != nil {
		t.Fatal(err)
	}
	want := [2]hang.Reading{{Below: 12 * in, Scale: 200 * measure.Gram}, {Below: 40 * in, Scale: 700 * measure.Gram}}
	if got := f.Job.Shades[0].Trial; got == nil || *got != want {
		t.Errorf("trial %+v; want %+v", got, want)
	}
}

func TestBadHanging(t *testing.T) {
	for _, tt := range []struct{ old, new, want string }{
		// Readings.
		{"widths: [34-7/16, 34-3/8, 34-1/2]", "widths: []",
			"22: shades.left.opening.widths: has no reading; write for example widths: [34-7/16 in, 34-3/8 in, 34-1/2 in]"},
		{"widths: [34-7/16, 34-3/8, 34-1/2]", "widths: 34-3/8",
			`22: shades.left.opening.widths: "34-3/8" is one value; write for example widths: [34-7/16 in, 34-3/8 in, 34-1/2 in]`},
		{"widths: [34-7/16, 34-3/8, 34-1/2]", "widths: [34-7/16, , 34-1/2]",
			"22: lacks a value between two commas or at an end; write the value, or remove the comma"},
		{"widths: [34-7/16, 34-3/8, 34-1/2]", "widths: [34-7/16, ~, 34-1/2]",
			"22: shades.left.opening.widths[2]: has no value; write for example widths: [34-7/16 in, 34-3/8 in, 34-1/2 in]"},
		{"widths: [34-7/16, 34-3/8, 34-1/2]", "widths: [34-7/16, 0, -34-1/2]",
			"22: shades.left.opening.widths[2]: \"0\" is zero; write a length above zero\n" +
				`22: shades.left.opening.widths[3]: "-34-1/2" is negative; write a length above zero`},
		{"widths: [34-7/16, 34-3/8, 34-1/2]", "widths: [NaN, 34-3/8, 34-1/2]",
			`22: shades.left.opening.widths[1]: "NaN" is missing a number; write for example 31-5/8, 31.625, 31 5/8 in, 2' 7 5/8", 803 mm or 80.3 cm`},
		{"widths: [34-7/16, 34-3/8, 34-1/2]", "widths: [34-7/16, 40 ft, 34-1/2]",
			`22: shades.left.opening.widths[2]: "40 ft" is more than 393-11/16 in; check the number and its unit`},
		{"widths: [34-7/16, 34-3/8, 34-1/2]", "widths: [1, 1, 1]",
			"22: shades.left.opening.widths: \"1 in\" leaves no cloth after the deductions; check the number and its unit"},
		{"      heights: [52, 52-1/16, 52]\n", "",
			"21: shades.left.opening.heights: is missing; write for example heights: [52 in, 52-1/16 in, 52 in]"},
		{"heights: [52, 52-1/16, 52]", "heights: [52, 52, 52, 52, 52, 52, 52, 52, 52, 52]",
			"23: shades.left.opening.heights: has 10 readings; write for example heights: [52 in, 52-1/16 in, 52 in]"},
		{"diagonals: [62-3/8, 62-5/16]", "diagonals: [62-3/8]",
			"24: shades.left.opening.diagonals: has only one reading; write for example diagonals: [62-3/8 in, 62-5/16 in]"},
		{"diagonals: [62-3/8, 62-5/16]", "diagonals: [62-3/8, 90]",
			"24: shades.left.opening.diagonals: \"90 in\" cannot be a diagonal between sides of 34-7/16 in and 52 in; measure it again"},
		{"depth: 3-1/2", "depth: -1",
			`25: shades.left.opening.depth: "-1" is negative; write zero or a length above zero`},
		{"axle: 1-3/4", "axle: 0",
			`27: shades.left.opening.axle: "0" is zero; write a length above zero`},
		{"proud: 1, below", "below",
			"28: shades.left.opening.obstructions.crank.proud: is missing; write for example proud: 1-1/4 in"},
		{"mount: inside", "mount: sideways",
			`21: shades.left.opening.mount: "sideways" is not one of the words allowed here; write inside, outside or ceiling`},
		{"mount: inside", "mount: inside\n      overlap: {left: 1}",
			"22: shades.left.opening.overlap: does not apply to an inside mount; remove the line, or choose an outside mount"},
		// The opening, and its bracket.
		{"opening:", "openning:",
			`20: shades.left: unknown key "openning"; did you mean opening?`},
		{"    bracket: jamb", "    finished: {width: 30, length: 50}\n    bracket: jamb",
			"20: shades.left: has both finished and opening; keep one of them"},
		{"bracket: jamb", "bracket: jam",
			`29: shades.left.bracket: "jam" is not among the brackets; did you mean jamb?`},
		{"behind: wood", "behind: aluminium-skin",
			`30: shades.left.behind: "aluminium-skin" is not one of the words allowed here; did you mean aluminium skin?`},
		{"behind: wood", "allow: {tube_over: 1/4}",
			`30: shades.left.allow.tube_over: "1/4" has no effect with an opening; remove it; the shop's setting opening.barrel_off says how much shorter than the opening the tube is`},
		{"plate: {width: 3/4, height: 1-1/2}", "plate: {width: 0, height: 1-1/2}",
			`13: brackets.jamb.plate.width: "0" is zero; write a length above zero`},
		{"holes: [{across: 3/8, up: 1/4, diameter: 5/32}]", "holes: []",
			"14: brackets.jamb.holes: is empty; write for example holes: [{across: 3/8 in, up: 1/4 in, diameter: 5/32 in}]"},
		{"holes: [{across: 3/8, up: 1/4, diameter: 5/32}]", "holes: [{across: 1, up: 1/4, diameter: 5/32}]",
			"14: brackets.jamb.holes: \"1 in, 1/4 in\" lies outside the plate; measure from the plate's lower left corner to the middle of the hole"},
		{"projection: 1/16", "projektion: 1/16",
			`13: brackets.jamb: unknown key "projektion"; did you mean projection?`},
		// The roller.
		{"wall: 0.6 mm", "wall: 0",
			`8: rollers.donor.wall: "0" is zero; write a length above zero`},
		{"wall: 0.6 mm", "wall: 1",
			"8: rollers.donor.wall: \"1 in\" is more than half the tube's diameter, 1-1/8 in; measure the wall again; for a solid pole, give half its diameter"},
		{"material: steel", "material: tin",
			`8: rollers.donor.material: "tin" is not one of the words allowed here; write steel, aluminium, wood, pvc or fibreglass`},
		{"rate: 6.5 Nmm/turn", "rate: 0 Nmm/turn",
			`8: rollers.donor.spring.rate: "0 Nmm/turn" is less than 0.01 Nmm/turn; measure it with a hanging scale: see shadewright spring`},
		{"rate: 6.5 Nmm/turn", "rate: 6.5",
			`8: rollers.donor.spring.rate: "6.5" has no unit; write for example 6.5 Nmm/turn or 0.06 in-lb/turn`},
		{"rate: 6.5 Nmm/turn", "rate: -6.5 Nmm/turn",
			`8: rollers.donor.spring.rate: "-6.5 Nmm/turn" is not a number with a unit; write for example 6.5 Nmm/turn or 0.06 in-lb/turn`},
		{"most: 30", "most: 0.5",
			`8: rollers.donor.spring.most: "0.5" is less than 1; turns of the tube, counted from slack`},
		{"most: 30", "most: many",
			`8: rollers.donor.spring.most: "many" is not a plain number; write for example 1.0031`},
		{"tube: 1-1/8, length: 36, material", "tube: 5 mm, length: 36, material", ""},
		{"thickness: 0.6 mm, mass", "thickness: 10 mm, mass", ""},
		// The slat.
		{"mass: 1.3 oz/ft", "mass: 1.3 oz",
			`11: slats.flat.mass: "1.3 oz" does not say per what length; write for example 120 g/m or 1.3 oz/ft`},
		{"mass: 1.3 oz/ft", "mass: 0 g/m",
			`11: slats.flat.mass: "0 g/m" is less than 1 g/m; check the number and its unit`},
		// The trial.
		{"    behind: wood\n", "    behind: wood\n    trial: [{below: 12, scale: 200 g}, {below: 40, scale: 700 g}]\n",
			"31: shades.left.trial: is given for a roller whose spring has a known rate; keep either the trial or the rate"},
	} {
		edit(t, hung, tt.old, tt.new, tt.want)
	}
	for _, tt := range []struct{ old, new, want string }{
		{"    trial:", "    quantity: 2\n    trial:",
			"32: shades.left.trial: is given for 2 shades, but no two springs are alike; list each shade separately, with its own readings"},
		{"{below: 12, scale: 200 g}, ", "",
			"31: shades.left.trial: has 1 items; write 2, as in [{below: 10 in, scale: 350 g}, {below: 30 in, scale: 900 g}]"},
		{"scale: 200 g", "scale: 200",
			`31: shades.left.trial[1].scale: "200" has no unit; write for example 350 g, 1.2 kg, 12 oz, 2.5 lb or 1 lb 9 oz`},
		{"below: 12", "below: 38",
			"31: shades.left.trial: \"2 in\" is too short a distance between the two heights; read the scale at heights at least 5-3/16 in apart"},
		{"{below: 40", "{below: 60",
			"31: shades.left.trial: \"60 in\" is more cloth than the shade has; give the cloth off the tube"},
		// By hand: radii 21.020 and 17.493 mm with 12 and 40 in down, 51.33 and 11.75 N,
		// 5.878 turns between: (205.607 − 1078.960) / 5.878 ≈ −148.58.
		{"scale: 200 g", "scale: 5 kg",
			"31: shades.left.trial: \"-148.578 N·mm per turn\" cannot be the rate of a spring; with more cloth down, scale and cloth together must pull harder: check that the readings are not swapped, and that the spring is wound and not broken"},
	} {
		edit(t, trial, tt.old, tt.new, tt.want)
	}
}

// edit checks the message about a job changed in one place; an empty want means
// that the job is accepted.
func edit(t *testing.T, text, before, after, want string) {
	t.Helper()
	if !strings.Contains(text, before) {
		t.Fatalf("the job has no %q to change", before)
	}
	text = strings.Replace(text, before, after, 1)
	if want != "" {
		refuses(t, text, after, want)
	} else if _, err := Read("job.yaml", []byte(text), practiceOf); err != nil {
		t.Errorf("%q is read as %v", after, err)
	}
}

// Two shades share a roller with a fault: it is reported once.
func TestOncePerPart(t *testing.T) {
	second := strings.Replace(hung[strings.Index(hung, "  - id: left"):], "id: left", "id: right", 1)
	text := strings.Replace(hung, "wall: 0.6 mm", "wall: 2", 1) + second
	refuses(t, text, "wall: 2", "8: rollers.donor.wall: \"2 in\" is more than half the tube's diameter, 1-1/8 in; measure the wall again; for a solid pole, give half its diameter")
}

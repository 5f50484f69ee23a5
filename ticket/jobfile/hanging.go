package jobfile

import (
	"shadewright/ticket"
	"shadewright/ticket/form"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

// The most items of each kind: common practice, no source.
const (
	mostReadings     = 9
	mostHoles        = 12
	mostObstructions = 9
)

// materialWord is the kind of the material of a tube or slat.
func materialWord() form.Word[hang.Material] {
	var words []string
	for _, m := range hang.Materials() {
		words = append(words, m.Name)
	}
	return form.Word[hang.Material]{Words: words, Parse: hang.MaterialNamed}
}

// springKeys describes the spring of a roller. Each Into returns a pointer into a
// *[rollerDraft].
func springKeys() []form.Key {
	const measured = "measure it with a hanging scale: see shadewright spring"
	return []form.Key{
		{Name: "rate", Kind: form.Quantity[measure.SpringRate]{
			Parse: measure.ParseSpringRate, Show: showRate, Least: measure.NewtonMillimetre / 100, Most: 10_000 * measure.NewtonMillimetre, Fix: measured,
		}, Doc: "Torque that the spring gains per turn of the tube, in Nmm or in-lb.", Example: "6.5 Nmm/turn", Default: "unknown, so a trial finds it",
			Into: form.At(func(r *rollerDraft) *measure.SpringRate { return &r.Spring })},
		{Name: "most", Kind: form.Number{Least: measure.One, Most: 200 * measure.One, Fix: "turns of the tube, counted from slack"}, Doc: "Turns that the spring takes before it binds.", Example: "24", Default: "unknown",
			Into: form.At(func(r *rollerDraft) *float64 { return &r.Most })},
	}
}

// pinKeys describes the end pins of a roller. Each Into returns a pointer into a
// *[hang.Pins].
func pinKeys() []form.Key {
	into := form.At[hang.Pins, measure.Length]
	out := form.Length{Least: above0, Most: 100 * mm}
	return []form.Key{
		{Name: "flat", Kind: out, Required: true, Doc: "How far the flat pin, on the spring, sticks out of the tube.", Example: "5/16 in", Into: into(func(p *hang.Pins) *measure.Length { return &p.Flat })},
		{Name: "round", Kind: out, Required: true, Doc: "How far the round pin sticks out of the tube.", Example: "1/4 in", Into: into(func(p *hang.Pins) *measure.Length { return &p.Round })},
	}
}

func showRate(r measure.SpringRate) string { return form.Decimal(r.NewtonMillimetres()) + " Nmm/turn" }

// bracketKeys describes a bracket. Each Into returns a pointer into a
// *[bracketDraft].
func bracketKeys() []form.Key {
	point := form.Length{Most: 500 * mm}
	size := form.At[measure.Size, measure.Length]
	side := form.Length{Least: above0, Most: 500 * mm}
	return []form.Key{
		{Name: "plate", Kind: form.Group{Keys: []form.Key{
			{Name: "width", Kind: side, Required: true, Doc: "Width of the plate.", Example: "3/4 in", Into: size(func(s *measure.Size) *measure.Length { return &s.Width })},
			{Name: "height", Kind: side, Required: true, Doc: "Height of the plate.", Example: "1-1/2 in", Into: size(func(s *measure.Size) *measure.Length { return &s.Length })},
		}}, Required: true, Doc: "The plate of the left bracket, as you see it when you face the surface it is screwed to.", Example: "{width: 3/4 in, height: 1-1/2 in}",
			Into: form.At(func(b *bracketDraft) *measure.Size { return &b.Plate })},
		{Name: "holes", Kind: form.ListOf[hang.Hole]{Least: 1, Most: mostHoles, New: func() hang.Hole { return hang.Hole{} }, Group: form.Group{
			Keys: append(pointKeys(point, func(h *hang.Hole) *hang.Point { return &h.At }), form.Key{
				Name: "diameter", Kind: form.Length{Least: above0, Most: 30 * mm}, Required: true, Doc: "Diameter of the hole.", Example: "5/32 in",
				Into: form.At(func(h *hang.Hole) *measure.Length { return &h.Diameter })}),
		}}, Required: true, Doc: "The screw holes, each measured from the lower left corner of the plate.", Example: "[{across: 3/8 in, up: 1/4 in, diameter: 5/32 in}]",
			Into: form.At(func(b *bracketDraft) *[]hang.Hole { return &b.Holes })},
		{Name: "axle", Kind: form.Group{Keys: pointKeys(form.Length{Most: 500 * mm}, func(p *hang.Point) *hang.Point { return p })}, Required: true,
			Doc: "Where the roller's tip bears on the plate, from the lower left corner.", Example: "{across: 3/8 in, up: 3/4 in}",
			Into: form.At(func(b *bracketDraft) *hang.Point { return &b.Axle })},
		{Name: "projection", Kind: form.Length{Most: 500 * mm}, Required: true,
			Doc: "Distance from the surface that the bracket is screwed to, out to the middle of the roller's pin; for an inside mount, out to where the tip bears.", Example: "1-1/4 in",
			Into: form.At(func(b *bracketDraft) *measure.Length { return &b.Projection })},
	}
}

func pointKeys[T any](kind form.Length, pick func(*T) *hang.Point) []form.Key {
	return []form.Key{
		{Name: "across", Kind: kind, Required: true, Doc: "Distance to the right.", Example: "3/8 in", Into: form.At(func(v *T) *measure.Length { return &pick(v).X })},
		{Name: "up", Kind: kind, Required: true, Doc: "Distance up.", Example: "1/4 in", Into: form.At(func(v *T) *measure.Length { return &pick(v).Y })},
	}
}

// OverlapKeys describes how far an outside mount covers the wall, for a shade or a
// shop. Each Into returns a pointer into a *[hang.Overlap].
func OverlapKeys() []form.Key {
	into := form.At[hang.Overlap, measure.Length]
	over := form.Length{Most: 1000 * mm}
	return []form.Key{
		{Name: "left", Kind: over, Doc: "Overlap on the left of the opening.", Example: "1-1/2 in", Into: into(func(o *hang.Overlap) *measure.Length { return &o.Left })},
		{Name: "right", Kind: over, Doc: "Overlap on the right of the opening.", Example: "1-1/2 in", Into: into(func(o *hang.Overlap) *measure.Length { return &o.Right })},
		{Name: "above", Kind: over, Doc: "Overlap above the opening.", Example: "2 in", Into: into(func(o *hang.Overlap) *measure.Length { return &o.Above })},
		{Name: "below", Kind: over, Doc: "Overlap below the opening.", Example: "1-1/2 in", Into: into(func(o *hang.Overlap) *measure.Length { return &o.Below })},
	}
}

// openingKeys describes an opening. Each Into returns a pointer into an
// *[openingDraft].
func openingKeys() []form.Key {
	reading := form.Length{Least: above0, Most: longest}
	list := form.At[openingDraft, []measure.Length]
	out := form.Length{Most: 2000 * mm}
	return []form.Key{
		{Name: "mount", Kind: wordOf(hang.Inside, hang.Outside, hang.Ceiling), Required: true, Doc: "What the brackets are fixed to: the jambs (inside), the wall around the opening (outside), or the ceiling in front of it (ceiling).", Example: "inside",
			Into: form.At(func(o *openingDraft) *hang.Mount { return &o.Mount })},
		{Name: "widths", Kind: form.Lengths{Each: reading, Least: 1, Most: mostReadings}, Required: true, Doc: "Width of the opening at the top, in the middle and at the bottom.", Example: "[34-7/16 in, 34-3/8 in, 34-1/2 in]",
			Into: list(func(o *openingDraft) *[]measure.Length { return &o.Widths })},
		{Name: "heights", Kind: form.Lengths{Each: reading, Least: 1, Most: mostReadings}, Required: true, Doc: "Height of the opening at the left, in the middle and at the right.", Example: "[52 in, 52-1/16 in, 52 in]",
			Into: list(func(o *openingDraft) *[]measure.Length { return &o.Heights })},
		{Name: "diagonals", Kind: form.Lengths{Each: reading, Least: 2, Most: 2}, Doc: "Diagonals of the opening, first from top left to bottom right, then from top right to bottom left.", Example: "[62-3/8 in, 62-5/16 in]", Default: "unknown, so squareness is not checked",
			Into: list(func(o *openingDraft) *[]measure.Length { return &o.diagonals })},
		{Name: "depth", Kind: out, Doc: "Depth of the recess, from its front edge to the glass, or to anything in front of the glass.", Example: "3-1/2 in", Default: "unknown",
			Into: form.At(func(o *openingDraft) *measure.Length { return &o.depth })},
		{Name: "overlap", Kind: form.Group{Keys: OverlapKeys()}, Doc: "How far the cloth covers the wall around the opening; not for an inside mount.", Example: "{left: 1-1/2 in, right: 1-1/2 in}", Default: "the shop's overlaps",
			Into: form.At(func(o *openingDraft) *hang.Overlap { return &o.Overlap })},
		{Name: "axle", Kind: form.Length{Least: above0, Most: 2000 * mm}, Doc: "Distance from the glass or the wall to the middle of the roller's pin.", Example: "2-1/2 in", Default: "the bracket's projection; for an inside mount, as far back as the roll clears the glass",
			Into: form.At(func(o *openingDraft) *measure.Length { return &o.Axle })},
		{Name: "head", Kind: out, Doc: "Distance from the middle of the roller's pin up to the head of the opening or the ceiling.", Example: "1-1/2 in", Default: "for an inside mount, as high as the roll clears the head",
			Into: form.At(func(o *openingDraft) *measure.Length { return &o.head })},
		{Name: "valance", Kind: out, Doc: "Distance from the glass or the wall to the back of a valance.", Example: "4 in", Default: "no valance",
			Into: form.At(func(o *openingDraft) *measure.Length { return &o.valance })},
		{Name: "obstructions", Kind: form.ListOf[obstructionDraft]{
			Label: "name", Least: 1, Most: mostObstructions, None: "none", New: func() obstructionDraft { return obstructionDraft{} },
			Group: form.Group{Keys: obstructionKeys()}, Each: checkObstruction,
		}, Doc: "Anything that stands out from the glass or the wall: a frame, a handle, a crank; none, if you looked and nothing does.", Example: "[{name: crank, proud: 1-1/4 in, below: 30 in}]", Default: "unknown, so nobody checked what the roll must clear",
			Into: form.At(func(o *openingDraft) *[]obstructionDraft { return &o.obstructions })},
	}
}

func obstructionKeys() []form.Key {
	return []form.Key{
		{Name: "name", Kind: form.Text{Most: 60}, Required: true, Doc: "What stands out.", Example: "crank",
			Into: form.At(func(o *obstructionDraft) *string { return &o.Name })},
		{Name: "proud", Kind: form.Length{Least: above0, Most: 1000 * mm}, Required: true, Doc: "How far it stands out.", Example: "1-1/4 in",
			Into: form.At(func(o *obstructionDraft) *measure.Length { return &o.Proud })},
		{Name: "below", Kind: form.Length{Most: longest}, Doc: "How far below the roller's pin it lies.", Example: "30 in", Default: "unknown, so it counts as behind the roll",
			Into: form.At(func(o *obstructionDraft) *measure.Length { return &o.below })},
	}
}

// readingKeys describes a reading of a hanging scale. Each Into returns a pointer
// into a *[hang.Reading].
func readingKeys() []form.Key {
	return []form.Key{
		{Name: "below", Kind: form.Length{Most: longest}, Required: true, Doc: "Length of cloth off the tube.", Example: "10 in",
			Into: form.At(func(r *hang.Reading) *measure.Length { return &r.Below })},
		{Name: "scale", Kind: form.Quantity[measure.Mass]{Parse: measure.ParseMass, Show: showMass, Most: 100 * measure.Kilogram}, Required: true, Doc: "What the hanging scale shows.", Example: "350 g",
			Into: form.At(func(r *hang.Reading) *measure.Mass { return &r.Scale })},
	}
}

// hangingKeys describes where and how a shade hangs. Each Into returns a pointer
// into a *[shadeDraft].
func hangingKeys() []form.Key {
	return []form.Key{
		{Name: "opening", Kind: form.Group{Keys: openingKeys(), Each: checkOpening}, Or: "finished", Doc: "Measurements of the opening, from which Shadewright works out the finished size.",
			Example: "{mount: inside, widths: [34-7/16 in, 34-3/8 in, 34-1/2 in], heights: [52 in, 52-1/16 in, 52 in]}",
			Into:    form.At(func(s *shadeDraft) *openingDraft { return &s.opening })},
		{Name: "bracket", Kind: partName, Doc: "The brackets, by their name under brackets; only for a shade with an opening.", Example: "jamb", Default: "unknown, so no holes are worked out",
			Into: form.At(func(s *shadeDraft) *string { return &s.bracket })},
		{Name: "behind", Kind: wordOf(hang.Wood, hang.Drywall, hang.AluminiumSkin, hang.SteelSkin), Doc: "What the brackets are screwed into.", Example: "wood", Default: "unknown, and no advice on screws is printed",
			Into: form.At(func(s *shadeDraft) *hang.Behind { return &s.behind })},
		{Name: "trial", Kind: form.ListOf[hang.Reading]{Least: 2, Most: 2, New: func() hang.Reading { return hang.Reading{} }, Group: form.Group{Keys: readingKeys()}},
			Doc: "Two readings of a hanging scale hooked to the slat, which give the rate of the spring; only for a single shade, with its new cloth.", Example: "[{below: 10 in, scale: 350 g}, {below: 30 in, scale: 900 g}]", Default: "the roller's spring, if its rate is known",
			Into: form.At(func(s *shadeDraft) *[]hang.Reading { return &s.trial })},
	}
}

// rulesOf returns the shop's rules for the units of a file.
func rulesOf(opt Options, units measure.System) ticket.Rules {
	if units == measure.Undeclared {
		units = measure.Inches // any will do, because the job is refused anyway
	}
	return opt.Practice.RulesFor(units)
}

package jobfile

import (
	"shadewright/ticket"
	"shadewright/ticket/form"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

// How many of a thing there may be: common practice, no source.
const (
	mostReadings     = 9
	mostHoles        = 12
	mostObstructions = 9
)

// materialWord is what a tube or a slat is made of.
func materialWord() form.Word[hang.Material] {
	var words []string
	for _, m := range hang.Materials() {
		words = append(words, m.Name)
	}
	return form.Word[hang.Material]{Words: words, Parse: hang.MaterialNamed}
}

// springKeys points into a *[rollerDraft].
func springKeys() []form.Key {
	const measured = "measure it with a hanging scale: see shadewright spring"
	return []form.Key{
		{Name: "rate", Kind: form.Quantity[measure.SpringRate]{
			Parse: measure.ParseSpringRate, Show: showRate, Least: measure.NewtonMillimetre / 100, Most: 10_000 * measure.NewtonMillimetre, Fix: measured,
		}, Doc: "Torque that the spring gains with each turn of the tube, in Nmm or in-lb.", Example: "6.5 Nmm/turn", Default: "it is found by a trial",
			Into: form.At(func(r *rollerDraft) *measure.SpringRate { return &r.Spring })},
		{Name: "most", Kind: form.Number{Least: measure.One, Most: 200 * measure.One, Fix: "turns of the tube, counted from slack"}, Doc: "Turns that the spring takes before it binds.", Example: "24", Default: "not known",
			Into: form.At(func(r *rollerDraft) *float64 { return &r.Most })},
	}
}

func showRate(r measure.SpringRate) string { return form.Decimal(r.NewtonMillimetres()) + " Nmm/turn" }

// bracketKeys points into a *[bracketDraft].
func bracketKeys() []form.Key {
	point := form.Length{Most: 500 * mm}
	size := form.At[measure.Size, measure.Length]
	side := form.Length{Least: above0, Most: 500 * mm}
	return []form.Key{
		{Name: "plate", Kind: form.Group{Keys: []form.Key{
			{Name: "width", Kind: side, Required: true, Doc: "Across.", Example: "3/4 in", Into: size(func(s *measure.Size) *measure.Length { return &s.Width })},
			{Name: "height", Kind: side, Required: true, Doc: "Up.", Example: "1-1/2 in", Into: size(func(s *measure.Size) *measure.Length { return &s.Length })},
		}}, Required: true, Doc: "The plate of the left bracket, seen straight at what it is screwed to.", Example: "{width: 3/4 in, height: 1-1/2 in}",
			Into: form.At(func(b *bracketDraft) *measure.Size { return &b.Plate })},
		{Name: "holes", Kind: form.ListOf[hang.Hole]{Least: 1, Most: mostHoles, New: func() hang.Hole { return hang.Hole{} }, Group: form.Group{
			Keys: append(pointKeys(point, func(h *hang.Hole) *hang.Point { return &h.At }), form.Key{
				Name: "diameter", Kind: form.Length{Least: above0, Most: 30 * mm}, Required: true, Doc: "Diameter of the hole.", Example: "5/32 in",
				Into: form.At(func(h *hang.Hole) *measure.Length { return &h.Diameter })}),
		}}, Required: true, Doc: "Its screw holes, each from the lower left corner of the plate.", Example: "[{across: 3/8 in, up: 1/4 in, diameter: 5/32 in}]",
			Into: form.At(func(b *bracketDraft) *[]hang.Hole { return &b.Holes })},
		{Name: "axle", Kind: form.Group{Keys: pointKeys(form.Length{Most: 500 * mm}, func(p *hang.Point) *hang.Point { return p })}, Required: true,
			Doc: "Where on the plate the roller's tip bears, from the lower left corner.", Example: "{across: 3/8 in, up: 3/4 in}",
			Into: form.At(func(b *bracketDraft) *hang.Point { return &b.Axle })},
		{Name: "projection", Kind: form.Length{Most: 500 * mm}, Required: true,
			Doc: "How far the bracket stands out from what it is screwed to, to the middle of the roller's pin; inside mount: to where its tip bears.", Example: "1-1/4 in",
			Into: form.At(func(b *bracketDraft) *measure.Length { return &b.Projection })},
	}
}

func pointKeys[T any](kind form.Length, pick func(*T) *hang.Point) []form.Key {
	return []form.Key{
		{Name: "across", Kind: kind, Required: true, Doc: "To the right.", Example: "3/8 in", Into: form.At(func(v *T) *measure.Length { return &pick(v).X })},
		{Name: "up", Kind: kind, Required: true, Doc: "Upward.", Example: "1/4 in", Into: form.At(func(v *T) *measure.Length { return &pick(v).Y })},
	}
}

// OverlapKeys describes how far an outside mount covers the wall, of a shade and
// of a shop. Each Into points into a *[hang.Overlap].
func OverlapKeys() []form.Key {
	into := form.At[hang.Overlap, measure.Length]
	over := form.Length{Most: 1000 * mm}
	return []form.Key{
		{Name: "left", Kind: over, Doc: "Beside the opening, on the left.", Example: "1-1/2 in", Into: into(func(o *hang.Overlap) *measure.Length { return &o.Left })},
		{Name: "right", Kind: over, Doc: "Beside the opening, on the right.", Example: "1-1/2 in", Into: into(func(o *hang.Overlap) *measure.Length { return &o.Right })},
		{Name: "above", Kind: over, Doc: "Above the opening.", Example: "2 in", Into: into(func(o *hang.Overlap) *measure.Length { return &o.Above })},
		{Name: "below", Kind: over, Doc: "Below the opening.", Example: "1-1/2 in", Into: into(func(o *hang.Overlap) *measure.Length { return &o.Below })},
	}
}

// openingKeys points into an *[openingDraft].
func openingKeys() []form.Key {
	reading := form.Length{Least: above0, Most: longest}
	list := form.At[openingDraft, []measure.Length]
	out := form.Length{Most: 2000 * mm}
	return []form.Key{
		{Name: "mount", Kind: wordOf(hang.Inside, hang.Outside, hang.Ceiling), Required: true, Doc: "What the brackets are fixed to: the jambs, the wall around the opening, or the ceiling before it.", Example: "inside",
			Into: form.At(func(o *openingDraft) *hang.Mount { return &o.Mount })},
		{Name: "widths", Kind: form.Lengths{Each: reading, Least: 1, Most: mostReadings}, Required: true, Doc: "Width of the opening at the top, in the middle and at the bottom.", Example: "[34-7/16 in, 34-3/8 in, 34-1/2 in]",
			Into: list(func(o *openingDraft) *[]measure.Length { return &o.Widths })},
		{Name: "heights", Kind: form.Lengths{Each: reading, Least: 1, Most: mostReadings}, Required: true, Doc: "Height of the opening at the left, in the middle and at the right.", Example: "[52 in, 52-1/16 in, 52 in]",
			Into: list(func(o *openingDraft) *[]measure.Length { return &o.Heights })},
		{Name: "diagonals", Kind: form.Lengths{Each: reading, Least: 2, Most: 2}, Doc: "From top left to bottom right, and from top right to bottom left.", Example: "[62-3/8 in, 62-5/16 in]", Default: "nothing says whether it is square",
			Into: list(func(o *openingDraft) *[]measure.Length { return &o.diagonals })},
		{Name: "depth", Kind: out, Doc: "Depth of the recess, from its front edge to the glass or to what stands before it.", Example: "3-1/2 in", Default: "not known",
			Into: form.At(func(o *openingDraft) *measure.Length { return &o.depth })},
		{Name: "overlap", Kind: form.Group{Keys: OverlapKeys()}, Doc: "How far the cloth covers the wall around the opening; not for an inside mount.", Example: "{left: 1-1/2 in, right: 1-1/2 in}", Default: "the shop's overlaps",
			Into: form.At(func(o *openingDraft) *hang.Overlap { return &o.Overlap })},
		{Name: "axle", Kind: form.Length{Least: above0, Most: 2000 * mm}, Doc: "From the glass or the wall to the middle of the roller's pin.", Example: "2-1/2 in", Default: "outside the bracket's projection, inside as far back as the roll clears the glass",
			Into: form.At(func(o *openingDraft) *measure.Length { return &o.Axle })},
		{Name: "head", Kind: out, Doc: "From the middle of the roller's pin up to the head or the ceiling.", Example: "1-1/2 in", Default: "inside as high as the roll clears it",
			Into: form.At(func(o *openingDraft) *measure.Length { return &o.head })},
		{Name: "valance", Kind: out, Doc: "From the glass or the wall to the back of a valance.", Example: "4 in", Default: "there is none",
			Into: form.At(func(o *openingDraft) *measure.Length { return &o.valance })},
		{Name: "obstructions", Kind: form.ListOf[obstructionDraft]{
			Label: "name", Least: 1, Most: mostObstructions, New: func() obstructionDraft { return obstructionDraft{} },
			Group: form.Group{Keys: obstructionKeys()}, Each: checkObstruction,
		}, Doc: "What stands out from the glass or the wall: a frame, a handle, a crank.", Example: "[{name: crank, proud: 1-1/4 in, below: 30 in}]", Default: "there is none",
			Into: form.At(func(o *openingDraft) *[]obstructionDraft { return &o.obstructions })},
	}
}

func obstructionKeys() []form.Key {
	return []form.Key{
		{Name: "name", Kind: form.Text{Most: 60}, Required: true, Doc: "What it is.", Example: "crank",
			Into: form.At(func(o *obstructionDraft) *string { return &o.Name })},
		{Name: "proud", Kind: form.Length{Least: above0, Most: 1000 * mm}, Required: true, Doc: "How far it stands out.", Example: "1-1/4 in",
			Into: form.At(func(o *obstructionDraft) *measure.Length { return &o.Proud })},
		{Name: "below", Kind: form.Length{Most: longest}, Doc: "How far it lies below the roller's pin.", Example: "30 in", Default: "not known, so it is taken to lie behind the roll",
			Into: form.At(func(o *obstructionDraft) *measure.Length { return &o.below })},
	}
}

// readingKeys points into a *[hang.Reading].
func readingKeys() []form.Key {
	return []form.Key{
		{Name: "below", Kind: form.Length{Most: longest}, Required: true, Doc: "Cloth off the tube.", Example: "10 in",
			Into: form.At(func(r *hang.Reading) *measure.Length { return &r.Below })},
		{Name: "scale", Kind: form.Quantity[measure.Mass]{Parse: measure.ParseMass, Show: showMass, Most: 100 * measure.Kilogram}, Required: true, Doc: "What the hanging scale shows.", Example: "350 g",
			Into: form.At(func(r *hang.Reading) *measure.Mass { return &r.Scale })},
	}
}

// hangingKeys are the keys of a shade that say where it hangs. Each Into points
// into a *[shadeDraft].
func hangingKeys() []form.Key {
	return []form.Key{
		{Name: "opening", Kind: form.Group{Keys: openingKeys(), Each: checkOpening}, Or: "finished", Doc: "What was measured at the window; the finished size is worked out.",
			Example: "{mount: inside, widths: [34-7/16 in, 34-3/8 in, 34-1/2 in], heights: [52 in, 52-1/16 in, 52 in]}",
			Into:    form.At(func(s *shadeDraft) *openingDraft { return &s.opening })},
		{Name: "bracket", Kind: partName, Doc: "Its brackets, by the name under brackets; for a shade with an opening.", Example: "jamb", Default: "nothing says where to drill",
			Into: form.At(func(s *shadeDraft) *string { return &s.bracket })},
		{Name: "behind", Kind: wordOf(hang.Wood, hang.Drywall, hang.AluminiumSkin, hang.SteelSkin), Doc: "What the brackets are screwed into.", Example: "wood", Default: "no advice on screws is printed",
			Into: form.At(func(s *shadeDraft) *hang.Behind { return &s.behind })},
		{Name: "trial", Kind: form.ListOf[hang.Reading]{Least: 2, Most: 2, New: func() hang.Reading { return hang.Reading{} }, Group: form.Group{Keys: readingKeys()}},
			Doc: "Two readings of a hanging scale hooked to the slat, to find the rate of the spring; for one shade, with its new cloth.", Example: "[{below: 10 in, scale: 350 g}, {below: 30 in, scale: 900 g}]", Default: "the roller's spring, if its rate is known",
			Into: form.At(func(s *shadeDraft) *[]hang.Reading { return &s.trial })},
	}
}

// rulesOf returns the rules of the shop for a unit system that a file may not
// have declared.
func rulesOf(opt Options, units measure.System) ticket.Rules {
	if units == measure.Undeclared {
		units = measure.Inches // any will do: the job is refused
	}
	return opt.Practice.RulesFor(units)
}

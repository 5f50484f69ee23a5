package jobfile

import (
	"fmt"
	"slices"
	"time"

	"github.com/google/uuid"

	"shadewright/ticket"
	"shadewright/ticket/form"
	"shadewright/ticket/goods"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

// Ranges in the tables are common practice, no source: wide enough for any roller
// shade, narrow enough to catch a wrong unit.
const (
	mm = measure.Millimetre

	above0 = measure.Nanometre // the least length above zero

	narrowest = 100 * mm    // finished width or length
	longest   = 10_000 * mm // of anything that is bought

	mostPerShade = 10_000
	mostUnits    = 100_000 // of a whole job
)

// keys describes the job file. Each Into returns a pointer into a *draft. A reader
// reads a key after all keys above it, so a shade starts with the values of its
// job.
func keys(d *draft, opt Options) []form.Key {
	id := "5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31"
	if opt.NewID != nil {
		id = opt.NewID().String()
	}
	return []form.Key{
		{
			Name: "job", Kind: form.Text{Most: 200}, Required: true,
			Doc: "The name of the job, on paper and on the board.", Example: "Heron Landing bunkhouse",
			Into: form.At(func(d *draft) *string { return &d.job.Name }),
		}, {
			Name: "id", Kind: form.UUID{Fresh: id}, Required: true,
			Doc: "A UUID that only this job has; every ticket's identity derives from it.", Example: id,
			Into: form.At(func(d *draft) *uuid.UUID { return &d.job.ID }),
		}, {
			Name: "client", Kind: form.Text{Most: 200},
			Doc: "Who the shades are for.", Example: "the boathouse", Default: "none",
			Into: form.At(func(d *draft) *string { return &d.job.Client }),
		}, {
			Name: "due", Kind: form.Date{},
			Doc: "The day by which the job must be done.", Example: "2027-03-01", Default: "none",
			Into: form.At(func(d *draft) *time.Time { return &d.job.Due }),
		}, {
			Name: "units", Kind: Units(), Required: true,
			Doc: "The unit of a number without a unit, and the unit printed first.", Example: "in",
			Into: form.At(func(d *draft) *measure.System { return &d.units }),
		}, {
			Name: "paper", Kind: paperKind(opt.Papers),
			Doc: "The paper in the printer: a name, or a width and height.", Example: "letter", Default: "the shop's paper",
			Into: form.At(func(d *draft) *Paper { return &d.paper }),
		}, {
			Name: "template_paper", Kind: form.Paper{Names: opt.Papers, Rolls: true},
			Doc: "Paper for full-scale sheets, if different: a name, width x height, or, for the template only, a copy shop's roll paper by its width.", Example: "roll-36in", Default: "the shop's template paper, else the job's paper",
			Into: form.At(func(d *draft) *Paper { return &d.template }),
		}, {
			Name: "allow", Kind: form.Group{Keys: AllowKeys()},
			Doc: "Lengths added to a finished size, and gaps between parts, for every shade of the job.", Example: "{wrap: 9 in, hem: 3/8 in}", Default: "the shop's allowances",
			Into: form.At(func(d *draft) *ticket.Allow { return &d.allow }),
		}, {
			Name: "sewing", Kind: form.Group{Keys: SewingKeys(), Each: usualNeedle},
			Doc: "The stitch, thread and needle for every shade of the job.", Example: "{stitch: 5 mm, thread: 69}", Default: "the shop's stitch, thread and needle",
			Into: form.At(func(d *draft) *ticket.Sewing { return &d.sewing }),
		}, {
			Name: "goods", Kind: form.Named[goodsDraft]{Name: partName, Group: form.Group{Keys: goodsKeys()}, Each: checkGoods}, Required: true,
			Doc: "The goods, each under a name that shades refer to.", Example: "{reed-mesh: {kind: coated-mesh, width: 58 in}}",
			Into: form.At(func(d *draft) *map[string]goodsDraft { return &d.goods }),
		}, {
			Name: "rollers", Kind: form.Named[rollerDraft]{Name: partName, Group: form.Group{Keys: rollerKeys()}, Each: checkRoller}, Required: true,
			Doc: "The donor rollers, each under a name that shades refer to.", Example: "{donor: {tube: 1-1/8 in, shortest: 20 in, longest: 36 in}}",
			Into: form.At(func(d *draft) *map[string]rollerDraft { return &d.rollers }),
		}, {
			Name: "slats", Kind: form.Named[slatDraft]{Name: partName, Group: form.Group{Keys: slatKeys()}, Each: checkSlat}, Required: true,
			Doc: "The slats, each under a name that shades refer to.", Example: "{flat: {width: 1 in, thickness: 3/32 in}}",
			Into: form.At(func(d *draft) *map[string]slatDraft { return &d.slats }),
		}, {
			Name: "on_hand", Kind: form.Group{Keys: onHandKeys(), Each: checkThread},
			Doc: "Small parts that are on hand and need not be bought.", Example: "{tape: 12 m, needles: 5}", Default: "none",
			Into: form.At(func(d *draft) *ticket.OnHand { return &d.onHand }),
		}, {
			Name: "brackets", Kind: form.Named[bracketDraft]{Name: partName, Group: form.Group{Keys: bracketKeys()}, Each: checkBracket},
			Doc:     "The brackets, each under a name that shades refer to.",
			Example: "{jamb: {plate: {width: 3/4 in, height: 1-1/2 in}, holes: [{across: 3/8 in, up: 1/4 in, diameter: 5/32 in}], axle: {across: 3/8 in, up: 3/4 in}, projection: 1/16 in}}", Default: "none, so no holes are worked out",
			Into: form.At(func(d *draft) *map[string]bracketDraft { return &d.brackets }),
		}, {
			Name: "shades", Kind: form.ListOf[shadeDraft]{
				Label: "id", Least: 1, Group: form.Group{Keys: shadeKeys(opt)},
				New: func() shadeDraft {
					s := shadeDraft{Shade: ticket.Shade{Quantity: 1, Allow: d.allow, Sewing: d.sewing}}
					s.opening.Overlap = rulesOf(opt, d.units).Opening.Overlap
					return s
				},
				Each: func(_ *form.Reader, rec form.FileGroup, s *shadeDraft) { s.rec = rec },
			}, Required: !opt.OnlyParts,
			Doc: "The shades, one after another.", Example: "[{id: bunk-left, goods: reed-mesh, roller: donor, slat: flat, finished: {width: 27-1/2 in, length: 40 in}}]",
			Into: form.At(func(d *draft) *[]shadeDraft { return &d.shades }),
		},
	}
}

// partName is the kind of the names of goods, rollers, slats and brackets.
var partName = form.Text{Most: 60}

func paperKind(papers []string) form.Either {
	return form.Either{
		Text: form.Paper{Names: papers},
		Word: form.At(func(p *Paper) *Paper { return p }),
		Group: form.Group{Keys: []form.Key{
			{Name: "width", Kind: form.PaperSide(), Required: true, Doc: "Width of the paper.", Example: "36 in",
				Into: form.At(func(p *Paper) *measure.Length { return &p.Width })},
			{Name: "height", Kind: form.PaperSide(), Required: true, Doc: "Height of the paper.", Example: "48 in",
				Into: form.At(func(p *Paper) *measure.Length { return &p.Height })},
		}},
	}
}

// AllowKeys describes the allowances of a job, a shade or a shop. Each Into returns
// a pointer into a *[ticket.Allow].
func AllowKeys() []form.Key {
	into := form.At[ticket.Allow, measure.Length]
	return []form.Key{
		{Name: "wrap", Kind: form.Length{Most: 1000 * mm}, Doc: "Cloth left on the tube, so that the tape never takes the load.", Example: "9 in",
			Into: into(func(a *ticket.Allow) *measure.Length { return &a.Wrap })},
		{Name: "hem", Kind: form.Length{Least: above0, Most: 300 * mm}, Doc: "Depth of the hem, the first fold at the bottom.", Example: "3/8 in",
			Into: into(func(a *ticket.Allow) *measure.Length { return &a.Hem })},
		{Name: "pocket", Kind: form.Length{Least: above0, Most: 300 * mm}, Doc: "Depth of the slat's pocket, laid flat: the second fold.", Example: "1-5/16 in",
			Into: into(func(a *ticket.Allow) *measure.Length { return &a.Pocket })},
		{Name: "stitch_inset", Kind: form.Length{Least: above0, Most: 50 * mm}, Doc: "Distance from the hem's folded edge to the stitch row.", Example: "1/8 in",
			Into: into(func(a *ticket.Allow) *measure.Length { return &a.StitchInset })},
		{Name: "side_hem", Kind: form.Length{Most: 150 * mm}, Doc: "Cloth turned in at each side, for goods that fray.", Example: "0 in",
			Into: into(func(a *ticket.Allow) *measure.Length { return &a.SideHem })},
		{Name: "tube_over", Kind: form.Length{Most: 150 * mm}, Doc: "How much longer the tube is than the cloth is wide, in total.", Example: "1/8 in",
			Into: into(func(a *ticket.Allow) *measure.Length { return &a.TubeOver })},
		{Name: "slat_gap", Kind: form.Length{Most: 150 * mm}, Doc: "How far the slat stays back from the edge of the cloth, at each end.", Example: "1/8 in",
			Into: into(func(a *ticket.Allow) *measure.Length { return &a.SlatGap })},
	}
}

// SewingKeys describes the sewing of a job, a shade or a shop. Each Into returns a
// pointer into a *[ticket.Sewing].
func SewingKeys() []form.Key {
	number := form.At[ticket.Sewing, int]
	return []form.Key{
		{Name: "stitch", Kind: form.Length{Least: 500 * measure.Micrometre, Most: 15 * mm, FixMost: "write for example 5 mm"}, Doc: "Length of one stitch.", Example: "5 mm",
			Into: form.At(func(s *ticket.Sewing) *measure.Length { return &s.StitchLength })},
		{Name: "thread", Kind: form.Whole{Least: 46, Most: 138, Only: goods.ThreadSizes(), Fix: "the commercial size of the thread"}, Doc: "Commercial size of the thread.", Example: "69",
			Into: number(func(s *ticket.Sewing) *int { return &s.Thread })},
		{Name: "needle", Kind: form.Whole{Least: 9, Most: 25, Fix: "the smaller of the two numbers on the packet"}, Doc: "Size of the needle, the smaller of the two numbers on the packet, such as 16 or 18.", Example: "18", Default: "the thread's usual needle",
			Into: number(func(s *ticket.Sewing) *int { return &s.Needle })},
		{Name: "backtack", Kind: form.Length{Most: 150 * mm}, Doc: "Length sewn twice at each end of a seam.", Example: "1/2 in",
			Into: form.At(func(s *ticket.Sewing) *measure.Length { return &s.BackTack })},
		{Name: "waste", Kind: form.Whole{Most: 100, Percent: true, Fix: "in percent"}, Doc: "Thread added for waste, in percent.", Example: "10 %",
			Into: number(func(s *ticket.Sewing) *int { return &s.Waste })},
	}
}

func goodsKeys() []form.Key {
	into := form.At[goodsDraft, measure.Length]
	selvage := form.Length{Most: 150 * mm}
	return append([]form.Key{
		{Name: "kind", Kind: form.Word[goods.Kind]{Words: goods.Kinds(), Parse: goods.ParseKind}, Required: true, Doc: "The kind of cloth, which decides how to seal its edges.", Example: "coated-mesh",
			Into: form.At(func(g *goodsDraft) *goods.Kind { return &g.Kind })},
		{Name: "width", Kind: form.Length{Least: narrowest, Most: longest}, Required: true, Doc: "Width of the roll, selvages included.", Example: "58 in",
			Into: into(func(g *goodsDraft) *measure.Length { return &g.Width })},
		{Name: "selvage", Kind: form.Either{
			Text: selvage,
			Word: form.At(func(g *goodsDraft) *measure.Length { return &g.both }),
			Group: form.Group{Keys: []form.Key{
				{Name: "left", Kind: selvage, Required: true, Doc: "Selvage on the left, seen from the cut end with the face up.", Example: "1/2 in",
					Into: into(func(g *goodsDraft) *measure.Length { return &g.Selvage[0] })},
				{Name: "right", Kind: selvage, Required: true, Doc: "Selvage on the right, seen from the cut end with the face up.", Example: "1/2 in",
					Into: into(func(g *goodsDraft) *measure.Length { return &g.Selvage[1] })},
			}},
		}, Doc: "Edge of the roll to cut away: one length for both sides, or left and right.", Example: "1/2 in", Default: "none",
			Into: form.At(func(g *goodsDraft) *goodsDraft { return g })},
		{Name: "thickness", Kind: form.Length{Least: 20 * measure.Micrometre, Most: 10 * mm}, Doc: "Thickness of the cloth.", Example: "0.6 mm", Default: "unknown, so the likely ones of its kind are tried",
			Into: into(func(g *goodsDraft) *measure.Length { return &g.Thickness })},
		{Name: "mass", Kind: form.Quantity[measure.ArealMass]{
			Parse: measure.ParseArealMass, Show: showAreal, Least: 10 * measure.GramPerSquareMetre, Most: 5000 * measure.GramPerSquareMetre,
		}, Doc: "Mass of the cloth per area, in g/m2 or oz/yd2.", Example: "440 g/m2", Default: "unknown, so the likely ones of its kind are tried",
			Into: form.At(func(g *goodsDraft) *measure.ArealMass { return &g.Mass })},
		{Name: "lay", Kind: wordOf(ticket.AnyWay, ticket.Lengthwise), Doc: "Whether a panel may turn a quarter on the cloth.", Example: "any", Default: "lengthwise, which is always safe",
			Into: form.At(func(g *goodsDraft) *ticket.Lay { return &g.Lay })},
	}, layingKeys()...)
}

func rollerKeys() []form.Key {
	into := form.At[rollerDraft, measure.Length]
	barrel := form.Length{Least: 50 * mm, Most: longest}
	return append([]form.Key{
		{Name: "tube", Kind: form.Length{Least: 5 * mm, Most: 200 * mm}, Doc: "Outside diameter of the tube.", Example: "1-1/8 in", Default: "unknown, so likely ones are tried",
			Into: into(func(r *rollerDraft) *measure.Length { return &r.Tube })},
		{Name: "shortest", Kind: barrel, Doc: "Shortest length of a telescoping tube.", Example: "20 in",
			Into: into(func(r *rollerDraft) *measure.Length { return &r.Shortest })},
		{Name: "longest", Kind: barrel, Doc: "Longest length of a telescoping tube.", Example: "36 in",
			Into: into(func(r *rollerDraft) *measure.Length { return &r.Longest })},
		{Name: "length", Kind: barrel, Doc: "Length of a tube that does not telescope, before you saw it.", Example: "36 in",
			Into: into(func(r *rollerDraft) *measure.Length { return &r.length })},
		{Name: "material", Kind: materialWord(), Doc: "Material of the tube.", Example: "steel", Default: "unknown, so likely ones are tried",
			Into: form.At(func(r *rollerDraft) *hang.Material { return &r.Material })},
		{Name: "wall", Kind: form.Length{Least: above0, Most: 100 * mm}, Doc: "Wall thickness of the tube; for a solid pole, half its diameter.", Example: "0.6 mm", Default: "unknown, so likely ones are tried",
			Into: into(func(r *rollerDraft) *measure.Length { return &r.Wall })},
		{Name: "spring", Kind: form.Either{
			Text:  form.Word[bool]{Words: []string{"trial"}, Parse: func(word string) (bool, bool) { return true, word == "trial" }},
			Word:  form.At(func(r *rollerDraft) *bool { return &r.ByTrial }),
			Group: form.Group{Keys: springKeys()},
		}, Doc: "The spring in the tube; trial, if the finished shade is to decide its turns by the trial on its ticket.", Example: "{rate: 6.5 Nmm/turn, most: 24}", Default: "unknown, so nobody checked whether it lifts the shade",
			Into: form.At(func(r *rollerDraft) *rollerDraft { return r })},
		{Name: "pins", Kind: form.Group{Keys: pinKeys()}, Doc: "How far the end pins stick out of the tube.", Example: "{flat: 5/16 in, round: 1/4 in}", Default: "unknown, so nobody checked whether the roller fits between its brackets",
			Into: form.At(func(r *rollerDraft) *hang.Pins { return &r.pins })},
	}, rollerSupplyKeys()...)
}

func slatKeys() []form.Key {
	into := form.At[slatDraft, measure.Length]
	return append([]form.Key{
		{Name: "width", Kind: form.Length{Least: above0, Most: 300 * mm}, Doc: "Width of a flat slat.", Example: "1 in",
			Into: into(func(s *slatDraft) *measure.Length { return &s.Width })},
		{Name: "thickness", Kind: form.Length{Least: above0, Most: 50 * mm}, Doc: "Thickness of a flat slat.", Example: "3/32 in",
			Into: into(func(s *slatDraft) *measure.Length { return &s.Thickness })},
		{Name: "diameter", Kind: form.Length{Least: above0, Most: 100 * mm}, Doc: "Diameter of a round rod.", Example: "3/8 in",
			Into: into(func(s *slatDraft) *measure.Length { return &s.Diameter })},
		{Name: "material", Kind: materialWord(), Doc: "Material of the slat.", Example: "wood", Default: "unknown, and so is its mass",
			Into: form.At(func(s *slatDraft) *hang.Material { return &s.Material })},
		{Name: "mass", Kind: form.Quantity[measure.LinearMass]{
			Parse: measure.ParseLinearMass, Show: showLinear, Least: measure.GramPerMetre, Most: 20_000 * measure.GramPerMetre,
		}, Doc: "Mass of the slat per length, in g/m or oz/ft.", Example: "120 g/m", Default: "worked out from its material",
			Into: form.At(func(s *slatDraft) *measure.LinearMass { return &s.Mass })},
	}, slatSupplyKeys()...)
}

func shadeKeys(opt Options) []form.Key {
	most := opt.Practice.Limits.LongestSide
	if most == 0 {
		most = longest
	}
	side := form.Length{Least: narrowest, Most: most, FixMost: "check the number and its unit, or change the shop's limits.longest_side"}
	into := form.At[measure.Size, measure.Length]
	ref := func(name, doc, example string, pick func(*shadeDraft) *string) form.Key {
		return form.Key{Name: name, Kind: partName, Required: true, Doc: doc, Example: example, Into: form.At(pick)}
	}
	ks := []form.Key{
		{Name: "id", Kind: form.Text{Most: 64, Also: fileName, Pattern: fileNamePattern}, Required: true, Doc: "A short name that no other shade of the job has.", Example: "bunk-left",
			Into: form.At(func(s *shadeDraft) *string { return &s.ID })},
		{Name: "place", Kind: form.Text{Most: 200}, Doc: "Where the shade hangs.", Example: "lower bunk, lake side", Default: "none",
			Into: form.At(func(s *shadeDraft) *string { return &s.Place })},
		{Name: "room", Kind: form.Text{Most: 200}, Doc: "The room of the shade: for goods with match: room, all panels of a room turn alike.", Example: "bunk room", Default: "a room of its own",
			Into: form.At(func(s *shadeDraft) *string { return &s.Room })},
		ref("goods", "The goods, by their name under goods.", "reed-mesh", func(s *shadeDraft) *string { return &s.goods }),
		ref("roller", "The roller, by its name under rollers; any, to let Shadewright choose so that the least is sawn off.", "donor", func(s *shadeDraft) *string { return &s.roller }),
		ref("slat", "The slat, by its name under slats.", "flat", func(s *shadeDraft) *string { return &s.slat }),
		{Name: "quantity", Kind: form.Whole{Least: 1, Most: mostPerShade}, Doc: "How many shades to make alike.", Example: "2", Default: "1",
			Into: form.At(func(s *shadeDraft) *int { return &s.Quantity })},
		{Name: "finished", Kind: form.Group{Keys: []form.Key{
			{Name: "width", Kind: side, Required: true, Doc: "Width of the visible cloth.", Example: "27-1/2 in",
				Into: into(func(s *measure.Size) *measure.Length { return &s.Width })},
			{Name: "length", Kind: side, Required: true, Doc: "Length of the visible cloth, from the tube to the bottom of the pocket.", Example: "40 in",
				Into: into(func(s *measure.Size) *measure.Length { return &s.Length })},
		}}, Required: true, Or: "opening", Doc: "Size of the visible cloth.", Example: "{width: 27-1/2 in, length: 40 in}",
			Into: form.At(func(s *shadeDraft) *measure.Size { return &s.Finished })},
		{Name: "as_before", Kind: form.Word[bool]{Words: []string{"true", "false"}, Parse: func(word string) (bool, bool) { return word == "true", word == "true" || word == "false" }},
			Doc: "Whether a shade of this finished size hung there on this roller and cleared everything; only with a finished size.", Example: "true", Default: "false, so nobody checked whether the size fits the opening",
			Into: form.At(func(s *shadeDraft) *bool { return &s.AsBefore })},
		{Name: "roll", Kind: wordOf(ticket.Standard, ticket.Reverse), Doc: "Whether the cloth falls from the back of the tube, by the glass (standard), or from its front (reverse).", Example: "standard", Default: "standard",
			Into: form.At(func(s *shadeDraft) *ticket.Roll { return &s.Roll })},
		{Name: "pull", Kind: form.Text{Most: 100}, Doc: "The pull or handle that you fit to the slat; it adds a step to the work.", Example: "wooden ring on a short cord", Default: "none",
			Into: form.At(func(s *shadeDraft) *string { return &s.Pull })},
		{Name: "note", Kind: form.Text{Most: 1000, Lines: true}, Doc: "Anything the bench should know.", Example: "the left bracket sits lower", Default: "none",
			Into: form.At(func(s *shadeDraft) *string { return &s.Note })},
		{Name: "allow", Kind: form.Group{Keys: AllowKeys()}, Doc: "Lengths added to the finished size of this shade, and gaps between its parts.", Example: "{wrap: 10 in}", Default: "the job's allowances",
			Into: form.At(func(s *shadeDraft) *ticket.Allow { return &s.Allow })},
		{Name: "sewing", Kind: form.Group{Keys: SewingKeys(), Each: usualNeedle}, Doc: "The stitch, thread and needle of this shade.", Example: "{thread: 46}", Default: "the job's stitch, thread and needle",
			Into: form.At(func(s *shadeDraft) *ticket.Sewing { return &s.Sewing })},
	}
	return append(ks, hangingKeys()...)
}

// wordOf returns a kind whose words are the names of the values.
func wordOf[V fmt.Stringer](values ...V) form.Word[V] {
	words := make([]string, len(values))
	for i, v := range values {
		words[i] = v.String()
	}
	return form.Word[V]{Words: words, Parse: func(word string) (v V, ok bool) {
		i := slices.Index(words, word)
		if i < 0 {
			return v, false
		}
		return values[i], true
	}}
}

// Units returns the kind of a unit system: in or mm.
func Units() form.Word[measure.System] { return wordOf(measure.Inches, measure.Millimetres) }

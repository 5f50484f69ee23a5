package mounting

import (
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

const in = measure.Inch

// bracket returns a bracket of 30 × 40 mm with three holes at irregular places,
// so that a hole in the wrong place or a plate that is not mirrored is
// detected.
func bracket() hang.Bracket {
	return hang.Bracket{
		Name: "plain", Plate: measure.Size{Width: 30 * mm, Length: 40 * mm}, Axle: hang.Point{X: 25 * mm, Y: 22 * mm}, Projection: 35 * mm,
		Holes: []hang.Hole{
			{At: hang.Point{X: 8 * mm, Y: 8 * mm}, Diameter: 4 * mm},
			{At: hang.Point{X: 9 * mm, Y: 32 * mm}, Diameter: 4 * mm},
			{At: hang.Point{X: 22 * mm, Y: 9 * mm}, Diameter: 3 * mm},
		},
	}
}

// inchBracket returns a bracket of 1 × 1-3/4 in with two holes.
func inchBracket() hang.Bracket {
	return hang.Bracket{
		Name: "stamped", Plate: measure.Size{Width: in, Length: in * 7 / 4}, Axle: hang.Point{X: in * 5 / 8, Y: in * 7 / 8}, Projection: in / 16,
		Holes: []hang.Hole{
			{At: hang.Point{X: in / 4, Y: in / 4}, Diameter: in * 5 / 32},
			{At: hang.Point{X: in / 4, Y: in * 3 / 2}, Diameter: in * 5 / 32},
		},
	}
}

// named is a sample sheet with its name and style.
type named struct {
	name  string
	site  hang.Site
	style measure.Style
	sheet Sheet
}

// codes returns words that are the same in every language.
func codes(words ...string) []message.Message {
	var list []message.Message
	for _, w := range words {
		list = append(list, message.Verbatim(w))
	}
	return list
}

func roll(diameter, down measure.Length) hang.RollUp {
	return hang.RollUp{DiameterUp: diameter, RadiusDown: down}
}

// samples returns all mounts and rolls, metric and in inches, narrow and wide.
func samples(t testing.TB) []named {
	t.Helper()
	metric, inches := measure.Usual(measure.Millimetres), measure.Usual(measure.Inches)
	inner := bracket()
	inner.Projection = mm
	wood, _ := hang.Fasten(hang.Wood)
	skin, _ := hang.Fasten(hang.AluminiumSkin)
	wall, _ := hang.Fasten(hang.Drywall)
	list := []named{
		{"inside", hang.Site{
			Bracket: inner, Mount: hang.Inside, TipToTip: 892 * mm, Play: 4 * mm, Axle: 40 * mm, Head: 30 * mm, Depth: 90 * mm,
			Opening: measure.Size{Width: 900 * mm, Length: 1200 * mm}, RollUp: roll(44*mm, 20*mm),
		}, metric, Sheet{Shade: "bunk", Place: "upper berth, port side", Codes: codes("7K3Q9-X2ABC"), Advice: []hang.Advice{skin}}},
		{"inside-reverse", hang.Site{
			Bracket: inchBracket(), Mount: hang.Inside, Roll: hang.Reverse, TipToTip: 35*in - in/8, Play: 0, Axle: in * 9 / 4, Head: in * 3 / 2,
			Opening: measure.Size{Width: 35 * in, Length: 40 * in}, RollUp: roll(in*7/4+mm/3, in*3/4),
		}, inches, Sheet{Shade: "bunk-2", Place: "lower berth", Codes: codes("7K3Q9-X2ABC", "9M2ZZ-44XYA"), Advice: []hang.Advice{wood}}},
		{"outside", hang.Site{
			Bracket: bracket(), Mount: hang.Outside, TipToTip: 1000 * mm, Play: 4 * mm, Head: 60 * mm, RollUp: roll(44*mm, 20*mm),
			Opening: measure.Size{Width: 891 * mm, Length: 1200 * mm}, Overlap: hang.Overlap{Left: 30 * mm, Right: 50 * mm},
		}, metric, Sheet{Shade: "galley", Advice: []hang.Advice{wall}, Cautions: codes("ladder: firm ground, three points of contact, nobody below")}},
		{"outside-reverse", hang.Site{
			Bracket: inchBracket(), Mount: hang.Outside, Roll: hang.Reverse, TipToTip: 120*in + in/3, Play: in / 16, Head: in * 2, RollUp: roll(in*9/4, in*3/4),
			Opening: measure.Size{Width: 117 * in, Length: 60 * in}, Overlap: hang.Overlap{Left: in * 3 / 2, Right: in * 3 / 2},
		}, inches, Sheet{Shade: "hall", Place: "hall, south", Codes: codes("7K3Q9-X2ABC"), Advice: hang.Fasteners()}},
		{"ceiling", hang.Site{
			Bracket: bracket(), Mount: hang.Ceiling, TipToTip: 1000 * mm, Play: 2 * mm, Axle: 70 * mm, RollUp: roll(44*mm, 20*mm),
			Opening: measure.Size{Width: 900 * mm, Length: 1200 * mm}, Overlap: hang.Overlap{Left: 40 * mm, Right: 40 * mm},
		}, metric, Sheet{Shade: "porch", Place: "porch", Advice: []hang.Advice{wood}}},
		{"ceiling-reverse", hang.Site{
			Bracket: inchBracket(), Mount: hang.Ceiling, Roll: hang.Reverse, TipToTip: 40 * in, Play: in / 16, Axle: in * 3, RollUp: roll(in*2, in*3/4),
			Opening: measure.Size{Width: 36 * in, Length: 48 * in}, Overlap: hang.Overlap{Left: in, Right: in},
		}, inches, Sheet{Shade: "porch-2", Advice: []hang.Advice{wood}}},
		{"deep", hang.Site{ // a recess deeper than the paper is wide, with a head far above
			Bracket: inner, Mount: hang.Inside, TipToTip: 892 * mm, Play: 4 * mm, Axle: 260 * mm, Head: 290 * mm, Depth: 420 * mm,
			Opening: measure.Size{Width: 898 * mm, Length: 1200 * mm}, RollUp: roll(44*mm, 20*mm),
		}, metric, Sheet{Shade: "tiller", Place: "wheelhouse", Advice: []hang.Advice{skin}}},
		{"narrow", hang.Site{ // both ends fit one sheet
			Bracket: bracket(), Mount: hang.Outside, TipToTip: 70 * mm, Head: 30 * mm, RollUp: roll(30*mm, 14*mm),
			Opening: measure.Size{Width: 40 * mm, Length: 200 * mm}, Overlap: hang.Overlap{Left: 10 * mm, Right: 10 * mm},
		}, metric, Sheet{Shade: "port", Place: "porthole", Advice: []hang.Advice{skin}}},
		{"headless", hang.Site{ // the head's height was not measured
			Bracket: inner, Mount: hang.Inside, TipToTip: 897 * mm, Axle: 40 * mm, Depth: 90 * mm,
			Opening: measure.Size{Width: 895 * mm, Length: 1200 * mm}, RollUp: roll(44*mm, 20*mm),
		}, metric, Sheet{Shade: "too-long"}},
	}
	for i := range list {
		n := &list[i]
		d, _, err := n.site.Drill(n.style)
		if err != nil {
			t.Fatal(n.name, err)
		}
		n.sheet.Drilling, n.sheet.Mount, n.sheet.Roll = d, n.site.Mount, n.site.Roll
	}
	return list
}

func optionsFor(t testing.TB, paper string, style measure.Style) Options {
	t.Helper()
	p, err := sheet.Named(paper)
	if err != nil {
		t.Fatal(err)
	}
	return Options{
		Paper: p, Overlap: 12 * mm, Style: style, Job: "Heron Landing",
		Margins: sheet.Margins{Left: in / 4, Right: in / 4, Top: in / 4, Bottom: in / 2},
	}
}

// corrected sets a printer that needs correction, in parts per million.
func corrected(opt Options) Options {
	opt.Printer = "office"
	opt.Correction = page.Correction{X: 1_005_025, Y: 995_025}
	return opt
}

func pdf(t testing.TB, opt Options, list ...Sheet) []byte {
	t.Helper()
	doc, err := Document(list, opt)
	return readback.Bytes(t, doc, err)
}

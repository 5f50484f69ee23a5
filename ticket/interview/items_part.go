package interview

import (
	"fmt"

	"shadewright/ticket/form"
	"shadewright/ticket/goods"
	"shadewright/ticket/hang"
)

// kinds lists the kinds of parts, in the order of the file.
var kinds = []kind{cloth, roller, slat, bracket}

var (
	cloth  = kind{group: "goods", key: "goods", word: "cloth", items: clothItems}
	roller = kind{group: "rollers", key: "roller", word: "roller", items: rollerItems}
	slat   = kind{group: "slats", key: "slat", word: "slat", items: slatItems}
	// The bracket may be passed over: the shop then marks its holes from the part itself.
	bracket = kind{group: "brackets", key: "bracket", word: "bracket", items: bracketItems, optional: true,
		skip: "where the bracket's holes go; there will be no mounting sheet for this shade"}
)

var clothItems = []item{
	{path: "kind", schema: "goods.kind", ask: "What kind of cloth is it", words: same(goods.Kinds()...), def: always(goods.Kinds()[0]),
		help: "The kind decides how the edges are sealed, and whether heat may touch it.",
		more: "Coated mesh is see-through, of coated yarn; on glass yarn it tears instead of stretching. Canvas is woven without holes: acrylic and polyester melt under a hot knife, cotton scorches. Vinyl film is a solid sheet. Blackout lining has a coating that stops light."},
	{path: "width", schema: "goods.width", length: true, ask: "How wide is the roll of cloth", help: "From edge to edge, selvages included.", example: [2]string{"58", "1500"}},
	{path: "selvage", schema: "goods.selvage", length: true, ask: "How wide is the selvage at each side", def: always("0"), help: "The edge that is cut away; 0 if there is none.", example: [2]string{"1/2", "12"}},
	{path: "thickness", schema: "goods.thickness", length: true, optional: true, ask: "How thick is the cloth",
		help: "Stack ten layers, measure the stack, and divide by ten. Enter passes over.", example: [2]string{"0.6 mm", "0.6"},
		more: "The thickness decides whether the slat fits its pocket and how thick the roll becomes. Half a millimetre more on a long shade can stop it from clearing the glass.",
		skip: "whether the slat fits its pocket, and whether the roll clears everything around it", instead: likelyThickness},
	{path: "mass", schema: "goods.mass", optional: true, ask: "How heavy is the cloth", help: "Per area, from the maker's sheet, or weigh a piece. Enter passes over.", example: [2]string{"13 oz/yd2", "440 g/m2"},
		more: "The mass gives the weight on the spring and the turns to wind it, and how far the tube sags.",
		skip: "the weight of the shade, the turns of its spring and the sag of its tube", instead: likelyMass},
	{path: "lay", schema: "goods.lay", ask: "May a panel be laid sideways on the cloth", words: []word{{no, "lengthwise"}, {yes, "any"}}, def: always(no),
		help: "Sideways saves cloth, but the weave runs the other way.",
		more: "Answer no for a pattern, a nap, stripes, or a weave that looks different from the side, and where panels hang beside each other. Answer yes for plain cloth that is alike both ways. No is always safe."},
}

// likelyThickness says which thickness is tried while none is measured.
func likelyThickness(g *group) string {
	kind, ok := goods.ParseKind(textAt(g.n, "kind"))
	if !ok {
		return ""
	}
	l := kind.Cloth().Likely
	return fmt.Sprintf("; %s to %s, likely for %s, is assumed until you measure ten layers", l.Thin, l.Thick, kind)
}

// likelyMass says which mass is tried while none is known.
func likelyMass(g *group) string {
	kind, ok := goods.ParseKind(textAt(g.n, "kind"))
	if !ok {
		return ""
	}
	l := kind.Cloth().Likely
	return fmt.Sprintf("; %.0f to %.0f g/m2, likely for %s, is assumed until you know it", l.Light.GramsPerSquareMetre(), l.Heavy.GramsPerSquareMetre(), kind)
}

var rollerItems = []item{
	{path: "tube", schema: "rollers.tube", length: true, optional: true, skip: "whether the roll clears what is around it, and the turns of the spring", ask: "What is the outside diameter of the tube of %s", example: [2]string{"1 1/8", "28"},
		help: "Use a caliper, or divide the girth by 3.14.", more: "Measure the bare tube: old cloth and tape make it thicker."},
	{path: "telescopes", ask: "Does the tube telescope", words: same(yes, no), def: always(yes), load: func(g *group) (string, bool) {
		if at(g.n, "length") != nil {
			return no, true
		}
		return yes, true
	}, help: "Yes if two tubes slide one inside the other; no if it is a single tube.",
		more: "A telescoping tube is set to its length and can be set again. A single tube is sawn, which cannot be undone."},
	{path: "shortest", schema: "rollers.shortest", length: true, when: telescopes, ask: "How short can you set the tube", example: [2]string{"20", "500"}, help: "The tube alone, without its pins."},
	{path: "longest", schema: "rollers.longest", length: true, when: telescopes, ask: "How long can you set the tube", example: [2]string{"36", "900"}, help: "Still held together firmly: leave the overlap that the tube needs."},
	{path: "length", schema: "rollers.length", length: true, when: fixed, ask: "How long is the tube", example: [2]string{"36", "900"}, help: "The tube alone, without its pins, before sawing."},
	{path: "material", schema: "rollers.material", optional: true, ask: "What is the tube made of", words: materials(),
		help: "With its wall, the material gives the sag of the tube.", skip: "how far the tube sags; likely tubes are tried"},
	{path: "wall", schema: "rollers.wall", length: true, optional: true, when: known("material"), ask: "How thick is the wall of the tube", example: [2]string{"0.6 mm", "0.6"},
		help: "Seen at a cut end. For a solid pole, half its diameter.", skip: "how far the tube sags; likely tubes are tried"},
	{path: "pins", schema: "rollers.pins", length: true, optional: true, least: 2, names: []string{"flat pin", "round pin"}, parts: []string{"flat", "round"}, example: [2]string{"5/16 1/4", "8 6"},
		ask: "How far do the pins stick out: flat pin, round pin", help: "From the end of the tube to the tip. Enter passes over.",
		more: "The flat pin is on the spring. Pins that stick out too far do not go between the brackets; pins that are too short can leave them.",
		skip: "whether the roller fits between its brackets"},
	{path: "spring", schema: "rollers.spring.rate", optional: true, free: true, words: same(byTrial), ask: "What is the rate of its spring", example: [2]string{"6.5 Nmm/turn", "6.5 Nmm/turn"},
		help: "If you do not know it, answer trial: the finished shade then decides, by the trial on its ticket.",
		more: "The rate is the torque that the spring gains per turn. Few people know it. With trial, you hang the finished shade, read a hanging scale at two heights, and the ticket or shadewright spring says how far to wind.",
		skip: "whether the spring lifts the shade",
		load: func(g *group) (string, bool) {
			if n := at(g.n, "spring"); n != nil && n.Shape == form.Plain {
				return n.Text, true
			}
			return textAt(g.n, "spring.rate"), true
		},
		write: func(g *group, text string) {
			switch {
			case text == "" || text == byTrial:
				setAt(g.n, "spring", map[bool]*form.Node{true: plain(byTrial)}[text == byTrial])
			default:
				setAt(g.n, "spring.rate", plain(text))
			}
		}},
	{path: "spring.most", schema: "rollers.spring.most", optional: true, when: known("spring.rate"), ask: "After how many turns does the spring bind", example: [2]string{"24", "24"},
		help: "Counted from slack. Enter passes over.", skip: "whether the spring binds before the shade is up"},
	{path: "count", schema: "rollers.count", ask: "How many of these rollers do you have", def: always("1"), help: "Each is used once; then the next one is offered. Answer any if you buy as many as you need."},
}

const byTrial = "trial"

func telescopes(g *group) bool { return g.answer("telescopes") == yes }
func fixed(g *group) bool      { return g.answer("telescopes") == no }

// known asks only if a value was given before.
func known(path string) func(*group) bool {
	return func(g *group) bool { return at(g.n, path) != nil }
}

// answer returns the answer to an earlier question of the group that is not in the
// file.
func (g *group) answer(path string) string {
	for i := len(g.w.seen) - 1; i >= 0; i-- {
		if g.w.seen[i].Key == g.at+path {
			return g.w.seen[i].text
		}
	}
	return ""
}

func materials() []word {
	var all []string
	for _, m := range hang.Materials() {
		all = append(all, m.Name)
	}
	return same(all...)
}

var slatItems = []item{
	{path: "form", ask: "Is the slat flat or round", words: same("flat", "round"), def: always("flat"), help: "A round slat is a rod.", load: func(g *group) (string, bool) {
		if at(g.n, "diameter") != nil {
			return "round", true
		}
		return "flat", true
	}, more: "The pocket is drawn from the slat: a flat one needs its width and thickness of cloth, a rod half its girth."},
	{path: "width", schema: "slats.width", length: true, when: flat, ask: "How wide is the slat", example: [2]string{"1", "25"}},
	{path: "thickness", schema: "slats.thickness", length: true, when: flat, ask: "How thick is the slat", example: [2]string{"3/32", "2.5"}},
	{path: "diameter", schema: "slats.diameter", length: true, when: round, ask: "What is the rod's diameter", example: [2]string{"3/8", "10"}},
	{path: "material", schema: "slats.material", optional: true, ask: "What is the slat made of", words: materials(), help: "The material gives its weight.",
		skip: "the weight of the slat, and so the turns of the spring"},
}

func flat(g *group) bool  { return g.answer("form") == "flat" }
func round(g *group) bool { return g.answer("form") == "round" }

var point = []string{"across", "up"}

var bracketItems = []item{
	{path: "plate", schema: "brackets.plate", length: true, least: 2, names: []string{"width", "height"}, parts: []string{"width", "height"}, example: [2]string{"3/4 1-1/2", "20 40"},
		ask: "How wide and high is the plate of bracket %s", help: "The left bracket, as you see it when you face the surface it is screwed to."},
	{path: "axle", schema: "brackets.axle", length: true, least: 2, names: point, parts: point, example: [2]string{"3/8 3/4", "10 20"},
		ask: "Where does the roller's tip bear on the plate: across and up", help: "From the lower left corner of the plate."},
	{path: "projection", schema: "brackets.projection", length: true, ask: "How far does the bracket hold the roller off its surface", example: [2]string{"1-1/4", "32"},
		help: "From the surface it is screwed to, out to the middle of the pin; for an inside mount, out to where the tip bears."},
}

var holeItem = item{schema: "brackets.holes", length: true, least: 3, names: []string{"across", "up", "diameter"}, parts: []string{"across", "up", "diameter"}, example: [2]string{"3/8 1/4 5/32", "10 6 4"},
	ask: "Where is a screw hole: across, up, and its diameter", help: "From the lower left corner of the plate, to the middle of the hole."}

// holes asks for the screw holes of a bracket, one after another.
func (g *group) holes() {
	old := at(g.n, "holes")
	list := &form.Node{Shape: form.List}
	for n := 1; !g.open; n++ {
		it := holeItem
		it.path = fmt.Sprintf("holes[%d]", n)
		it.optional = n > 1
		if n > 1 {
			it.ask, it.help = "Where is the next screw hole", "Enter if there is no other hole."
		}
		it.load = func(*group) (string, bool) {
			if old != nil && n <= len(old.Items) {
				return it.fromNode(old.Items[n-1]), true
			}
			return "", n > 1
		}
		part := &group{w: g.w, at: g.at, about: g.about, n: keysNode(), old: g.old}
		text := part.ask(&it)
		g.open = part.open
		if text == "" {
			break
		}
		if v := part.n.Entries; len(v) > 0 {
			list.Items = append(list.Items, v[0].Value)
		} else if old != nil && n <= len(old.Items) { // the file has it already
			list.Items = append(list.Items, old.Items[n-1])
		}
	}
	if !g.open {
		setAt(g.n, "holes", list)
	}
}

package interview

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"shadewright/ticket/form"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

// What was measured.
const (
	anOpening = "opening"
	aShade    = "finished shade"
)

var nameItems = []item{
	{path: "place", schema: "shades.place", optional: true, ask: "Where does the shade hang", help: "In words that whoever hangs it understands.", example: [2]string{"lower bunk, lake side", "lower bunk, lake side"}},
	{path: "id", schema: "shades.id", ask: "What is the shade's short name", def: (*group).freshID, help: "It stands on the paper and is part of file names.",
		also: func(g *group, id string) string {
			if g.w.hasID(g.at, id) {
				return "is the name of another shade; write another name, or change that shade's quantity"
			}
			return ""
		}},
	{path: "from", ask: "Did you measure the opening or the finished shade", words: same(anOpening, aShade), def: (*group).measuredBefore,
		load: func(g *group) (string, bool) {
			if at(g.n, "opening") != nil {
				return anOpening, true
			}
			return aShade, true
		},
		help: "The finished size is the visible cloth. Shadewright works it out from the opening.",
		more: "Measure the opening if you can: only then is it checked whether the roll clears the glass and what stands out, and where the brackets go. Measure the old shade only if it hung well."},
	{path: "finished.width", schema: "shades.finished.width", length: true, when: measured(aShade), ask: "Finished width", help: "Width of the visible cloth.", example: [2]string{"27 1/2", "700"}},
	{path: "finished.length", schema: "shades.finished.length", length: true, when: measured(aShade), ask: "Finished length", help: "From the tube to the bottom of the pocket.", example: [2]string{"40", "1016"}},
}

// asBefore comes last for a finished size, because the roller is known then.
var asBefore = item{path: "as_before", schema: "shades.as_before", optional: true, when: measured(aShade), words: []word{{yes, "true"}, {no, "false"}}, def: func(g *group) string {
	return (&item{words: []word{{yes, "true"}, {no, "false"}}}).toSay(textAt(g.last, "as_before"))
}, ask: "Did a shade of this size hang there on this roller, and clear everything", help: "Only the finished size was measured, so nothing else says that it fits. - passes over.",
	skip: "whether the size fits the opening, and whether the roll clears what is around it"}

var mounts = []word{{"inside the opening", hang.Inside.String()}, {"outside, on the wall", hang.Outside.String()}, {"ceiling in front of it", hang.Ceiling.String()}}

var openingItems = []item{
	{path: "opening.mount", schema: "shades.opening.mount", ask: "Where do the brackets go", words: mounts, def: (*group).mountBefore,
		help: "Inside between the jambs, outside on the wall or casing, or under the ceiling in front of the opening.",
		more: "Inside, the cloth is narrower than the opening, so light shows at the edges and the roll needs depth. Outside, the cloth covers the wall around the opening, and nothing in the recess is in its way."},
	{path: "opening.widths", schema: "shades.opening.widths", length: true, least: 1, names: []string{"top", "middle", "bottom"}, example: [2]string{"27 1/2 27 1/2 27 5/8", "698 698 701"},
		ask: "Widths of the opening: top, middle, bottom", help: "Three readings on one line.",
		more: "An inside shade is made for the narrowest, an outside one for the widest. One reading alone hides a bow; two that agree show up a slip of the tape."},
	{path: "opening.heights", schema: "shades.opening.heights", length: true, least: 1, names: []string{"left", "middle", "right"}, example: [2]string{"52 52 1/16 52", "1320 1322 1320"},
		ask: "Heights of the opening: left, middle, right", help: "Three readings on one line."},
	{path: "opening.diagonals", schema: "shades.opening.diagonals", length: true, least: 2, names: []string{"from top left", "from top right"}, optional: true, when: mounted(hang.Inside), example: [2]string{"62 3/8 62 5/16", "1584 1583"},
		ask: "Diagonals of the opening: from top left, from top right", help: "Two readings on one line. Enter passes over.", skip: "whether the opening is square; a shade in a crooked opening shows a wedge of light"},
	{path: "opening.depth", schema: "shades.opening.depth", length: true, optional: true, when: mounted(hang.Inside), example: [2]string{"3 1/2", "90"},
		ask: "How deep is the recess", help: "From its front edge to the glass, or to anything in front of the glass. Enter passes over.", skip: "whether the roll fits into the recess and clears the glass"},
	{path: "opening.overlap", schema: "shades.opening.overlap", length: true, least: 4, names: sides, parts: sides, when: mounted(hang.Outside, hang.Ceiling), def: (*group).overlapBefore, example: [2]string{"1 1/2 1 1/2 2 2", "40 40 50 50"},
		ask: "How far does the cloth cover the wall: left, right, above, below", help: "Four lengths on one line. Enter takes the usual ones.",
		load: func(g *group) (string, bool) {
			n := at(g.n, "opening.overlap")
			if n == nil {
				return g.usualOverlap(), true
			}
			return (&item{parts: sides, names: sides}).fromNode(n), true
		}},
	{path: "opening.axle", schema: "shades.opening.axle", length: true, optional: true, when: axleMatters, example: [2]string{"2 1/2", "65"},
		ask: "How far is the middle of the roller's pin from the glass or the wall", help: "Measure at the bracket. Enter passes over.", skip: "whether the roll clears the wall"},
}

var sides = []string{"left", "right", "above", "below"}

const nothing, nothingMore = "none", "nothing more"

var obstructionItems = []item{
	{path: "name", schema: "shades.opening.obstructions.name", free: true, optional: true,
		help: "Choose one, or type what it is. Answer none only if you looked.",
		more: "A crank, a handle or a lock that stands out behind the cloth catches the slat or holds the roll off. Inside it stands out from the glass, outside from the wall; a casing counts. Say how far, and how far below the roller.",
		skip: "whether a crank, a handle or a lock is in the way of the cloth"},
	{path: "proud", schema: "shades.opening.obstructions.proud", length: true, example: [2]string{"1 1/4", "30"}, ask: "How far does the %s stand out", help: "From the glass for an inside mount, else from the wall."},
	{path: "below", schema: "shades.opening.obstructions.below", length: true, optional: true, example: [2]string{"30", "760"}, ask: "How far below the roller is the %s",
		help: "From the roller's pin. Enter if it is behind the roll, or if you do not know.", skip: "at what height it is in the way; it counts as behind the roll"},
}

var fixingItems = []item{
	{path: "behind", schema: "shades.behind", optional: true, when: known("opening"), ask: "What are the brackets screwed into",
		words: []word{{"wood", hang.Wood.String()}, {"drywall", hang.Drywall.String()}, {"aluminium skin", hang.AluminiumSkin.String()}, {"steel skin", hang.SteelSkin.String()}},
		def:   func(g *group) string { return sayBehind(textAt(g.alike(), "behind")) }, help: "Knock, or look into a hole. - passes over.",
		more: "Wood holds a screw. Plasterboard needs an anchor, or a stud. A metal skin, as in a boat or a trailer, needs a short screw or a rivet, and care about what lies behind it.",
		skip: "which screws hold the brackets"},
}

func sayBehind(file string) string { return fixingWords.toSay(file) }

var fixingWords = item{words: []word{{"wood", hang.Wood.String()}, {"drywall", hang.Drywall.String()}, {"aluminium skin", hang.AluminiumSkin.String()}, {"steel skin", hang.SteelSkin.String()}}}

var rolls = []word{{"glass side, off the back", hang.Standard.String()}, {"room side, off the front", hang.Reverse.String()}}

var lastItems = []item{
	{path: "roll", schema: "shades.roll", ask: "On which side of the roller does the cloth come down", words: rolls, def: func(g *group) string {
		return cmp.Or((&item{words: rolls}).toSay(textAt(g.last, "roll")), rolls[0].said)
	}, help: "The glass side is usual: the cloth hangs close to the glass.",
		more: "On the glass side, less light passes, and the roll shows in the room. On the room side, the cloth clears a crank, a handle or a lock, and hides the roll. The trade says standard roll and reverse roll."},
	{path: "allow.pocket", schema: "shades.allow.pocket", length: true, when: (*group).pocketTight, def: (*group).pocketFor, example: [2]string{"1-5/16", "34"},
		ask: "How deep is the slat's pocket, laid flat", help: "The shop's usual pocket is too small for this slat and cloth; the proposal has room to spare."},
	{path: "quantity", schema: "shades.quantity", ask: "How many shades like this", def: always("1")},
	{path: "note", schema: "shades.note", optional: true, ask: "Is there anything the bench should know", help: "It is printed on the ticket. Enter if there is nothing."},
}

// shade asks everything about one shade, in the order of the measuring sheet.
func (w *walk) shade(g *group) {
	for i := range nameItems {
		text := g.ask(&nameItems[i])
		if nameItems[i].path == "id" && text != "" {
			g.about = text
		}
	}
	if g.answer("from") == anOpening {
		for i := range openingItems {
			g.ask(&openingItems[i])
		}
		g.obstructions()
		g.choose(bracket)
	} else if !g.open {
		setAt(g.n, "opening", nil)
		setAt(g.n, "bracket", nil)
	}
	for i := range fixingItems {
		g.ask(&fixingItems[i])
	}
	name := g.choose(roller)
	g.choose(cloth)
	g.choose(slat)
	g.ask(&asBefore)
	for i := range lastItems {
		it := &lastItems[i]
		if chosen := w.pockets[g.pair()]; it.path == "allow.pocket" && chosen != "" && !g.open && !g.old {
			setAt(g.n, it.path, plain(chosen)) // for the same slat and cloth before
			continue
		}
		g.ask(it)
	}
	if p := textAt(g.n, "allow.pocket"); p != "" && !g.open {
		w.pockets[g.pair()] = p
	}
	if !g.open {
		many, _ := strconv.Atoi(textAt(g.n, "quantity"))
		w.used[name] += max(many, 1)
	}
	g.open = g.open || w.parts["rollers"].At(name) == nil || w.parts["goods"].At(textAt(g.n, "goods")) == nil || w.parts["slats"].At(textAt(g.n, "slat")) == nil
}

// obstructions asks what stands out, one thing after another.
func (g *group) obstructions() {
	old := at(g.n, "opening.obstructions")
	list := &form.Node{Shape: form.List}
	for n := 1; !g.open; n++ {
		part := &group{w: g.w, at: fmt.Sprintf("%sopening.obstructions[%d].", g.at, n), about: g.about, n: keysNode(), old: g.old}
		if old != nil && n <= len(old.Items) {
			part.n = clone(old.Items[n-1])
		}
		first := obstructionItems[0]
		end := nothing
		first.ask = "What stands out from the glass or the wall"
		if n > 1 {
			first.ask, first.optional, first.def, end = "What else stands out", false, always(nothingMore), nothingMore
		}
		first.words = same(end, "crank", "handle", "lock", "casing")
		first.load = func(*group) (string, bool) {
			switch {
			case old != nil && n <= len(old.Items):
				return textAt(part.n, "name"), true
			case n > 1:
				return nothingMore, true
			case old != nil && old.Text == nothing:
				return nothing, true
			}
			return "", true
		}
		part.name = part.ask(&first)
		g.open = part.open
		if part.name == "" || part.name == end {
			if n == 1 {
				g.none(part.name == end)
				return
			}
			break
		}
		part.ask(&obstructionItems[1])
		part.ask(&obstructionItems[2])
		g.open = part.open
		list.Items = append(list.Items, part.n)
	}
	if !g.open {
		setAt(g.n, "opening.obstructions", list)
	}
}

// none writes that nothing stands out, or that nobody looked.
func (g *group) none(looked bool) {
	setAt(g.n, "opening.obstructions", nil)
	if looked && !g.open {
		setAt(g.n, "opening.obstructions", plain(nothing))
	}
}

// axleMatters reports whether the place of the pin is asked: under a ceiling, or where a
// file has it already.
func axleMatters(g *group) bool {
	return mounted(hang.Ceiling)(g) || g.old && at(g.n, "opening.axle") != nil
}

func measured(what string) func(*group) bool {
	return func(g *group) bool { return g.answer("from") == what }
}

func mounted(on ...hang.Mount) func(*group) bool {
	return func(g *group) bool {
		return slices.ContainsFunc(on, func(m hang.Mount) bool { return textAt(g.n, "opening.mount") == m.String() })
	}
}

func (g *group) measuredBefore() string {
	if at(g.last, "finished") != nil {
		return aShade
	}
	return anOpening
}

func (g *group) mountBefore() string {
	return cmp.Or((&item{words: mounts}).toSay(textAt(g.last, "opening.mount")), mounts[0].said)
}

// overlapBefore returns the overlaps of the shade before, or the shop's.
func (g *group) overlapBefore() string {
	if n := at(g.alike(), "opening.overlap"); n != nil {
		return (&item{parts: sides, names: sides}).fromNode(n)
	}
	return g.usualOverlap()
}

func (g *group) usualOverlap() string {
	o := g.w.opt.Practice.RulesFor(g.w.units).Opening.Overlap
	var all []string
	for _, l := range []measure.Length{o.Left, o.Right, o.Above, o.Below} {
		all = append(all, form.LengthText(l, g.w.units))
	}
	return strings.Join(all, "; ")
}

// hasID reports whether another shade before this one has a short name.
func (w *walk) hasID(key, id string) bool {
	return slices.ContainsFunc(w.seen, func(a given) bool {
		return strings.HasPrefix(a.Key, "shades[") && strings.HasSuffix(a.Key, "].id") && a.Key != key+"id" && strings.EqualFold(a.text, id)
	})
}

// freshID makes a short name from the place, or from a number.
func (g *group) freshID() string {
	base := form.Slug(textAt(g.n, "place"))
	if base == "" {
		base = strings.ReplaceAll(strings.TrimSuffix(strings.Replace(g.at, "shades[", "shade-", 1), "]."), " ", "")
	}
	id := base
	for n := 2; g.w.hasID(g.at, id); n++ {
		id = fmt.Sprintf("%s-%d", base, n)
	}
	return id
}

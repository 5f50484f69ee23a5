package ticket

import (
	"shadewright/ticket/goods"
	"shadewright/ticket/measure"
)

// A Caution is a plain word about what can hurt someone at a step. The texts are
// common practice unless a source is named beside them.
type Caution struct {
	Key  string // for programs and translations
	Head string // one or two words
	Text string
}

// Trades is printed on every ticket.
const Trades = "Follow local codes. Structural, electrical and gas work is for licensed trades."

// ladderHeight is taken from no standard: cautions about ladders are printed on
// every ticket, because a ticket does not know how high its opening is.

// cautionsFor returns the cautions that belong to a shade's steps, in the order
// of the work.
func cautionsFor(s *Shade) []Caution {
	list := []Caution{
		{"spring", "Wound spring", "Grip the flat end pin with pliers before it leaves its bracket: it spins and strikes. Let the spring down before stripping the tube."},
		{"blade", "Rotary blade", "Cut away from yourself, hand behind the straightedge; close the guard each time it is put down."},
	}
	list = append(list, sealing(s.Goods.Kind.Cloth())...)
	return append(list,
		Caution{"drill", "Drilling", "Wires, gas or water may lie behind the wall or skin. Look first, then use a depth stop."},
		Caution{"ladder", "Ladder", "Firm ground, three points of contact, nobody below."},
		// NFPA 1192, 6.2.1.2: sleeping areas keep two unobstructed ways out.
		Caution{"exit", "Escape windows", "Exits stay free: over one, the shade lifts away without tools and leaves handle and label in sight."},
		// 87 FR 72873 protects children of eight and younger.
		Caution{"cord", "Children", "Leave no cord or loop within reach; a spring roller needs none."},
		// 49 CFR 571.302 (vehicles) and NFPA 701 (public buildings).
		Caution{"fire", "Flammability", "Vehicles and public buildings have rules for cloth: ask for its certificate; a flame held to a scrap proves nothing."},
	)
}

// sealing returns what the goods' edges call for: the dangers of heat where heat
// seals, and why it is kept away where it does not.
func sealing(c goods.Cloth) []Caution {
	var list []Caution
	if c.Seal.Heat() {
		list = append(list, Caution{"hotknife", "Hot knife", "Burns skin, starts fires, makes fumes: heatproof board, window open, unplug when done."})
	}
	if c.NoHeat != "" {
		list = append(list, Caution{"noheat", "No hot knife", upperFirst(c.NoHeat) + "."})
	}
	if c.Seal == goods.Sealer || c.Seal == goods.SideHem {
		list = append(list, Caution{"sealer", "Liquid sealer", "Fumes: fresh air, no flame, lid on."})
	}
	return list
}

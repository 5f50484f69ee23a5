package ticket

import (
	"slices"

	"shadewright/ticket/goods"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// A Caution is a plain word about what can hurt someone at a step. The texts are
// common practice unless a source is named beside them.
type Caution struct {
	Key  route.Caution
	Head message.Message // one to three words
	Text message.Message
}

// Trades is printed on every ticket.
const Trades message.English = "Follow local codes. Structural, electrical and gas work is for licensed trades."

var cautionWords = map[route.Caution]struct{ head, text message.English }{
	route.WoundSpring: {head: "Wound spring", text: "Grip the flat end pin with pliers before it leaves its bracket: it spins and strikes. Let the spring down before stripping the tube."},
	route.RotaryBlade: {head: "Rotary blade", text: "Cut away from yourself, hand behind the straightedge; close the guard each time it is put down."},
	route.Needle:      {head: "Needle", text: "Fingers out of its path; foot off the pedal to thread."},
	route.Saw:         {head: "Saw", text: "Clamp tube and slat, wear eye protection, file off burrs."},
	route.Drilling:    {head: "Drilling", text: "Wires, gas or water may lie behind the wall or skin. Look first, then use a depth stop."},
	route.Ladder:      {head: "Ladder", text: "Firm ground, three points of contact, nobody below."},
	// NFPA 1192, 6.2.1.2: sleeping areas keep two unobstructed ways out.
	route.EmergencyExit: {head: "Escape windows", text: "Keep exits free: a shade over one must lift away without tools and leave handle and label in sight."},
	// 87 FR 72873 protects children of eight and younger.
	route.ChildrenCords: {head: "Children", text: "Leave no cord or loop within reach; a spring roller needs none."},
	// 49 CFR 571.302 (vehicles) and NFPA 701 (public buildings). NFPA 701 dropped
	// its small flame test in 1989 as no proof.
	route.Flammability: {head: "Flammability", text: "Vehicles and public buildings have rules for cloth: ask for its certificate. A flame held to a scrap proves nothing."},
}

// cautionsFor returns the cautions that the steps of a route call for, in the
// order the steps come.
func cautionsFor(s *Shade, r route.Route) []Caution {
	var list []Caution
	var seen []route.Caution
	for _, step := range r {
		for _, key := range step.Cautions {
			if slices.Contains(seen, key) {
				continue
			}
			seen = append(seen, key)
			if key == route.HotKnife {
				list = append(list, sealing(s.Goods.Kind.Cloth())...)
				continue
			}
			c := cautionWords[key]
			list = append(list, cautionOf(key, c.head, c.text))
		}
	}
	return list
}

func cautionOf(key route.Caution, head, text message.English) Caution {
	return Caution{key, message.Of(head), message.Of(text)}
}

// sealing returns what the goods' edges call for: the dangers of heat where heat
// seals, and why it is kept away where it does not.
func sealing(c goods.Cloth) []Caution {
	var list []Caution
	if c.Seal.Heat() {
		list = append(list, cautionOf(route.HotKnife, "Hot knife", "Burns skin, starts fires, makes fumes: heatproof board, window open, unplug when done."))
	}
	if c.NoHeat != "" {
		list = append(list, cautionOf(route.HotKnife, "No hot knife", c.NoHeat))
	}
	if c.Seal == goods.Sealer || c.Seal == goods.SideHem {
		list = append(list, cautionOf(route.HotKnife, "Liquid sealer", "Fumes: fresh air, no flame, lid on."))
	}
	return list
}

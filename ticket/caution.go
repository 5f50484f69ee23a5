package ticket

import (
	"slices"

	"shadewright/ticket/goods"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// A Caution is a plain word about something that can hurt a person at a step. The
// texts are common practice unless a source is named beside them.
type Caution struct {
	Key  route.Caution
	Head message.Message // one to three words
	Text message.Message
}

// Trades is printed on every ticket.
const Trades message.ID = "ticket.local-codes"

var cautionWords = map[route.Caution]struct{ head, text message.ID }{
	route.WoundSpring: {head: "ticket.wound-spring", text: "ticket.care-wound-spring"},
	route.RotaryBlade: {head: "ticket.rotary-blade", text: "ticket.care-rotary-blade"},
	route.Needle:      {head: "ticket.needle", text: "ticket.care-needle"},
	route.Saw:         {head: "ticket.saw", text: "ticket.care-saw"},
	route.SetTube:     {head: "ticket.set-tube", text: "ticket.care-set-tube"},
	route.SawnTube:    {head: "ticket.sawn-tube", text: "ticket.care-sawn-tube"},
	route.Drilling:    {head: "ticket.drilling", text: "ticket.care-drilling"},
	route.Ladder:      {head: "ticket.ladder", text: "ticket.care-ladder"},
	// NFPA 1192, 2018 edition, 6.2.1.2: a sleeping area has two unobstructed ways out.
	// That a shade there lifts away without tools: common practice, no source.
	route.EmergencyExit: {head: "ticket.escape-windows", text: "ticket.care-exits"},
	// 87 FR 72873 protects children of eight and younger.
	route.ChildrenCords: {head: "ticket.children", text: "ticket.care-children"},
	// 49 CFR 571.302 (vehicles) and NFPA 701 (public buildings). NFPA 701 dropped
	// its small flame test in 1989, because the test proves too little.
	route.Flammability: {head: "ticket.flammability", text: "ticket.care-flammability"},
}

// cautionsFor returns the cautions that the steps of a route need, in the order of
// the steps.
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

func cautionOf(key route.Caution, head, text message.ID) Caution {
	return Caution{key, message.Of(head), message.Of(text)}
}

// sealing returns the cautions for the edges of the goods: the dangers of heat
// where heat seals them, and the reason to keep heat away where it does not.
func sealing(c goods.Cloth) []Caution {
	var list []Caution
	if c.Seal.Heat() {
		list = append(list, cautionOf(route.HotKnife, "ticket.hot-knife", "ticket.care-hot-knife"))
	}
	if c.NoHeat != "" {
		list = append(list, cautionOf(route.HotKnife, "ticket.no-hot-knife", c.NoHeat))
	}
	if c.Seal == goods.Sealer || c.Seal == goods.SideHem {
		list = append(list, cautionOf(route.HotKnife, "ticket.liquid-sealer", "ticket.care-sealer"))
	}
	return list
}

package ticket_test

import (
	"strings"
	"testing"

	"shadewright/ticket/goods"
	"shadewright/ticket/route"
)

// A ticket's text about a danger covers everything that its source asks for.
func TestCautionsCoverTheirSources(t *testing.T) {
	const (
		vehicles = "49 CFR 571.302 names shades among the cloth of a vehicle"
		flame    = "NFPA 701, scope note A.1.1: the small-scale flame test was dropped as not predictive"
	)
	tests := []struct {
		key   route.Caution
		words string
		src   string
	}{
		{route.EmergencyExit, "Keep exits free", "NFPA 1192, 2018 edition, 6.2.1.2: a sleeping area has two unobstructed ways out"},
		{route.EmergencyExit, "without tools", "common practice, no source"},
		{route.EmergencyExit, "handle and the label in sight", "fiberglassrv.com, escape windows: they are marked, with red handles"},
		{route.ChildrenCords, "no cord or loop within reach", "87 FR 72873: a hazard to children of eight and younger"},
		{route.ChildrenCords, "no cord or loop within reach", "nsai.ie, blind cords: they end 1.6 m up, out of a child's reach"},
		{route.Flammability, "Vehicles", vehicles},
		{route.Flammability, "public buildings", "NFPA 701, scope: roll-type window shades"},
		{route.Flammability, "A flame held to a scrap proves nothing", flame},
		{route.WoundSpring, "Grip the flat end pin with pliers", "manualshive.com 8500, awning service manual: a spring under wind-up is held by a tool, never by hand"},
		{route.HotKnife, "hydrogen chloride from about 150 °C", "Energy & Fuels 17(4), 2003, 896–900: PVC gives off hydrogen chloride from about 150 °C"},
	}
	s := measured()
	s.Goods.Kind = goods.CoatedMesh
	said := map[route.Caution]string{}
	for _, c := range one(t, s).Cautions {
		said[c.Key] += c.Text.String() + "\n"
	}
	for _, tt := range tests {
		if !strings.Contains(said[tt.key], tt.words) {
			t.Errorf("%s says %q; want %q in it (%s)", tt.key, said[tt.key], tt.words, tt.src)
		}
	}
}

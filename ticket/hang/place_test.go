package hang

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
)

// side is a roll with plain figures: a 40 mm tube with four whole rings of 0.5 mm
// cloth when up (π·(40·4 + 16·0.5) = 168π of cloth), so 44 mm in all.
func side() Winding {
	w := Winding{Tube: 40 * mm, Cloth: mm / 2}
	w.Drop = w.ForWraps(4)
	return w
}

// By hand: radius 22 mm up and 20 mm down, slat 10 mm.
func TestClear(t *testing.T) {
	frame := Obstruction{Name: "frame", Proud: 10 * mm, Below: deep(5 * mm)}
	handle := Obstruction{Name: "handle", Proud: 15 * mm, Below: deep(400 * mm)}
	somewhere := Obstruction{Name: "crank", Proud: 15 * mm}
	far := Obstruction{Name: "sill", Proud: 60 * mm, Below: deep(900 * mm)}
	for _, c := range []struct {
		name  string
		roll  Roll
		proud []Obstruction
		to    string
		want  measure.Length
		src   string
	}{
		{"wall, standard", Standard, nil, "wall", 23 * mm, "50 − 22 − 5: the slat passes behind"},
		{"wall, reverse", Reverse, nil, "wall", 28 * mm, "50 − 22"},
		{"frame, standard", Standard, []Obstruction{frame}, "frame", 13 * mm, "50 − 22 − 5 − 10"},
		{"frame, reverse", Reverse, []Obstruction{frame}, "frame", 18 * mm, "50 − 22 − 10"},
		{"unknown place, standard", Standard, []Obstruction{somewhere}, "crank", 8 * mm, "50 − 22 − 5 − 15"},
		{"unknown place, reverse", Reverse, []Obstruction{somewhere}, "crank", 13 * mm, "50 − 22 − 15"},
		{"valance, standard", Standard, nil, "valance", 28 * mm, "100 − 50 − 22"},
		{"valance, reverse", Reverse, nil, "valance", 23 * mm, "100 − 50 − 22 − 5: the slat passes in front"},
		{"head", Standard, nil, "head", 8 * mm, "30 − 22"},
	} {
		p := Place{Mount: Outside, Roll: c.roll, Axle: 50 * mm, Proud: c.proud, Slat: 10 * mm, Valance: deep(100 * mm), Head: deep(30 * mm)}
		all, _ := p.Clear(side(), 3*mm)
		if got := gap(all, c.to); got == nil || *got != c.want {
			t.Errorf("%s: %v; want %v (%s)", c.name, all, c.want, c.src)
		}
	}
	// A handle 400 mm down: the cloth and the slat pass it, not the roll. With
	// 527.8 − 400 = 127.8 mm wound, the spiral's radius is √(400 + 0.5·127.8/π) =
	// 20.50 with 400 mm down. Standard: 50 − 20.50 − 5 − 15 = 9.50. Reverse: the
	// slat passes at 50 + 20.50 − 5 − 15 = 50.50, nearer than the cloth at 50 + 20
	// − 15 = 55.
	p := Place{Mount: Outside, Axle: 50 * mm, Proud: []Obstruction{handle, far}, Slat: 10 * mm}
	all, _ := p.Clear(side(), 3*mm)
	if got := gap(all, "handle"); got == nil || !within(got.Millimetres(), 9.50, 0.006) {
		t.Errorf("handle, standard: %v; want 9.50 mm", all)
	}
	if gap(all, "sill") != nil {
		t.Error("what lies below the shade is in nobody's way")
	}
	p.Roll = Reverse
	all, _ = p.Clear(side(), 3*mm)
	if got := gap(all, "handle"); got == nil || !within(got.Millimetres(), 50.50, 0.006) {
		t.Errorf("handle, reverse: %v; want 50.50 mm", all)
	}
}

func gap(all []Clearance, to string) *measure.Length {
	for i := range all {
		if all[i].To == to {
			return &all[i].Gap
		}
	}
	return nil
}

// The least projection clears everything behind, and one millimetre less does not.
func TestProjection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := Winding{Tube: lengths(t, "tube", 20*mm, 60*mm), Cloth: lengths(t, "cloth", 200*um, 1500*um), Drop: lengths(t, "drop", 300*mm, 2500*mm)}
		p := Place{
			Mount: Outside, Roll: rapid.SampledFrom([]Roll{Standard, Reverse}).Draw(t, "roll"),
			Axle: lengths(t, "axle", mm, 200*mm), Slat: lengths(t, "slat", 0, 20*mm),
			Proud: []Obstruction{{Name: "handle", Proud: lengths(t, "proud", 0, 60*mm), Below: deep(lengths(t, "below", 0, w.Drop))}},
		}
		_, need := p.Clear(w, 3*mm)
		least := func(axle measure.Length) measure.Length {
			p.Axle = axle
			all, _ := p.Clear(w, 3*mm)
			g := all[0].Gap
			for _, c := range all {
				g = min(g, c.Gap)
			}
			return g
		}
		if g := least(need); g != 3*mm {
			t.Fatalf("at %v the least gap is %v; want 3 mm", need, g)
		}
	})
}

func TestPlaceFindings(t *testing.T) {
	lim := UsualLimits(measure.Millimetres)
	for _, c := range []struct {
		name   string
		p      Place
		levels string
		words  string
	}{
		{"free", Place{Mount: Outside, Axle: 40 * mm}, "", ""},
		{"close", Place{Mount: Outside, Axle: 24 * mm}, "caution opening.axle", "clears the wall by only 2 mm"},
		{"touching", Place{Mount: Outside, Axle: 20 * mm}, "stop opening.axle", "run into the wall by 2 mm, as a standard roll -> put the axle at least 25 mm"},
		{"valance", Place{Mount: Outside, Axle: 40 * mm, Valance: deep(60 * mm)}, "stop opening.valance", "run into the valance by 2 mm"},
		{"head", Place{Mount: Outside, Axle: 40 * mm, Head: deep(23 * mm)}, "caution opening.head", "clears the head by only 1 mm"},
		{"deep recess", Place{Mount: Inside, Axle: 40 * mm, Depth: deep(80 * mm)}, "", ""},
		{"shallow recess", Place{Mount: Inside, Axle: 40 * mm, Depth: deep(50 * mm)}, "caution opening.depth", "is 44 mm thick and stands 12 mm out of the recess"},
		{"too shallow", Place{Mount: Inside, Axle: 40 * mm, Depth: deep(30 * mm)}, "stop opening.depth", "lies outside the recess, which is 30 mm deep"},
		{"behind glass", Place{Mount: Inside, Axle: 20 * mm, Depth: deep(80 * mm)}, "stop opening.axle", "run into the glass"},
	} {
		var found finding.List
		c.p.judge(&found, side(), lim, metric)
		complete(t, found)
		if levels(found) != c.levels || !strings.Contains(texts(found), c.words) {
			t.Errorf("%s: %q\n%s\nwant %q with %q", c.name, levels(found), texts(found), c.levels, c.words)
		}
	}
}

// By hand: 44 mm in all and 3 mm on both sides is 50 mm, with the axle at 25. A
// handle 15 mm proud moves both by as much, and half the slat too.
func TestRecessFor(t *testing.T) {
	depth, axle := Place{Mount: Inside}.RecessFor(side(), 3*mm)
	if depth != 50*mm || axle != 25*mm {
		t.Errorf("%v, axle %v; want 50 and 25 mm", depth, axle)
	}
	p := Place{Mount: Inside, Proud: []Obstruction{{Name: "handle", Proud: 15 * mm}}, Slat: 10 * mm}
	if depth, axle = p.RecessFor(side(), 3*mm); depth != 70*mm || axle != 45*mm {
		t.Errorf("%v, axle %v; want 70 and 45 mm", depth, axle)
	}
	p.Roll = Reverse
	if depth, axle = p.RecessFor(side(), 3*mm); depth != 70*mm || axle != 40*mm {
		t.Errorf("reverse %v, axle %v; want 70 and 40 mm", depth, axle)
	}
}

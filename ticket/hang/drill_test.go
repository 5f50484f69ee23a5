package hang

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"shadewright/ticket/measure"
)

// plate is a bracket of 30 × 40 mm with two holes. The tip bears 25 mm from its
// left edge and 22 mm up.
func plate() Bracket {
	return Bracket{
		Name: "plain", Plate: measure.Size{Width: 30 * mm, Length: 40 * mm}, Axle: Point{25 * mm, 22 * mm}, Projection: 35 * mm,
		Holes: []Hole{{Point{8 * mm, 8 * mm}, 4 * mm}, {Point{8 * mm, 32 * mm}, 4 * mm}},
	}
}

func line(v View, name LineName) (Line, bool) {
	for _, l := range v.Lines {
		if l.Name == name {
			return l, true
		}
	}
	return Line{}, false
}

// By hand: 1000 mm between tips and 4 mm of play put the bearings at ∓502. Each
// plate reaches 25 mm outward from there and 5 mm inward, so 994 mm lie between the
// plates.
func TestDrillOutside(t *testing.T) {
	s := Site{
		Bracket: plate(), Mount: Outside, TipToTip: 1000 * mm, Play: 4 * mm, Head: 60 * mm, RollUp: side().RollUp(),
		Opening: measure.Size{Width: 891 * mm, Length: 1200 * mm}, Overlap: Overlap{Left: 30 * mm, Right: 50 * mm},
	}
	d, found, err := s.Drill(metric)
	if err != nil || len(found) != 0 {
		t.Fatal(err, found)
	}
	if d.Bearings != 1004*mm || d.Between != 994*mm || len(d.Views) != 1 || d.Views[0].Name != "wall" {
		t.Fatalf("%+v; want bearings 1004, between 994, one wall", d)
	}
	left, right := d.Views[0].Plates[0], d.Views[0].Plates[1]
	for _, c := range []struct {
		name      string
		got, want Point
	}{
		{"left plate", left.Min, Point{-527 * mm, -22 * mm}},
		{"left plate", left.Max, Point{-497 * mm, 18 * mm}},
		{"left hole", left.Holes[0].At, Point{-519 * mm, -14 * mm}},
		{"right plate", right.Min, Point{497 * mm, -22 * mm}},
		{"right hole, mirrored", right.Holes[0].At, Point{519 * mm, -14 * mm}},
		{"right axle", right.Axle, Point{502 * mm, 0}},
	} {
		if c.got != c.want {
			t.Errorf("%s at %v; want %v", c.name, c.got, c.want)
		}
	}
	// The cloth, 971 mm, is centred; the opening begins 30 mm inside its edge.
	for name, want := range map[LineName]measure.Length{
		"axle": 0, "centre": 0, "top of the opening": -60 * mm,
		"left of the opening": -485*mm - 500*um + 30*mm, "right of the opening": 485*mm + 500*um - 50*mm,
	} {
		if l, ok := line(d.Views[0], name); !ok || l.At != want {
			t.Errorf("line %q at %v (%v); want %v", name, l.At, ok, want)
		}
	}
	if left.Pin != FlatPin || right.Pin != RoundPin {
		t.Error("a standard roll has its flat pin on the left (common practice, no source)")
	}
	s.Roll = Reverse
	if d, _, _ = s.Drill(metric); d.Views[0].Plates[0].Pin != RoundPin || d.Views[0].Plates[1].Pin != FlatPin {
		t.Error("a reverse roll has its flat pin on the other side")
	}
}

// By hand: on the left jamb the glass is to the right of the axle, on the right
// jamb to its left. The cloth of a standard roll falls on the side of the glass.
func TestDrillInside(t *testing.T) {
	b := plate()
	b.Projection = mm
	s := Site{
		Bracket: b, Mount: Inside, TipToTip: 892 * mm, Play: 4 * mm, Axle: 40 * mm, Head: 30 * mm, Depth: 90 * mm,
		Opening: measure.Size{Width: 900 * mm, Length: 1200 * mm}, RollUp: side().RollUp(),
	}
	d, found, err := s.Drill(metric)
	if err != nil {
		t.Fatal(err)
	}
	complete(t, found)
	if d.Between != 898*mm || d.Shim != mm || levels(found) != "note bracket.projection" || !strings.Contains(texts(found), "pack 1 mm behind each") {
		t.Errorf("%+v, %v; want 898 between, 1 mm to pack", d, found)
	}
	if len(d.Views) != 2 || d.Views[0].Name != "left jamb" || d.Views[1].Name != "right jamb" {
		t.Fatalf("views %+v", d.Views)
	}
	for _, c := range []struct {
		view int
		name LineName
		want measure.Length
	}{
		{0, "glass", 40 * mm}, {1, "glass", -40 * mm}, {0, "front edge", -50 * mm}, {1, "front edge", 50 * mm},
		{0, "cloth", 20 * mm}, {1, "cloth", -20 * mm}, {0, "head", 30 * mm},
	} {
		if l, ok := line(d.Views[c.view], c.name); !ok || l.At != c.want {
			t.Errorf("%s: %s at %v; want %v", d.Views[c.view].Name, c.name, l.At, c.want)
		}
	}
	if got := d.Views[1].Plates[0].Min; got != (Point{-5 * mm, -22 * mm}) {
		t.Errorf("right plate begins at %v; want mirrored, −5, −22", got)
	}
	if d.Views[0].Circle != 44*mm {
		t.Errorf("circle %v; want the roll's 44 mm", d.Views[0].Circle)
	}
	s.Roll = Reverse
	d, _, _ = s.Drill(metric)
	if l, _ := line(d.Views[0], "cloth"); l.At != -20*mm {
		t.Errorf("reverse: cloth at %v; want −20 mm, on the room side", l.At)
	}
	s.TipToTip = 900 * mm
	if _, found, _ = s.Drill(metric); levels(found) != "stop bracket.projection" || !strings.Contains(texts(found), "6 mm more than there is") {
		t.Errorf("too long: %v", found)
	}
	complete(t, found)
}

// Seen from below, with the wall at the foot: the cloth of a standard roll falls
// towards the wall.
func TestDrillCeiling(t *testing.T) {
	s := Site{Bracket: plate(), Mount: Ceiling, TipToTip: 1000 * mm, Axle: 70 * mm, Opening: measure.Size{Width: 900 * mm}, RollUp: side().RollUp()}
	d, _, err := s.Drill(metric)
	if err != nil {
		t.Fatal(err)
	}
	v := d.Views[0]
	wall, _ := line(v, "wall")
	cloth, _ := line(v, "cloth")
	if v.Name != "ceiling" || wall.At != -70*mm || cloth.At != -20*mm {
		t.Errorf("%s: wall %v, cloth %v; want −70, −20", v.Name, wall.At, cloth.At)
	}
}

// For any bracket, left and right are mirror images about the centre.
func TestDrillMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := plate()
		b.Axle.X = lengths(t, "axle", -20*mm, 60*mm)
		s := Site{Bracket: b, Mount: Outside, TipToTip: 2 * lengths(t, "tips", 200*mm, 1000*mm), Play: 2 * mm, Opening: measure.Size{Width: mm}}
		d, _, err := s.Drill(metric)
		if err != nil {
			t.Fatal(err)
		}
		l, r := d.Views[0].Plates[0], d.Views[0].Plates[1]
		if l.Min.X != -r.Max.X || l.Max.X != -r.Min.X || l.Holes[1].At.X != -r.Holes[1].At.X || l.Holes[1].At.Y != r.Holes[1].At.Y {
			t.Fatalf("left %+v and right %+v are not mirror images", l, r)
		}
		if r.Axle.X-l.Axle.X != d.Bearings {
			t.Fatalf("bearings %v apart; want %v", r.Axle.X-l.Axle.X, d.Bearings)
		}
	})
}

func TestDrillRefuses(t *testing.T) {
	good := Site{Bracket: plate(), Mount: Outside, TipToTip: 1000 * mm, Opening: measure.Size{Width: 900 * mm}}
	for _, c := range []struct {
		change func(*Site)
		field  string
		words  string
	}{
		{func(s *Site) { s.Bracket.Holes = nil }, "bracket.holes", "are missing"},
		{func(s *Site) { s.Bracket.Holes[0].At.X = mm }, "bracket.holes", "lies outside the plate"},
		{func(s *Site) { s.Bracket.Holes[0].Diameter = 0 }, "bracket.holes", "zero or missing"},
		{func(s *Site) { s.Bracket.Plate.Width = 0 }, "bracket.plate", "zero or missing"},
		{func(s *Site) { s.TipToTip = 0 }, "roller.length", "zero or missing"},
		{func(s *Site) { s.TipToTip = 8 * mm }, "bracket.plate", "overlap"},
		{func(s *Site) { s.Mount = 7 }, "opening.mount", "not a known mount"},
		{func(s *Site) { s.Roll = 7 }, "roll", "not a known roll"},
		{func(s *Site) { s.Opening.Width = 0 }, "opening.widths", "zero or missing"},
	} {
		s := good
		s.Bracket = plate()
		c.change(&s)
		_, _, err := s.Drill(metric)
		wantInputError(t, err, c.field, c.words)
	}
}

func TestFasten(t *testing.T) {
	for b := Wood; b <= SteelSkin; b++ {
		a, ok := Fasten(b)
		all := ""
		for _, c := range a.Cautions {
			all += c.English() + "\n"
		}
		if !ok || a.Fastener == "" || a.Hole == "" || !strings.Contains(all, "licensed trades") || !strings.Contains(all, "runs behind") {
			t.Errorf("%v: %+v lacks a fastener or a caution", b, a)
		}
		if skin := b == AluminiumSkin || b == SteelSkin; skin != strings.Contains(all, "emergency exit") {
			t.Errorf("%v: the caution about emergency exits belongs to vehicle skins", b)
		}
	}
	if _, ok := Fasten(99); ok {
		t.Error("there is advice for nothing")
	}
}

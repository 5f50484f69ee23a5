package sheet_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"shadewright/render/sheet"
	"shadewright/ticket/measure"
)

func strips(lengths ...measure.Length) []sheet.Strip {
	var list []sheet.Strip
	for _, l := range lengths {
		list = append(list, sheet.Strip{Length: l, Height: 100 * mm, Overlap: 10 * mm})
	}
	return list
}

// The shortest sheets for strips of one height in rows, worked out by hand.
func TestPackRoll(t *testing.T) {
	room := measure.Size{Width: 5000 * mm, Length: 310 * mm} // three rows of 100 with gaps of 5
	for _, tt := range []struct {
		in     []measure.Length
		sheets int
		used   []measure.Length // of each sheet
		src    string
	}{
		{[]measure.Length{700 * mm}, 1, []measure.Length{700 * mm}, "one strip is as long as itself"},
		{[]measure.Length{700 * mm, 600 * mm, 500 * mm}, 1, []measure.Length{700 * mm}, "one row for each strip"},
		{[]measure.Length{300 * mm, 900 * mm, 400 * mm, 500 * mm, 600 * mm}, 1, []measure.Length{905 * mm}, "900; 600 + 5 + 300; 500 + 5 + 400"},
		{[]measure.Length{7000 * mm}, 1, []measure.Length{3505 * mm}, "above 5000: two tiles that share 10, (7000 + 10)/2 each, one below the other"},
		{[]measure.Length{5000 * mm, 5000 * mm, 5000 * mm, 800 * mm}, 2, []measure.Length{5000 * mm, 800 * mm}, "three rows are full, so the fourth strip has its own sheet"},
	} {
		l, err := sheet.PackRoll(strips(tt.in...), 5*mm, room)
		if err != nil {
			t.Fatal(err)
		}
		var used []measure.Length
		for i := range l.Sheets {
			used = append(used, l.Used(i))
		}
		ok := l.Sheets == tt.sheets
		for i := range used {
			ok = ok && (used[i]-tt.used[i]).Abs() <= mm
		}
		if !ok {
			t.Errorf("%v: %d sheets of %v; want %v (%s)", tt.in, l.Sheets, used, tt.used, tt.src)
		}
	}
}

// Tiles on a roll stay inside the room and apart from each other, and a strip
// that fits in one piece is never cut.
func TestPackRollLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		gap := 5 * mm
		room := measure.Size{Width: 5000 * mm, Length: measure.Length(rapid.IntRange(150, 1000).Draw(t, "roll")) * mm}
		var list []sheet.Strip
		for range rapid.IntRange(1, 12).Draw(t, "strips") {
			list = append(list, sheet.Strip{
				Length: measure.Length(rapid.IntRange(100, 12_000).Draw(t, "length")) * mm,
				Height: measure.Length(rapid.IntRange(60, 150).Draw(t, "height")) * mm, Overlap: 10 * mm,
			})
		}
		l, err := sheet.PackRoll(list, gap, room)
		if err != nil {
			t.Fatal(err)
		}
		tiles := make([]int, len(list))
		for i, a := range l.Tiles {
			tiles[a.Strip]++
			if a.Field.X < 0 || a.Field.Y < 0 || a.Field.X+a.Field.Width > room.Width || a.Field.Y+a.Field.Length > room.Length {
				t.Fatalf("tile %+v is outside %v", a, room)
			}
			for _, b := range l.Tiles[i+1:] {
				apart := a.Sheet != b.Sheet || a.Field.X+a.Field.Width+gap <= b.Field.X || b.Field.X+b.Field.Width+gap <= a.Field.X ||
					a.Field.Y+a.Field.Length+gap <= b.Field.Y || b.Field.Y+b.Field.Length+gap <= a.Field.Y
				if !apart {
					t.Fatalf("tiles %+v and %+v are closer than %v", a, b, gap)
				}
			}
		}
		for i, s := range list {
			if s.Length <= room.Width && tiles[i] != 1 {
				t.Fatalf("strip %d of %v is in %d pieces", i, s.Length, tiles[i])
			}
		}
		longest := slices.MaxFunc(l.Tiles, func(a, b sheet.Tile) int { return int(a.Field.Width - b.Field.Width) })
		for i := range l.Sheets {
			if u := l.Used(i); u > room.Width || u <= 0 || l.Sheets == 1 && u < longest.Field.Width {
				t.Fatalf("sheet %d is %v long", i, u)
			}
		}
	})
}

func TestOnRoll(t *testing.T) {
	p, err := sheet.OnRoll(36 * measure.Inch)
	if err != nil || !p.Roll || p.Width != 36*measure.Inch {
		t.Errorf("OnRoll(36 in) = %+v, %v", p, err)
	}
	for l, want := range map[measure.Length]string{
		90 * mm:            `roll paper "90 mm" wide is out of range; use 100 mm to 5080 mm`,
		201 * measure.Inch: `roll paper "5105.4 mm" wide is out of range; use 100 mm to 5080 mm`,
	} {
		if _, err := sheet.OnRoll(l); err == nil || err.Error() != want {
			t.Errorf("OnRoll(%v): %v; want %s", l, err, want)
		}
	}
}

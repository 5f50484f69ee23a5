package template

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"shadewright/render/internal/readback"
	"shadewright/ticket/measure"
)

// leastSheets returns the fewest sheets that any layout of gauges and bands of one height
// can have. It tries every way to put the last strips of the bands and the gauges on rows;
// all other strips take a whole row each. It shares no code with the layout.
func leastSheets(width, height, overlap, high measure.Length, gauges int, bands []measure.Length) int {
	rows := 0
	var rest []measure.Length
	for range gauges {
		rest = append(rest, min(150*mm, width))
	}
	for _, l := range bands {
		n := measure.Length(1)
		for n*width-(n-1)*overlap < l {
			n++
		}
		rows += int(n) - 1
		last := l - (n-1)*(width-overlap)
		if n > 1 {
			last = max(last, 90*mm) // a strip shorter than its caption is of no use
		}
		rest = append(rest, last)
	}
	most := len(rest)
	var try func(i int, room []measure.Length)
	try = func(i int, room []measure.Length) {
		if len(room) >= most {
			return
		}
		if i == len(rest) {
			most = len(room)
			return
		}
		for k := range room {
			if rest[i]+4*mm <= room[k] {
				room[k] -= rest[i] + 4*mm
				try(i+1, room)
				room[k] += rest[i] + 4*mm
			}
		}
		try(i+1, append(room[:len(room):len(room)], width-rest[i]))
	}
	try(0, nil)
	per := int((height + 4*mm) / (high + 4*mm))
	return (rows + most + per - 1) / per
}

// On every width and paper, the template takes no more sheets than the geometry of its
// strips asks for. The sides of the paper are those of the standards; margins 1/4 and 1/2
// in, 11 mm at the left for the check ruler and 50 mm at the top for the heading.
func TestFewestSheets(t *testing.T) {
	papers := map[string]measure.Size{ // ISO 216 and ANSI/ASME Y14.1
		"a4": {Width: 210 * mm, Length: 297 * mm}, "a3": {Width: 297 * mm, Length: 420 * mm},
		"letter": {Width: 17 * in / 2, Length: 11 * in}, "tabloid": {Width: 11 * in, Length: 17 * in},
	}
	rapid.Check(t, func(rt *rapid.T) {
		name := rapid.SampledFrom([]string{"a4", "a3", "letter", "tabloid"}).Draw(rt, "paper")
		opt := optionsFor(t, name)
		opt.Overlap = measure.Length(rapid.IntRange(3, 25).Draw(rt, "overlap")) * mm
		parts := Parts(rapid.IntRange(0, 1).Draw(rt, "parts"))
		pocket := measure.Length(rapid.IntRange(20, 45).Draw(rt, "pocket")) * mm
		var list []*band
		var long []measure.Length
		for i := range rapid.IntRange(1, 6).Draw(rt, "bands") {
			w := measure.Length(rapid.IntRange(100, 2500).Draw(rt, "width")) * mm
			s := shadeOf(fmt.Sprint("s", i), w, 900*mm)
			s.Allow.Pocket = pocket
			list = append(list, bands(tickets(t, s))...)
			long = append(long, w+40*mm) // 20 mm past the cloth at each side
		}
		high := list[0].folds.PocketMark + 26*mm
		gauges := 0
		if parts == Both {
			gauges = 1
		}
		p := papers[name]
		want := 0
		for _, way := range []measure.Size{
			{Width: p.Width - in/2 - 11*mm, Length: p.Length - in*3/4 - 50*mm},
			{Width: p.Length - in - 11*mm, Length: p.Width - in/2 - 50*mm}, // each side has the larger of its two margins
		} {
			if high > way.Length {
				continue
			}
			if n := leastSheets(way.Width, way.Length, opt.Overlap, high, gauges, long); want == 0 || n < want {
				want = n
			}
		}
		sheets, err := lay(parts.of(list), opt)
		if err != nil {
			rt.Fatal(err)
		}
		if len(sheets) != want {
			rt.Errorf("%d sheets; the strips ask for %d", len(sheets), want)
		}
	})
}

// One band serves all shades that are marked alike, and each of them is named on it.
func TestBandShared(t *testing.T) {
	a, b, c := shadeOf("bunk", 25*in, 37*in), shadeOf("hatch", 25*in, 40*in), shadeOf("door", 26*in, 40*in)
	a.Quantity = 3
	list := bands(tickets(t, a, b, c))
	if len(list) != 2 {
		t.Fatalf("%d bands; want 2: bunk and hatch are equally wide", len(list))
	}
	if got := list[0].owners(optionsFor(t, "letter").Language); got != "bunk (3 units), hatch" {
		t.Errorf("band A is for %q; want all units of bunk, and hatch", got)
	}
}

// What the gauge alone saves, by hand: on letter, one row holds 192.2 mm, and two rows of
// 102.2 mm stand on a sheet. The band of 25 in is 675 mm with both ends and takes 4 strips,
// the gauge a row: 5 rows, 3 sheets; on its side, 243 mm a row and one row a sheet, 3
// strips and the gauge are 4 sheets. The gauge alone is 1 sheet and saves 2.
func TestGaugeAlone(t *testing.T) {
	opt := optionsFor(t, "letter")
	list := tickets(t, shadeOf("bunk", 25*in, 37*in))
	s, err := GaugeAlone(list, Both, opt)
	if err != nil || s.Sheets != 2 || len(s.Bands) != 1 {
		t.Errorf("GaugeAlone = %+v, %v; want 2 sheets for one band", s, err)
	}
	const words = "The gauge alone would do for band A: print --template gauge saves 2 sheets."
	if got := s.Message().String(); got != words {
		t.Errorf("it says %q; want %q", got, words)
	}
	// Side hems run up the panel: the gauge does not mark them.
	hemmed := shadeOf("hemmed", 25*in, 37*in)
	hemmed.Allow.SideHem = in
	if s, err := GaugeAlone(tickets(t, hemmed), Both, opt); err != nil || s.Sheets != 0 || !s.Message().IsZero() {
		t.Errorf("with side hems: %+v, %v; want nothing saved", s, err)
	}
	for _, c := range []struct {
		parts Parts
		pages int
		src   string
	}{{Both, 3, "5 rows"}, {Bands, 2, "4 rows"}, {Gauge, 1, "1 row"}} {
		doc, err := Document(list, c.parts, opt)
		read := readback.Open(t, readback.Bytes(t, doc, err))
		if read.Pages() != c.pages {
			t.Errorf("parts %d: %d sheets; want %d: %s, two on a sheet", c.parts, read.Pages(), c.pages, c.src)
		}
	}
}

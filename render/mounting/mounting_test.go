package mounting

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"shadewright/render/fullscale"
	"shadewright/render/internal/readback"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

// If the axle is on the front edge of its recess or in front of it, the room
// stays on the same side: left of the front edge on the left jamb, right of it
// on the right one.
func TestAxleBeforeRecess(t *testing.T) {
	for _, axle := range []measure.Length{90 * mm, 95 * mm} {
		n := sampleOf(t, "inside")
		n.site.Axle = axle
		d, _, err := n.site.Drill(n.style)
		if err != nil {
			t.Fatal(err)
		}
		n.sheet.Drilling = d
		left, right := ends(&n.sheet, measure.Metre, false)[0], ends(&n.sheet, measure.Metre, false)[1]
		front := axle - 90*mm // by hand: the glass is 90 or 95 mm behind the axle, and the recess is 90 mm deep
		if got := left.cut[0].x; got != (sheet.Span{From: -endless, To: front}) {
			t.Errorf("axle %s, left jamb: cut away %v; want all left of %s", axle, got, front)
		}
		if got := right.cut[0].x; got != (sheet.Span{From: -front, To: endless}) {
			t.Errorf("axle %s, right jamb: cut away %v; want all right of %s", axle, got, -front)
		}
	}
}

// A hole over the opening is reported in large letters. By hand: hole 3 of the
// bracket, 3 mm wide, lies 22 − 25 = 3 mm outside the bearing and 22 − 9 = 13
// below the axle.
func TestStrayHole(t *testing.T) {
	for _, tt := range []struct {
		head, overlap measure.Length
		want          bool
	}{
		{60 * mm, 0, false},       // well above
		{0, 30 * mm, false},       // beside the opening
		{0, -5 * mm, true},        // over both edges
		{14 * mm, -5 * mm, true},  // the edge of the hole: 13 below, 1.5 mm of radius
		{15 * mm, -5 * mm, false}, // 13 + 1.5 < 15
	} {
		n := sampleOf(t, "outside")
		n.site.Head, n.site.Play = tt.head, 0
		// The bearings are overlap outside the opening's edges.
		n.site.TipToTip, n.site.Opening.Width, n.site.Overlap = 900*mm+2*tt.overlap, 900*mm, hang.Overlap{}
		d, _, err := n.site.Drill(n.style)
		if err != nil {
			t.Fatal(err)
		}
		n.sheet.Drilling = d
		words := readback.Open(t, pdf(t, optionsFor(t, "letter", n.style), n.sheet)).Marks(0).Words()
		if got := strings.Contains(words, "DO NOT DRILL: a hole lies beyond the edges"); got != tt.want {
			t.Errorf("axle %s above the opening, bearings %s outside it: reported %v; want %v", tt.head, tt.overlap, got, tt.want)
		}
	}
}

// A cross is at least 8 mm wide and extends past its hole, whatever the hole's
// size.
func TestCrosses(t *testing.T) {
	for _, d := range []measure.Length{mm, 4 * mm, in / 4, 12 * mm} {
		if a := arm(hang.Hole{Diameter: d}); 2*a < 8*mm || 2*a < d+4*mm {
			t.Errorf("a hole of %s has a cross of %s", d, 2*a)
		}
	}
}

// No texts overlap, and none is outside the printable part.
func TestWordsApart(t *testing.T) {
	for _, n := range samples(t) {
		for _, paper := range []string{"letter", "a4", "legal", "tabloid"} {
			doc := readback.Open(t, pdf(t, corrected(optionsFor(t, paper, n.style)), n.sheet))
			for i := range doc.Pages() {
				for _, c := range doc.Crowded(i, 5.5) { // 6.35 mm less the movement by the correction
					t.Errorf("%s, %s, sheet %d: %s", n.name, paper, i+1, c)
				}
			}
		}
	}
}

// The facts that a person on a ladder must not get wrong are in words, for both
// rolls: a reverse roll turns the roller end for end, so its flat pin changes
// sides.
func TestSays(t *testing.T) {
	tests := []struct {
		sample string
		page   int
		want   []string
		not    string
	}{
		{"inside", 0, []string{"LEFT JAMB", "takes the flat pin (slot)", "LEFT JAMB, flat pin, this way up", "to the room", "to the glass", "900 mm from jamb to jamb", "pack 1 mm behind each plate", "set a stop on", "emergency", "licensed trades", "wires, pipes, gas lines"}, "RIGHT JAMB"},
		{"inside", 1, []string{"RIGHT JAMB", "takes the round pin (hole)"}, "LEFT JAMB"},
		{"inside-reverse", 0, []string{"LEFT JAMB", "takes the round pin (hole)", "on the room side", "2 alike", "9M2ZZ-44XYA"}, "flat pin (slot)"},
		{"inside-reverse", 1, []string{"RIGHT JAMB", "takes the flat pin (slot)"}, ""},
		{"outside", 0, []string{"LEFT", "takes the flat pin (slot)", "to the right bracket", "top of the opening", "60 mm below the axle: cut here", "ladder: firm ground"}, "RIGHT\n"},
		{"outside", 1, []string{"RIGHT", "takes the round pin (hole)", "to the left bracket"}, "LEFT\n"},
		{"ceiling", 1, []string{"LEFT", "to the room", "wall", "70 mm from the axle: cut here"}, ""},
		{"outside-reverse", 0, []string{"In wood", "In drywall", "In aluminium skin", "In steel skin"}, ""},
		{"outside-reverse", 1, []string{"(3039 mm) between the plates"}, ""},
		{"headless", 0, []string{"DO NOT DRILL: they do not fit", "899 mm, 4 mm more than there is", "head down to the axle was not"}, "head of the recess"},
	}
	for _, tt := range tests {
		n := sampleOf(t, tt.sample)
		doc := readback.Open(t, pdf(t, optionsFor(t, "letter", n.style), n.sheet))
		words := strings.ReplaceAll(doc.Marks(tt.page).Words(), "\u00a0", " ")
		for _, w := range append(tt.want, "Print at 100 %", "Mounting sheet") {
			if !strings.Contains(words, w) && !strings.Contains(strings.ReplaceAll(words, "\n", " "), w) {
				t.Errorf("%s, sheet %d does not have %q:\n%s", tt.sample, tt.page+1, w, words)
			}
		}
		if tt.not != "" && strings.Contains(words, tt.not) {
			t.Errorf("%s, sheet %d has %q", tt.sample, tt.page+1, tt.not)
		}
	}
}

// If the paper holds both ends, they are on one sheet; else each has its own.
func TestSheets(t *testing.T) {
	for _, tt := range []struct {
		sample, paper string
		ends          int
	}{
		{"narrow", "letter", 1}, {"inside", "letter", 2}, {"outside", "letter", 2}, {"outside", "a3", 2},
	} {
		n := sampleOf(t, tt.sample)
		leaves, err := lay([]Sheet{n.sheet}, optionsFor(t, tt.paper, n.style))
		if err != nil {
			t.Fatal(err)
		}
		ends := 0
		for _, l := range leaves {
			if l.end != nil {
				ends++
			}
		}
		if ends != tt.ends {
			t.Errorf("%s on %s: %d sheets with ends; want %d", tt.sample, tt.paper, ends, tt.ends)
		}
	}
	n := sampleOf(t, "outside")
	opt := optionsFor(t, "letter", n.style)
	opt.Paper, _ = sheet.Sized(914*mm, 1300*mm) // a plotter's roll, on its side
	leaves, err := lay([]Sheet{n.sheet}, opt)
	if err != nil || len(leaves) != 1 || len(leaves[0].end.plates) != 2 {
		t.Errorf("on a plotter: %d sheets, %v; want both ends on one", len(leaves), err)
	}
}

func TestRefused(t *testing.T) {
	n := sampleOf(t, "inside")
	opt := optionsFor(t, "letter", n.style)
	small := opt
	small.Paper, _ = sheet.Named("label-4x6")
	wide := opt
	wide.Margins = sheet.Even(120 * mm)
	for _, tt := range []struct {
		sheet Sheet
		opt   Options
		want  string
	}{
		{Sheet{Shade: "bare"}, opt, "mounting sheet: bare: no bracket to draw; give its plate, holes and axle"},
		{n.sheet, small, "use letter, a4 or larger"},
		{n.sheet, wide, "make them smaller"},
	} {
		if _, err := Document([]Sheet{tt.sheet}, tt.opt); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v; want %q", tt.sheet.Shade, err, tt.want)
		}
	}
}

func TestSameBytes(t *testing.T) {
	var list []Sheet
	for _, n := range samples(t) {
		list = append(list, n.sheet)
	}
	opt := optionsFor(t, "letter", measure.Usual(measure.Inches))
	if !bytes.Equal(pdf(t, opt, list...), pdf(t, opt, list...)) {
		t.Error("two runs give different bytes")
	}
}

// The drawings, mark by mark. After a change, look at the pages and then run:
// go test -run Golden -update
func TestGolden(t *testing.T) {
	for _, name := range []string{"inside", "outside-reverse", "ceiling"} {
		n := sampleOf(t, name)
		opt := optionsFor(t, "letter", n.style)
		leaves, err := lay([]Sheet{n.sheet}, opt)
		if err != nil {
			t.Fatal(err)
		}
		rec := new(page.Recorder)
		for i, l := range leaves {
			rec.Note(fmt.Sprintf("sheet %d", i+1))
			drawing{fullscale.Drawing{Canvas: rec, Options: opt}}.leaf(l, i+1, len(leaves))
		}
		readback.Golden(t, filepath.Join("testdata", name+".letter.txt"), rec.String())
	}
}

func BenchmarkMounting(b *testing.B) {
	n := sampleOf(b, "outside")
	opt := optionsFor(b, "letter", n.style)
	b.ReportAllocs()
	for b.Loop() {
		doc, err := Document([]Sheet{n.sheet}, opt)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := doc.Bytes(); err != nil {
			b.Fatal(err)
		}
	}
}

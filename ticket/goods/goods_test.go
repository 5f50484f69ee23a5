package goods

import (
	"math"
	"testing"

	"shadewright/ticket/measure"
)

// canvasGuide and stitcher name the two sources of the thread table.
const (
	canvasGuide = "canvasetc.com, best thread and needle for heavy canvas"
	stitcher    = "leatherworker.net topic 93986, working table of a machine stitcher"
)

func TestThreadTex(t *testing.T) {
	tests := []struct {
		size, tex int
		src       string
	}{
		{69, 70, canvasGuide},
		{92, 90, canvasGuide},
		{138, 135, canvasGuide},
		{46, 45, "trade tables on ASTM D3823, from memory"},
	}
	for _, tt := range tests {
		got, ok := ThreadOf(tt.size)
		if !ok || got.Tex != tt.tex {
			t.Errorf("ThreadOf(%d).Tex = %d, %v; want %d (%s)", tt.size, got.Tex, ok, tt.tex, tt.src)
		}
		// The label is not the size times 10/9: 69 would be 76.7, 92 would be 102.2.
		if wrong := float64(tt.size) * 10 / 9; math.Abs(wrong-float64(got.Tex)) < 5 {
			t.Errorf("thread %d: tex %d looks figured from the size", tt.size, got.Tex)
		}
	}
	if _, ok := ThreadOf(93); ok {
		t.Error("ThreadOf(93) is in the table; no such size is sold")
	}
}

func TestThreadNeedle(t *testing.T) {
	tests := []struct {
		size, needle int
		ok           bool
		src          string
	}{
		{92, 20, true, "common practice, no source: 92 with needle 20"},
		{69, 16, true, "common practice, no source: 69 with needle 16 or 18"},
		{69, 18, true, stitcher},
		{46, 14, true, stitcher},
		{92, 19, true, stitcher},
		{138, 22, true, stitcher},
		{138, 23, true, stitcher},
		{69, 20, false, canvasGuide + " ends at 18 for this size"},
		{92, 14, false, stitcher},
		{138, 18, false, stitcher},
	}
	for _, tt := range tests {
		th, _ := ThreadOf(tt.size)
		if got := th.NeedleLeast <= tt.needle && tt.needle <= th.NeedleMost; got != tt.ok {
			t.Errorf("thread %d takes needle %d: %v; want %v (%s)", tt.size, tt.needle, got, tt.ok, tt.src)
		}
	}
	for _, size := range ThreadSizes() {
		th, _ := ThreadOf(size)
		if th.Needle < th.NeedleLeast || th.Needle > th.NeedleMost {
			t.Errorf("thread %d: usual needle %d is outside its own range", size, th.Needle)
		}
	}
}

func TestNeedleMetric(t *testing.T) {
	tests := []struct {
		number, nm int
		src        string
	}{
		{11, 75, "apparelscience.com, needle number system"},
		{12, 80, "apparelscience.com, needle number system"},
		{14, 90, "apparelscience.com, needle number system"},
		{16, 100, "apparelscience.com, needle number system"},
		{18, 110, "apparelscience.com: Nm 110 is a blade of 1.1 mm"},
		{19, 120, stitcher},
		{20, 125, stitcher},
		{22, 140, stitcher},
		{21, 130, "from memory"},
	}
	for _, tt := range tests {
		if got, ok := NeedleMetric(tt.number); !ok || got != tt.nm {
			t.Errorf("NeedleMetric(%d) = %d, %v; want %d (%s)", tt.number, got, ok, tt.nm, tt.src)
		}
	}
	for _, n := range []int{-1, 0, 7, 24, 100} {
		if nm, ok := NeedleMetric(n); ok {
			t.Errorf("NeedleMetric(%d) = %d; want none, the table ends", n, nm)
		}
	}
}

func TestLockstitchThread(t *testing.T) {
	const in, mm = measure.Inch, measure.Millimetre
	tests := []struct {
		seam, thick, stitch measure.Length
		waste               int
		want                float64 // mm
		src                 string
	}{
		{in, in / 100, in / 10, 0, 2.2 * 25.4, "textilecalculations.com problem 02: T 0.01 in, 10 per in → 2.2 in per in"},
		{1000 * mm, 2 * mm / 2, in / 7, 0, 2551.2, "two plies of 0.5 mm at 7 per inch: 2 + 2·1·7/25.4 = 2.5512, by hand"},
		{1000 * mm, 225 * mm / 100, in / 7, 0, 3240.2, "three plies of 0.75 mm at 7 per inch: 3.2402, by hand"},
		{1000 * mm, 12 * mm / 10, in / 8, 0, 2755.9, "two plies of 0.6 mm at 8 per inch: 2.7559, by hand"},
		{1000 * mm, 18 * mm / 10, in / 8, 0, 3133.9, "three plies of 0.6 mm at 8 per inch: 3.1339, by hand"},
		{850 * mm, 225 * mm / 100, in / 7, 15, 3167.3, "850 mm, three plies of 0.75 mm at 7 per inch, 15 % waste, by hand"},
	}
	for _, tt := range tests {
		got, err := LockstitchThread(tt.seam, tt.thick, tt.stitch, tt.waste)
		if err != nil || math.Abs(got.Millimetres()-tt.want) > 0.06 {
			t.Errorf("LockstitchThread(%s, %s, %s, %d) = %s, %v; want %.1f mm (%s)", tt.seam, tt.thick, tt.stitch, tt.waste, got, err, tt.want, tt.src)
		}
	}
	// The flat ratio of 1 : 2.5 at 18 stitches per inch stands for 0.353 mm of
	// cloth: 0.5 · 25.4 / 36, by hand. The formula must agree there.
	got, err := LockstitchThread(1000*mm, measure.FromMillimetres(0.5*25.4/36), in/18, 0)
	if err != nil || math.Abs(got.Millimetres()-2500) > 0.1 {
		t.Errorf("thread at 18 per inch through 0.353 mm = %s, %v; want 2500 mm (ratio 1 : 2.5, Coats stitch types)", got, err)
	}
	if _, err := LockstitchThread(in, in, 0, 0); err == nil {
		t.Error("a stitch of no length gave no error")
	}
}

func TestKinds(t *testing.T) {
	for _, word := range Kinds() {
		k, ok := ParseKind(word)
		if !ok || k.String() != word {
			t.Errorf("ParseKind(%q) = %v, %v", word, k, ok)
		}
		c := k.Cloth()
		if c.Name == "" || c.SealNote == "" || c.SealSource == "" || c.Needle == "" {
			t.Errorf("%s: the table has an empty cell: %+v", word, c)
		}
		if (c.Thickness != 0 || c.Mass != 0) && c.DataSource == "" {
			t.Errorf("%s: thickness or mass without a source", word)
		}
	}
	if k, ok := ParseKind(""); ok {
		t.Errorf("ParseKind(\"\") = %v", k)
	}
}

// No hot tool may be named for cloth that it burns or that fumes.
func TestHeat(t *testing.T) {
	tests := []struct {
		kind  Kind
		heat  bool
		vinyl bool
		src   string
	}{
		{CoatedMesh, false, true, "PVC gives off hydrogen chloride from about 150 °C, a blade that seals polyester is at 260 °C: Energy & Fuels 17(4) 2003; JAIC 27(1)"},
		{CoatedGlassMesh, false, true, "glass does not soften below about 1200 °C: awning-cloth guide"},
		{AcrylicCanvas, true, false, "practice reports on acrylic awning cloth"},
		{PolyesterCanvas, true, false, "polyester melts near 260 °C: JAIC 27(1)"},
		{CottonDuck, false, false, "cotton burns to ash and leaves no bead: burning-behaviour guide"},
		{VinylFilm, false, true, "PVC, as for coated mesh"},
		{BlackoutLining, false, true, "coating often unnamed: treated as PVC, common practice, no source"},
	}
	if len(tests) != len(Kinds()) {
		t.Errorf("%d kinds are judged of %d", len(tests), len(Kinds()))
	}
	for _, tt := range tests {
		c := tt.kind.Cloth()
		if c.Seal.Heat() != tt.heat || c.Vinyl != tt.vinyl || (c.NoHeat == "") != tt.heat {
			t.Errorf("%s: heat %v, vinyl %v, no-heat word %q; want heat %v, vinyl %v (%s)", tt.kind, c.Seal.Heat(), c.Vinyl, c.NoHeat, tt.heat, tt.vinyl, tt.src)
		}
	}
}

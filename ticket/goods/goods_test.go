package goods

import (
	"math"
	"strings"
	"testing"

	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// Sources of the thread and needle tables.
const (
	canvasGuide = "canvasetc.com, best thread and needle for heavy canvas: Tex 70 to 135 with needles 100/16 to 125/20"
	stitcher    = "leatherworker.net topic 93986, a machine stitcher's working table"
	balloons    = "balloon-makers list, July 2002, message 001976: number 92 with needles 18 to 20"
	filament    = "jsrz.com, polyester filament thread size 138, Tex 135: 125/20 to 140/22"
	navy        = "NAVEDTRA 14218, figure 9-10, class 16x87 needles: 18 with size E thread (number 69)"
	sold        = "jsrz.com, industrial sewing thread diameter and gauge: 30, 46, 69, 92, 138, 207 and up are sold"
	numbers     = "apparelscience.com, needle number system"
	displacing  = "texpedia.org, needles for stitching textiles: 9–11 is 65–75, 12–14 80–90, 16–18 100–110, 18–22 110–140"
)

func TestThreadTex(t *testing.T) {
	tests := []struct {
		size, tex int
		src       string
	}{
		{69, 70, canvasGuide},
		{92, 90, canvasGuide},
		{138, 135, canvasGuide},
		{138, 135, filament},
		{46, 45, "trade tables on ASTM D3823, from memory"},
	}
	for _, tt := range tests {
		got, ok := ThreadOf(tt.size)
		if !ok || got.Tex != tt.tex {
			t.Errorf("ThreadOf(%d).Tex = %d, %v; want %d (%s)", tt.size, got.Tex, ok, tt.tex, tt.src)
		}
		// The label is not the size times 10/9: 69 would be 76.7, 92 would be
		// 102.2.
		if wrong := float64(tt.size) * 10 / 9; math.Abs(wrong-float64(got.Tex)) < 5 {
			t.Errorf("thread %d: tex %d looks computed from the size", tt.size, got.Tex)
		}
	}
}

func TestThreadSizes(t *testing.T) {
	tests := []struct {
		size int
		ok   bool
		src  string
	}{
		{46, true, sold}, {69, true, sold}, {92, true, sold}, {138, true, sold},
		{93, false, sold}, {90, false, sold + "; 90 is a tex, not a size"},
	}
	for _, tt := range tests {
		if _, ok := ThreadOf(tt.size); ok != tt.ok {
			t.Errorf("thread %d is in the table: %v; want %v (%s)", tt.size, ok, tt.ok, tt.src)
		}
	}
}

func TestThreadNeedle(t *testing.T) {
	tests := []struct {
		size, needle int
		ok           bool
		src          string
	}{
		{92, 20, true, "common practice, no source: 92 with needle 20"},
		{92, 18, true, balloons},
		{92, 20, true, balloons},
		{92, 19, true, stitcher + ": 19 or 20"},
		{92, 20, true, stitcher + ": 19 or 20"},
		{92, 16, false, balloons + ", no thinner"},
		{92, 21, false, balloons + ", no thicker"},
		{69, 16, true, canvasGuide},
		{69, 16, true, "common practice, no source: 69 with needle 16 or 18"},
		{69, 18, true, stitcher},
		{69, 18, true, navy},
		{69, 14, false, canvasGuide + ", no thinner"},
		// The guide's thickest needle is for its thickest thread.
		{69, 20, false, "common practice, no source: the stitcher's 18 is the thickest for this size"},
		{46, 14, true, stitcher},
		{138, 20, true, filament},
		{138, 22, true, filament},
		{138, 22, true, stitcher + ": 22 or 23"},
		{138, 23, true, stitcher + ": 22 or 23"},
		{138, 18, false, filament + ", no thinner"},
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
		{11, 75, numbers},
		{12, 80, numbers},
		{14, 90, numbers},
		{16, 100, numbers},
		{18, 110, numbers + ": Nm 110 is a blade of 1.1 mm"},
		{9, 65, displacing},
		{11, 75, displacing},
		{12, 80, displacing},
		{14, 90, displacing},
		{16, 100, displacing},
		{18, 110, displacing},
		{22, 140, displacing},
		{16, 100, canvasGuide},
		{20, 125, canvasGuide},
		{20, 125, filament},
		{22, 140, filament},
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
	const (
		in, mm  = measure.Inch, measure.Millimetre
		yard    = 36 * in
		problem = "textilecalculations.com, sewing thread consumption, problem 02"
		formula = "textileblog.com, thread consumption: two lengths and two thicknesses a stitch"
	)
	tests := []struct {
		seam, thick, stitch measure.Length
		waste               int
		want                float64 // mm
		src                 string
	}{
		{in, in / 100, in / 10, 0, 2.2 * 25.4, problem + ": T 0.01 in, 10 per in → 2.2 in per in"},
		{1000 * mm, 2 * mm / 2, in / 7, 0, 2551.2, formula + ": two plies of 0.5 mm at 7 per inch, 2 + 2·1·7/25.4 = 2.5512"},
		{1000 * mm, 225 * mm / 100, in / 7, 0, 3240.2, formula + ": three plies of 0.75 mm at 7 per inch, 2 + 2·2.25·7/25.4 = 3.2402"},
		{1000 * mm, 12 * mm / 10, in / 8, 0, 2755.9, formula + ": two plies of 0.6 mm at 8 per inch, 2 + 2·1.2·8/25.4 = 2.7559"},
		{1000 * mm, 18 * mm / 10, in / 8, 0, 3133.9, formula + ": three plies of 0.6 mm at 8 per inch, 2 + 2·1.8·8/25.4 = 3.1339"},
		{850 * mm, 225 * mm / 100, in / 7, 15, 3167.3, formula + ": 850 mm × 3.2402 × 1.15"},
		// So thin that only the length of the two threads counts.
		{2700 * mm, 0, in / 10, 15, 6210, "apparelscience.com, thread consumption: 540 cm and 15 % waste are 621 cm"},
		{3315 * yard / 1000, 0, in / 10, 15, 7.6245 * 914.4, "scribd.com 75439238, sewing thread: 6.63 yd and 15 % waste are 7.62 yd"},
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
		if l := c.Likely; l.Thin <= 0 || l.Thin >= l.Thick || l.Light <= 0 || l.Light >= l.Heavy || l.Source == "" {
			t.Errorf("%s: %+v is not a range with a source", word, l)
		}
	}
	if k, ok := ParseKind(""); ok {
		t.Errorf("ParseKind(\"\") = %v", k)
	}
}

const (
	vinyl    = "Energy & Fuels 17(4), 2003, 896–900: PVC gives off hydrogen chloride from about 150 °C"
	melting  = "Journal of the American Institute for Conservation 27(1): polyester melts near 260 °C"
	polymers = "pslc.ws, thermal properties of polymers"
)

// Tickets say about heat and cloth what the sources say.
func TestFiguresInWords(t *testing.T) {
	tests := []struct {
		id     message.ID
		figure string
		src    string
	}{
		{CoatedMesh.Cloth().NoHeat, "150 °C", vinyl},
		{CoatedGlassMesh.Cloth().NoHeat, "150 °C", vinyl},
		{BlackoutLining.Cloth().NoHeat, "150 °C", vinyl},
		{PolyesterCanvas.Cloth().SealNote, "260 °C", melting},
	}
	for _, tt := range tests {
		if got := message.Of(tt.id).String(); !strings.Contains(got, tt.figure) {
			t.Errorf("%s says %q; want %q in it (%s)", tt.id, got, tt.figure, tt.src)
		}
	}
}

// The likely range of a kind holds the figures that a source gives for it.
func TestClothData(t *testing.T) {
	tests := []struct {
		kind  Kind
		thin  measure.Length
		thick measure.Length
		light measure.ArealMass
		heavy measure.ArealMass
		src   string
	}{
		{CoatedGlassMesh, 700 * measure.Micrometre, 750 * measure.Micrometre, 540 * measure.GramPerSquareMetre, 560 * measure.GramPerSquareMetre, "teptext.com, fiberglass and PVC sunscreen fabric: 0.70–0.75 mm, 540–560 g/m²"},
		{CoatedMesh, 300 * measure.Micrometre, 900 * measure.Micrometre, 280 * measure.GramPerSquareMetre, 650 * measure.GramPerSquareMetre, "common practice, no source"},
	}
	for _, tt := range tests {
		if l := tt.kind.Cloth().Likely; l.Thin > tt.thin || l.Thick < tt.thick || l.Light > tt.light || l.Heavy < tt.heavy {
			t.Errorf("%s: %+v does not hold %s to %s and %v to %v (%s)", tt.kind, l, tt.thin, tt.thick, tt.light, tt.heavy, tt.src)
		}
	}
}

// No ticket may suggest a hot tool for cloth that burns or gives off fumes.
func TestHeat(t *testing.T) {
	tests := []struct {
		kind  Kind
		heat  bool
		vinyl bool
		src   string
	}{
		{CoatedMesh, false, true, vinyl + ", and a blade that seals polyester is at 260 °C: " + melting},
		{CoatedMesh, false, true, "novistagroup.com, advisory 2065: unstabilised PVC breaks down from 160 °C"},
		{CoatedMesh, false, true, polymers + ": PVC breaks down at 200 to 300 °C, PET melts at 268"},
		{CoatedGlassMesh, false, true, "fiber-line.com, fiberglass data: the yarn melts at 846 °C; its coating is PVC: " + vinyl},
		{AcrylicCanvas, true, false, "metrodetroitupholstery.com: acrylic marine cloth is cut by a hot knife"},
		{PolyesterCanvas, true, false, melting},
		{PolyesterCanvas, true, false, "timtinker.com, hot-knife cutter: polyester cloth is cut and sealed in one"},
		{CottonDuck, false, false, "A Manual of Home-Making, fabric burning test: cotton leaves a grey ash without residue"},
		{VinylFilm, false, true, vinyl},
		{BlackoutLining, false, true, "coating often unnamed: treated as PVC, common practice, no source"},
	}
	judged := map[Kind]bool{}
	for _, tt := range tests {
		judged[tt.kind] = true
	}
	if len(judged) != len(Kinds()) {
		t.Errorf("%d of %d kinds have a case", len(judged), len(Kinds()))
	}
	for _, tt := range tests {
		c := tt.kind.Cloth()
		if c.Seal.Heat() != tt.heat || c.Vinyl != tt.vinyl || (c.NoHeat == "") != tt.heat {
			t.Errorf("%s: heat %v, vinyl %v, no-heat word %q; want heat %v, vinyl %v (%s)", tt.kind, c.Seal.Heat(), c.Vinyl, c.NoHeat, tt.heat, tt.vinyl, tt.src)
		}
	}
}

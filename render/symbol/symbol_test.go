package symbol_test

import (
	"cmp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"shadewright/render/internal/readback"
	"shadewright/render/page"
	"shadewright/render/symbol"
	"shadewright/ticket/measure"
)

const mm = measure.Millimetre

var a4 = measure.Size{Width: 210 * mm, Length: 297 * mm}

// The capacity of each version at each level, in numeric, alphanumeric and byte
// characters: ISO/IEC 18004, table 7, recomputed from its codeword counts. One
// more character needs the next version. A side has 4 × version + 17 modules.
var capacities = []struct {
	version int
	level   symbol.Level
	most    [3]int
}{
	{1, symbol.Low, [3]int{41, 25, 17}}, {1, symbol.Medium, [3]int{34, 20, 14}}, {1, symbol.Quartile, [3]int{27, 16, 11}}, {1, symbol.High, [3]int{17, 10, 7}},
	{2, symbol.Low, [3]int{77, 47, 32}}, {2, symbol.Medium, [3]int{63, 38, 26}}, {2, symbol.Quartile, [3]int{48, 29, 20}}, {2, symbol.High, [3]int{34, 20, 14}},
	{3, symbol.Low, [3]int{127, 77, 53}}, {3, symbol.Medium, [3]int{101, 61, 42}}, {3, symbol.Quartile, [3]int{77, 47, 32}}, {3, symbol.High, [3]int{58, 35, 24}},
	{4, symbol.Low, [3]int{187, 114, 78}}, {4, symbol.Medium, [3]int{149, 90, 62}}, {4, symbol.Quartile, [3]int{111, 67, 46}}, {4, symbol.High, [3]int{82, 50, 34}},
	{5, symbol.Low, [3]int{255, 154, 106}}, {5, symbol.Medium, [3]int{202, 122, 84}}, {5, symbol.Quartile, [3]int{144, 87, 60}}, {5, symbol.High, [3]int{106, 64, 44}},
	{6, symbol.Low, [3]int{322, 195, 134}}, {6, symbol.Medium, [3]int{255, 154, 106}}, {6, symbol.Quartile, [3]int{178, 108, 74}}, {6, symbol.High, [3]int{139, 84, 58}},
	{7, symbol.Low, [3]int{370, 224, 154}}, {7, symbol.Medium, [3]int{293, 178, 122}}, {7, symbol.Quartile, [3]int{207, 125, 86}}, {7, symbol.High, [3]int{154, 93, 64}},
	{10, symbol.Low, [3]int{652, 395, 271}}, {10, symbol.Medium, [3]int{513, 311, 213}}, {10, symbol.Quartile, [3]int{364, 221, 151}}, {10, symbol.High, [3]int{288, 174, 119}},
	{40, symbol.Low, [3]int{7089, 4296, 2953}}, {40, symbol.Medium, [3]int{5596, 3391, 2331}}, {40, symbol.Quartile, [3]int{3993, 2420, 1663}}, {40, symbol.High, [3]int{3057, 1852, 1273}},
}

func TestCapacity(t *testing.T) {
	for _, c := range capacities {
		for i, kind := range []string{"7", "A", "a"} {
			s, err := symbol.QR(strings.Repeat(kind, c.most[i]), c.level)
			if err != nil || s.Wide != 4*c.version+17 || s.High != s.Wide {
				t.Errorf("QR of %d × %q at level %d: %d × %d modules, %v; want version %d", c.most[i], kind, c.level, s.Wide, s.High, err, c.version)
			}
			s, err = symbol.QR(strings.Repeat(kind, c.most[i]+1), c.level)
			if c.version == 40 && err == nil || c.version < 40 && (err != nil || s.Wide <= 4*c.version+17) {
				t.Errorf("QR of %d × %q at level %d: %d modules, %v; want more than version %d", c.most[i]+1, kind, c.level, s.Wide, err, c.version)
			}
		}
	}
}

// The format words of level M around the upper left finder, masks 0 to 7:
// ISO/IEC 18004, Annex C. They are modules 0–5, 7 and 8 of row 8, then rows 7
// and 5–0 of column 8.
var formatM = []string{
	"101010000010010", "101000100100101", "101111001111100", "101101101001011",
	"100010111111001", "100000011001110", "100111110010111", "100101010100000",
}

func TestFormatWord(t *testing.T) {
	for _, content := range []string{"01234567", "HELLO WORLD", "HTTP://192.168.1.20:8080/T/ABCD-EFGH"} {
		s, err := symbol.QR(content, symbol.Medium)
		if err != nil {
			t.Fatal(err)
		}
		grid := modules(t, s)
		var word strings.Builder
		for _, p := range [][2]int{{0, 8}, {1, 8}, {2, 8}, {3, 8}, {4, 8}, {5, 8}, {7, 8}, {8, 8}, {8, 7}, {8, 5}, {8, 4}, {8, 3}, {8, 2}, {8, 1}, {8, 0}} {
			word.WriteByte("01"[grid[p[1]][p[0]]])
		}
		if !strings.Contains(strings.Join(formatM, " "), word.String()) {
			t.Errorf("%q: format word %s is not one of level M", content, word.String())
		}
	}
}

// modules returns the symbol as rows of 0 and 1. It fails the test if two bars
// overlap.
func modules(t *testing.T, s symbol.Symbol) [][]int {
	t.Helper()
	grid := make([][]int, s.High)
	for y := range grid {
		grid[y] = make([]int, s.Wide)
	}
	for _, b := range s.Bars {
		for y := b.Y; y < b.Y+b.Height; y++ {
			for x := b.X; x < b.X+b.Width; x++ {
				if grid[y][x]++; grid[y][x] > 1 {
					t.Fatalf("%q: module %d,%d is covered twice", s.Content, x, y)
				}
			}
		}
	}
	return grid
}

// characters lists the widths of bars and spaces for Code 128's character
// values 0 to 105: ISO/IEC 15417, table 1, from memory. TestRead also checks
// them, because it reads the printed codes with an independent library.
var characters = strings.Fields(`
	212222 222122 222221 121223 121322 131222 122213 122312 132212 221213 221312 231212 112232 122132 122231
	113222 123122 123221 223211 221132 221231 213212 223112 312131 311222 321122 321221 312212 322112 322211
	212123 212321 232121 111323 131123 131321 112313 132113 132311 211313 231113 231311 112133 112331 132131
	113123 113321 133121 313121 211331 231131 213113 213311 213131 311123 311321 331121 312113 312311 332111
	314111 221411 431111 111224 111422 121124 121421 141122 141221 112214 112412 122114 122411 142112 142211
	241211 221114 413111 241112 134111 111242 121142 121241 114212 124112 124211 411212 421112 421211 212141
	214121 412121 111143 111341 131141 114113 114311 411113 411311 113141 114131 311141 411131 211412 211214
	211232`)

const stop = "2331112"

// values reads the character values back from the drawn bars, without the stop.
func values(t *testing.T, s symbol.Symbol) []int {
	t.Helper()
	row := modules(t, s)[0]
	var widths strings.Builder
	for from, x := 0, 1; x <= len(row); x++ {
		if x == len(row) || row[x] != row[from] {
			widths.WriteByte(byte('0' + x - from))
			from = x
		}
	}
	body, ok := strings.CutSuffix(widths.String(), stop)
	if !ok || len(body)%6 != 0 {
		t.Fatalf("%q: widths %s do not end with the stop pattern", s.Content, widths.String())
	}
	var vs []int
	for ; body != ""; body = body[6:] {
		v := slices.Index(characters, body[:6])
		if v < 0 {
			t.Fatalf("%q: %s is not a character", s.Content, body[:6])
		}
		vs = append(vs, v)
	}
	return vs
}

func TestCode128(t *testing.T) {
	for _, c := range []struct {
		content string
		want    []int // start, data, check
		src     string
	}{
		{"abcdef", []int{104, 65, 66, 67, 68, 69, 70, 97}, "set B, sum 1539, check 97: barcoderesource.com, code 128 check character"},
		{"345678", []int{105, 34, 56, 78, 73}, "set C, sum 485, check 73: same page"},
		{"A1", []int{104, 33, 17, 68}, "set B, 104 + 33 + 2 × 17 = 171, mod 103 = 68, by hand"},
		{"HI345678", []int{104, 40, 41, 99, 34, 56, 78, 68}, "barcodeisland.com works it in set A: 1406; the start of set B is one more, 1407 mod 103 = 68"},
		{"ABCDEF", []int{104, 33, 34, 35, 36, 37, 38, 43}, "set A gives 866 and 42 (barcoderesource.com); set B one more"},
	} {
		s, err := symbol.Code128(c.content)
		if err != nil {
			t.Fatal(err)
		}
		if got := values(t, s); !slices.Equal(got, c.want) {
			t.Errorf("Code128(%q) = %v; want %v (%s)", c.content, got, c.want, c.src)
		}
	}
}

// For any content the check character is (start + Σ position × value) mod 103
// (ISO/IEC 15417). The width is 11 modules for each character and 13 for the
// stop.
func TestCode128Law(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		content := rapid.StringMatching(`[ -~]{1,30}`).Draw(rt, "content")
		s, err := symbol.Code128(content)
		if err != nil {
			rt.Fatal(err)
		}
		vs := values(t, s)
		sum := vs[0]
		for i, v := range vs[1 : len(vs)-1] {
			sum += (i + 1) * v
		}
		if check := vs[len(vs)-1]; check != sum%103 || s.Wide != 11*len(vs)+13 {
			rt.Fatalf("Code128(%q): %v, %d modules; want check %d, %d modules", content, vs, s.Wide, sum%103, 11*len(vs)+13)
		}
	})
}

// Sizes with quiet zones, worked out by hand: a QR symbol has 4V + 25 modules;
// a Code 128 of n characters has 11 (n + 2) + 13 + 20 modules.
func TestSize(t *testing.T) {
	for _, c := range []struct {
		chars  int // capitals at level M
		module measure.Length
		want   measure.Length
	}{
		{20, mm / 2, 14500 * measure.Micrometre}, {38, mm / 2, 16500 * measure.Micrometre}, {61, mm / 2, 18500 * measure.Micrometre}, // versions 1, 2, 3
		{90, mm / 2, 20500 * measure.Micrometre}, {122, mm / 2, 22500 * measure.Micrometre}, {154, mm / 2, 24500 * measure.Micrometre}, // 4, 5, 6
		{20, 400 * measure.Micrometre, 11600 * measure.Micrometre}, {61, 400 * measure.Micrometre, 14800 * measure.Micrometre},
	} {
		s, err := symbol.QR(strings.Repeat("A", c.chars), symbol.Medium)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Size(c.module); got.Width != c.want || got.Length != c.want {
			t.Errorf("QR of %d capitals at %v takes %v; want %v", c.chars, c.module, got, c.want)
		}
	}
	for _, c := range []struct {
		content string
		module  measure.Length
		want    measure.Length
	}{
		{"ABCDEFGH", mm, 143 * mm}, {"ABCDEFGHIJ", mm, 165 * mm}, {"ABCDEFGHIJKL", mm, 187 * mm},
		{"ABCDEFGHIJ", mm / 4, 41250 * measure.Micrometre}, {"ABCDEFGHIJ", 330 * measure.Micrometre, 54450 * measure.Micrometre},
		{"ABCDEFGHIJ", 495 * measure.Micrometre, 81675 * measure.Micrometre},
	} {
		s, err := symbol.Code128(c.content)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Width(c.module); got != c.want {
			t.Errorf("Code 128 %q at %v is %v wide; want %v", c.content, c.module, got, c.want)
		}
	}
}

// Bars lie inside the quiet zone and exactly on the module grid.
func TestDraw(t *testing.T) {
	var r catcher
	s, err := symbol.QR("HTTP://192.168.1.20:8080/T/ABCD-EFGH", symbol.Medium)
	if err != nil {
		t.Fatal(err)
	}
	const module = 397 * measure.Micrometre
	at := page.Point{X: 11 * mm, Y: 13 * mm}
	s.Draw(&r, at, module)
	dark := 0
	for _, b := range r {
		for _, v := range []measure.Length{b.Min.X - at.X, b.Min.Y - at.Y, b.Max.X - at.X, b.Max.Y - at.Y} {
			if v%module != 0 || v/module < 4 || v/module > measure.Length(4+s.Wide) {
				t.Errorf("%v lies %v modules off", b, float64(v)/float64(module))
			}
		}
		dark += int(b.Width() / module * (b.Height() / module))
	}
	want := 0
	for _, row := range modules(t, s) {
		for _, m := range row {
			want += m
		}
	}
	if dark != want {
		t.Errorf("%d dark modules drawn; want %d", dark, want)
	}
	// Merging in both directions needs far fewer rectangles than runs along
	// rows.
	if len(r) > want/2 {
		t.Errorf("%d rectangles for %d dark modules", len(r), want)
	}
}

// A catcher keeps the rectangles drawn on it.
type catcher []page.Rect

func (c *catcher) Fill(r page.Rect, _ page.Gray) { *c = append(*c, r) }

func TestRefused(t *testing.T) {
	for _, c := range []struct {
		make func() (symbol.Symbol, error)
		want string
	}{
		{func() (symbol.Symbol, error) { return symbol.QR("", symbol.Medium) }, "a QR code cannot be empty; give it text"},
		{func() (symbol.Symbol, error) { return symbol.QR(strings.Repeat("A", 3392), symbol.Medium) },
			`content of 3392 bytes ("AAAAAAAAAAAAAAAAAAAAAAAAAAAAAA"…) does not fit a QR code; shorten it to at most 3391 characters`},
		{func() (symbol.Symbol, error) { return symbol.Code128("") }, "a Code 128 cannot be empty; give it text"},
		{func() (symbol.Symbol, error) { return symbol.Code128("Żółw") },
			`content "Żółw" has 'Ż', which Code 128 cannot hold; use unaccented letters, digits and signs`},
		{func() (symbol.Symbol, error) { return symbol.Code128(strings.Repeat("A", 81)) },
			"content of 81 characters does not fit a Code 128; shorten it to at most 80"},
	} {
		if s, err := c.make(); err == nil || err.Error() != c.want || len(s.Bars) != 0 {
			t.Errorf("error %v; want %s", err, c.want)
		}
	}
}

// The data codewords match published examples.
func TestCodewords(t *testing.T) {
	for _, c := range []struct {
		content string
		level   symbol.Level
		want    []byte
		src     string
	}{
		{"01234567", symbol.Medium, []byte{16, 32, 12, 86, 97, 128, 236, 17, 236, 17, 236, 17, 236, 17, 236, 17}, "ISO/IEC 18004, Annex I"},
		{"HELLO WORLD", symbol.Quartile, []byte{32, 91, 11, 120, 209, 114, 220, 77, 67, 64, 236, 17, 236}, "technosclub.com, terminator and complement"},
		{"HELLO WORLD", symbol.Medium, []byte{32, 91, 11, 120, 209, 114, 220, 77, 67, 64, 236, 17, 236, 17, 236, 17}, "the same, padded for 16 words"},
	} {
		codes := printed(t, func(p *page.Page) {
			s, err := symbol.QR(c.content, c.level)
			if err != nil {
				t.Fatal(err)
			}
			s.Draw(p, page.Point{X: 10 * mm, Y: 10 * mm}, mm)
		}).Codes(0, 150)
		if len(codes) != 1 || !slices.Equal(codes[0].Raw, c.want) {
			t.Errorf("QR(%q) holds %v; want %v (%s)", c.content, codes, c.want, c.src)
		}
	}
}

// printed draws symbols on one page.
func printed(t *testing.T, draw func(p *page.Page)) *readback.Document {
	t.Helper()
	d := page.New(page.Info{})
	draw(d.Add(a4))
	b, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return readback.Open(t, b)
}

func TestRead(t *testing.T) {
	qr := []string{"HTTP://192.168.1.20:8080/T/ABCD-EFGH", "http://workroom.local/t/abcd-efgh", "01234567", "HELLO WORLD", "Żółw № 1"}
	bars := []string{"JOB-0042", "RS-2024-017", "abcdef", "345678", "HI345678"}
	doc := printed(t, func(p *page.Page) {
		for i, content := range qr {
			s, err := symbol.QR(content, symbol.Level(i%4))
			if err != nil {
				t.Fatal(err)
			}
			s.Draw(p, page.Point{X: (10 + 38*measure.Length(i)) * mm, Y: 20 * mm}, mm/2)
		}
		for i, content := range bars {
			s, err := symbol.Code128(content)
			if err != nil {
				t.Fatal(err)
			}
			s.DrawBars(p, page.Point{X: (10 + 100*measure.Length(i%2)) * mm, Y: (100 + 30*measure.Length(i/2)) * mm}, 330*measure.Micrometre, 12*mm)
		}
		p.Text(page.Point{X: 20 * mm, Y: 90 * mm}, "words that are not a code 0042", page.Face{Size: 10 * page.Pt})
	})
	for _, dpi := range []int{150, 200, 300} {
		codes := doc.Codes(0, dpi)
		if len(codes) != len(qr)+len(bars) {
			t.Errorf("%d dpi: %d codes read; want %d: %+v", dpi, len(codes), len(qr)+len(bars), codes)
			continue
		}
		slices.SortFunc(codes[:len(qr)], func(a, b readback.Code) int { return cmp.Compare(a.At.X, b.At.X) })
		for i, c := range codes[:len(qr)] {
			if c.Kind != "QR" || c.Text != qr[i] {
				t.Errorf("%d dpi: read %s %q; want QR %q", dpi, c.Kind, c.Text, qr[i])
			}
		}
		for i, c := range codes[len(qr):] {
			if c.Kind != "Code 128" || c.Text != bars[i] {
				t.Errorf("%d dpi: read %s %q; want Code 128 %q", dpi, c.Kind, c.Text, bars[i])
			}
		}
	}
}

func BenchmarkQR(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := symbol.QR("HTTP://192.168.1.20:8080/T/ABCD-EFGH", symbol.Medium); err != nil {
			b.Fatal(err)
		}
	}
}

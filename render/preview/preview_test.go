package preview

import (
	"bytes"
	"encoding/xml"
	"image"
	"image/color"
	"image/png"
	"io"
	"regexp"
	"strings"
	"testing"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// tenth returns a page of 10 × 10 dots at 254 dpi, so that a dot is a tenth of
// a millimetre.
func tenth(t testing.TB, f func(p *page.Page)) *page.Document {
	t.Helper()
	d := page.New(page.Info{Title: "tenths"})
	p := d.Add(measure.Size{Width: 2 * mm, Length: 2 * mm})
	f(p)
	if _, err := d.Bytes(); err != nil {
		t.Fatal(err)
	}
	return d
}

func tenths(x, y float64) page.Point {
	return page.Point{X: measure.Length(x * float64(mm) / 10), Y: measure.Length(y * float64(mm) / 10)}
}

// The coverage of dots, worked out by hand: 255 is bare and 0 is black.
// Positions are rounded to 1/256 of a dot, which is one shade.
func TestCovered(t *testing.T) {
	for _, tt := range []struct {
		what string
		draw func(p *page.Page)
		dots map[image.Point]float64 // how much of each dot is covered
	}{
		{"a whole dot and half of the next", func(p *page.Page) { p.Fill(page.Rect{Min: tenths(2, 2), Max: tenths(3.5, 3)}, page.Black) },
			map[image.Point]float64{{X: 2, Y: 2}: 1, {X: 3, Y: 2}: 0.5, {X: 4, Y: 2}: 0, {X: 2, Y: 1}: 0, {X: 2, Y: 3}: 0}},
		{"a quarter within a dot", func(p *page.Page) { p.Fill(page.Rect{Min: tenths(5.25, 5.25), Max: tenths(5.75, 5.75)}, page.Black) },
			map[image.Point]float64{{X: 5, Y: 5}: 0.25, {X: 6, Y: 5}: 0}},
		{"in grey", func(p *page.Page) { p.Fill(page.Rect{Min: tenths(2, 2), Max: tenths(3.5, 3)}, 60) },
			map[image.Point]float64{{X: 2, Y: 2}: 0.4, {X: 3, Y: 2}: 0.2}},
		{"a triangle halves the dots on its slope", func(p *page.Page) {
			p.FillPolygon([]page.Point{tenths(2, 2), tenths(2, 6), tenths(6, 6)}, page.Black)
		}, map[image.Point]float64{{X: 2, Y: 2}: 0.5, {X: 3, Y: 3}: 0.5, {X: 2, Y: 3}: 1, {X: 3, Y: 2}: 0, {X: 5, Y: 5}: 0.5}},
		{"a shallow slope, a quarter of a dot at a time", func(p *page.Page) {
			p.FillPolygon([]page.Point{tenths(4, 4), tenths(8, 4), tenths(8, 5)}, page.Black)
		}, map[image.Point]float64{{X: 4, Y: 4}: 0.125, {X: 5, Y: 4}: 0.375, {X: 7, Y: 4}: 0.875}},
		{"both windings of a square", func(p *page.Page) {
			square := []page.Point{tenths(2, 2), tenths(4, 2), tenths(4, 4), tenths(2, 4)}
			p.FillPolygon(append(square, square...), page.Black) // twice around
		}, map[image.Point]float64{{X: 2, Y: 2}: 1, {X: 4, Y: 4}: 0}},
		{"a line between two rows", func(p *page.Page) { p.Line(tenths(2, 5), tenths(8, 5), page.Pen{Width: mm / 10}) },
			map[image.Point]float64{{X: 4, Y: 4}: 0.5, {X: 4, Y: 5}: 0.5, {X: 1, Y: 5}: 0, {X: 8, Y: 5}: 0}}, // flat ends
		{"dashes starting inside the pattern", func(p *page.Page) {
			p.Line(tenths(2, 5.5), tenths(12, 5.5), page.Pen{Width: mm / 10, Dash: []measure.Length{3 * mm / 10, 2 * mm / 10}, Phase: mm / 10})
		}, map[image.Point]float64{{X: 2, Y: 5}: 1, {X: 3, Y: 5}: 1, {X: 4, Y: 5}: 0, {X: 5, Y: 5}: 0, {X: 6, Y: 5}: 1, {X: 8, Y: 5}: 1, {X: 9, Y: 5}: 0}},
		{"dashes that begin with a gap", func(p *page.Page) {
			p.Line(tenths(2, 5.5), tenths(12, 5.5), page.Pen{Width: mm / 10, Dash: []measure.Length{3 * mm / 10, 2 * mm / 10}, Phase: 4 * mm / 10})
		}, map[image.Point]float64{{X: 2, Y: 5}: 0, {X: 3, Y: 5}: 1, {X: 5, Y: 5}: 1, {X: 6, Y: 5}: 0}},
		{"a corner is mitred", func(p *page.Page) {
			p.Polyline([]page.Point{tenths(2, 4), tenths(10, 4), tenths(10, 12)}, page.Pen{Width: 2 * mm / 10})
		}, map[image.Point]float64{{X: 10, Y: 3}: 1, {X: 9, Y: 3}: 1, {X: 11, Y: 3}: 0, {X: 9, Y: 11}: 1, {X: 9, Y: 12}: 0}},
		{"an outline closes with a corner", func(p *page.Page) {
			p.Rect(page.Rect{Min: tenths(4, 4), Max: tenths(10, 10)}, page.Pen{Width: 2 * mm / 10})
		},
			map[image.Point]float64{{X: 3, Y: 3}: 1, {X: 10, Y: 10}: 1, {X: 3, Y: 10}: 1, {X: 6, Y: 6}: 0, {X: 2, Y: 6}: 0}},
		// 1/sin(φ/2) > 10 for φ = 10°, so the corner is cut off at the end of
		// the line.
		{"a sharp corner is cut", func(p *page.Page) {
			p.Polyline([]page.Point{tenths(2, 10), tenths(12, 10), tenths(2, 8.24)}, page.Pen{Width: mm / 10})
		}, map[image.Point]float64{{X: 13, Y: 9}: 0, {X: 13, Y: 10}: 0}},
		{"marks past the left edge are not drawn", func(p *page.Page) { p.Fill(page.Rect{Min: tenths(-5, -5), Max: tenths(1, 25)}, page.Black) },
			map[image.Point]float64{{X: 0, Y: 0}: 1, {X: 0, Y: 19}: 1, {X: 1, Y: 5}: 0}},
		{"marks past the right edge are not drawn", func(p *page.Page) { p.Fill(page.Rect{Min: tenths(19, 5), Max: tenths(30, 6)}, page.Black) },
			map[image.Point]float64{{X: 19, Y: 5}: 1, {X: 18, Y: 5}: 0, {X: 0, Y: 6}: 0}},
	} {
		r, err := draw(tenth(t, tt.draw), 1, 254)
		if err != nil {
			t.Fatal(err)
		}
		for q, covered := range tt.dots {
			want := 255 * (1 - covered)
			if got := float64(r.GrayAt(q.X, q.Y).Y); got < want-1.5 || got > want+1.5 {
				t.Errorf("%s: the dot at %v has the shade %v; want %v", tt.what, q, got, want)
			}
		}
	}
}

// The ink of a circle equals its area: π r², and 2 π r w for an outline. Its
// chords stray by at most 1/32 of a dot, and by two thirds of that on average:
// 0.9 dots around 44.
func TestRound(t *testing.T) {
	ink := func(f func(p *page.Page)) (sum float64) {
		r, err := draw(tenth(t, f), 1, 254)
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range r.Pix {
			sum += 1 - float64(v)/255
		}
		return sum
	}
	if got := ink(func(p *page.Page) { p.Disc(tenths(10, 10), 7*mm/10, page.Black) }); got < 153.0 || got > 154.0 { // π · 49 = 153.94
		t.Errorf("a disc of 7 dots' radius inks %.2f dots; want 153.94", got)
	}
	if got := ink(func(p *page.Page) { p.Circle(tenths(10, 10), 7*mm/10, page.Pen{Width: mm / 10}) }); got < 43.8 || got > 44.1 { // 14 π = 43.98
		t.Errorf("a circle of 7 dots' radius inks %.2f dots; want 43.98", got)
	}
}

// The picture has the page's size in dots, states its resolution, and has at
// most sixteen greys, the page's own among them.
func TestPNG(t *testing.T) {
	d, _ := drawn(t, "")
	data, err := PNG(d, 1, 100)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if want := image.Rect(0, 0, 850, 1100); img.Bounds() != want { // 8.5 × 11 in
		t.Errorf("the picture is %v; want %v", img.Bounds(), want)
	}
	// 100 / 0.0254 = 3937.008 dots a metre, big-endian, twice; unit 1 is the metre.
	if i := bytes.Index(data, []byte("pHYs")); i < 0 || !bytes.Equal(data[i+4:i+13], []byte{0, 0, 0x0f, 0x61, 0, 0, 0x0f, 0x61, 1}) {
		t.Error("the picture does not say 3937 dots a metre")
	}
	seen := map[color.Color]bool{}
	for y := range 1100 {
		for x := range 850 {
			seen[img.At(x, y)] = true
		}
	}
	if len(seen) > 16 {
		t.Errorf("the picture has %d greys; want 16", len(seen))
	}
	// The middle of each filled area has the page's exact grey: 255 × 0.6, 0.2,
	// 0.9.
	for _, tt := range []struct {
		x, y measure.Length
		want uint8
	}{{143, 58, 153}, {173, 45, 51}, {50, 80, 230}, {140, 55, 255}, {15, 80, 0}} {
		got := color.GrayModel.Convert(img.At(dots(tt.x*mm, 100), dots(tt.y*mm, 100))).(color.Gray).Y
		if got != tt.want {
			t.Errorf("at %d,%d mm the shade is %d; want %d", tt.x, tt.y, got, tt.want)
		}
	}
	again, err := PNG(d, 1, 100)
	if err != nil || !bytes.Equal(data, again) {
		t.Errorf("two pictures of a page differ, %v", err)
	}
}

func TestFits(t *testing.T) {
	roll := measure.Size{Width: 200 * inch, Length: 36 * inch} // the longest page, of the widest usual plotter roll
	if err := Fits(roll, UsualDPI); err != nil {
		t.Errorf("at the usual resolution: %v", err)
	}
	const want = "5080 mm × 914.4 mm has 288 million dots at 200 dpi, more than the limit of 100 million; use a lower resolution, or SVG"
	if err := Fits(roll, 200); err == nil || err.Error() != want {
		t.Errorf("at 200 dpi: %v; want %s", err, want)
	}
}

// A page that does not exist or is unfinished gives an error instead of a
// picture.
func TestUnfinished(t *testing.T) {
	d := page.New(page.Info{})
	d.Add(letter)
	const want = "page 1 of 1 is not finished; add the next page or write the document first"
	if _, err := PNG(d, 1, 100); err == nil || err.Error() != want {
		t.Errorf("PNG: %v; want %s", err, want)
	}
	if _, err := SVG(d, 1); err == nil || err.Error() != want {
		t.Errorf("SVG: %v; want %s", err, want)
	}
}

// Numbers in an SVG are as short as possible.
func TestDecimal(t *testing.T) {
	for _, tt := range []struct {
		v    float64
		want string
	}{{0, "0"}, {-0.0001, "0"}, {1.5, "1.5"}, {100, "100"}, {0.3527, "0.353"}, {-2.25, "-2.25"}} {
		if got := decimal(tt.v, 3); got != tt.want {
			t.Errorf("decimal(%v) = %q; want %q", tt.v, got, tt.want)
		}
	}
}

// The SVG states the page's size, escapes its title, and defines each glyph
// once.
func TestSVG(t *testing.T) {
	d := page.New(page.Info{Title: "Tickets, Reed & Dune"})
	p := d.Add(letter)
	p.Text(at(10, 10), "tot", page.Face{Size: 12 * page.Pt})
	p.Line(at(10, 20), at(30, 20), page.Pen{Width: mm / 2, Dash: []measure.Length{4 * mm, 2 * mm}, Phase: mm, Gray: 40})
	if _, err := d.Bytes(); err != nil {
		t.Fatal(err)
	}
	data, err := SVG(d, 1)
	if err != nil {
		t.Fatal(err)
	}
	for read := xml.NewDecoder(bytes.NewReader(data)); ; {
		if _, err := read.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatalf("the SVG is not well-formed: %v", err)
		}
	}
	got := string(data)
	for _, want := range []string{
		`width="215.9mm" height="279.4mm" viewBox="0 0 215.9 279.4"`,
		"<title>Tickets, Reed &amp; Dune, page 1 of 1</title>",
		`<path d="M10 20L30 20" stroke="#666666" stroke-width="0.5" stroke-dasharray="4 2" stroke-dashoffset="1"/>`,
		`<g fill="#000000" transform="matrix(0.0042333 0 0 -0.0042333 10 10)">`, // 12 pt = 4.2333 mm over 1000 units
	} {
		if !strings.Contains(got, want) {
			t.Errorf("the SVG has no %s:\n%s", want, got)
		}
	}
	if defined, used := regexp.MustCompile(`<path id="`).FindAllString(got, -1), regexp.MustCompile(`<use `).FindAllString(got, -1); len(defined) != 2 || len(used) != 3 {
		t.Errorf("%d glyphs are described and %d used; want 2 and 3", len(defined), len(used))
	}
}

package preview

import (
	"fmt"
	"image"
	"math"
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/render/page"
	"shadewright/render/symbol"
	"shadewright/ticket/measure"
)

const (
	mm   = measure.Millimetre
	inch = measure.Inch
)

var letter = measure.Size{Width: 17 * inch / 2, Length: 11 * inch} // ANSI/ASME Y14.1 size A

func at(x, y measure.Length) page.Point { return page.Point{X: x * mm, Y: y * mm} }

// A mark is one thing to draw, so that a test can leave it out.
type mark struct {
	name string
	draw func(p *page.Page)
}

// marks returns every kind of mark, in every form that the printed sheets use.
func marks(t testing.TB) []mark {
	code, err := symbol.QR("HTTP://192.168.1.20:8080/T/ABCD-EFGH", symbol.Medium)
	if err != nil {
		t.Fatal(err)
	}
	dashed := page.Pen{Width: 350 * measure.Micrometre, Dash: []measure.Length{8 * mm, 3 * mm}}
	centred := page.Pen{Width: mm, Dash: []measure.Length{8 * mm, 2 * mm, mm, 2 * mm}, Phase: 5 * mm}
	zigzag := []page.Point{at(10, 40), at(40, 40), at(40, 70), at(15, 42)}
	return []mark{
		{"hairline", func(p *page.Page) { p.Line(at(10, 10), at(200, 10), page.Pen{}) }},
		{"dashes", func(p *page.Page) { p.Line(at(10, 15), at(200, 15), dashed) }},
		{"dashes on a slope, starting inside the pattern", func(p *page.Page) { p.Line(at(10, 20), at(200, 28), centred) }},
		{"odd dashes", func(p *page.Page) {
			p.Line(at(10, 33), at(200, 33), page.Pen{Width: mm, Dash: []measure.Length{3 * mm}})
		}},
		{"open corners, one of them cut off", func(p *page.Page) { p.Polyline(zigzag, page.Pen{Width: 2 * mm}) }},
		{"closed corners in grey", func(p *page.Page) {
			p.Polygon([]page.Point{at(50, 40), at(80, 40), at(80, 70)}, page.Pen{Width: 2 * mm, Gray: 50})
		}},
		// The pattern ends with a gap: viewers differ on whether a first and a
		// last dash join in a corner.
		{"dashes around corners", func(p *page.Page) {
			p.Rect(page.Box(90*mm, 40*mm, 26*mm, 25*mm), page.Pen{Width: mm, Dash: []measure.Length{4 * mm, 2 * mm}})
		}},
		{"circle", func(p *page.Page) { p.Circle(at(140, 55), 15*mm, page.Pen{Width: mm / 2}) }},
		{"dashed circle", func(p *page.Page) { p.Circle(at(140, 55), 10*mm, dashed) }},
		{"disc", func(p *page.Page) { p.Disc(at(140, 55), 5*mm, 60) }},
		{"white on grey", func(p *page.Page) { p.Disc(at(140, 55), 2*mm, page.White) }},
		{"polygon", func(p *page.Page) { p.FillPolygon([]page.Point{at(170, 40), at(190, 40), at(170, 70)}, 20) }},
		{"areas that touch", func(p *page.Page) {
			p.Fill(page.Box(10*mm, 75*mm, 10*mm+333, 10*mm), page.Black)
			p.Fill(page.Box(20*mm+333, 75*mm, 10*mm, 10*mm), page.Black)
		}},
		{"light grey", func(p *page.Page) { p.Fill(page.Box(40*mm, 75*mm, 20*mm, 10*mm), 90) }},
		{"past the page's edge", func(p *page.Page) { p.Line(at(195, 80), at(230, 100), page.Pen{Width: 3 * mm}) }},
		{"fractions and kerning", func(p *page.Page) {
			p.Text(at(10, 105), "Wrapping 31\u20095\u20448\u00a0in × 27½, AVATAR To", page.Face{Size: 16 * page.Pt})
		}},
		{"small type", func(p *page.Page) {
			p.Text(at(10, 112), "hem fold: the cloth turns here, ½ in from the raw edge", page.Face{Size: 8 * page.Pt})
		}},
		{"turned, placed by its end", func(p *page.Page) {
			p.Text(at(20, 130), "raw edge", page.Face{Size: 14 * page.Pt, Weight: page.Bold, Turn: 90, Align: page.End})
		}},
		{"slanted, placed by its middle, in grey", func(p *page.Page) {
			p.Text(at(90, 150), "semibold 30° 7⁄8", page.Face{Size: 20 * page.Pt, Weight: page.Semibold, Turn: 30, Gray: 40, Align: page.Middle})
		}},
		{"no glyph", func(p *page.Page) { p.Text(at(150, 150), "日", page.Face{Size: 20 * page.Pt}) }},
		{"large type", func(p *page.Page) {
			p.Text(at(10, 200), "27½ × 40", page.Face{Size: 60 * page.Pt, Weight: page.Bold})
		}},
		{"symbol", func(p *page.Page) { code.Draw(p, at(150, 90), mm) }},
	}
}

// drawn returns a document of one page with every mark except the named one,
// and its PDF.
func drawn(t testing.TB, but string) (*page.Document, []byte) {
	t.Helper()
	d := page.New(page.Info{Title: "Every kind of mark"})
	p := d.Add(letter)
	for _, m := range marks(t) {
		if m.name != but {
			m.draw(p)
		}
	}
	pdf, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return d, pdf
}

// proofDPI makes a hairline wider than a dot: PDFium draws nothing thinner than
// one dot.
const proofDPI = 300

// farthest compares two pictures of a page and returns the greatest difference,
// in shades of 255, and its place. It compares the means of 2 mm squares,
// because single dots differ: PDFium moves a letter to whole dots, by up to one
// dot. One dot along the whole edge of a square is 1/24 of it, 11 shades; the
// thinnest line, 0.2 mm, is a tenth of a square, 25 shades.
func farthest(a, b *image.Gray) (shades float64, where string) {
	side := int(math.Round(2 * proofDPI / 25.4))
	mean := func(img *image.Gray, x0, y0 int) float64 {
		sum, n := 0, 0
		for y := y0; y < min(y0+side, img.Rect.Dy()); y++ {
			for x := x0; x < min(x0+side, img.Rect.Dx()); x++ {
				sum += int(img.GrayAt(x, y).Y)
				n++
			}
		}
		return float64(sum) / float64(n)
	}
	for y := 0; y < a.Rect.Dy(); y += side {
		for x := 0; x < a.Rect.Dx(); x += side {
			if d := math.Abs(mean(a, x, y) - mean(b, x, y)); d > shades {
				shades = d
				where = fmt.Sprintf("%.0f,%.0f mm", float64(x)*25.4/proofDPI, float64(y)*25.4/proofDPI)
			}
		}
	}
	return shades, where
}

// dotted draws a page in as many dots as another program used: PDFium may round
// up to one more dot than the resolution gives.
func dotted(t testing.TB, d *page.Document, number int, size image.Rectangle) *image.Gray {
	t.Helper()
	r := newRaster(d.Size(number), size.Dx(), size.Dy())
	if err := d.Replay(number, r); err != nil || r.err != nil {
		t.Fatal(err, r.err)
	}
	return r.Gray
}

// most is above the difference that moving a letter makes, and below that of a
// missing hairline.
const most = 18

// A preview looks like the PDF as rendered by PDFium, an independent program.
func TestLooksLikeThePDF(t *testing.T) {
	d, pdf := drawn(t, "")
	want := readback.Open(t, pdf).Render(0, proofDPI)
	shades, where := farthest(dotted(t, d, 1, want.Rect), want)
	t.Logf("the pictures are at most %.1f shades apart, at %s", shades, where)
	if shades > most {
		t.Errorf("the preview is %.1f shades off at %s; want at most %d", shades, where, most)
	}
}

// The comparison detects each missing mark.
func TestMissingIsSeen(t *testing.T) {
	_, pdf := drawn(t, "")
	want := readback.Open(t, pdf).Render(0, proofDPI)
	for _, m := range readback.Few(marks(t), 3) {
		d, _ := drawn(t, m.name)
		if shades, _ := farthest(dotted(t, d, 1, want.Rect), want); shades <= most {
			t.Errorf("without %q the preview is only %.1f shades off", m.name, shades)
		}
	}
}

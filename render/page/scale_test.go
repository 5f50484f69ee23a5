package page_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"shadewright/render/internal/readback"
	"shadewright/render/page"
	"shadewright/ticket/measure"
)

const (
	mm   = measure.Millimetre
	inch = measure.Inch
)

var (
	a4     = measure.Size{Width: 210 * mm, Length: 297 * mm}       // ISO 216
	letter = measure.Size{Width: 17 * inch / 2, Length: 11 * inch} // ANSI/ASME Y14.1 size A
)

// draw returns the PDF of one page.
func draw(t testing.TB, info page.Info, size measure.Size, f func(p *page.Page)) []byte {
	t.Helper()
	d := page.New(info)
	f(d.Add(size))
	b, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// near checks a measured distance against an exact one.
func near(got float64, want, tolerance measure.Length) bool {
	return math.Abs(got-want.Millimetres()) <= tolerance.Millimetres()
}

// tolerance is how far a mark may lie from its intended place: 0.002 mm. Of
// that, 0.0018 mm come from the page box, which the library rounds to 0.01 pt,
// and the rest from PDFium's single-precision floats. The shop needs 0.02 mm.
const tolerance = 2 * measure.Micrometre

func at(got readback.Point, want page.Point) bool {
	return near(got.X, want.X, tolerance) && near(got.Y, want.Y, tolerance)
}

func TestTrueToScale(t *testing.T) {
	for _, size := range []measure.Size{
		letter, a4,
		{Width: 11 * inch, Length: 17 * inch},
		{Width: 36 * inch, Length: 48 * inch},
		{Width: 200 * inch, Length: 17 * inch}, // the longest page there is
		{Width: 100 * mm, Length: 150 * mm},
	} {
		var want [][2]page.Point
		pdf := draw(t, page.Info{}, size, func(p *page.Page) {
			for i := range measure.Length(97) { // a prime, so that all residues occur
				x, y := size.Width*i/96, size.Length*i/96
				for _, l := range [][2]page.Point{
					{{X: 0, Y: y}, {X: size.Width, Y: y}},
					{{X: x, Y: 0}, {X: x, Y: size.Length}},
					{{X: x, Y: y}, {X: size.Width - x, Y: size.Length / 3}},
				} {
					want = append(want, l)
					p.Line(l[0], l[1], page.Pen{Width: measure.Length(i%4+1) * mm / 5})
				}
			}
		})
		doc := readback.Open(t, pdf)
		if w, h := doc.Size(0); !near(w, size.Width, tolerance) || !near(h, size.Length, tolerance) {
			t.Errorf("page of %v × %v is %v × %v", size.Width, size.Length, w, h)
		}
		lines := doc.Marks(0).Lines
		kept := 0
		for _, w := range want {
			if w[0] == w[1] {
				continue // drawn, but PDFium reports no line
			}
			l := lines[kept]
			kept++
			if !at(l.From, w[0]) || !at(l.To, w[1]) {
				t.Errorf("%v × %v: line %v is at %v to %v", size.Width, size.Length, w, l.From, l.To)
			}
		}
		if kept != len(lines) {
			t.Errorf("%d lines; want %d", len(lines), kept)
		}
	}
}

// PDFium's picture agrees with its list of objects to a twentieth of a pixel.
func TestRendered(t *testing.T) {
	y, x := 100*inch/16+3*mm, 43*inch/16
	pdf := draw(t, page.Info{}, letter, func(p *page.Page) {
		p.Line(page.Point{X: 0, Y: y}, page.Point{X: letter.Width, Y: y}, page.Pen{Width: mm / 2})
		p.Line(page.Point{X: x, Y: 0}, page.Point{X: x, Y: letter.Length}, page.Pen{Width: mm})
	})
	r := readback.Open(t, pdf).Raster(0, 300)
	if s, ok := r.Level(readback.Point{X: 150, Y: y.Millimetres()}, 2, 30); !ok || !near(s.Centre, y, 5*measure.Micrometre) || !near(s.Width, mm/2, 10*measure.Micrometre) {
		t.Errorf("level line rendered at %+v; want %v, 0.5 mm wide", s, y)
	}
	if s, ok := r.Upright(readback.Point{X: x.Millimetres(), Y: 50}, 2, 20); !ok || !near(s.Centre, x, 5*measure.Micrometre) || !near(s.Width, mm, 10*measure.Micrometre) {
		t.Errorf("upright line rendered at %+v; want %v, 1 mm wide", s, x)
	}
}

func TestPens(t *testing.T) {
	pens := []page.Pen{
		{},
		{Width: mm, Dash: []measure.Length{4 * mm, 2 * mm}},
		{Width: mm, Dash: []measure.Length{4 * mm, 2 * mm}, Phase: 5 * mm},
		{Width: mm / 3, Dash: []measure.Length{3 * mm, mm, mm, mm}, Gray: 40},
		{Width: mm / 3, Gray: 40},
	}
	pdf := draw(t, page.Info{}, a4, func(p *page.Page) {
		for i, pen := range pens {
			y := measure.Length(i+1) * 10 * mm
			p.Line(page.Point{X: 10 * mm, Y: y}, page.Point{X: 200 * mm, Y: y}, pen)
		}
	})
	lines := readback.Open(t, pdf).Marks(0).Lines
	if len(lines) != len(pens) {
		t.Fatalf("%d lines; want %d", len(lines), len(pens))
	}
	for i, l := range lines {
		pen := pens[i]
		if pen.Width == 0 {
			pen.Width = page.Hairline
		}
		if !near(l.Width, pen.Width, tolerance) || math.Abs(l.Gray-float64(pen.Gray)/100) > 0.005 || len(l.Dash) != len(pen.Dash) {
			t.Errorf("pen %d drew %+v; want %+v", i, l, pen)
			continue
		}
		for j, d := range pen.Dash {
			if !near(l.Dash[j], d, tolerance) {
				t.Errorf("pen %d: dash %d is %v; want %v", i, j, l.Dash[j], d)
			}
		}
		if !near(l.Phase, pen.Phase, tolerance) {
			t.Errorf("pen %d: phase is %v; want %v", i, l.Phase, pen.Phase)
		}
	}
}

// A correction moves every point away from the middle of the page by the ratio
// of the wanted to the measured length. By hand: a printer that makes 98 mm of
// 100 needs a line 50 mm from the middle at 50 × 100/98 = 51.0204 mm.
func TestCorrection(t *testing.T) {
	c := page.Correction{X: 1_020_408, Y: 995_025} // 100/98 and 200/201
	pdf := draw(t, page.Info{Correction: c}, a4, func(p *page.Page) {
		p.Line(page.Point{X: 55 * mm, Y: 48500 * measure.Micrometre}, page.Point{X: 105 * mm, Y: 148500 * measure.Micrometre}, page.Pen{})
		p.Text(page.Point{X: 155 * mm, Y: 148500 * measure.Micrometre}, "x", page.Face{Size: 10 * page.Pt})
	})
	m := readback.Open(t, pdf).Marks(0)
	// 105 − 50×100/98 and 148.5 − 100×200/201; the middle stays.
	want := [2]page.Point{{X: 53_979_592, Y: 48_997_512}, {X: 105 * mm, Y: 148500 * measure.Micrometre}}
	if l := m.Lines[0]; !at(l.From, want[0]) || !at(l.To, want[1]) {
		t.Errorf("corrected line at %v to %v; want %v", l.From, l.To, want)
	}
	if x := m.Texts[0].At; !near(x.X, 156_020_408, tolerance) {
		t.Errorf("corrected text at %v; want 156.0204 (105 + 50×100/98)", x.X)
	}
}

// A page on its side goes through the printer turned, so lengths along the page
// take the factor measured down the upright sheet. By hand: a printer that
// makes 201 mm of 200 down the sheet needs a point 100 mm from the middle of a
// 297 mm page at 100 × 200/201 = 99.5025 mm. Across it, a point 50 mm from the
// middle belongs at 50 × 100/98 = 51.0204 mm.
func TestCorrectionOnItsSide(t *testing.T) {
	c := page.Correction{X: 1_020_408, Y: 995_025}
	side := measure.Size{Width: a4.Length, Length: a4.Width}
	pdf := draw(t, page.Info{Correction: c}, side, func(p *page.Page) {
		p.Line(page.Point{X: 48500 * measure.Micrometre, Y: 55 * mm}, page.Point{X: 148500 * measure.Micrometre, Y: 105 * mm}, page.Pen{})
	})
	m := readback.Open(t, pdf).Marks(0)
	want := page.Point{X: 48_997_512, Y: 53_979_592} // 148.5 − 100×200/201 and 105 − 50×100/98
	if l := m.Lines[0]; !at(l.From, want) || !at(l.To, page.Point{X: 148500 * measure.Micrometre, Y: 105 * mm}) {
		t.Errorf("corrected line at %v to %v; want %v", l.From, l.To, want)
	}
}

// The distance of a point from the middle scales by the correction.
func TestCorrectionProportion(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		f := measure.Factor(rapid.Int64Range(950_000, 1_050_000).Draw(rt, "factor"))
		x := measure.Length(rapid.Int64Range(0, int64(a4.Width)).Draw(rt, "x"))
		rec := draw(t, page.Info{Correction: page.Correction{X: f}}, a4, func(p *page.Page) {
			p.Line(page.Point{X: x}, page.Point{X: x, Y: mm}, page.Pen{})
		})
		got := readback.Open(t, rec).Marks(0).Lines[0].From.X
		want := 105 + (x.Millimetres()-105)*float64(f)/1e6
		if math.Abs(got-want) > 0.002 {
			rt.Fatalf("x %v is drawn at %v; want %v", x, got, want)
		}
	})
}

func TestAreas(t *testing.T) {
	pdf := draw(t, page.Info{}, a4, func(p *page.Page) {
		for i := range measure.Length(300) { // more than one path holds
			p.Fill(page.Box(i%20*inch/16, 20*mm+i/20*inch/16, inch/16, inch/16), page.Black)
		}
		// Swapped corners give the same rectangle.
		p.Fill(page.Rect{Min: page.Point{X: 60 * mm, Y: 120 * mm}, Max: page.Point{X: 50 * mm, Y: 100 * mm}}, 40)
	})
	areas := readback.Open(t, pdf).Marks(0).Areas
	if len(areas) != 301 {
		t.Fatalf("%d areas; want 301", len(areas))
	}
	for i, a := range areas[:300] {
		i := measure.Length(i)
		b := page.Box(i%20*inch/16, 20*mm+i/20*inch/16, inch/16, inch/16)
		if !at(a.Min, b.Min) || !at(a.Max, b.Max) || a.Gray != 0 {
			t.Errorf("area %d at %v to %v; want %v", i, a.Min, a.Max, b)
		}
	}
	last := areas[300]
	if want := page.Box(50*mm, 100*mm, 10*mm, 20*mm); !at(last.Min, want.Min) || !at(last.Max, want.Max) || math.Abs(last.Gray-0.4) > 0.005 {
		t.Errorf("backward rectangle is %+v; want %v in gray 40", last, want)
	}
}

// ink returns how dark the page is at a point, from 0 to 1.
func ink(r readback.Raster, x, y float64) float64 {
	w, h := float64(r.Rect.Dx()), float64(r.Rect.Dy())
	return 1 - float64(r.GrayAt(int(x/210*w), int(y/297*h)).Y)/255
}

// Areas that touch show no seam, areas that overlap show no hole, and round
// shapes are round.
func TestFilled(t *testing.T) {
	pdf := draw(t, page.Info{}, a4, func(p *page.Page) {
		p.Fill(page.Box(10*mm, 10*mm, 10*mm+333, 10*mm), page.Black)
		p.Fill(page.Box(20*mm+333, 10*mm, 10*mm, 10*mm), page.Black)
		square := page.Box(50*mm, 10*mm, 20*mm, 20*mm).Corners()
		p.FillPolygon(square, page.Black)
		square[1], square[3] = square[3], square[1] // the other way round
		p.FillPolygon(square, page.Black)
		p.Disc(page.Point{X: 100 * mm, Y: 20 * mm}, 10*mm, 50)
		p.Disc(page.Point{X: 100 * mm, Y: 20 * mm}, 5*mm, page.White)
		p.Circle(page.Point{X: 140 * mm, Y: 20 * mm}, 10*mm, page.Pen{Width: mm})
		p.Polyline([]page.Point{{X: 20 * mm, Y: 60 * mm}, {X: 40 * mm, Y: 60 * mm}, {X: 40 * mm, Y: 80 * mm}}, page.Pen{Width: 4 * mm})
		p.Polygon(page.Box(110*mm, 60*mm, 20*mm, 20*mm).Corners(), page.Pen{Width: mm})
	})
	r := readback.Open(t, pdf).Raster(0, 300)
	for _, c := range []struct {
		what string
		x, y float64
		want float64
	}{
		{"seam of two rectangles", 20, 15, 1},
		{"two polygons that turn against each other", 60, 20, 1},
		{"ring of a disc", 107.5, 20, 0.5}, {"middle of a disc", 100, 20, 0},
		{"circle, right", 150, 20, 1}, {"circle, top", 140, 10, 1}, {"circle, 45°", 140 - 7.0711, 20 + 7.0711, 1}, {"inside the circle", 140, 20, 0},
		{"outer corner of a polyline", 41.5, 58.5, 1}, {"a polyline is not closed", 29, 69, 0},
		{"left side of a polygon closes", 110, 70, 1}, {"inside a polygon", 120, 70, 0},
	} {
		if got := ink(r, c.x, c.y); math.Abs(got-c.want) > 0.02 {
			t.Errorf("%s: ink %.2f at %v,%v; want %v", c.what, got, c.x, c.y, c.want)
		}
	}
}

func ExampleRecorder() {
	var r page.Recorder
	r.Line(page.Point{Y: 320 * mm}, page.Point{X: 1200 * mm, Y: 320 * mm}, page.Pen{Width: mm / 4, Dash: []measure.Length{4 * mm, 2 * mm}, Phase: inch / 64})
	r.Text(page.Point{X: 5 * mm, Y: 320 * mm}, "fold 1", page.Face{Size: 4 * mm, Align: page.Middle, Turn: 90})
	fmt.Print(r.String())
	// Output:
	// line 0,320 1200,320 pen 0.25 dash 4 2 +0.396875
	// text 5,320 "fold 1" regular 4 middle turn 90
}

package readback

import (
	"bytes"
	"fmt"
	"math"
	"testing"
)

// handmade returns a one-page PDF of 8.5 × 11 in with the given content,
// assembled here without any of our packages.
func handmade(content string) []byte {
	var b bytes.Buffer
	var at []int
	b.WriteString("%PDF-1.6\n")
	for i, obj := range []string{
		"<</Type/Catalog/Pages 2 0 R/ViewerPreferences<</PrintScaling/None>>>>",
		"<</Type/Pages/Count 1/Kids[3 0 R]>>",
		"<</Type/Page/Parent 2 0 R/MediaBox[0 0 612 792]/Contents 4 0 R/Resources<</Font<</F1 5 0 R>>>>>>",
		fmt.Sprintf("<</Length %d>>stream\n%s\nendstream", len(content)+1, content),
		"<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>",
	} {
		at = append(at, b.Len())
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", i+1, obj)
	}
	xref := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(at)+1)
	for _, n := range at {
		fmt.Fprintf(&b, "%010d 00000 n \n", n)
	}
	fmt.Fprintf(&b, "trailer\n<</Size %d/Root 1 0 R>>\nstartxref\n%d\n%%%%EOF\n", len(at)+1, xref)
	return b.Bytes()
}

// near reports whether a and b differ by less than a micrometre, the precision
// of PDFium's single-precision floats on such a page.
func near(a, b float64) bool { return math.Abs(a-b) < 0.001 }

func at(p Point, x, y float64) bool { return near(p.X, x) && near(p.Y, y) }

// Every expected value is worked out by hand from 1 in = 72 units = 25.4 mm, on
// a page 11 in high: y = (792 − v) × 25.4 / 72.
func TestMarks(t *testing.T) {
	m := Open(t, handmade(`
		q 1 w 0.5 G [7.2 3.6] 1.8 d 72 720 m 144 720 l S Q
		q 1 0 0 1 72 72 cm 2 w 0 0 m 0 144 l S Q
		0 g 36 36 72 18 re f
		36 36 m 72 36 l 72 72 l f
		0 0 36 18 re 72 0 36 18 re f
		q 0 1 -1 0 360 360 cm BT /F1 12 Tf 0 0 Td (up) Tj ET Q
		0 0 m 10 10 20 10 30 0 c S
		180 144 m 180 164 164 180 144 180 c 124 180 108 164 108 144 c 108 124 124 108 144 108 c 164 108 180 124 180 144 c h S
	`)).Marks(0)

	if len(m.Lines) != 2 || len(m.Areas) != 3 || len(m.Texts) != 1 || m.Other != 2 {
		t.Fatalf("%d lines, %d areas, %d texts, %d others; want 2, 3, 1, 2 as drawn", len(m.Lines), len(m.Areas), len(m.Texts), m.Other)
	}
	l := m.Lines[0]
	if !at(l.From, 25.4, 25.4) || !at(l.To, 50.8, 25.4) || !near(l.Width, 25.4/72) || math.Abs(l.Gray-0.5) > 0.01 {
		t.Errorf("dashed line = %+v; want 1 in long, 1 in from top and left, 1 unit wide, middle grey", l)
	}
	if len(l.Dash) != 2 || !near(l.Dash[0], 2.54) || !near(l.Dash[1], 1.27) || !near(l.Phase, 0.635) {
		t.Errorf("dash = %v + %v; want 2.54 1.27 + 0.635", l.Dash, l.Phase)
	}
	l = m.Lines[1]
	if !at(l.From, 25.4, 254) || !at(l.To, 25.4, 203.2) || len(l.Dash) != 0 {
		t.Errorf("moved line = %+v; want x 25.4 from 254 to 203.2, solid", l)
	}
	if a := m.Areas[0]; !at(a.Min, 12.7, 260.35) || !at(a.Max, 38.1, 266.7) || a.Gray != 0 {
		t.Errorf("area = %+v; want 12.7,260.35 to 38.1,266.7 black", a)
	}
	if a := m.Areas[2]; !at(a.Min, 25.4, 273.05) || !at(a.Max, 38.1, 279.4) {
		t.Errorf("second area of a path = %+v; want 25.4,273.05 to 38.1,279.4", a)
	}
	if r := m.Rounds; len(r) != 1 || !at(r[0].Centre, 50.8, 228.6) || !near(r[0].Width, 25.4) || !near(r[0].Height, 25.4) {
		t.Errorf("rounds = %+v; want one of 1 in about 2 in from the left and 9 from the top", r)
	}
	x := m.Texts[0]
	if !at(x.At, 127, 152.4) || !near(x.Size, 12*25.4/72) || x.Text != "up" || !at(x.Turn, 0, -1) {
		t.Errorf("text = %+v; want \"up\" at 127,152.4 reading upward", x)
	}
}

func TestDocument(t *testing.T) {
	d := Open(t, handmade(""))
	if w, h := d.Size(0); !near(w, 215.9) || !near(h, 279.4) { // letter, ANSI/ASME Y14.1 size A
		t.Errorf("Size = %v × %v; want 215.9 × 279.4", w, h)
	}
	if d.Pages() != 1 {
		t.Errorf("Pages = %d; want 1", d.Pages())
	}
	if d.AsksForScale() {
		t.Error("AsksForScale = true; the catalogue says PrintScaling None")
	}
	plain := bytes.Replace(handmade(""), []byte("/PrintScaling/None"), []byte("/HideToolbar false"), 1)
	if !Open(t, plain).AsksForScale() {
		t.Error("AsksForScale = false for a catalogue without PrintScaling")
	}
}

// Raster measures a line to a few hundredths of a pixel.
func TestRaster(t *testing.T) {
	d := Open(t, handmade("1 w 72 700.3 m 540 700.3 l S  3 w 100.7 100 m 100.7 500 l S"))
	for _, dpi := range []int{150, 200, 300} {
		r := d.Raster(0, dpi)
		tolerance := 0.05 * 25.4 / float64(dpi)
		s, ok := r.Level(Point{100, 32}, 2, 20)
		if want := (792 - 700.3) * 25.4 / 72; !ok || math.Abs(s.Centre-want) > tolerance || math.Abs(s.Width-25.4/72) > tolerance {
			t.Errorf("%d dpi: level line at %+v, %v; want centre %.4f, width %.4f", dpi, s, ok, want, 25.4/72)
		}
		s, ok = r.Upright(Point{35, 150}, 3, 20)
		if want := 100.7 * 25.4 / 72; !ok || math.Abs(s.Centre-want) > tolerance || math.Abs(s.Width-3*25.4/72) > tolerance {
			t.Errorf("%d dpi: upright line at %+v, %v; want centre %.4f, width %.4f", dpi, s, ok, want, 3*25.4/72)
		}
		if s, ok := r.Level(Point{100, 150}, 2, 20); ok {
			t.Errorf("%d dpi: found %+v on bare paper", dpi, s)
		}
	}
}

// Text and stripes are not read as codes.
func TestNoCodes(t *testing.T) {
	var b bytes.Buffer
	for i := range 60 {
		fmt.Fprintf(&b, "%d 300 %d 200 re f ", 50+8*i, 1+i%5)
	}
	b.WriteString("BT /F1 14 Tf 60 700 Td (not a code) Tj ET")
	if codes := Open(t, handmade(b.String())).Codes(0, 150); len(codes) != 0 {
		t.Errorf("read %+v from stripes", codes)
	}
}

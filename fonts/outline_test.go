package fonts

import "testing"

// Every glyph of every face has a shape with the glyph's own advance, whose
// contours begin with a move. Letters reach the stated heights.
func TestShapes(t *testing.T) {
	for _, w := range Weights() {
		for _, b := range covered {
			for r := b.from; r <= b.to; r++ {
				g, _ := w.Glyph(r)
				s, err := w.Shape(g.Index)
				if err != nil {
					t.Fatalf("%v, %c: %v", w, r, err)
				}
				if s.Advance != int(g.Advance) {
					t.Errorf("%v, %c: the shape advances by %d; want %d", w, r, s.Advance, g.Advance)
				}
				if len(s.Segments) > 0 && s.Segments[0].Kind != Move {
					t.Errorf("%v, %c: the outline begins with a segment of kind %d", w, r, s.Segments[0].Kind)
				}
			}
		}
		for _, tt := range []struct {
			r         rune
			low, high int // in font units; weights differ by up to 14
		}{{'H', 0, CapHeight}, {'d', -12, Ascent}, {'0', -12, Figure}, {'g', -Descent, 0}} {
			low, high := span(t, w, tt.r)
			if low < tt.low || low > tt.low+14 || tt.high > 0 && (high > tt.high || high < tt.high-14) {
				t.Errorf("%v: %c reaches from %d to %d; want %d to %d", w, tt.r, low, high, tt.low, tt.high)
			}
		}
	}
	if low, high := span(t, Regular, ' '); low != 0 || high != 0 {
		t.Errorf("a space is drawn from %d to %d", low, high)
	}
}

// span returns the lowest and the highest point of a glyph's outline.
func span(t *testing.T, w Weight, r rune) (low, high int) {
	t.Helper()
	g, _ := w.Glyph(r)
	s, err := w.Shape(g.Index)
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range s.Segments {
		low, high = min(low, g.To[1]), max(high, g.To[1])
	}
	return low / Fine, high / Fine
}

func TestNoShape(t *testing.T) {
	if s, err := Regular.Shape(0xFFFF); err == nil {
		t.Errorf("the highest possible glyph index has the shape %+v", s)
	}
}

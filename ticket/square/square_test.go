package square

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"shadewright/ticket/finding/findingtest"
	"shadewright/ticket/measure"
)

const (
	in = measure.Inch
	mm = measure.Millimetre
)

var (
	inches = measure.Usual(measure.Inches)
	metric = measure.Usual(measure.Millimetres)

	levels         = findingtest.Levels
	texts          = findingtest.Texts
	complete       = findingtest.Complete
	wantInputError = findingtest.WantInputError
)

// millimetres turns a literal of a table into a length.
func millimetres(v float64) measure.Length { return measure.FromMillimetres(v) }

// within reports whether got is within tol of want.
func within(got, want, tol float64) bool { return math.Abs(got-want) <= tol }

// lengths draws a length between two bounds.
func lengths(t *rapid.T, name string, low, high measure.Length) measure.Length {
	return measure.Length(rapid.Int64Range(int64(low), int64(high)).Draw(t, name))
}

// leaning builds a panel from its corners: the top moved right by over, and sides
// of length l. Judge must recover these from the measurements.
func leaning(w, l measure.Length, over float64) Quad {
	x, y := over, math.Sqrt(math.Pow(l.Millimetres(), 2)-over*over)
	b := w.Millimetres()
	return Quad{
		Size: measure.Size{Width: w, Length: l},
		Diagonals: [2]measure.Length{
			millimetres(math.Hypot(b-x, y)), // top left (x, y) to bottom right (b, 0)
			millimetres(math.Hypot(b+x, y)), // top right (b + x, y) to bottom left (0, 0)
		},
	}
}

// Cases in inches: width, length, difference of the diagonals; lean in degrees,
// drift along the length, drift along the width. Computed with python3's decimal
// and math.asin: sin δ = Δ√(4D² − Δ²)/(4wl); drifts l·sin δ and w·sin δ.
func TestSquareCases(t *testing.T) {
	for _, c := range []struct{ w, h, delta, angle, along, across float64 }{
		{36, 48, 0.25, 0.24868, 0.20833, 0.15625},
		{36, 48, 0.125, 0.12434, 0.10417, 0.07812},
		{24, 30, 0.125, 0.19108, 0.10005, 0.08004},
		{60, 60, 0.25, 0.16881, 0.17678, 0.17678},
	} {
		w, h := millimetres(c.w*25.4), millimetres(c.h*25.4)
		d := measure.Diagonal(w, h)
		half := millimetres(c.delta * 25.4 / 2)
		s, _, err := Quad{Size: measure.Size{Width: w, Length: h}, Diagonals: [2]measure.Length{d - half, d + half}}.Judge(in/8, inches)
		if err != nil {
			t.Fatal(err)
		}
		if !within(s.Angle, c.angle, 6e-6) || !within(s.TopOver.Inches(), c.along, 6e-6) || !within(s.Trim.Inches(), c.across, 6e-6) {
			t.Errorf("%+v: %.5f°, %.5f, %.5f", c, s.Angle, s.TopOver.Inches(), s.Trim.Inches())
		}
		if s.Lean != LeanRight || s.Corners != [2]Corner{TopRight, BottomLeft} {
			t.Errorf("%+v: leans %v, trim %v; the longer diagonal ends top right", c, s.Lean, s.Corners)
		}
		// For small leans, (d1² − d2²)/(4w) equals the drift over the length.
		near := (math.Pow(s.Target.Inches()+c.delta/2, 2) - math.Pow(s.Target.Inches()-c.delta/2, 2)) / (4 * c.w)
		if !within(s.TopOver.Inches(), near, 1e-4) {
			t.Errorf("%+v: %.5f in, near formula %.5f", c, s.TopOver.Inches(), near)
		}
	}
}

// The first case in millimetres, 914.4 × 1219.2, 6.35 mm: by hand, 0.20833 and
// 0.15625 in × 25.4.
func TestSquareMetric(t *testing.T) {
	w, h := millimetres(914.4), millimetres(1219.2)
	s, _, err := Quad{Size: measure.Size{Width: w, Length: h}, Diagonals: [2]measure.Length{millimetres(1524 + 3.175), millimetres(1524 - 3.175)}}.Judge(3*mm, metric)
	if err != nil {
		t.Fatal(err)
	}
	if s.Lean != LeanLeft || !within(s.TopOver.Millimetres(), 5.2917, 6e-5) || !within(s.Trim.Millimetres(), 3.9687, 6e-5) || s.Square {
		t.Errorf("got %+v; want 5.2917 and 3.9687 mm to the left", s)
	}
}

// 36 × 48 in with one end 1/8 in off over the 36 in side: 0.19894°, diagonals
// 60.09992 and 59.89992 in, difference 0.20000 in. Computed with python3's math:
// asin(0.125/36), √(36² + 48² ± 2·36·48·sin δ).
func TestSquareTheOtherWay(t *testing.T) {
	q := Quad{Size: measure.Size{Width: 36 * in, Length: 48 * in},
		Diagonals: [2]measure.Length{millimetres(60.09992 * 25.4), millimetres(59.89992 * 25.4)}}
	s, _, err := q.Judge(in/8, inches)
	if err != nil {
		t.Fatal(err)
	}
	if !within(s.Angle, 0.19894, 1e-5) || !within(s.Trim.Inches(), 0.125, 1e-5) || !within(s.Difference.Inches(), 0.2, 1e-5) {
		t.Errorf("angle %.5f, trim %.5f, difference %.5f; want 0.19894, 0.125, 0.2", s.Angle, s.Trim.Inches(), s.Difference.Inches())
	}
	if s.Misfit.Abs() > in/1000 {
		t.Errorf("misfit %v; the case is a parallelogram", s.Misfit)
	}
}

// Common practice, no source: a panel of 25 × 43-3/4 in is square when both
// diagonals read 50-3/8 in (common practice, no source). By hand √(25² + 43.75²) =
// 50.389, to the nearest 1/16.
func TestSquarePanel(t *testing.T) {
	// Common practice, no source:
	q := Quad{Size: measure.Size{Width: 25 * in, Length: 43*in + 3*in/4}, Diagonals: [2]measure.Length{50*in + 3*in/8, 50*in + 3*in/8}}
	s, found, err := q.Judge(in/8, inches)
	if err != nil {
		t.Fatal(err)
	}
	if target := inches.Format(s.Target); !s.Square || s.Lean != Upright || target != "50-3/8 in" { // common practice, no source
		t.Errorf("got %+v, target %s; want it square, with the target above", s, target)
	}
	complete(t, found)
	if levels(found) != "note square" || !strings.Contains(found[0].Text.String(), "only if top and bottom are equally wide") {
		t.Errorf("findings %v; want the note that equal diagonals do not prove a rectangle", found)
	}
}

// An isosceles trapezium, top 910, bottom 900, height 1200: both diagonals are
// √(905² + 1200²), and only the widths show that it is not a rectangle.
func TestTrapezium(t *testing.T) {
	d := millimetres(math.Hypot(905, 1200))
	q := Quad{Size: measure.Size{Width: 905 * mm, Length: 1200 * mm}, Diagonals: [2]measure.Length{d, d}, Top: 910 * mm, Bottom: 900 * mm}
	s, found, err := q.Judge(3*mm, metric)
	if err != nil {
		t.Fatal(err)
	}
	if s.Square || s.Difference != 0 || s.Taper[0] != 10*mm {
		t.Errorf("got %+v; want not square, for a taper of 10 mm", s)
	}
	complete(t, found)
	if levels(found) != "caution square" || !strings.Contains(found[0].Text.String(), "the top is 10 mm longer than the bottom") {
		t.Errorf("findings %v", found)
	}
	q.Top, q.Bottom = q.Bottom, q.Top
	if _, found, _ = q.Judge(3*mm, metric); !strings.Contains(texts(found), "the bottom is 10 mm longer than the top") {
		t.Errorf("findings %v", found)
	}
	complete(t, found)
	q.Top, q.Bottom, q.Left, q.Right = 905*mm, 905*mm, 1205*mm, 1195*mm
	if _, found, _ = q.Judge(3*mm, metric); !strings.Contains(texts(found), "the left side is 10 mm longer than the right side") {
		t.Errorf("findings %v", found)
	}
	complete(t, found)
	q.Left, q.Right = q.Right, q.Left
	if _, found, _ = q.Judge(3*mm, metric); !strings.Contains(texts(found), "the right side is 10 mm longer than the left side") {
		t.Errorf("findings %v", found)
	}
	complete(t, found)
}

// An edge 0.25° off drifts 6.545 mm over 1500 mm (by hand: 1500·sin 0.25° = 6.545).
func TestLeanAngle(t *testing.T) {
	s, _, err := leaning(900*mm, 1500*mm, 6.545).Judge(3*mm, metric)
	if err != nil || !within(s.Angle, 0.25, 2e-5) {
		t.Errorf("angle %v, %v; want 0.25", s.Angle, err)
	}
}

// After both ends are trimmed as Judge says, the corners form a rectangle. The test
// works from coordinates, without any formula of this package.
func TestSquareProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, l := lengths(t, "w", 200*mm, 3000*mm), lengths(t, "l", 200*mm, 3000*mm)
		over := rapid.Float64Range(-0.2, 0.2).Draw(t, "lean") * l.Millimetres()
		q := leaning(w, l, over)
		s, found, err := q.Judge(3*mm, metric)
		if err != nil {
			t.Fatal(err)
		}
		complete(t, found)
		if len(found) == 0 && !s.Square {
			t.Fatal("off square without a finding")
		}
		if !within(s.TopOver.Millimetres(), math.Abs(over), 1e-4) {
			t.Fatalf("top stands over by %v; built with %v mm", s.TopOver, over)
		}
		// A cut from the lower left corner by Trim along the left side meets the
		// end of the bottom at a right angle to the side.
		b, y := w.Millimetres(), math.Sqrt(math.Pow(l.Millimetres(), 2)-over*over)
		ux, uy := math.Abs(over)/l.Millimetres(), y/l.Millimetres()
		cx, cy := s.Trim.Millimetres()*ux, s.Trim.Millimetres()*uy
		if dot := (b-cx)*ux + (0-cy)*uy; !within(dot, 0, 1e-3) {
			t.Fatalf("the cut is off the right angle by %v mm", dot)
		}
		if !within(s.After.Width.Millimetres(), math.Hypot(b-cx, cy), 1e-3) {
			t.Fatalf("width left %v; by corners %v", s.After.Width, math.Hypot(b-cx, cy))
		}
		swapped := q
		swapped.Diagonals[0], swapped.Diagonals[1] = q.Diagonals[1], q.Diagonals[0]
		o, _, err := swapped.Judge(3*mm, metric)
		if err != nil {
			t.Fatal(err)
		}
		if o.TopOver != s.TopOver || o.Trim != s.Trim || s.Lean != Upright && o.Lean == s.Lean {
			t.Fatalf("swapping the diagonals gave %+v from %+v", o, s)
		}
	})
}

func TestSquareRefuses(t *testing.T) {
	size := measure.Size{Width: 900 * mm, Length: 1200 * mm}
	for _, c := range []struct {
		q     Quad
		field string
		words string
	}{
		{Quad{Size: size, Diagonals: [2]measure.Length{0, 1500 * mm}}, "square", "zero or missing"},
		{Quad{Size: size, Diagonals: [2]measure.Length{1500 * mm, 2100 * mm}}, "square", "cannot be a diagonal"},
		{Quad{Size: size, Diagonals: [2]measure.Length{300 * mm, 1500 * mm}}, "square", "cannot be a diagonal"},
		{Quad{Diagonals: [2]measure.Length{1500 * mm, 1500 * mm}}, "square.width", "zero or missing"},
	} {
		_, _, err := c.q.Judge(3*mm, metric)
		wantInputError(t, err, c.field, c.words)
	}
}

// A mistake of 40 mm in both diagonals is not a lean, but the sides do not match.
func TestSquareMisfit(t *testing.T) {
	q := Quad{Size: measure.Size{Width: 900 * mm, Length: 1200 * mm}, Diagonals: [2]measure.Length{1540 * mm, 1540 * mm}, Top: 900 * mm, Bottom: 900 * mm}
	_, found, err := q.Judge(3*mm, metric)
	if err != nil {
		t.Fatal(err)
	}
	complete(t, found)
	if levels(found) != "caution square" || !strings.Contains(found[0].Text.String(), "40 mm more than the sides give, 1500 mm") {
		t.Errorf("findings %v", found)
	}
}

func TestLimit(t *testing.T) {
	const maker = "manualshelf.com JPG006, a window maker's dimensions guide, p. 8: 1/8 in up to 20 square feet, 1/4 in above"
	const feet, metres = measure.Inches, measure.Millimetres
	for _, c := range []struct {
		system measure.System
		w, h   measure.Length
		want   measure.Length
		src    string
	}{
		{feet, 48 * in, 60 * in, in / 8, maker + "; 4 × 5 ft are 20 exactly"},
		{feet, 48 * in, 60*in + in/16, in / 4, maker},
		{feet, 24 * in, 36 * in, in / 8, maker},
		{feet, 60 * in, 60 * in, in / 4, "windowinstallusa.com, measurement guide: 1/4 in for an opening"},
		{metres, 900 * mm, 1200 * mm, 3 * mm, "silltosash.com: 3 mm, 1/8 in, for a rough opening"},
	} {
		if got := Usual(c.system).For(measure.Size{Width: c.w, Length: c.h}); got != c.want {
			t.Errorf("%v × %v: %v; want %v (%s)", c.w, c.h, got, c.want, c.src)
		}
	}
}

func BenchmarkSquare(b *testing.B) {
	b.ReportAllocs()
	q := Quad{Size: measure.Size{Width: 36 * in, Length: 48 * in}, Diagonals: [2]measure.Length{60*in + in/8, 60*in - in/8}}
	for b.Loop() {
		if _, _, err := q.Judge(in/8, inches); err != nil {
			b.Fatal(err)
		}
	}
}

// The words of findings and of reports for programs.
func TestWords(t *testing.T) {
	for _, c := range []struct {
		got  fmt.Stringer
		want string
	}{
		{TopLeft, "top left"}, {BottomRight, "bottom right"}, {LeanLeft, "to the left"},
	} {
		if got := c.got.String(); got != c.want {
			t.Errorf("%T prints as %q; want %q", c.got, got, c.want)
		}
	}
}

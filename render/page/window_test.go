package page_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// window draws through a window on 100 × 100 mm of a drawing, from 50,50 to
// 150,150, that lies at 10,20 on the page, and returns what was drawn.
func window(f func(w *page.Window)) string {
	var r page.Recorder
	clip := page.Box(50*mm, 50*mm, 100*mm, 100*mm)
	f(page.NewWindow(&r, clip, page.Point{X: 10 * mm, Y: 20 * mm}))
	return strings.TrimSpace(r.String())
}

// The wanted lines are by hand: on the page, x is 40 less and y 30 less.
func TestWindow(t *testing.T) {
	pt := func(x, y measure.Length) page.Point { return page.Point{X: x * mm, Y: y * mm} }
	dash := page.Pen{Width: mm, Dash: []measure.Length{4 * mm, 2 * mm}}
	text := page.Face{Size: 10 * mm}
	for _, c := range []struct {
		name string
		draw func(w *page.Window)
		want string
	}{
		{"inside", func(w *page.Window) { w.Line(pt(60, 60), pt(70, 80), page.Pen{}) }, "line 20,30 30,50 pen 0.2"},
		{"through", func(w *page.Window) { w.Line(pt(0, 100), pt(400, 100), page.Pen{}) }, "line 10,70 110,70 pen 0.2"},
		{"backward", func(w *page.Window) { w.Line(pt(400, 100), pt(0, 100), page.Pen{}) }, "line 110,70 10,70 pen 0.2"},
		{"slanting through two corners", func(w *page.Window) { w.Line(pt(0, 0), pt(200, 200), page.Pen{}) }, "line 10,20 110,120 pen 0.2"},
		{"slope 1:2", func(w *page.Window) { w.Line(pt(0, 0), pt(200, 100), page.Pen{}) }, "line 60,20 110,45 pen 0.2"},
		{"along the edge", func(w *page.Window) { w.Line(pt(0, 50), pt(200, 50), page.Pen{}) }, "line 10,20 110,20 pen 0.2"},
		{"outside", func(w *page.Window) { w.Line(pt(0, 49), pt(200, 49), page.Pen{}) }, ""},
		{"past a corner", func(w *page.Window) { w.Line(pt(0, 90), pt(90, 0), page.Pen{}) }, ""},
		{"touching a corner", func(w *page.Window) { w.Line(pt(0, 100), pt(100, 0), page.Pen{}) }, "line 10,20 10,20 pen 0.2"},
		{"dashes go on", func(w *page.Window) { w.Line(pt(30, 60), pt(90, 60), dash) }, "line 10,30 50,30 pen 1 dash 4 2 +20"},
		{"dashes go on along a slope", func(w *page.Window) { w.Line(pt(20, 10), pt(80, 90), dash) }, "line 10,20 40,60 pen 1 dash 4 2 +50"},
		{"outline", func(w *page.Window) { w.Rect(page.Box(100*mm, 100*mm, 100*mm, 20*mm), dash) },
			"line 60,70 110,70 pen 1 dash 4 2\nline 110,90 60,90 pen 1 dash 4 2 +170\nline 60,90 60,70 pen 1 dash 4 2 +220"},
		{"area", func(w *page.Window) { w.Fill(page.Box(0, 100*mm, 60*mm, 100*mm), 50) }, "fill 10,70 20,120 gray 50"},
		{"area outside", func(w *page.Window) { w.Fill(page.Box(0, 0, 50*mm, 100*mm), 50) }, ""},
		{"triangle", func(w *page.Window) {
			w.FillPolygon([]page.Point{pt(100, 0), pt(200, 100), pt(100, 100)}, page.Black)
		}, "fillpolygon 60,20 110,20 110,70 60,70"},
		{"polygon outside", func(w *page.Window) {
			w.FillPolygon([]page.Point{pt(0, 0), pt(40, 0), pt(0, 40)}, page.Black)
		}, ""},
		{"text", func(w *page.Window) { w.Text(pt(60, 100), "fold", text) }, `text 20,70 "fold" regular 10 start`},
		{"text over the right edge", func(w *page.Window) { w.Text(pt(140, 100), "fold", text) }, ""},
		{"text over the top", func(w *page.Window) { w.Text(pt(60, 55), "fold", text) }, ""},
		{"text over the bottom", func(w *page.Window) { w.Text(pt(60, 149), "fold", text) }, ""},
	} {
		if got := window(c.draw); got != c.want && !(c.name == "triangle" && sameTriangle(got)) {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// sameTriangle allows the polygon to begin at another of its corners.
func sameTriangle(got string) bool {
	corners := strings.Fields(strings.TrimPrefix(got, "fillpolygon"))
	return strings.Contains(strings.Join(append(corners, corners...), " "), "60,20 110,20 110,70 60,70") ||
		strings.Contains(strings.Join(append(corners, corners...), " "), "110,20 110,70 60,70 60,20")
}

// mark is one clipped line, for the laws below.
type mark struct {
	from, to page.Point
	pen      page.Pen
}

// catcher keeps the lines it is given.
type catcher struct {
	page.Recorder
	marks []mark
}

func (c *catcher) Line(from, to page.Point, pen page.Pen) {
	c.marks = append(c.marks, mark{from, to, pen})
}

// Tiles that overlap show, together, all of a line; each part lies on the line,
// in its window, at the phase that the whole line has there.
func TestWindowLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		coord := func(name string) measure.Length {
			return measure.Length(rapid.Int64Range(-int64(3000*mm), int64(3000*mm)).Draw(t, name))
		}
		a, b := page.Point{X: coord("ax"), Y: coord("ay")}, page.Point{X: coord("bx"), Y: coord("by")}
		pen := page.Pen{Dash: []measure.Length{7 * mm, 3 * mm}}
		whole := math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))
		var total float64
		for i := range measure.Length(8) { // 8 columns side by side cover ±4 m
			clip := page.Rect{Min: page.Point{X: (i - 4) * 1000 * mm, Y: -5000 * mm}, Max: page.Point{X: (i - 3) * 1000 * mm, Y: 5000 * mm}}
			var c catcher
			page.NewWindow(&c, clip, clip.Min).Line(a, b, pen)
			for _, m := range c.marks {
				for _, p := range []page.Point{m.from, m.to} {
					if p.X < clip.Min.X || p.X > clip.Max.X {
						t.Fatalf("%v lies outside the window %v", p, clip)
					}
					off := (float64(p.X-a.X)*float64(b.Y-a.Y) - float64(p.Y-a.Y)*float64(b.X-a.X)) / max(whole, 1)
					if math.Abs(off) > 2 {
						t.Fatalf("%v lies %v nm off the line %v to %v", p, off, a, b)
					}
				}
				if d := float64(m.pen.Phase) - math.Hypot(float64(m.from.X-a.X), float64(m.from.Y-a.Y)); math.Abs(d) > 2 {
					t.Fatalf("phase at %v is off by %v nm", m.from, d)
				}
				total += math.Hypot(float64(m.to.X-m.from.X), float64(m.to.Y-m.from.Y))
			}
		}
		if a.X == b.X && a.X%(1000*mm) == 0 {
			return // along a joint it is shown on both sides
		}
		if math.Abs(total-whole) > 40 {
			t.Fatalf("tiles show %v nm of %v", total, whole)
		}
	})
}

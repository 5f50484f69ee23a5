package page_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"shadewright/fonts"
	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// A replayed surface writes marks as text. It rounds places to a micrometre, so
// that an error of a thousandth of a point, 0.35 µm, does not show.
type replayed struct{ b strings.Builder }

func micro(l measure.Length) string {
	return fmt.Sprintf("%.3f", l.Round(measure.Micrometre, measure.Nearest).Millimetres())
}

func (r *replayed) path(what string, p page.Path) {
	r.b.WriteString(what)
	for _, s := range p {
		r.b.WriteString(" " + [...]string{"m", "l", "c", "h"}[s.Kind] + micro(s.To.X) + "," + micro(s.To.Y))
	}
}

func (r *replayed) Stroke(p page.Path, pen page.Pen) {
	r.path("stroke", p)
	fmt.Fprintf(&r.b, " pen %s gray %d", micro(pen.Width), pen.Gray)
	for _, d := range pen.Dash {
		r.b.WriteString(" " + micro(d))
	}
	r.b.WriteString(" +" + micro(pen.Phase) + "\n")
}

func (r *replayed) Fill(p page.Path, g page.Gray) {
	r.path("fill", p)
	fmt.Fprintf(&r.b, " gray %d\n", g)
}

func (r *replayed) Letters(l page.Letters, g page.Gray) {
	fmt.Fprintf(&r.b, "letters %v %s at %s,%s turn %.3f %.3f gray %d:", l.Weight, micro(l.Size), micro(l.At.X), micro(l.At.Y), l.Cos, l.Sin, g)
	for _, p := range l.Glyphs {
		fmt.Fprintf(&r.b, " %d@%d", p.Index, p.Along)
	}
	r.b.WriteString("\n")
}

func replay(t interface {
	Helper()
	Fatal(...any)
}, f func(p *page.Page)) string {
	t.Helper()
	d := page.New(page.Info{})
	f(d.Add(a4))
	if _, err := d.Bytes(); err != nil {
		t.Fatal(err)
	}
	var r replayed
	if err := d.Replay(1, &r); err != nil {
		t.Fatal(err)
	}
	return r.b.String()
}

// Replay gives back what was drawn. Every expected place is worked out by hand.
func TestReplay(t *testing.T) {
	at := func(x, y measure.Length) page.Point { return page.Point{X: x * mm, Y: y * mm} }
	glyph := func(r rune) uint16 {
		g, _ := fonts.Regular.Glyph(r)
		return g.Index
	}
	advance := func(r rune) int {
		g, _ := fonts.Regular.Glyph(r)
		return int(g.Advance)
	}
	for _, tt := range []struct {
		draw func(p *page.Page)
		want string
	}{
		{func(p *page.Page) { p.Line(at(10, 20), at(30, 40), page.Pen{}) },
			"stroke m10.000,20.000 l30.000,40.000 pen 0.200 gray 0 +0.000\n"},
		{func(p *page.Page) {
			p.Polyline([]page.Point{at(-1, 20), at(30, 40), at(5, 5)}, page.Pen{Width: mm, Gray: 45, Dash: []measure.Length{4 * mm, 2 * mm}, Phase: 3 * mm})
			p.Polygon([]page.Point{at(1, 20), at(30, 40), at(5, 5)}, page.Pen{Width: mm, Gray: 45}) // solid again
		}, "stroke m-1.000,20.000 l30.000,40.000 l5.000,5.000 pen 1.000 gray 45 4.000 2.000 +3.000\n" +
			"stroke m1.000,20.000 l30.000,40.000 l5.000,5.000 h1.000,20.000 pen 1.000 gray 45 +0.000\n"},
		{func(p *page.Page) { p.Fill(page.Box(10*mm, 20*mm, 5*mm, 6*mm), 80) }, // from the lower left, as a PDF has it
			"fill m10.000,26.000 l15.000,26.000 l15.000,20.000 l10.000,20.000 h10.000,26.000 gray 80\n"},
		{func(p *page.Page) { p.FillPolygon([]page.Point{at(1, 20), at(30, 40), at(5, 5)}, page.White) },
			"fill m1.000,20.000 l30.000,40.000 l5.000,5.000 gray 100\n"},
		// Eighths of a circle of 10 mm: 10 × cos 45° = 7.071.
		{func(p *page.Page) { p.Disc(at(50, 50), 10*mm, page.Black) },
			"fill m60.000,50.000 c57.071,42.929 c50.000,40.000 c42.929,42.929 c40.000,50.000 c42.929,57.071 c50.000,60.000 c57.071,57.071 c60.000,50.000 gray 0\n"},
		{func(p *page.Page) { p.Text(at(10, 20), "AVA", page.Face{Size: measure.Inch / 6}) }, // 12 pt
			fmt.Sprintf("letters SourceSans3-Regular 4.233 at 10.000,20.000 turn 1.000 0.000 gray 0: %d@0 %d@%d %d@%d\n", glyph('A'),
				glyph('V'), advance('A')+fonts.Regular.Kern('A', 'V'),
				glyph('A'), advance('A')+fonts.Regular.Kern('A', 'V')+advance('V')+fonts.Regular.Kern('V', 'A'))},
		{func(p *page.Page) { p.Text(at(10, 20), "I", page.Face{Size: measure.Inch / 6, Turn: 30, Gray: 30}) },
			fmt.Sprintf("letters SourceSans3-Regular 4.233 at 10.000,20.000 turn 0.866 0.500 gray 30: %d@0\n", glyph('I'))},
	} {
		if got := replay(t, tt.draw); got != tt.want {
			t.Errorf("replayed\n%swant\n%s", got, tt.want)
		}
	}
	if k := fonts.Regular.Kern('A', 'V'); k >= 0 {
		t.Errorf("A and V stand %d apart; the test needs a kerned pair", k)
	}
}

// A replayed point lies within half a thousandth of a PDF unit, 176.4 nm, of
// the drawn one.
func TestReplayIsNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Int64Range(-int64(a4.Width), int64(a4.Length))
		q := page.Point{X: measure.Length(length.Draw(t, "x")), Y: measure.Length(length.Draw(t, "y"))}
		d := page.New(page.Info{})
		d.Add(a4).Line(q, page.Point{}, page.Pen{})
		if _, err := d.Bytes(); err != nil {
			t.Fatal(err)
		}
		var k keeper
		if err := d.Replay(1, &k); err != nil {
			t.Fatal(err)
		}
		off := k.path[0].To.Sub(q)
		if math.Abs(float64(off.X)) > 177 || math.Abs(float64(off.Y)) > 177 {
			t.Fatalf("%v came back off by %v", q, off)
		}
	})
}

// A keeper keeps only the last path.
type keeper struct{ path page.Path }

func (k *keeper) Stroke(p page.Path, _ page.Pen)  { k.path = append(k.path[:0], p...) }
func (k *keeper) Fill(p page.Path, _ page.Gray)   { k.path = append(k.path[:0], p...) }
func (k *keeper) Letters(page.Letters, page.Gray) {}

// A page can be replayed once it is finished, any number of times.
func TestReplayFinished(t *testing.T) {
	d := page.New(page.Info{})
	for i := range measure.Length(2) {
		d.Add(a4).Line(page.Point{X: i * mm}, page.Point{X: i * mm, Y: mm}, page.Pen{})
	}
	at := func(number int) (measure.Length, error) {
		var k keeper
		if err := d.Replay(number, &k); err != nil {
			return 0, err
		}
		return k.path[0].To.X.Round(measure.Micrometre, measure.Nearest), nil
	}
	if x, err := at(1); x != 0 || err != nil {
		t.Errorf("the first page's line is at %v, %v; want 0 mm", x, err)
	}
	if _, err := at(2); err == nil || err.Error() != "page 2 of 2 is not finished; add the next page or write the document first" {
		t.Errorf("the page that is being drawn: %v", err)
	}
	if _, err := d.Bytes(); err != nil {
		t.Fatal(err)
	}
	for range 2 {
		if x, err := at(2); x != mm || err != nil {
			t.Errorf("the second page's line is at %v, %v; want 1 mm", x, err)
		}
	}
	for _, number := range []int{0, 3} {
		if _, err := at(number); err == nil {
			t.Errorf("page %d does not exist but is replayed", number)
		}
	}
}

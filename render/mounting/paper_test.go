package mounting

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/render/sheet"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

var papers4 = []string{"letter", "a4"}

// Every hole, plate edge, axle and line of every sample is on the paper where
// the arithmetic of package hang puts it, as read by PDFium. A correction moves
// it about the middle of the page by its factors, which are swapped if the page
// lies on its side. The layout provides only the place of the drawing's origin.
func TestOnPaper(t *testing.T) {
	for _, n := range samples(t) {
		for _, paper := range papers4 {
			opt := optionsFor(t, paper, n.style)
			for name, o := range map[string]Options{paper: opt, paper + ", corrected": corrected(opt)} {
				c := checker{t: t, name: n.name + " on " + name, opt: o, seen: map[string]int{}}
				c.sheet(n.sheet)
			}
		}
	}
}

// A checker measures the sheets of one shade.
type checker struct {
	t    *testing.T
	name string
	opt  Options
	seen map[string]int // number of times each mark was found, by name
}

func (c checker) sheet(s Sheet) {
	c.t.Helper()
	leaves, err := lay([]Sheet{s}, c.opt)
	if err != nil {
		c.t.Fatal(c.name, err)
	}
	doc := readback.Open(c.t, pdf(c.t, c.opt, s))
	if doc.Pages() != len(leaves) || doc.AsksForScale() {
		c.t.Errorf("%s: %d pages for %d sheets; asks for scaling: %v", c.name, doc.Pages(), len(leaves), doc.AsksForScale())
	}
	for i, l := range leaves {
		if l.end != nil {
			c.leaf(i+1, l, doc.Marks(i))
		}
	}
	for _, v := range s.Drilling.Views {
		for _, p := range v.Plates {
			for i := range p.Holes {
				if key := fmt.Sprintf("%s hole %d", p.Side, i+1); c.seen[key] == 0 {
					c.t.Errorf("%s: %s is on no sheet", c.name, key)
				}
			}
		}
	}
}

// on returns functions that map the drawing to the paper: x and y in
// millimetres from the paper's corner.
func (c checker) on(l *leaf) (x, y func(measure.Length) float64) {
	fx, fy := 1.0, 1.0
	if c.opt.Printer != "" {
		fx, fy = 1.005025, 0.995025
		if l.Size.Width > l.Size.Length { // the page goes through the printer turned
			fx, fy = fy, fx
		}
	}
	left, foot := l.body.Min.X-l.xs[l.col].From, l.body.Min.Y+top+l.ySpan().To
	midX, midY := l.Size.Width.Millimetres()/2, l.Size.Length.Millimetres()/2
	return func(v measure.Length) float64 { return midX + ((left+v).Millimetres()-midX)*fx },
		func(v measure.Length) float64 { return midY + ((foot-v).Millimetres()-midY)*fy }
}

func (c checker) leaf(number int, l *leaf, m readback.Marks) {
	c.t.Helper()
	x, y := c.on(l)
	sx, sy := l.xs[l.col], l.ySpan()
	in := func(s sheet.Span, v measure.Length) bool { return s.From <= v && v <= s.To }
	level := func(what string, at, from, to measure.Length) {
		from, to = max(from, sx.From), min(to, sx.To)
		if in(sy, at) && from < to && !m.Level(y(at), x(from), x(to)) {
			c.t.Errorf("%s sheet %d: no %s at %s", c.name, number, what, at)
		}
	}
	upright := func(what string, at, from, to measure.Length) {
		from, to = max(from, sy.From), min(to, sy.To)
		if in(sx, at) && from < to && !m.Upright(x(at), y(to), y(from)) {
			c.t.Errorf("%s sheet %d: no %s at %s", c.name, number, what, at)
		}
	}
	for _, p := range l.end.plates {
		side := p.Side.String()
		level(side+" plate's lower edge", p.Min.Y, p.Min.X, p.Max.X)
		level(side+" plate's upper edge", p.Max.Y, p.Min.X, p.Max.X)
		upright(side+" plate's left edge", p.Min.X, p.Min.Y, p.Max.Y)
		upright(side+" plate's right edge", p.Max.X, p.Min.Y, p.Max.Y)
		upright(side+" axle", p.Axle.X, p.Axle.Y-4*mm, p.Axle.Y+4*mm)
		for i, h := range p.Holes {
			name := fmt.Sprintf("%s hole %d", side, i+1)
			level(name+" cross", h.At.Y, h.At.X-4*mm, h.At.X+4*mm)
			upright(name+" cross", h.At.X, h.At.Y-4*mm, h.At.Y+4*mm)
			if in(sx, h.At.X) && in(sy, h.At.Y) {
				c.seen[name]++
				d := h.Diameter.Millimetres()
				fx, fy := x(mm)-x(0), y(0)-y(mm)
				// The correction turns a circle into an ellipse.
				if !m.Circle(x(h.At.X), y(h.At.Y), d*fx, d*fy) {
					c.t.Errorf("%s sheet %d: no circle of %.2f mm for %s", c.name, number, d, name)
				}
			}
		}
	}
	for _, line := range l.end.view.Lines {
		switch {
		case line.Name == hang.HeadLine && line.At <= 0:
		case line.Upright && line.Name == hang.ClothLine:
			upright(string(line.Name), line.At, sy.From, 0)
		case line.Upright:
			upright(string(line.Name), line.At, sy.From, sy.To)
		default:
			level(string(line.Name), line.At, sx.From, sx.To)
		}
	}
}

// A person who measures the paper of one end with a ruler, without knowing our
// layout, finds the values worked out by hand. All values are in millimetres,
// for the bracket of 30 × 40 mm with its axle 25 across and 22 up.
func TestByHand(t *testing.T) {
	tests := []struct {
		sample string
		page   int
		hole   int     // index in roundHoles
		across float64 // from the hole to the edge across
		up     float64 // to the edge above or, if negative, below
		src    string
	}{
		{"inside", 0, 1, 33, 44, "hole 8, 8: 17 before the axle, 14 below it; front edge 50 before, head 30 above: 50 − 17, 30 + 14"},
		{"inside", 0, 2, 34, 20, "hole 9, 32: 16 before, 10 above: 50 − 16, 30 − 10"},
		{"inside", 1, 1, 33, 44, "the mirror image"},
		{"outside", 0, 1, 63.5, -46, "hole at −502 − 17 = −519, 14 below; opening from −485.5 + 30 = −455.5, its top 60 below"},
		{"outside", 1, 1, 83.5, -46, "hole at 519; opening to 485.5 − 50 = 435.5"},
		{"outside", 1, 2, 82.5, -70, "hole at 518, 10 above"},
	}
	for _, tt := range tests {
		n := sampleOf(t, tt.sample)
		doc := readback.Open(t, pdf(t, optionsFor(t, "letter", n.style), n.sheet))
		m := doc.Marks(tt.page)
		h := roundHoles(m)[tt.hole-1].Centre
		if got := nearestEdge(m, h, true); math.Abs(math.Abs(got)-tt.across) > readback.Near {
			t.Errorf("%s, sheet %d, hole %d: %.3f mm to the edge across; want %.1f (%s)", tt.sample, tt.page+1, tt.hole, got, tt.across, tt.src)
		}
		if got := nearestEdge(m, h, false); math.Abs(got+tt.up) > readback.Near {
			t.Errorf("%s, sheet %d, hole %d: %.3f mm to the edge above or below; want %.1f (%s)", tt.sample, tt.page+1, tt.hole, got, -tt.up, tt.src)
		}
	}
}

// roundHoles returns the circles of 4 mm, the lowest first: hole 1, hole 2.
func roundHoles(m readback.Marks) []readback.Round {
	var list []readback.Round
	for _, r := range m.Rounds {
		if math.Abs(r.Width-4) < readback.Near {
			list = append(list, r)
		}
	}
	slices.SortFunc(list, func(a, b readback.Round) int { return int(math.Copysign(1, b.Centre.Y-a.Centre.Y)) })
	return list
}

// nearestEdge returns the distance from a point to the nearest heavy line: an
// upright one, or a level one (negative means above).
func nearestEdge(m readback.Marks, from readback.Point, standing bool) float64 {
	best := math.Inf(1)
	for _, l := range m.Lines {
		d, along := l.From.Y-from.Y, l.To.Y-l.From.Y
		if standing {
			d, along = l.From.X-from.X, l.To.X-l.From.X
		}
		if l.Width > 0.65 && math.Abs(along) < readback.Near && math.Abs(d) < math.Abs(best) {
			best = d
		}
	}
	return best
}

func sampleOf(t testing.TB, name string) named {
	t.Helper()
	for _, n := range samples(t) {
		if n.name == name {
			return n
		}
	}
	t.Fatalf("no sample %q", name)
	return named{}
}

// Two ends on two sheets are as far apart as both sheets state: the distances
// from cross 1 to the opening on either sheet and the width of the opening add
// up to it. By hand: 63.5 + 891 + 83.5 = 1038.
func TestEndsAgree(t *testing.T) {
	n := sampleOf(t, "outside")
	for _, paper := range papers4 {
		doc := readback.Open(t, pdf(t, optionsFor(t, paper, n.style), n.sheet))
		sum := 891.0
		for i := range 2 {
			m := doc.Marks(doc.Pages() - 2 + i)
			sum += math.Abs(nearestEdge(m, roundHoles(m)[0].Centre, true))
			if words := m.Words(); !strings.Contains(words, "1038 mm from cross 1 to cross 1") || !strings.Contains(words, "994 mm between the plates") {
				t.Errorf("%s: sheet %d does not state the distance between the ends:\n%s", paper, i+1, words)
			}
		}
		if math.Abs(sum-1038) > 2*readback.Near {
			t.Errorf("%s: from cross 1 to cross 1 %.3f mm; want 1038", paper, sum)
		}
	}
}

// The right end is the mirror image of the left: each hole, and the axle, is
// equally far from its plate's outer edge.
func TestMirrored(t *testing.T) {
	n := sampleOf(t, "outside")
	doc := readback.Open(t, pdf(t, optionsFor(t, "letter", n.style), n.sheet))
	left, right := doc.Marks(0), doc.Marks(1)
	a, b := roundHoles(left), roundHoles(right)
	l1, _, top1 := plateBox(left)
	_, r2, top2 := plateBox(right)
	for i, want := range []float64{8, 9} { // by hand: the bracket's own holes
		if d := a[i].Centre.X - l1; math.Abs(d-want) > readback.Near {
			t.Errorf("left hole %d is %.3f mm from the outer edge; want %g", i+1, d, want)
		}
		if d := r2 - b[i].Centre.X; math.Abs(d-want) > readback.Near {
			t.Errorf("right hole %d is %.3f mm from the outer edge; want %g", i+1, d, want)
		}
		if d := (a[i].Centre.Y - top1) - (b[i].Centre.Y - top2); math.Abs(d) > readback.Near {
			t.Errorf("holes %d differ in height by %.3f mm", i+1, d)
		}
	}
}

// plateBox finds a plate by its pen of 0.5 mm.
func plateBox(m readback.Marks) (left, right, top float64) {
	left, right, top = math.Inf(1), math.Inf(-1), math.Inf(1)
	for _, l := range m.Lines {
		if math.Abs(l.Width-0.5) < 0.01 && len(l.Dash) == 0 {
			left, right = min(left, l.From.X, l.To.X), max(right, l.From.X, l.To.X)
			top = min(top, l.From.Y, l.To.Y)
		}
	}
	return left, right, top
}

// A jamb in five pieces, taped together, has the right distance from axle to
// head. The test measures from joint to joint and adds up. By hand: 290 mm.
func TestPiecesTaped(t *testing.T) {
	n := sampleOf(t, "deep")
	for _, paper := range papers4 {
		doc := readback.Open(t, pdf(t, optionsFor(t, paper, n.style), n.sheet))
		sum, pieces := 0.0, 0
		for i := range doc.Pages() {
			m := doc.Marks(i)
			if words := m.Words(); !strings.Contains(words, "LEFT JAMB") {
				continue
			}
			pieces++
			from, to := levelEnds(m)
			sum += to - from
		}
		if pieces < 4 || math.Abs(sum-290) > float64(pieces)*0.0071 {
			t.Errorf("%s: %d pieces are %.4f mm from the head to the axle; want 290", paper, pieces, sum)
		}
	}
}

// levelEnds returns the start and end of the part of the jamb that a piece
// adds: the head or the joint with the piece above, and the axle or the joint
// with the piece below.
func levelEnds(m readback.Marks) (from, to float64) {
	var ys []float64
	for _, l := range m.Lines {
		long := math.Abs(l.To.X-l.From.X) > 60 && math.Abs(l.To.Y-l.From.Y) < readback.Near && l.From.Y > 60
		head := l.Width > 0.65
		joint := len(l.Dash) == 2 && l.Dash[0] < 1.5
		axle := len(l.Dash) == 4
		if long && (head || joint || axle) {
			ys = append(ys, l.From.Y)
		}
	}
	slices.Sort(ys)
	return ys[0], ys[1]
}

// Each joint is named on both of its pieces, and the text names the right
// sheet.
func TestJoints(t *testing.T) {
	n := sampleOf(t, "deep")
	doc := readback.Open(t, pdf(t, optionsFor(t, "letter", n.style), n.sheet, n.sheet))
	joints := 0
	for i := range doc.Pages() {
		for _, text := range doc.Marks(i).Texts {
			var name string
			var number int
			if k, _ := fmt.Sscanf(text.Text, "lay joint %s of sheet %d here", &name, &number); k != 2 {
				continue
			}
			joints++
			words := doc.Marks(number - 1).Words()
			if !strings.Contains(words, "joint "+name+"\n") || !strings.Contains(words, "trim here") {
				t.Errorf("sheet %d sends joint %s to sheet %d, which has none:\n%s", i+1, name, number, words)
			}
		}
	}
	if joints < 12 {
		t.Errorf("%d joints; want at least 3 on each jamb of two shades", joints)
	}
}

// The waste lies past the edges that place the paper, and none of it is where a
// plate or the rest of the paper must stay.
func TestHatched(t *testing.T) {
	for _, tt := range []struct {
		sample string
		page   int
		away   func(p readback.Point, e edges) bool // whether a point belongs to the waste
	}{
		{"inside", 0, func(p readback.Point, e edges) bool { return p.Y < e.top || p.X < e.left || p.X > e.right }},
		{"inside", 1, func(p readback.Point, e edges) bool { return p.Y < e.top || p.X < e.left || p.X > e.right }},
		{"outside", 0, func(p readback.Point, e edges) bool { return p.Y > e.top && p.X > e.left }},
		{"outside", 1, func(p readback.Point, e edges) bool { return p.Y > e.top && p.X < e.left }},
		{"ceiling", 0, func(p readback.Point, e edges) bool { return p.Y > e.top }},
	} {
		n := sampleOf(t, tt.sample)
		m := readback.Open(t, pdf(t, optionsFor(t, "letter", n.style), n.sheet)).Marks(tt.page)
		e, hatched := edgesOf(m), 0
		for _, l := range m.Lines {
			dx, dy := l.To.X-l.From.X, l.To.Y-l.From.Y
			if l.Width > 0.2 || math.Abs(math.Abs(dx)-math.Abs(dy)) > readback.Near {
				continue // hatching is thin, at 45°
			}
			hatched++
			if mid := (readback.Point{X: l.From.X + dx/2, Y: l.From.Y + dy/2}); !tt.away(mid, e) {
				t.Errorf("%s, sheet %d: hatched at %.1f, %.1f inside the part that stays, %+v", tt.sample, tt.page+1, mid.X, mid.Y, e)
			}
		}
		if hatched < 3 {
			t.Errorf("%s, sheet %d: %d lines of hatching", tt.sample, tt.page+1, hatched)
		}
	}
}

// edges are the heavy lines of a page: the outermost upright ones, and the
// level one.
type edges struct{ left, right, top float64 }

func edgesOf(m readback.Marks) edges {
	e := edges{left: math.Inf(1), right: math.Inf(-1)}
	for _, l := range m.Lines {
		switch {
		case l.Width < 0.65:
		case math.Abs(l.From.X-l.To.X) < readback.Near:
			e.left, e.right = min(e.left, l.From.X), max(e.right, l.From.X)
		default:
			e.top = l.From.Y
		}
	}
	return e
}

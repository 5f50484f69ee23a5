package card

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"shadewright/render/language"
	"shadewright/render/page"
	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// lowest tries every division into n columns and returns the smallest possible
// height of the highest column.
func lowest(heights []measure.Length, n int) measure.Length {
	if n == 1 || len(heights) <= 1 {
		var sum measure.Length
		for _, h := range heights {
			sum += h
		}
		return sum
	}
	best := measure.Length(1 << 62)
	var first measure.Length
	for i := range heights {
		first += heights[i]
		best = min(best, max(first, lowest(heights[i+1:], n-1)))
	}
	return best
}

func TestColumns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		heights := rapid.SliceOfN(rapid.Map(rapid.IntRange(1, 40), func(i int) measure.Length { return measure.Length(i) * mm }), 1, 8).Draw(t, "heights")
		n := rapid.IntRange(1, 4).Draw(t, "columns")
		starts, height := columns(heights, n)
		if want := lowest(heights, n); height != want {
			t.Fatalf("columns(%v, %d) is %v high; want %v (every cut tried)", heights, n, height, want)
		}
		parts := split(heights, starts)
		if len(parts) > n {
			t.Fatalf("%d columns; want at most %d", len(parts), n)
		}
		count := 0
		for _, p := range parts {
			count += len(p)
			if h := lowest(p, 1); h > height {
				t.Fatalf("a column is %v high, more than %v", h, height)
			}
		}
		if count != len(heights) {
			t.Fatalf("%d items in columns; want %d", count, len(heights))
		}
	})
}

// Callouts stay in order, apart, and within their column.
func TestSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 7).Draw(t, "callouts")
		var list []callout
		var y measure.Length
		for range n {
			y += measure.Length(rapid.IntRange(0, 12).Draw(t, "step")) * mm
			list = append(list, callout{y: y})
		}
		const pitch, bottom = 5 * mm, 50 * mm
		ys := spread(list, pitch, 0, bottom)
		for i, v := range ys {
			if v < pitch/2 || v > bottom-pitch/2 || i > 0 && v-ys[i-1] < pitch {
				t.Fatalf("spread to %v: not %v apart between 0 and %v", ys, measure.Length(pitch), measure.Length(bottom))
			}
		}
	})
}

// levels records the level lines across the cloth of a drawing.
type levels struct {
	page.Recorder
	ys []measure.Length
}

func (l *levels) Line(from, to page.Point, _ page.Pen) {
	if from.Y == to.Y {
		l.ys = append(l.ys, from.Y)
	}
}

// The lines of the flat panel are at their heights in one scale: the raw edge,
// then 1/2, 1, 1-3/4, 2-7/8 and 3 in above it (common practice, no source).
func TestFlatIsToScale(t *testing.T) {
	k := made(t, jobOf(inches(), usual()))[0]
	m := maker{Ticket: k, setter: newSetter(language.Language{}), look: looks[0], units: unitsOf(k.Job.Style), width: 190 * mm}
	var l levels
	m.flat(&l, page.Box(0, 0, 90*mm, 50*mm))
	if len(l.ys) != 6 {
		t.Fatalf("%d level lines; want the raw edge and five lines above it", len(l.ys))
	}
	edge, top := l.ys[0], l.ys[1]
	for i, eighths := range []measure.Length{24, 23, 14, 8, 4} {
		got, want := (edge-l.ys[i+1])*24, (edge-top)*eighths
		if (got - want).Abs() > 24*2 { // each height is rounded to a nanometre
			t.Errorf("line %d is %v above the raw edge; want %v", i+1, got/24, want/24)
		}
	}
}

func TestLegible(t *testing.T) {
	for _, tt := range []struct {
		in   string
		size measure.Length
		want string
	}{
		{"31\u20095⁄8\u00a0in", 12 * pt, "31\u20095⁄8\u00a0in"}, // its small figures are 7.7 pt
		{"31\u20095⁄8\u00a0in", 11 * pt, "31-5/8\u00a0in"},      // they would be 7.0 pt
		{"3⁄4\u00a0in by 31\u20095⁄8", 8 * pt, "3/4\u00a0in by 31-5/8"},
		{"a\u2009b", 8 * pt, "a\u2009b"},
	} {
		if got := legible(tt.in, regular(tt.size)); got != tt.want {
			t.Errorf("legible(%q, %v) = %q; want %q", tt.in, tt.size, got, tt.want)
		}
	}
	if got := sentence("the pocket of 1-1/4 in is 3/32 in off, job 1/2"); got != "The pocket of 1\u20091⁄4\u00a0in is 3⁄32\u00a0in off, job 1/2." {
		t.Errorf("sentence = %q", got)
	}
}

// Text that is too long ends in a visible ellipsis and never takes more lines
// than allowed.
func TestParagraph(t *testing.T) {
	long := strings.Repeat("lower bunk by the lake ", 30)
	p := paragraph("Note", long, regular(9*pt), 80*mm, 3)
	if len(p.lines) != 3 {
		t.Fatalf("%d lines; want 3", len(p.lines))
	}
	last := p.lines[2][0]
	if !strings.HasSuffix(last.text, "…") {
		t.Errorf("the last line is %q; want an ellipsis", last.text)
	}
	for _, l := range p.lines {
		end := l[len(l)-1]
		if w := end.x + page.Width(end.text, end.face); w > 80*mm {
			t.Errorf("line %q is %v wide; want at most 80 mm", end.text, w)
		}
	}
	if p := paragraph("", "short", regular(9*pt), 80*mm, 1); len(p.lines) != 1 || p.lines[0][0].text != "short" {
		t.Errorf("short text became %v", p.lines)
	}
}

// A ticket can be drawn for any numbers, if Insist is set.
func TestAnyNumbers(t *testing.T) {
	length := rapid.Map(rapid.OneOf(rapid.Int64Range(0, 3000), rapid.Int64Range(0, 100_000_000)), func(um int64) measure.Length {
		return measure.Length(um) * measure.Micrometre
	})
	rapid.Check(t, func(r *rapid.T) {
		draw := func(name string) measure.Length { return length.Draw(r, name) }
		s := with("any", func(s *ticket.Shade) {
			s.Finished = measure.Size{Width: draw("width"), Length: draw("length")}
			s.Allow = ticket.Allow{Wrap: draw("wrap"), Hem: draw("hem"), Pocket: draw("pocket"), StitchInset: draw("inset"),
				SideHem: draw("side hem"), TubeOver: draw("over"), SlatGap: draw("gap")}
			s.Slat = ticket.Slat{Width: draw("slat"), Thickness: draw("thickness")}
			if rapid.Bool().Draw(r, "round") {
				s.Slat = ticket.Slat{Diameter: draw("diameter")}
			}
			s.Roller = ticket.Roller{Tube: draw("tube"), Shortest: draw("shortest"), Longest: draw("longest")}
		})
		k := made(t, jobOf(rapid.SampledFrom([]measure.Style{inches(), millimetres()}).Draw(r, "style"), s))[0]
		opt := Options{Paper: paper(t, "letter")}
		if text := recorded(t, k, opt); !strings.Contains(text, k.Code.Grouped()) {
			r.Fatalf("the ticket has no code: %s", text)
		}
	})
}

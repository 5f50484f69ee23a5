package sheet_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"shadewright/render/sheet"
	"shadewright/ticket/measure"
)

const (
	mm   = measure.Millimetre
	um   = measure.Micrometre
	inch = measure.Inch
)

func named(t testing.TB, name string) sheet.Paper {
	t.Helper()
	p, err := sheet.Named(name)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestNamed(t *testing.T) {
	for _, c := range []struct {
		name          string
		width, height measure.Length
		src           string
	}{
		{"a3", 297 * mm, 420 * mm, "ISO 216"},
		{"a4", 210 * mm, 297 * mm, "ISO 216"},
		{"A4", 210 * mm, 297 * mm, "names in any case"},
		{"a5", 148 * mm, 210 * mm, "ISO 216"},
		{"letter", 215900 * um, 279400 * um, "8.5 × 11 in, ANSI/ASME Y14.1 size A"},
		{"legal", 215900 * um, 355600 * um, "8.5 × 14 in = 612 × 1008 pt, CUPS printer descriptions"},
		{"tabloid", 279400 * um, 431800 * um, "11 × 17 in, ANSI/ASME Y14.1 size B"},
		{"label-4x6", 101600 * um, 152400 * um, "4 × 6 in"},
		{"label-100x150", 100 * mm, 150 * mm, "100 × 150 mm, as its name says"},
	} {
		if p := named(t, c.name); p.Width != c.width || p.Length != c.height {
			t.Errorf("Named(%q) = %v × %v; want %v × %v (%s)", c.name, p.Width, p.Length, c.width, c.height, c.src)
		}
	}
	for _, n := range sheet.Names() {
		named(t, n)
	}
}

func TestRefused(t *testing.T) {
	a4 := named(t, "a4")
	ok := sheet.Strip{Length: 900 * mm, Height: 90 * mm, Overlap: 10 * mm}
	pack := func(s sheet.Strip, gap measure.Length, m sheet.Margins) error {
		_, err := sheet.Pack([]sheet.Strip{s}, gap, a4, m)
		return err
	}
	for _, c := range []struct {
		err  error
		want string
	}{
		{errOf(sheet.Named("a44")), `unknown paper "a44"; use a3, a4, a5, label-100x150, label-4x6, legal, letter, tabloid, or a width and a height`},
		{errOf(sheet.Sized(0, 100*mm)), `paper width "0 mm" is out of range; use 50 mm to 5080 mm`},
		{errOf(sheet.Sized(100*mm, 5081*mm)), `paper height "5081 mm" is out of range; use 50 mm to 5080 mm`},
		{errOf(sheet.Even(-mm).Within(a4)), `left margin "-1 mm" is negative; use zero or more`},
		{errOf(sheet.Even(105 * mm).Within(a4)), "margins of 105 mm, 105 mm, 105 mm and 105 mm leave nothing of paper 210 mm × 297 mm; make them smaller"},
		{errOf(sheet.Spans(0, 100*mm, 0)), `nothing to print: the length is "0 mm"`},
		{errOf(sheet.Spans(mm, 100*mm, -mm)), `overlap "-1 mm" is negative; use zero or more`},
		{errOf(sheet.Spans(mm, 20*mm, 10*mm)), `tiles of "20 mm" are too short for an overlap of "10 mm" on both sides; use larger paper, smaller margins or less overlap`},
		{errOf(sheet.Spans(1000*measure.Metre, 50*mm, 0)), "1000000 mm would take 20000 tiles of 50 mm; use larger paper"},
		{pack(ok, -mm, sheet.Even(6*mm)), `gap "-1 mm" between bands is negative; use zero or more`},
		{pack(sheet.Strip{Length: mm, Height: 0}, 0, sheet.Even(6*mm)), "nothing to print: band 1 is 0 mm high"},
		{pack(sheet.Strip{Length: 900 * mm, Height: 290 * mm}, 0, sheet.Even(6*mm)),
			"a band 290 mm high does not fit the printable height of 285 mm; use larger paper or smaller margins"},
		{pack(ok, 0, sheet.Even(200*mm)), "margins of 200 mm, 200 mm, 200 mm and 200 mm leave nothing of paper 210 mm × 297 mm; make them smaller"},
	} {
		if c.err == nil || c.err.Error() != c.want {
			t.Errorf("error %v\nwant  %s", c.err, c.want)
		}
	}
}

func errOf[T any](_ T, err error) error { return err }

func TestWithin(t *testing.T) {
	pt := func(n measure.Length) measure.Length { return n * inch / 72 }
	m := sheet.Margins{Left: pt(18), Right: pt(18), Top: pt(36), Bottom: pt(36)}
	for _, c := range []struct {
		paper         string
		width, height measure.Length
		src           string
	}{
		{"letter", 203200 * um, 254 * mm, "612 − 36 and 792 − 72 points in mm"},
		{"a4", 197300 * um, 271600 * um, "210 − 12.7 and 297 − 25.4"},
	} {
		f, err := m.Within(named(t, c.paper))
		if err != nil || f.Width != c.width || f.Length != c.height || f.X != 6350*um || f.Y != 12700*um {
			t.Errorf("%s: field %+v, %v; want %v × %v (%s)", c.paper, f, err, c.width, c.height, c.src)
		}
	}
	if got, want := (sheet.Margins{Left: 1, Right: 2, Top: 3, Bottom: 4}).Turned(), (sheet.Margins{Left: 4, Right: 4, Top: 2, Bottom: 2}); got != want {
		t.Errorf("Turned = %+v; want %+v", got, want)
	}
}

// Counts by the formula 1 + ⌈(L − p)/(p − o)⌉, worked by hand.
func TestSpans(t *testing.T) {
	for _, c := range []struct {
		total, usable, overlap measure.Length
		n                      int
		last                   measure.Length // where the last tile begins
		src                    string
	}{
		{845 * mm, 203200 * um, 10 * mm, 5, 772800 * um, "1 + ⌈641.8/193.2⌉; 4 × 193.2"},
		{900 * mm, 203200 * um, 10 * mm, 5, 772800 * um, "1 + ⌈696.8/193.2⌉"},
		{1200 * mm, 203200 * um, 10 * mm, 7, 1159200 * um, "1 + ⌈996.8/193.2⌉; 6 × 193.2"},
		{300 * mm, 254 * mm, 10 * mm, 2, 244 * mm, "1 + ⌈46/244⌉"},
		{203200 * um, 203200 * um, 10 * mm, 1, 0, "just fits"},
		{203200*um + 1, 203200 * um, 10 * mm, 2, 193200 * um, "a nanometre more"},
		{396400 * um, 203200 * um, 10 * mm, 2, 193200 * um, "193.2 + 203.2 exactly"},
		{120 * inch, 8 * inch, inch / 2, 16, 15 * 15 * inch / 2, "1 + ⌈112/7.5⌉ = 16; 15 × 7.5"},
		{mm, 203200 * um, 0, 1, 0, "no overlap"},
	} {
		spans, err := sheet.Spans(c.total, c.usable, c.overlap)
		if err != nil || len(spans) != c.n || spans[c.n-1].From != c.last {
			t.Errorf("Spans(%v, %v, %v) = %v, %v; want %d, the last from %v (%s)", c.total, c.usable, c.overlap, spans, err, c.n, c.last, c.src)
		}
	}
}

// Tiles cover the length, overlap by exactly the given amount, and are at most
// as long as allowed; one tile fewer would not be enough.
func TestSpansLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := func(name string, from, to measure.Length) measure.Length {
			return measure.Length(rapid.Int64Range(int64(from), int64(to)).Draw(t, name))
		}
		total, usable := l("total", 1, 20*measure.Metre), l("usable", 50*mm, 500*mm)
		overlap := l("overlap", 0, usable/2-1)
		spans, err := sheet.Spans(total, usable, overlap)
		if err != nil {
			t.Fatal(err)
		}
		if spans[0].From != 0 || spans[len(spans)-1].To != total {
			t.Fatalf("tiles run from %v to %v", spans[0].From, spans[len(spans)-1].To)
		}
		for i, s := range spans {
			if s.Extent() > usable || s.Extent() <= 0 {
				t.Fatalf("tile %d is %v long", i, s.Extent())
			}
			if i > 0 && spans[i-1].To-s.From != overlap {
				t.Fatalf("tiles %d and %d share %v; want %v", i-1, i, spans[i-1].To-s.From, overlap)
			}
		}
		if n := measure.Length(len(spans)); n > 1 && (n-1)*usable-(n-2)*overlap >= total {
			t.Fatalf("%d tiles where %d would do", n, n-1)
		}
	})
}

func TestGrid(t *testing.T) {
	letter := named(t, "letter")
	// Invented: 2 × 7 labels of 3-3/4 × 1-3/8 in, with 1/4 in between columns. By hand,
	// 3/8 + 2 × 3-3/4 + 1/4 + 3/8 = 8-1/2 in, and 11/16 + 7 × 1-3/8 + 11/16 = 11 in.
	g, err := letter.Grid(7, 2, sheet.Margins{Left: 3 * inch / 8, Right: 3 * inch / 8, Top: 11 * inch / 16, Bottom: 11 * inch / 16}, inch/4, 0)
	if err != nil || g.Label.Width != 15*inch/4 || g.Label.Length != 11*inch/8 || g.PerSheet() != 14 {
		t.Fatalf("grid %+v, %v; want 14 labels of 3-3/4 × 1-3/8 in", g, err)
	}
	for _, c := range []struct {
		i, skip, sheet int
		x, y           measure.Length
	}{
		{0, 0, 0, 3 * inch / 8, 11 * inch / 16},
		{1, 0, 0, 35 * inch / 8, 11 * inch / 16},   // 3/8 + 3-3/4 + 1/4
		{5, 0, 0, 35 * inch / 8, 55 * inch / 16},   // second column, third row: 11/16 + 2 × 1-3/8
		{13, 0, 0, 35 * inch / 8, 143 * inch / 16}, // last: 11/16 + 6 × 1-3/8
		{14, 0, 1, 3 * inch / 8, 11 * inch / 16},   // first on the next sheet
		{0, 4, 0, 3 * inch / 8, 55 * inch / 16},    // four labels are used up
		{12, 4, 1, 3 * inch / 8, 33 * inch / 16},   // which shifts the rest: 16 = 14 + 2
		{27, 4, 2, 35 * inch / 8, 33 * inch / 16},  // 31 = 2 × 14 + 3
	} {
		n, f := g.Place(c.i, c.skip)
		if n != c.sheet || f.X != c.x || f.Y != c.y || f.Size != g.Label {
			t.Errorf("label %d after %d lies on sheet %d at %v,%v; want %d at %v,%v", c.i, c.skip, n, f.X, f.Y, c.sheet, c.x, c.y)
		}
	}
	single := sheet.Single(named(t, "label-100x150"))
	if n, f := single.Place(2, 0); n != 2 || f.X != 0 || f.Width != 100*mm || f.Length != 150*mm {
		t.Errorf("third single label: sheet %d, %+v", n, f)
	}
}

func TestGridRefused(t *testing.T) {
	a4 := named(t, "a4")
	// Invented: 8 + 3 × 62 + 2 × 3 = 200 ≤ 210 mm, and 15 + 7 × 38 = 281 ≤ 297 mm.
	ok := sheet.Grid{Paper: a4, Rows: 7, Columns: 3, Left: 8 * mm, Top: 15 * mm, Label: measure.Size{Width: 62 * mm, Length: 38 * mm}, GapX: 3 * mm}
	if err := ok.Check(); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		change func(g *sheet.Grid)
		want   string
	}{
		{func(g *sheet.Grid) { g.Rows, g.Columns = 0, 101 }, "label rows 0 are out of range; use 1 to 100\nlabel columns 101 are out of range; use 1 to 100"},
		{func(g *sheet.Grid) { g.GapY = -1 }, "label margins and gaps must not be negative; use zero or more"},
		{func(g *sheet.Grid) { g.Label.Width = 0 }, "no room is left for labels; make margins and gaps smaller, or use fewer rows and columns"},
		{func(g *sheet.Grid) { g.Columns = 4 }, "4 label columns are 55 mm too wide for the paper; make labels, margins or gaps smaller"}, // 8 + 4×62 + 3×3 − 210
		{func(g *sheet.Grid) { g.Rows = 8 }, "8 label rows are 22 mm too high for the paper; make labels, margins or gaps smaller"},       // 15 + 8×38 − 297
	} {
		g := ok
		c.change(&g)
		if err := g.Check(); err == nil || err.Error() != c.want {
			t.Errorf("error %v\nwant  %s", err, c.want)
		}
	}
}

func TestPack(t *testing.T) {
	margins := sheet.Margins{Left: 6350 * um, Right: 6350 * um, Top: 12700 * um, Bottom: 12700 * um}
	strip := func(length, height measure.Length) sheet.Strip {
		return sheet.Strip{Length: length, Height: height, Overlap: 10 * mm}
	}
	for _, c := range []struct {
		name          string
		strips        []sheet.Strip
		paper         string
		sheets, tiles int
		landscape     bool
		src           string
	}{
		// Letter: 203.2 × 254 upright; on its side 254 × 203.2.
		{"two rows", []sheet.Strip{strip(390*mm, 120*mm)}, "letter", 1, 2, false, "2 tiles of ≤ 203.2, 2 × 120 + 5 ≤ 254"},
		{"one tile on its side", []sheet.Strip{strip(250*mm, 100*mm)}, "letter", 1, 1, true, "1 tile of 250 ≤ 254 on its side"},
		{"four sheets on its side", []sheet.Strip{strip(980*mm, 200*mm)}, "letter", 4, 4, true, "1 + ⌈726/244⌉ = 4"},
		{"too high for two on a sheet", []sheet.Strip{strip(240*mm, 250*mm)}, "letter", 2, 2, false, "203.2 < 250 ≤ 254"},
		{"short bands share a sheet", []sheet.Strip{strip(190*mm, 80*mm), strip(190*mm, 80*mm), strip(190*mm, 80*mm)}, "letter", 1, 3, false, "3 × 80 + 2 × 5 = 250 ≤ 254"},
		{"short ends share a row", []sheet.Strip{strip(90*mm, 200*mm), strip(90*mm, 200*mm)}, "letter", 1, 2, false, "90 + 5 + 90 = 185 ≤ 203.2"},
		{"highest first", []sheet.Strip{strip(200*mm, 70*mm), strip(200*mm, 70*mm), strip(200*mm, 170*mm), strip(200*mm, 170*mm)}, "letter", 2, 4, false, "in order 70+70, 170, 170; by height 170+70 twice: 245 ≤ 254"},
	} {
		paper, margins := named(t, c.paper), margins
		if c.landscape {
			paper, margins = paper.Landscape(), margins.Turned()
		}
		l, err := sheet.Pack(c.strips, 5*mm, paper, margins)
		if err != nil || l.Sheets != c.sheets || len(l.Tiles) != c.tiles {
			t.Errorf("%s: %d sheets, %d tiles on %v × %v, %v; want %d, %d (%s)", c.name,
				l.Sheets, len(l.Tiles), l.Paper.Width, l.Paper.Length, err, c.sheets, c.tiles, c.src)
		}
	}
}

// Tiles stay within the field and do not overlap. None is missing, they are in order, and
// no sheet is empty.
func TestPackLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "n")
		var strips []sheet.Strip
		for range n {
			strips = append(strips, sheet.Strip{
				Length:  measure.Length(rapid.Int64Range(1, int64(2500*mm)).Draw(t, "length")),
				Height:  measure.Length(rapid.Int64Range(int64(10*mm), int64(180*mm)).Draw(t, "height")),
				Overlap: 10 * mm,
			})
		}
		gap := measure.Length(rapid.Int64Range(0, int64(10*mm)).Draw(t, "gap"))
		a4, err := sheet.Named("a4")
		if err != nil {
			t.Fatal(err)
		}
		l, err := sheet.Pack(strips, gap, a4, sheet.Even(6*mm))
		if err != nil {
			t.Fatal(err)
		}
		used := make([]bool, l.Sheets)
		next := map[int]int{}
		for i, a := range l.Tiles {
			used[a.Sheet] = true
			if a.Index != next[a.Strip] || a.Field.Length != strips[a.Strip].Height || a.Field.Width != a.Span.Extent() {
				t.Fatalf("tile %+v out of order or size", a)
			}
			next[a.Strip]++
			if a.Field.X < l.Field.X || a.Field.Y < l.Field.Y || a.Field.X+a.Field.Width > l.Field.X+l.Field.Width || a.Field.Y+a.Field.Length > l.Field.Y+l.Field.Length {
				t.Fatalf("tile %+v outside the field %+v", a, l.Field)
			}
			for _, b := range l.Tiles[:i] {
				if a.Sheet == b.Sheet && apart(a.Field.X, a.Field.Width, b.Field.X, b.Field.Width) < gap && apart(a.Field.Y, a.Field.Length, b.Field.Y, b.Field.Length) < gap {
					t.Fatalf("tiles %+v and %+v closer than %v", a, b, gap)
				}
			}
		}
		for i, u := range used {
			if !u {
				t.Fatalf("sheet %d is empty", i)
			}
		}
	})
}

// apart returns the distance between two stretches; negative if they overlap.
func apart(a, la, b, lb measure.Length) measure.Length { return max(b-(a+la), a-(b+lb)) }

func TestNamesAreOrdered(t *testing.T) {
	if got := strings.Join(sheet.Names(), " "); got != "a3 a4 a5 label-100x150 label-4x6 legal letter tabloid" {
		t.Errorf("Names = %s", got)
	}
}

// Several documents that need larger paper share one error. All other errors
// stay as they are.
func TestJoin(t *testing.T) {
	small := func(what string, p sheet.Paper, use sheet.Enough) error {
		return fmt.Errorf("print: %w", &sheet.SmallError{For: what, Paper: p, Style: measure.Usual(measure.Millimetres),
			Has: measure.Size{Width: 30 * mm, Length: -mm}, Needs: measure.Size{Width: 80 * mm, Length: 50 * mm}, Use: use})
	}
	one, err := sheet.Sized(50*mm, 60*mm)
	two, errTwo := sheet.Sized(60*mm, 60*mm)
	if err != nil || errTwo != nil {
		t.Fatal(err, errTwo)
	}
	other := errors.New("labels are too small")
	joined := sheet.Join([]error{small("the tickets", one, sheet.A5), nil, other, small("the template", one, sheet.LargerPaper), small("the plan", two, sheet.A5), small("the map", one, sheet.A4)})
	const want = "paper 50 mm × 60 mm is too small for the tickets, the template and the map; use letter, a4 or larger\n" +
		"labels are too small\n" +
		"print: paper 60 mm × 60 mm is too small for the plan: the margins leave 30 mm × 0 mm, but 80 mm × 50 mm is needed; use a5, letter, a4 or larger"
	if joined == nil || joined.Error() != want || !errors.Is(joined, other) {
		t.Errorf("got %v\nwant %s", joined, want)
	}
	if err := sheet.Join([]error{nil, nil}); err != nil {
		t.Errorf("no errors give %v", err)
	}
}

package card

import (
	"bytes"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/render/language"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket"
	"shadewright/ticket/measure"
)

const address = "http://192.168.1.20:8080"

func printed(t testing.TB, d *page.Document, err error) []byte {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	b, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// every returns the difficult shades, without findings and with twenty findings
// each.
func every(t testing.TB, style measure.Style) []*ticket.Ticket {
	plain, full := made(t, jobOf(style, hard()...)), made(t, jobOf(style, hard()...))
	crowded(full, 20)
	for i, k := range full {
		k.Plan = ticket.PlanPlace{Goods: "mesh", Section: i, Cuts: []int{1, 2, 3, 11, 108, 110 + i}}
	}
	return append(plain, full...)
}

// No page has text over text, text across lines, text off the page, type or
// lines that a copier loses, or a second sheet.
func TestPages(t *testing.T) {
	type test struct {
		paper string
		style measure.Style
		sheet bool // one page for each ticket
	}
	for _, tt := range readback.Few([]test{
		{"letter", inches(), true}, {"letter", millimetres(), true}, {"a4", inches(), true},
		{"a4", millimetres(), true}, {"legal", inches(), true}, {"a5", millimetres(), false}, {"tabloid", inches(), true},
	}, 2) {
		t.Run(tt.paper+" "+tt.style.System.String(), func(t *testing.T) {
			all := every(t, tt.style)
			margins := sheet.Margins{Left: 6 * mm, Right: 6 * mm, Top: 4 * mm, Bottom: 14 * mm}
			opt := Options{Paper: paper(t, tt.paper), Margins: margins, Address: address, Insist: true, Code128: true}
			doc, err := Tickets(all, opt)
			d := readback.Open(t, printed(t, doc, err))
			if missing := doc.Missing(); missing != nil {
				t.Errorf("glyphs are missing: %q", missing)
			}
			if n := d.Pages(); tt.sheet && n != len(all) {
				t.Errorf("%d pages for %d tickets", n, len(all))
			}
			if d.AsksForScale() {
				t.Error("the document lets the viewer scale it")
			}
			for i := range d.Pages() {
				marks := d.Marks(i)
				marks.Clean(t, i, opt.Paper, margins)
				if tt.sheet && i < len(all) {
					largest(t, i, marks, all[i])
				}
			}
		})
	}
}

// largest checks that no text is larger than the cut size.
func largest(t *testing.T, i int, m readback.Marks, k *ticket.Ticket) {
	t.Helper()
	top := slices.MaxFunc(m.Texts, func(a, b readback.Text) int { return int(1000 * (a.Size - b.Size)) })
	first := k.Job.Style.Words(k.Cut.Width, measure.Nearest).Whole
	if !strings.HasPrefix(top.Text, first) || top.Size < 10 {
		t.Errorf("page %d: the largest text is %q in %.1f mm; want the cut size, which begins with %s, in 10 mm or more", i+1, top.Text, top.Size, first)
	}
}

// wanted returns the codes expected on the page of each ticket.
func wanted(all []*ticket.Ticket, opt Options, each int) []string {
	var want []string
	for _, k := range all {
		for range each {
			want = append(want, opt.Content(k))
		}
	}
	slices.Sort(want)
	return want
}

func TestCodesAreRead(t *testing.T) {
	all := made(t, jobOf(inches(), hard()...))
	for _, name := range []string{"letter", "a4"} {
		for _, addr := range []string{address, ""} {
			opt := Options{Paper: paper(t, name), Address: addr, Insist: true, Code128: true}
			doc, err := Tickets(all, opt)
			d := readback.Open(t, printed(t, doc, err))
			for _, dpi := range readback.Few([]int{150, 200, 300}, 1) {
				for i, k := range all {
					read := map[string]string{}
					for _, c := range d.Codes(i, dpi) {
						read[c.Kind] = c.Text
					}
					if read["QR"] != opt.Content(k) || read["Code 128"] != k.Code.With(k.Revision) {
						t.Errorf("%s, %d dpi, ticket %s: read %q; want %q", name, dpi, k.Code, read, opt.Content(k))
					}
				}
			}
		}
	}
}

// grids returns the label sheets that the tests use.
func grids(t testing.TB) map[string]sheet.Grid {
	margins := sheet.Margins{Left: 5 * mm, Right: 5 * mm, Top: 13 * mm, Bottom: 13 * mm}
	grid := func(name string, rows, columns int) sheet.Grid {
		g, err := paper(t, name).Grid(rows, columns, margins, 3*mm, 0)
		if err != nil {
			t.Fatal(err)
		}
		return g
	}
	return map[string]sheet.Grid{
		"letter 10 × 3": grid("letter", 10, 3), "a4 8 × 3": grid("a4", 8, 3), "a4 4 × 2": grid("a4", 4, 2), "letter 3 × 2": grid("letter", 3, 2),
		"4 × 6 in": sheet.Single(paper(t, "label-4x6")), "100 × 150 mm": sheet.Single(paper(t, "label-100x150")),
	}
}

// The text on the page of the usual shade, with the source of each value.
func TestWords(t *testing.T) {
	all := made(t, jobOf(inches(), usual()))
	opt := Options{Paper: paper(t, "letter")}
	rec := recorded(t, all[1], opt)
	for _, tt := range []struct{ text, src string }{
		{"27\u20091⁄2 × 48\u20093⁄4\u00a0in", "40 + 7 + 1/2 + 1-1/4, by hand"},
		{"≈\u00a0698.5 × 1238.5\u00a0mm", "27.5 and 48.75 × 25.4 = 698.5 and 1238.25, up to a half"},
		{"56\u00a0in", "√(27.5² + 48.75²) = 55.97, to 1/16"},
		{"3\u00a0in", "lines of 1/2 and 1-1/4: common practice, no source"},
		{"2\u20097⁄8\u00a0in", "1/8 below 3"},
		{"1\u20093⁄4\u00a0in", "1/2 + 1-1/4"},
		{"27\u20095⁄8\u00a0in", "tube: 1/8 longer than the cloth"},
		{"27\u20091⁄4\u00a0in", "slat: 1/8 short at each end"},
		{"82\u20091⁄2\u00a0in", "tape: three times 27-1/2"},
		{"6\u00a0mm, thread 92, needle 20", "common practice, no source"},
		{"4.2 stitches per inch, tex 90, Nm 125", "25.4 / 6; thread and needle tables"},
		{"unit 2 of 2", "second of two"},
		{"rev " + string(all[1].Revision), "the ticket"},
		{all[1].Code.Grouped(), "the ticket"},
		{"March 1, 2027", "the job"},
		{ticket.Trades.English(), "the ticket"},
		{"Roll: standard", "the job"},
	} {
		if !strings.Contains(rec, fmt.Sprintf("%q", tt.text)) {
			t.Errorf("%q is not on the page (%s)", tt.text, tt.src)
		}
	}
}

// The text about how a shade hangs, with the source of each value.
func TestHangingWords(t *testing.T) {
	all := made(t, jobOf(inches(), hard()...))
	find := func(id string) string {
		for _, k := range all {
			if k.Shade.ID == id {
				return recorded(t, k, Options{Paper: paper(t, "tabloid"), Insist: true})
			}
		}
		t.Fatalf("no shade %s", id)
		return ""
	}
	for _, tt := range []struct{ id, text, src string }{
		{"recess", "34\u20093⁄8 × 40\u00a0in", "the narrowest width and the longest height, down to 1/8"},
		{"recess", "tip to tip 34-1/4\u00a0in", "1/8 off: measuring guides"},
		{"recess", "Opening, inside mount", "the job"},
		{"recess", "equal within 1/8\u00a0in", "33-1/4 × 48-3/4 in is under 20 square feet: a window maker's guide"},
		{"trial", "Opening, outside mount", "the job"},
		{"trial", "Try the spring", "the job"},
		// By hand: (11-1/16 + 1-3/4) × 37-1/2 in at 440 g/m² is 136.4 g, and 37-1/4 in of
		// slat at 400 g/m is 378.5 g, 514.9 g in all; 15 % of it up to whole grams, and all of it
		// down. Further down (33-1/8 + 1-3/4) × 37-1/2 in is 371.3 g, 749.7 g in all.
		{"trial", "11-1/16\u00a0in: 78–514 g", "a quarter of 40-1/8 + 2 + 2 in, 11-1/32, to 1/16, halves up"},
		{"trial", "33-1/8\u00a0in: 113–749 g", "three quarters of it: 33.09"},
	} {
		if rec := find(tt.id); !strings.Contains(rec, fmt.Sprintf("%q", tt.text)) {
			t.Errorf("%q is not on the page of %s (%s)", tt.text, tt.id, tt.src)
		}
	}
	for _, k := range all {
		if k.Wind != nil && !strings.Contains(find(k.Shade.ID), fmt.Sprintf("%q", ticket.TurnsText(k.Job.Style, k.Wind.Turns)+" turns")) {
			t.Errorf("the page of %s does not state the winding of its spring", k.Shade.ID)
		}
	}
	for _, word := range []string{"Opening", "Rolled up", "Spring"} {
		if strings.Contains(find("odd"), word) {
			t.Errorf("the page of a shade without measurements has %q", word)
		}
	}
}

// recorded returns the first page of a ticket as text.
func recorded(t testing.TB, k *ticket.Ticket, opt Options) string {
	t.Helper()
	area, err := printable(opt, inches())
	if err != nil {
		t.Fatal(err)
	}
	c, err := codesOf(k, opt)
	if err != nil {
		t.Fatal(err)
	}
	var rec page.Recorder
	newLayout(k, area, opt, newSetter(language.Language{})).draw(&rec, 0, unit{k, c})
	return rec.String()
}

// Golden drawings, in millimetres. They leave out the symbol's modules; another
// test reads the symbol back.
func TestGolden(t *testing.T) {
	shades := hard()
	all := made(t, jobOf(inches(), shades[0], shades[1]))
	for _, k := range all {
		k.Revision = "2222" // the real revision changes with every value on a ticket
	}
	for name, k := range map[string]*ticket.Ticket{"usual": all[0], "reverse": all[2]} {
		var lines []string
		for l := range strings.Lines(recorded(t, k, Options{Paper: paper(t, "letter")})) {
			if !strings.HasPrefix(l, "fill ") {
				lines = append(lines, l)
			}
		}
		readback.Golden(t, goldenFile(name), strings.Join(lines, ""))
	}
	var rec page.Recorder
	st := newSetter(language.Language{})
	for i, p := range st.parts(all[0]) {
		c, err := codesOf(all[0], Options{})
		if err != nil {
			t.Fatal(err)
		}
		rec.Note(p.name)
		g := tag{st, page.Box(0, measure.Length(i)*26*mm, 66*mm, 25*mm), p, unit{all[0], c}}
		if err := g.draw(textOnly{&rec}); err != nil {
			t.Fatal(err)
		}
	}
	readback.Golden(t, goldenFile("tags"), rec.String())
}

func goldenFile(name string) string { return filepath.Join("testdata", name+".golden") }

// textOnly is a recorder without fills.
type textOnly struct{ *page.Recorder }

func (textOnly) Fill(page.Rect, page.Gray) {}

func TestSameBytes(t *testing.T) {
	run := func() []byte {
		all := made(t, jobOf(inches(), hard()...))
		opt := Options{Paper: paper(t, "letter"), Address: address, Insist: true}
		doc, err := Tickets(all, opt)
		a := printed(t, doc, err)
		doc, err = Tags(all, sheet.Single(paper(t, "label-4x6")), opt)
		return append(a, printed(t, doc, err)...)
	}
	if !bytes.Equal(run(), run()) {
		t.Error("two runs differ")
	}
}

func TestMissingGlyph(t *testing.T) {
	all := made(t, jobOf(inches(), with("bunk", func(s *ticket.Shade) { s.Place = "漢 bunk" })))
	doc, err := Tickets(all, Options{Paper: paper(t, "letter")})
	printed(t, doc, err)
	if got := doc.Missing(); !slices.Equal(got, []rune{'漢'}) {
		t.Errorf("missing = %q; want 漢", got)
	}
}

func TestRefused(t *testing.T) {
	good := made(t, jobOf(inches(), usual()))
	stopped := made(t, jobOf(inches(), with("tight", func(s *ticket.Shade) { s.Slat.Width, s.Quantity = in*5/4, 3 })))
	letter := paper(t, "letter")
	tiny, err := sheet.Sized(60*mm, 90*mm)
	if err != nil {
		t.Fatal(err)
	}
	tooMany, err := letter.Grid(30, 6, sheet.Even(5*mm), 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	single := sheet.Single(paper(t, "label-4x6"))
	tickets := func(k []*ticket.Ticket, o Options) error { _, err := Tickets(k, o); return err }
	tags := func(k []*ticket.Ticket, g sheet.Grid, o Options) error { _, err := Tags(k, g, o); return err }
	for _, tt := range []struct {
		name string
		got  error
		want string
	}{
		{"nothing", tickets(nil, Options{Paper: letter}), "there is no ticket to print"},
		{"no tags", tags(nil, single, Options{}), "there is no ticket to print"},
		{"stop", tickets(stopped, Options{Paper: letter}), "shade tight is stopped: the slat needs 1-3/8 in flat and the pocket holds 1-1/8 in; make the pocket at least 1-1/2 in, or use a narrower slat"},
		{"stop, its last unit alone", tickets(stopped[2:], Options{Paper: letter}), "shade tight is stopped: the slat needs 1-3/8 in flat and the pocket holds 1-1/8 in; make the pocket at least 1-1/2 in, or use a narrower slat"},
		{"stop, tags", tags(stopped, single, Options{}), "shade tight is stopped: the slat needs 1-3/8 in flat and the pocket holds 1-1/8 in; make the pocket at least 1-1/2 in, or use a narrower slat"},
		{"small paper", tickets(good, Options{Paper: tiny}), "paper 2-3/8 in × 3-9/16 in is too small for the tickets: the margins leave 1-7/8 in × 3-1/8 in, but 4-5/16 in × 6-11/16 in is needed; use a5, letter, a4 or larger"},
		{"wide margins", tickets(good, Options{Paper: letter, Margins: sheet.Even(120 * mm)}), "margins of 120 mm, 120 mm, 120 mm and 120 mm leave nothing of paper 215.9 mm × 279.4 mm; make them smaller"},
		{"small labels", tags(good, tooMany, Options{}), "labels with a printable part of 1-5/16 in × 5/16 in are too small for a tag; use labels of at least 1-1/2 in × 13/16 in"},
		{"used labels", tags(good, single, Options{Skip: 1}), "tags cannot start after 1 used label on a sheet of 1; give 0 to 0"},
		{"no grid", tags(good, sheet.Grid{Paper: letter, Rows: 0, Columns: 1, Label: letter.Size}, Options{}), "label rows 0 are out of range; use 1 to 100"},
		{"address too long", tickets(good, Options{Paper: letter, Address: strings.Repeat("A", 5000)}), ""},
	} {
		switch {
		case tt.got == nil:
			t.Errorf("%s: no error", tt.name)
		case tt.want != "" && tt.got.Error() != tt.want:
			t.Errorf("%s: %q; want %q", tt.name, tt.got, tt.want)
		}
	}
}

// A rounded cut size also states its exact size in the job's own unit: in 64ths
// of an inch where they are exact, never in millimetres.
func TestRoundedFrom(t *testing.T) {
	all := made(t, jobOf(inches(), with("odd", func(s *ticket.Shade) { s.Finished.Width += in / 64 })))
	doc, err := Tickets(all[:1], Options{Paper: paper(t, "letter"), Margins: sheet.Margins{Left: 6 * mm, Right: 6 * mm, Top: 4 * mm, Bottom: 14 * mm}})
	words := readback.Open(t, printed(t, doc, err)).Marks(0).Words()
	// 27-1/2 + 1/64 = 27-33/64; 40 + 7 + 1/2 + 1-1/4 = 48-3/4, by hand.
	if want := "Rounded to the rule; exactly 27-33/64 in × 48-3/4 in"; !strings.Contains(strings.NewReplacer("\u00a0", " ", "\n", " ").Replace(words), want) {
		t.Errorf("no %q on the ticket:\n%s", want, words)
	}
}

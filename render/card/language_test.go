package card

import (
	"regexp"
	"strings"
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/render/language"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

// mute removes the vowels from names, so that every word with vowels on a page
// is one of the program's.
func mute(names ...*string) {
	for _, s := range names {
		*s = strings.Map(func(r rune) rune {
			if strings.ContainsRune("aeiouAEIOU", r) {
				return -1
			}
			return r
		}, *s)
	}
}

// stoppedInRecess returns a shade with everything that a ticket can have.
func stoppedInRecess() ticket.Shade {
	return with("stopped-recess", func(s *ticket.Shade) {
		measured(s)
		s.Opening.Obstructions[0].Proud = 3 * in
		s.Roller.Spring = measure.NewtonMillimetre / 2
		s.Note = "Mind the crank handle."
	})
}

// muted returns the difficult shades and some that need further texts, all with
// names without vowels.
func muted(t testing.TB, style measure.Style) []*ticket.Ticket {
	shades := append(hard(),
		with("ceiling", func(s *ticket.Shade) {
			measured(s)
			s.Opening.Mount, s.Opening.Axle = hang.Ceiling, 3*in
			s.Roller.Shortest, s.Slat = 0, ticket.Slat{Name: "rod", Diameter: in * 5 / 16, Mass: 200 * measure.GramPerMetre}
		}),
		with("crank", func(s *ticket.Shade) { measured(s); s.Opening.Obstructions[0].Proud = 3 * in }),
		with("valance", func(s *ticket.Shade) {
			measured(s)
			at := 2 * in
			s.Opening.Obstructions, s.Opening.Valance = nil, &at
		}),
		with("head", func(s *ticket.Shade) {
			measured(s)
			s.Opening.Mount, s.Opening.Axle, s.Opening.Obstructions = hang.Outside, 3*in, nil
			at := in / 2
			s.Opening.Head = &at
		}),
		with("shallow", func(s *ticket.Shade) { measured(s); s.Opening.Mount, s.Opening.Axle = hang.Outside, in/4 }),
		with("weak", func(s *ticket.Shade) { measured(s); s.Roller.Spring = measure.NewtonMillimetre / 2 }),
		with("odd needle", func(s *ticket.Shade) { s.Sewing.Needle = 15 }),
		with("stiff", func(s *ticket.Shade) { measured(s); s.Roller.Spring = 200 * measure.NewtonMillimetre }),
	)
	for i := range shades {
		s := &shades[i]
		mute(&s.ID, &s.Place, &s.Note, &s.Goods.Name, &s.Roller.Name, &s.Slat.Name)
		if o := s.Opening; o != nil {
			for k := range o.Obstructions {
				mute(&o.Obstructions[k].Name)
			}
		}
	}
	job := jobOf(style, shades...)
	mute(&job.Name, &job.Client)
	all, err := ticket.Make(job, ticket.Options{
		Limits: ticket.Limits{Snug: in / 16, TrimMargin: in / 2, Table: 80 * in},
		Route:  route.Usual(),
		Remake: func(_ string, unit int) int { return unit - 1 },
	})
	if err != nil {
		t.Fatal(err)
	}
	ticket.Seal(all, nil)
	return all
}

// untranslated reports the words of a document that did not pass through the
// language.
func untranslated(t *testing.T, doc *page.Document, err error, own []string) {
	t.Helper()
	d := readback.Open(t, printed(t, doc, err))
	for _, w := range readback.Unmarked(d.Title(), own...) {
		t.Errorf("the title has %q, which did not pass through the language", w)
	}
	for i := range d.Pages() {
		for _, w := range readback.Unmarked(d.Marks(i).Words(), own...) {
			t.Errorf("page %d has %q, which did not pass through the language", i+1, w)
		}
	}
}

var letters = regexp.MustCompile(`\pL+`)

// Every word on tickets and tags passes through the shop's language.
func TestEveryWordIsTranslated(t *testing.T) {
	for _, tt := range []struct {
		style        measure.Style
		paper, stock string
	}{
		{inches(), "letter", "letter 3 × 2"}, {millimetres(), "a5", "letter 10 × 3"},
	} {
		all, own := crowdedAndPlain(t, tt.style)
		doc, err := Tickets(all, Options{Paper: paper(t, tt.paper), Insist: true, Language: readback.Marked()})
		untranslated(t, doc, err, own)
		doc, err = Tags(all, grids(t)[tt.stock], Options{Insist: true, Language: readback.Marked()})
		untranslated(t, doc, err, own)
	}
}

// crowdedAndPlain returns muted tickets with few and with many findings, and
// the letters of their codes.
func crowdedAndPlain(t *testing.T, style measure.Style) (all []*ticket.Ticket, own []string) {
	all = append(muted(t, style), muted(t, style)...)
	crowded(all[len(all)/2:], 20)
	for i, k := range all {
		own = append(own, letters.FindAllString(k.Code.Grouped()+" "+string(k.Revision), -1)...)
		switch i % 3 {
		case 1:
			k.Plan = ticket.PlanPlace{Goods: "msh", Section: 1, Cuts: []int{1, 2, 3, 7}}
		case 2:
			k.Plan = ticket.PlanPlace{Goods: "msh", On: "shlf-3", Cuts: []int{12}}
		}
	}
	return all, own
}

// named returns a language, and a style with its decimal mark.
func named(t testing.TB, tag string, style measure.Style) (language.Language, measure.Style) {
	t.Helper()
	l, err := language.Named(tag)
	if err != nil {
		t.Fatal(err)
	}
	style.Comma = l.Comma()
	return l, style
}

// Three readings print as three numbers, with either decimal mark.
func TestReadings(t *testing.T) {
	list := []measure.Length{1607 * measure.Millimetre / 2, 802 * measure.Millimetre, 804 * measure.Millimetre}
	for tag, want := range map[string]string{ // by hand
		"es": "803,5; 802; 804\u00a0mm", "es-MX": "803.5, 802, 804\u00a0mm", "en": "803.5, 802, 804\u00a0mm",
	} {
		_, style := named(t, tag, millimetres())
		if got := (maker{units: unitsOf(style)}).readings(list); got != want {
			t.Errorf("%s: %q; want %q", tag, got, want)
		}
	}
}

// Spanish is longer than English but needs no more pages. In neither language,
// and on neither small nor large paper, do texts overlap or end in an ellipsis.
func TestSpanishFits(t *testing.T) {
	half, err := sheet.Sized(11*in/2, 17*in/2)
	if err != nil {
		t.Fatal(err)
	}
	type test struct {
		name  string
		paper sheet.Paper
		style measure.Style
		tag   string
	}
	for _, tt := range readback.Few([]test{
		{"letter", paper(t, "letter"), inches(), "es-US"}, {"a4", paper(t, "a4"), millimetres(), "es"},
		{"a5", paper(t, "a5"), millimetres(), "es"}, {"a5", paper(t, "a5"), inches(), "es"},
		{"half letter", half, inches(), "es-US"}, {"half letter", half, millimetres(), "es-MX"},
	}, 2) {
		t.Run(tt.name+" "+tt.style.System.String(), func(t *testing.T) {
			lang, style := named(t, tt.tag, tt.style)
			all := made(t, jobOf(style, append(hard(), stoppedInRecess())...))
			for i, k := range all {
				k.Plan = ticket.PlanPlace{Goods: "mesh", Section: i, Cuts: []int{1, 2, 3, 11, 108, 110 + i}}
			}
			for _, k := range all {
				english, spanish := fitting(t, tt.paper, language.Language{}, k), fitting(t, tt.paper, lang, k)
				if spanish > english && !(long(k) && tt.paper.Width < 145*mm) {
					t.Errorf("%.20s: %d pages in Spanish, %d in English", k.Shade.ID, spanish, english)
				}
			}
		})
	}
}

// long reports whether a ticket has names so long that they are cut off.
func long(k *ticket.Ticket) bool { return len(k.Shade.ID) > 100 }

// fitting draws a ticket, checks its pages and returns their number.
func fitting(t *testing.T, p sheet.Paper, lang language.Language, k *ticket.Ticket) int {
	t.Helper()
	margins := sheet.Margins{Left: 6 * mm, Right: 6 * mm, Top: 4 * mm, Bottom: 8 * mm}
	opt := Options{Paper: p, Margins: margins, Address: address, Insist: true, Language: lang}
	doc, err := Tickets([]*ticket.Ticket{k}, opt)
	d := readback.Open(t, printed(t, doc, err))
	if missing := doc.Missing(); missing != nil {
		t.Errorf("%.20s: glyphs are missing: %q", k.Shade.ID, missing)
	}
	for i := range d.Pages() {
		marks := d.Marks(i)
		marks.Clean(t, i, p, margins)
		if i == 0 {
			largest(t, i, marks, k)
		}
		for _, x := range marks.Texts {
			if !long(k) && strings.HasSuffix(x.Text, "…") {
				t.Errorf("%.20s, page %d, %s: %q is cut off", k.Shade.ID, i+1, lang.Tag(), x.Text)
			}
		}
	}
	if k.Unit == 1 {
		if codes := d.Codes(0, 150); len(codes) != 1 || codes[0].Text != opt.Content(k) {
			t.Errorf("%.20s: read %v; want %q", k.Shade.ID, codes, opt.Content(k))
		}
	}
	return d.Pages()
}

// Tags in Spanish meet the same checks as in English.
func TestSpanishTags(t *testing.T) {
	lang, style := named(t, "es", millimetres())
	all := made(t, jobOf(style, hard()...))
	margins := sheet.Even(3 * mm)
	for _, stock := range []string{"letter 10 × 3", "a4 8 × 3", "a4 4 × 2", "letter 3 × 2"} {
		g := grids(t)[stock]
		opt := Options{Margins: margins, Address: address, Insist: true, Language: lang}
		doc, err := Tags(all, g, opt)
		d := readback.Open(t, printed(t, doc, err))
		for i := range d.Pages() {
			d.Marks(i).Clean(t, i, g.Paper, margins)
		}
	}
}

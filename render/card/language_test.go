package card

import (
	"regexp"
	"strings"
	"testing"

	"shadewright/render/internal/proof"
	"shadewright/render/language"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

// mute takes the vowels out of a name: what has some on a page is then a word of
// the program.
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

// muted is the hard shades, and what else a ticket has a word for, with names
// that have no vowels.
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
	return all
}

// untranslated tells which words of a document did not pass through the language.
func untranslated(t *testing.T, doc *page.Document, err error, own []string) {
	t.Helper()
	d := proof.Open(t, printed(t, doc, err))
	for _, w := range proof.Unmarked(d.Title(), own...) {
		t.Errorf("the title has %q, which is said in no language", w)
	}
	for i := range d.Pages() {
		for _, w := range proof.Unmarked(d.Marks(i).Words(), own...) {
			t.Errorf("page %d has %q, which is said in no language", i+1, w)
		}
	}
}

var letters = regexp.MustCompile(`\pL+`)

// Every word on tickets, tags and bench sheet goes through the shop's language.
func TestEveryWordIsTranslated(t *testing.T) {
	for _, style := range []measure.Style{inches(), millimetres()} {
		all := append(muted(t, style), muted(t, style)...)
		crowded(all[len(all)/2:], 20)
		var own []string // letters of codes
		for i, k := range all {
			own = append(own, letters.FindAllString(k.Code.Grouped()+" "+string(k.Revision), -1)...)
			switch i % 3 {
			case 1:
				k.Plan = ticket.PlanPlace{Goods: "msh", Section: 1, Cuts: []int{1, 2, 3, 7}}
			case 2:
				k.Plan = ticket.PlanPlace{Goods: "msh", On: "shlf-3", Cuts: []int{12}}
			}
		}
		for _, name := range []string{"letter", "a5"} {
			opt := Options{Paper: paper(t, name), Insist: true, Language: proof.Marked()}
			doc, err := Tickets(all, opt)
			untranslated(t, doc, err, own)
		}
		for _, stock := range []string{"letter 3 × 2", "letter 10 × 3"} {
			doc, err := Tags(all, grids(t)[stock], Options{Insist: true, Language: proof.Marked()})
			untranslated(t, doc, err, own)
		}
	}
	shop := oddShop()
	shop.People, shop.Places = []string{"nn"}, []string{"tbl 2"}
	doc, err := Bench(shop, Options{Paper: paper(t, "letter"), Language: proof.Marked()})
	d := proof.Open(t, printed(t, doc, err))
	for i := range d.Pages() {
		for _, w := range proof.Unmarked(d.Marks(i).Words()) {
			if w != strings.ToUpper(w) { // the content of a code, in letters beside it
				t.Errorf("bench sheet, page %d has %q, which is said in no language", i+1, w)
			}
		}
	}
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

// shortened counts the texts of a page that are cut with an ellipsis.
func shortened(m proof.Marks) int {
	n := 0
	for _, x := range m.Texts {
		if strings.HasSuffix(x.Text, "…") {
			n++
		}
	}
	return n
}

// Spanish is longer than English. It takes no more pages all the same, nothing
// overlaps, and no more of it is cut off.
func TestSpanishFits(t *testing.T) {
	half, err := sheet.Sized(11*in/2, 17*in/2)
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		name  string
		paper sheet.Paper
		style measure.Style
		tag   string
	}{
		{"letter", paper(t, "letter"), inches(), "es-US"}, {"letter", paper(t, "letter"), millimetres(), "es-MX"},
		{"a4", paper(t, "a4"), millimetres(), "es"}, {"a4", paper(t, "a4"), inches(), "es"},
		{"a5", paper(t, "a5"), millimetres(), "es"}, {"a5", paper(t, "a5"), inches(), "es"},
		{"half letter", half, inches(), "es-US"}, {"half letter", half, millimetres(), "es-MX"},
	} {
		t.Run(tt.name+" "+tt.style.System.String(), func(t *testing.T) {
			lang, style := named(t, tt.tag, tt.style)
			all := made(t, jobOf(style, hard()...))
			for i, k := range all {
				k.Plan = ticket.PlanPlace{Goods: "mesh", Section: i, Cuts: []int{1, 2, 3, 11, 108, 110 + i}}
			}
			margins := sheet.Margins{Left: 6 * mm, Right: 6 * mm, Top: 4 * mm, Bottom: 8 * mm}
			opt := Options{Paper: tt.paper, Margins: margins, Address: address, Insist: true}
			for _, k := range all {
				one := []*ticket.Ticket{k}
				opt.Language = language.Language{}
				doc, err := Tickets(one, opt)
				english := proof.Open(t, printed(t, doc, err))
				opt.Language = lang
				doc, err = Tickets(one, opt)
				spanish := proof.Open(t, printed(t, doc, err))
				if missing := doc.Missing(); missing != nil {
					t.Errorf("%.20s: glyphs are missing: %q", k.Shade.ID, missing)
				}
				if got, want := spanish.Pages(), english.Pages(); got != want {
					t.Errorf("%.20s: %d pages in Spanish, %d in English", k.Shade.ID, got, want)
					continue
				}
				for i := range spanish.Pages() {
					marks := spanish.Marks(i)
					clean(t, i, marks, tt.paper, margins)
					if got, most := shortened(marks), shortened(english.Marks(i)); got > most {
						t.Errorf("%.20s, page %d: %d texts are cut off in Spanish, %d in English:\n%s", k.Shade.ID, i+1, got, most, marks.Words())
					}
				}
				if code := spanish.Codes(0, 150); len(code) != 1 || code[0].Text != opt.Content(k) {
					t.Errorf("%.20s: read %v; want %q", k.Shade.ID, code, opt.Content(k))
				}
			}
		})
	}
}

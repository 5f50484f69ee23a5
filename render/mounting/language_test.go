package mounting

import (
	"strings"
	"testing"

	"shadewright/render/fullscale"
	"shadewright/render/internal/readback"
	"shadewright/render/page"
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

func spanish(t testing.TB, opt Options) Options {
	opt.Language = readback.Spanish(t)
	opt.Style.Comma = opt.Language.Comma()
	return opt
}

// own lists the words of the samples.
const own = "Heron Landing office bunk upper berth port side lower galley hall south porch tiller wheelhouse porthole " +
	"too long ladder firm ground three points contact nobody below over the stove"

// sheetsToSay returns the samples, one of them with a stray hole and one
// stopped.
func sheetsToSay(t *testing.T) map[string]named {
	all := map[string]named{}
	for _, n := range samples(t) {
		all[n.name] = n
	}
	stray := sampleOf(t, "outside")
	stray.site.Head, stray.site.TipToTip = 0, stray.site.Opening.Width-10*mm
	d, _, err := stray.site.Drill(stray.style)
	if err != nil {
		t.Fatal(err)
	}
	stray.sheet.Drilling = d
	if !stray.sheet.stray() {
		t.Fatal("no hole lies over the opening")
	}
	all["stray"] = stray
	tickets := ticketsOf(t)
	for _, tk := range tickets {
		tk.Findings = []finding.Finding{{Level: finding.Stop, Text: message.Of("hang.fix-head")}, {Level: finding.Stop, Text: message.Of("hang.the-wall")}}
	}
	stopped := sampleOf(t, "outside")
	stopped.sheet = FromTickets(tickets)[0]
	all["stopped"] = stopped
	return all
}

func TestMarked(t *testing.T) {
	for name, n := range sheetsToSay(t) {
		for _, paper := range []string{"letter"} {
			t.Run(name+" on "+paper, func(t *testing.T) {
				opt := corrected(optionsFor(t, paper, n.style))
				opt.Language = readback.Marked()
				readback.Open(t, pdf(t, opt, n.sheet)).CheckMarked(own)
			})
		}
	}
}

// In Spanish every hole, edge and line is in its place, no text overlaps
// another or is cut off, and the name of a jamb stays on the paper that is not
// cut away.
func TestSpanish(t *testing.T) {
	for name, n := range sheetsToSay(t) {
		for _, paper := range readback.Few(papers4, 1) {
			t.Run(name+" on "+paper, func(t *testing.T) {
				opt := spanish(t, optionsFor(t, paper, n.style))
				opt.Printer = "office" // without the correction, which would move text into the margin
				doc := readback.Open(t, pdf(t, opt, n.sheet))
				doc.CheckFits(6.2)
				opt.Printer = ""
				c := checker{t: t, name: name + " in Spanish on " + paper, opt: opt, seen: map[string]int{}}
				c.sheet(n.sheet)
				if strings.HasPrefix(name, "inside") && !strings.Contains(doc.Marks(0).Words(), "JAMBA IZQUIERDA, espiga ") {
					t.Error("the jamb's sheet does not show which way is up after it is cut")
				}
			})
		}
	}
}

// textOnly keeps the texts of a drawing in layers.
type textOnly struct {
	page.Recorder
	words []string
}

func (*textOnly) Layer(string) {}

func (r *textOnly) Text(_ page.Point, s string, _ page.Face) { r.words = append(r.words, s) }

// The texts and titles of drawings for cutting machines pass through the
// language.
func TestDrawMarked(t *testing.T) {
	n := sampleOf(t, "inside")
	opt := optionsFor(t, "letter", n.style)
	opt.Language = readback.Marked()
	var titles []string
	rec := &textOnly{}
	err := Draw([]Sheet{n.sheet}, opt, func(title string, _ measure.Size) fullscale.Layered {
		titles = append(titles, title)
		return rec
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(titles) != 2 || len(rec.words) < 60 {
		t.Fatalf("%d titles, %d words", len(titles), len(rec.words))
	}
	for _, s := range append(titles, rec.words...) {
		if bad := readback.Unmarked(s, append(strings.Fields(own), "ABC")...); bad != nil {
			t.Errorf("in %q, %q did not pass through the language", s, bad)
		}
	}
}

package template

import (
	"strings"
	"testing"

	"shadewright/render/fullscale"
	"shadewright/render/internal/readback"
	"shadewright/render/page"
	"shadewright/ticket"
	"shadewright/ticket/measure"
)

// spanish returns the options in Spanish.
func spanish(t testing.TB, opt Options) Options {
	opt.Language = readback.Spanish(t)
	opt.Style.Comma = opt.Language.Comma()
	return opt
}

// own lists the words of the samples.
const own = "Heron Landing bunk galley hall office"

// narrow returns bands that share a gauge and have both sides on one strip.
func narrow(t testing.TB) []*ticket.Ticket {
	return tickets(t, shadeOf("bunk", 5*in, 35*in), shadeOf("galley", 7*in, 35*in), shadeOf("hall", 12*in, 35*in))
}

func TestMarked(t *testing.T) {
	for _, paper := range []string{"letter", "a4"} {
		opt := optionsFor(t, paper)
		opt.Language = readback.Marked()
		opt.Printer, opt.Correction = "office", page.Correction{X: 1_005_025}
		for _, list := range [][]*ticket.Ticket{job(t), narrow(t)} {
			readback.Open(t, pdfOf(t, list, opt)).CheckMarked(own)
			readback.Open(t, pdfOf(t, list, rollOptions(t, 24*in, opt))).CheckMarked(own)
		}
	}
	long := rollOptions(t, 24*in, optionsFor(t, "letter"))
	long.Language = readback.Marked()
	readback.Open(t, pdfOf(t, tickets(t, shadeOf("hall", 250*in, 60*in)), long)).CheckMarked(own)
}

// A language changes only the text: every line, diamond and square stays
// exactly in place, and the text fits.
func TestSpanish(t *testing.T) {
	for _, paper := range readback.Few([]string{"letter", "a4", "legal", "tabloid"}, 1) {
		opt := optionsFor(t, paper)
		opt.Printer = "office" // without the correction, which would move text into the margin
		for _, list := range [][]*ticket.Ticket{job(t), narrow(t)} {
			checkSpanish(t, list, opt)
			checkSpanish(t, list, rollOptions(t, 24*in, opt))
		}
	}
	checkSpanish(t, tickets(t, shadeOf("hall", 250*in, 60*in)), rollOptions(t, 24*in, optionsFor(t, "letter")))
}

func checkSpanish(t *testing.T, list []*ticket.Ticket, opt Options) {
	t.Helper()
	es := spanish(t, opt)
	readback.Open(t, pdfOf(t, list, es)).CheckFits(6.3)
	if a, b := marks(t, list, opt), marks(t, list, es); a != b {
		t.Errorf("%s: the marks differ in Spanish:\n%s\nin English:\n%s", opt.Paper.Name, b, a)
	}
}

// The last line of the heading, the printer's correction, stays clear of the
// check ruler even on small paper. The ruler's marks begin 42 mm below the top
// of the printable part (50 less 3 and 5).
func TestHeadingClear(t *testing.T) {
	for _, paper := range []string{"a5", "letter"} {
		opt := optionsFor(t, paper)
		opt.Printer = "office"
		for start, o := range map[string]Options{"corrected for": opt, "corregido para": spanish(t, opt)} {
			found := false
			for _, w := range readback.Open(t, pdfOf(t, narrow(t), o)).Marks(0).Texts {
				if strings.HasPrefix(w.Text, start) {
					found = true
					if w.Max.Y > 6.35+42 {
						t.Errorf("%s: %q reaches %.2f mm down; the ruler's marks begin at 48.35", paper, w.Text, w.Max.Y)
					}
				}
			}
			if !found {
				t.Errorf("%s: the correction is not stated", paper)
			}
		}
	}
}

// marks returns every mark except text and the shapes painted under it.
func marks(t *testing.T, list []*ticket.Ticket, opt Options) string {
	t.Helper()
	sheets, err := lay(Both.of(bands(list)), opt)
	if err != nil {
		t.Fatal(err)
	}
	var kept strings.Builder
	for i, s := range sheets {
		rec := new(page.Recorder)
		d := &drawing{fullscale.Drawing{Canvas: rec, Options: opt}}
		d.sheet(s, i+1, len(sheets))
		for line := range strings.Lines(rec.String()) {
			if kind, _, _ := strings.Cut(line, " "); kind != "text" && kind != "disc" && kind != "fill" {
				kept.WriteString(line)
			}
		}
	}
	if n := strings.Count(kept.String(), "\n"); n < 500 {
		t.Fatalf("only %d marks", n)
	}
	return kept.String()
}

// The text and the title of a band in one piece pass through the language.
func TestWholeMarked(t *testing.T) {
	opt := Options{Style: measure.Usual(measure.Inches), Job: "Heron Landing", Language: readback.Marked()}
	for _, w := range Wholes(job(t), opt) {
		rec := &byLayer{lines: map[string][]string{}}
		w.Draw(rec)
		for line := range strings.Lines(rec.String()) {
			if text, ok := strings.CutPrefix(line, "text "); ok {
				text = text[strings.Index(text, `"`)+1 : strings.LastIndex(text, `"`)]
				if bad := readback.Unmarked(text, strings.Fields(own)...); bad != nil {
					t.Errorf("%q did not pass through the language", bad)
				}
			}
		}
		if bad := readback.Unmarked(w.Title(), strings.Fields(own)...); bad != nil {
			t.Errorf("%q in the title did not pass through the language", bad)
		}
	}
}

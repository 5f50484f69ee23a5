package ticket_test

import (
	"encoding/json"
	"fmt"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"
	"pgregory.net/rapid"

	"shadewright/ticket"
	"shadewright/ticket/goods"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/message/pseudo"
	"shadewright/ticket/route"
)

func jobOf(shades ...ticket.Shade) *ticket.Job {
	return &ticket.Job{Name: "Heron Landing", ID: uuid.MustParse("5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31"), Style: measure.Usual(measure.Inches), Shades: shades}
}

func mustMake(t testing.TB, job *ticket.Job, opt ticket.Options) []*ticket.Ticket {
	t.Helper()
	all, err := ticket.Make(job, opt)
	if err != nil {
		t.Fatal(err)
	}
	ticket.Seal(all, nil)
	for _, k := range all {
		mustSpeak(t, k)
	}
	return all
}

var decimalPoint = regexp.MustCompile(`\d\.\d`)

// mustSpeak fails if a ticket shows people words that have no translation and are
// not the job's own, or numbers in another style than its own.
func mustSpeak(t rapid.TB, k *ticket.Ticket) {
	t.Helper()
	told := []message.Message{k.Edge.Method, k.Edge.Note, k.Plan.Message(), message.Of(ticket.Trades)}
	for _, f := range k.Findings {
		if f.Source == "nothing can be worked out from it" {
			continue // a problem of a job that came from no file; problems of files are in English
		}
		told = append(told, f.Text, f.Remedy, f.Level.Message())
	}
	for _, c := range k.Cautions {
		told = append(told, c.Head, c.Text)
	}
	for _, c := range k.Clearances {
		told = append(told, c.What())
	}
	own := []string{k.Shade.Goods.Name, k.Shade.Roller.Name, k.Shade.Slat.Name, k.Shade.ID, "handle", "shelf"}
	for _, p := range told {
		if w := pseudo.Unmarked(pseudo.Put(p), own...); w != nil {
			t.Errorf("%q has words in English only: %q", p, w)
		}
		if k.Job.Style.Comma && decimalPoint.MatchString(p.String()) {
			t.Errorf("%q has a decimal point where the style has a comma", p)
		}
	}
}

func TestUnits(t *testing.T) {
	s := usual()
	s.Quantity = 3
	all := mustMake(t, jobOf(s), options())
	if len(all) != 3 {
		t.Fatalf("quantity 3 gives %d tickets", len(all))
	}
	seen := map[string]bool{}
	for i, k := range all {
		if k.Unit != i+1 || k.Of != 3 || seen[string(k.Code)] {
			t.Errorf("ticket %d: unit %d of %d, code %s", i, k.Unit, k.Of, k.Code)
		}
		seen[string(k.Code)] = true
		if err := k.Code.Check(); err != nil {
			t.Error(err)
		}
	}
}

// A ticket keeps its code when its shade is measured again, and gets a new revision
// for everything that is printed on it.
func TestRevision(t *testing.T) {
	first := mustMake(t, jobOf(usual()), options())[0]
	if again := mustMake(t, jobOf(usual()), options())[0]; again.Revision != first.Revision {
		t.Errorf("the same job has revisions %s and %s", first.Revision, again.Revision)
	}
	changes := map[string]func(*ticket.Job, *ticket.Shade, *ticket.Options){
		"job name": func(j *ticket.Job, _ *ticket.Shade, _ *ticket.Options) { j.Name = "Heron Point" },
		"client":   func(j *ticket.Job, _ *ticket.Shade, _ *ticket.Options) { j.Client = "someone" },
		"due": func(j *ticket.Job, _ *ticket.Shade, _ *ticket.Options) {
			j.Due = time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC)
		},
		"units":        func(j *ticket.Job, _ *ticket.Shade, _ *ticket.Options) { j.Style = measure.Usual(measure.Millimetres) },
		"rounding":     func(j *ticket.Job, _ *ticket.Shade, _ *ticket.Options) { j.Style.Denominator = 32 },
		"place":        func(_ *ticket.Job, s *ticket.Shade, _ *ticket.Options) { s.Place = "upper bunk" },
		"note":         func(_ *ticket.Job, s *ticket.Shade, _ *ticket.Options) { s.Note = "mind the step" },
		"quantity":     func(_ *ticket.Job, s *ticket.Shade, _ *ticket.Options) { s.Quantity = 2 },
		"width":        func(_ *ticket.Job, s *ticket.Shade, _ *ticket.Options) { s.Finished.Width++ },
		"length":       func(_ *ticket.Job, s *ticket.Shade, _ *ticket.Options) { s.Finished.Length++ },
		"goods name":   func(_ *ticket.Job, s *ticket.Shade, _ *ticket.Options) { s.Goods.Name = "reed" },
		"goods kind":   func(_ *ticket.Job, s *ticket.Shade, _ *ticket.Options) { s.Goods.Kind = goods.AcrylicCanvas },
		"roller":       func(_ *ticket.Job, s *ticket.Shade, _ *ticket.Options) { s.Roller.Name = "other" },
		"slat":         func(_ *ticket.Job, s *ticket.Shade, _ *ticket.Options) { s.Slat.Thickness++ },
		"roll":         func(_ *ticket.Job, s *ticket.Shade, _ *ticket.Options) { s.Roll = ticket.Reverse },
		"wrap":         func(_ *ticket.Job, s *ticket.Shade, _ *ticket.Options) { s.Allow.Wrap++ },
		"stitch":       func(_ *ticket.Job, s *ticket.Shade, _ *ticket.Options) { s.Sewing.StitchLength++ },
		"thread":       func(_ *ticket.Job, s *ticket.Shade, _ *ticket.Options) { s.Sewing.Thread = 69 },
		"route":        func(_ *ticket.Job, _ *ticket.Shade, o *ticket.Options) { o.Route = route.Usual()[1:] },
		"what is snug": func(_ *ticket.Job, _ *ticket.Shade, o *ticket.Options) { o.Limits.Snug = 0 },
		"what is square": func(_ *ticket.Job, _ *ticket.Shade, o *ticket.Options) {
			o.Rules = func(u measure.System) ticket.Rules {
				r := ticket.UsualRules(u)
				r.Opening.Square.Small = in / 16
				return r
			}
		},
	}
	for name, change := range changes {
		s, opt := usual(), options()
		job := jobOf()
		change(job, &s, &opt)
		job.Shades = []ticket.Shade{s}
		k := mustMake(t, job, opt)[0]
		if k.Revision == first.Revision {
			t.Errorf("another %s leaves revision %s", name, k.Revision)
		}
		if k.Code != first.Code {
			t.Errorf("another %s changes the code from %s to %s", name, first.Code, k.Code)
		}
	}
	s := usual()
	s.ID = "other"
	if k := mustMake(t, jobOf(s), options())[0]; k.Code == first.Code {
		t.Error("another shade has the same code")
	}
}

// Whatever is not printed on a unit's ticket leaves its revision unchanged: another
// spoilt unit, the decimal mark of a language, the price of a shade.
func TestRevisionStays(t *testing.T) {
	make3 := func(change func(*ticket.Job, *ticket.Options)) []*ticket.Ticket {
		s := usual()
		s.Quantity = 3
		job, opt := jobOf(s), options()
		job.Style = measure.Usual(measure.Millimetres) // its findings have decimals
		change(job, &opt)
		return mustMake(t, job, opt)
	}
	first := make3(func(*ticket.Job, *ticket.Options) {})
	if !decimalPoint.MatchString(first[0].Findings[0].Text.String()) {
		t.Fatalf("%q has no decimal, so the test shows nothing", first[0].Findings[0].Text)
	}
	spoilt := func(n int) func(*ticket.Job, *ticket.Options) {
		return func(_ *ticket.Job, o *ticket.Options) {
			o.Remake = func(_ string, unit int) int {
				if unit == n {
					return 1
				}
				return 0
			}
		}
	}
	for name, tt := range map[string]struct {
		change func(*ticket.Job, *ticket.Options)
		other  int // the unit whose revision changes; 0: none
	}{
		"unit 1 spoilt": {spoilt(1), 1},
		"unit 3 spoilt": {spoilt(3), 3},
		"a comma":       {func(j *ticket.Job, _ *ticket.Options) { j.Style.Comma = true }, 0},
		"a price": {func(j *ticket.Job, _ *ticket.Options) {
			j.Supply.Rollers = map[string]ticket.RollerSupply{"donor": {Price: measure.Unit, OnHand: 2}}
		}, 0},
	} {
		for i, k := range make3(tt.change) {
			if other := k.Revision != first[i].Revision; other != (tt.other == i+1) {
				t.Errorf("%s: unit %d has revision %s, before %s", name, i+1, k.Revision, first[i].Revision)
			}
		}
	}
}

// Wordings can be corrected: a revision is made from the ids of texts, not from
// their words.
func TestRevisionHasNoWording(t *testing.T) {
	k := one(t, measured())
	ids := regexp.MustCompile(`"id":"[^"]*"`)
	said := 0
	for _, v := range k.Printed().Values {
		kept := ids.ReplaceAllString(v.Text, "")
		for _, m := range v.Messages() {
			if m.ID == "" {
				continue
			}
			said++
			for _, l := range []message.Language{message.English, message.Spanish} {
				if text, ok := l.Text(m.ID); !ok || len(text) > 4 && strings.Contains(kept, text) {
					t.Errorf("%s keeps the words of %s: %s", v.Key, m.ID, v.Text)
				}
			}
		}
	}
	if said < 40 {
		t.Errorf("only %d texts are on the ticket", said)
	}
}

// What the record keeps of a ticket is the text that its revision is made from, and
// it reads back.
func TestPrintedReadsBack(t *testing.T) {
	s := measured()
	s.Place, s.Note = `over "the" sink`, "a = b\\n, 5 < 6"
	k := one(t, s)
	text := k.Printed().String()
	again, err := ticket.ReadPrinted(text)
	if err != nil || again.String() != text || again.Revision() != k.Revision || again.Format != ticket.PrintedFormat {
		t.Errorf("%v; read back as\n%s\nwant\n%s", err, again, text)
	}
	for bad, want := range map[string]string{
		"":                   `a ticket's values start with "", not with "format " and a number`,
		"format x\n":         `a ticket's values start with "format x", not with "format " and a number`,
		"form 2\n":           `a ticket's values start with "form 2", not with "format " and a number`,
		"format 2\nunit":     `a ticket's values have the line "unit", which is not a key and a value`,
		"format 2\nunit=1":   `a ticket's values have the line "unit=1", which is not a key and a value`,
		"format 2\n=1\nx=\n": `a ticket's values have the line "=1\n", which is not a key and a value`,
	} {
		if got, err := ticket.ReadPrinted(bad); err == nil || err.Error() != want {
			t.Errorf("%q is read as %v, %v; want %s", bad, got, err, want)
		}
	}
}

// The keys for programs, with the check values of common practice.
func TestReport(t *testing.T) {
	s := usual()
	s.Quantity = 2
	job := jobOf(s)
	data, err := json.Marshal(ticket.ReportOf(job, mustMake(t, job, options())))
	if err != nil {
		t.Fatal(err)
	}
	var doc map[string]any
	if err := json.Unmarshal(data, &doc); err != nil {
		t.Fatal(err)
	}
	shades, _ := doc["shades"].([]any)
	if len(shades) != 2 {
		t.Fatalf("%d shades; want 2", len(shades))
	}
	at := func(path string) any {
		var v any = doc
		if strings.HasPrefix(path, "shade.") {
			v, path = shades[1], strings.TrimPrefix(path, "shade.")
		}
		for key := range strings.SplitSeq(path, ".") {
			m, _ := v.(map[string]any)
			v = m[key]
		}
		return v
	}
	// Inches of common practice, no source, times 25.4.
	tests := []struct {
		path string
		want any
	}{
		{"job.id", "5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31"}, {"job.name", "Heron Landing"},
		{"shade.id", "bunk"}, {"shade.unit", 2.0}, {"shade.of", 2.0},
		{"shade.finished.width_mm", 635.0}, {"shade.finished.length_mm", 889.0},
		{"shade.panel.width_mm", 635.0}, {"shade.panel.length_mm", 1111.25}, {"shade.panel.diagonal_mm", 1279.883418},
		{"shade.folds.hem_fold_mm", 12.7}, {"shade.folds.hem_mark_mm", 25.4}, {"shade.folds.pocket_fold_mm", 44.45},
		{"shade.folds.pocket_mark_mm", 76.2}, {"shade.folds.stitch_mm", 73.025},
		{"shade.pocket.inside_mm", 27.975}, {"shade.pocket.needs_mm", 27.78125}, {"shade.pocket.spare_mm", 0.19375},
		{"shade.tube.trim_mm", 638.175}, {"shade.slat.trim_mm", 628.65}, {"shade.slat.end_gap_mm", 3.175},
		{"shade.tape.total_mm", 1905.0}, {"shade.stitch.type", "301"}, {"shade.stitch.length_mm", 6.0},
		{"shade.stitch.per_inch", 4.233333}, {"shade.stitch.seam_mm", 635.0}, {"shade.stitch.thread_size", 92.0},
		{"shade.stitch.needle", 20.0}, {"shade.stitch.thread_mm", 1974.596},
		{"shade.edge.method", "cold cut and liquid edge sealer"}, {"shade.edge.length_mm", 2222.5},
	}
	for _, tt := range tests {
		if got := at(tt.path); fmt.Sprint(got) != fmt.Sprint(tt.want) {
			t.Errorf("%s = %v; want %v", tt.path, got, tt.want)
		}
	}
	if c, _ := at("shade.code").(string); len(c) != 10 {
		t.Errorf("code %q", c)
	}
	f, _ := shades[1].(map[string]any)["findings"].([]any)
	if len(f) == 0 {
		t.Fatal("no findings")
	}
	for _, key := range []string{"level", "field", "text"} {
		if v, _ := f[0].(map[string]any)[key].(string); v == "" {
			t.Errorf("findings[].%s is empty", key)
		}
	}
}

func BenchmarkMake(b *testing.B) {
	for _, n := range []int{12, 1000, 10_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			s := usual()
			s.Quantity = n
			job := jobOf(s)
			b.ReportAllocs()
			for b.Loop() {
				all, err := ticket.Make(job, options())
				if err != nil {
					b.Fatal(err)
				}
				ticket.Seal(all, nil)
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*n), "µs/ticket")
		})
	}
}

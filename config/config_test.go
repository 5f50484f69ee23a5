package config

import (
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"shadewright/ticket"
	"shadewright/ticket/form"
	"shadewright/ticket/measure"
)

func write(t *testing.T, dir, text string) string {
	t.Helper()
	path := filepath.Join(dir, FileName)
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// papers are the names that the tests accept.
var papers = []string{"a4", "letter"}

func load(t *testing.T, opt Options) Settings {
	t.Helper()
	s, err := Load(opt)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// The built-in values are common practice, no source, except the margins.
func TestBuiltIn(t *testing.T) {
	s := load(t, Options{})
	allow := ticket.Allow{Wrap: 7 * in, Hem: in / 2, Pocket: in + in/4, StitchInset: in / 8, TubeOver: in / 8, SlatGap: in / 8}
	sewing := ticket.Sewing{StitchLength: 6 * mm, Thread: 92, BackTack: in / 2, Waste: 10}
	// 18 pt = 6.35 mm and 36 pt = 12.7 mm: the CUPS project's sample.drv.
	margins := Margins{Left: 6350 * measure.Micrometre, Right: 6350 * measure.Micrometre, Top: 6350 * measure.Micrometre, Bottom: 12_700 * measure.Micrometre}
	switch {
	case s.Allow != allow:
		t.Errorf("allow = %+v; want %+v", s.Allow, allow)
	case s.Sewing != sewing:
		t.Errorf("sewing = %+v; want %+v", s.Sewing, sewing)
	case s.Margins != margins:
		t.Errorf("margins = %+v; want %+v", s.Margins, margins)
	case s.Paper != form.PaperChoice{Name: "letter"} || s.Overlap != 10*mm || s.Language != "en" || s.Address != "" || s.Bars:
		t.Errorf("settings = %+v", s)
	case s.Printer != Printer{X: measure.One, Y: measure.One}:
		t.Errorf("printer = %+v; want a true one", s.Printer)
	case s.Units() != measure.Undeclared:
		t.Errorf("units = %s; want none", s.Units())
	case s.Style(measure.Inches) != measure.Usual(measure.Inches) || s.Style(measure.Millimetres) != measure.Usual(measure.Millimetres):
		t.Errorf("style = %+v; want the usual one", s.Style(measure.Inches))
	case s.Labels.Single || s.Labels.Rows != 5 || s.Labels.Columns != 2 || s.Labels.Width != 4*in || s.Labels.Height != 6*in:
		t.Errorf("labels = %+v", s.Labels)
	}
	p := s.Practice()
	if p.Allow != allow || p.Sewing != sewing || p.Limits != s.Limits || p.Style(measure.Inches).Denominator != 16 {
		t.Errorf("practice = %+v", p)
	}
	// A shade 40 ft long must count as a mistake, one 10 ft wide must not.
	if l := s.Limits.LongestSide; l >= 40*measure.Foot || l < 120*in {
		t.Errorf("longest side = %s", l)
	}
}

// Each source provides one setting, and each source hides the weaker ones.
func TestOrder(t *testing.T) {
	job, user := t.TempDir(), t.TempDir()
	write(t, user, "allow: {wrap: 1 in, hem: 11 mm, pocket: 21 mm, tube_over: 31 mm}\n")
	write(t, job, "# the shop's\nallow:\n  wrap: 2 in\n  hem: 12 mm\n  pocket: 22 mm\n")
	environ := []string{"PATH=/bin", "SHADEWRIGHT_ALLOW_WRAP=3 in", "SHADEWRIGHT_ALLOW_HEM=13 mm"}
	flags := map[string]string{"allow.wrap": "4 in", "paper": "a4"}
	s := load(t, Options{JobDir: job, UserDir: user, Environ: environ, Flags: flags})
	want := ticket.Allow{Wrap: 4 * in, Hem: 13 * mm, Pocket: 22 * mm, StitchInset: in / 8, TubeOver: 31 * mm, SlatGap: in / 8}
	if s.Allow != want || s.Paper.Name != "a4" {
		t.Errorf("allow = %+v on %+v; want %+v on a4", s.Allow, s.Paper, want)
	}
	from := map[string]string{
		"allow.wrap":      "flag --set allow.wrap",
		"allow.hem":       "environment SHADEWRIGHT_ALLOW_HEM",
		"allow.pocket":    filepath.Join(job, FileName) + ":5",
		"allow.tube_over": filepath.Join(user, FileName) + ":1",
		"allow.slat_gap":  "built-in",
		"paper":           "flag --set paper",
	}
	value := map[string]string{"allow.wrap": "4 in", "allow.hem": "13 mm", "allow.pocket": "22 mm", "allow.tube_over": "31 mm", "allow.slat_gap": "1/8 in", "paper": "a4"}
	seen := 0
	for _, r := range s.Table() {
		if f, ok := from[r.Key]; ok {
			seen++
			if r.From != f || r.Value != value[r.Key] {
				t.Errorf("%s = %q from %s; want %q from %s", r.Key, r.Value, r.From, value[r.Key], f)
			}
		}
	}
	if seen != len(from) {
		t.Errorf("the table shows %d of %d settings", seen, len(from))
	}

	asked := filepath.Join(t.TempDir(), "other.yaml")
	if err := os.WriteFile(asked, []byte("allow: {pocket: 33 mm}\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	s = load(t, Options{JobDir: job, UserDir: user, File: asked})
	if s.Allow.Pocket != 33*mm || s.Allow.Hem != 11*mm {
		t.Errorf("with a file named by its path, allow = %+v; want its pocket and the user's hem", s.Allow)
	}
}

func TestValues(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, `units: mm
paper: 610 mm x 48 in
margin: {left: 4.2 mm, right: 4.2 mm, top: 0 mm, bottom: 18 mm}
rounding: {denominator: 32, metric: 1 mm, comma: yes}
printer: {name: office, x: 1.0031, y: 0.9984}
code: {address: "http://bench.local:8080/", bars: yes}
label: {sheet: single, width: 100 mm, height: 150 mm}
sewing: {stitch: 5 mm, thread: 69, needle: 18, waste: 15 %}
limits.snug: 2 mm
`)
	s := load(t, Options{JobDir: dir})
	switch {
	case s.Units() != measure.Millimetres:
		t.Errorf("units = %s", s.Units())
	case s.Paper != form.PaperChoice{Width: 610 * mm, Height: 48 * in}:
		t.Errorf("paper = %+v", s.Paper)
	case s.Margins != Margins{4200 * measure.Micrometre, 4200 * measure.Micrometre, 0, 18 * mm}:
		t.Errorf("margins = %+v", s.Margins)
	case s.Rounding != Rounding{32, mm, true}:
		t.Errorf("rounding = %+v", s.Rounding)
	case s.Printer != Printer{"office", 1_003_100, 998_400}:
		t.Errorf("printer = %+v", s.Printer)
	case s.Address != "HTTP://BENCH.LOCAL:8080" || !s.Bars:
		t.Errorf("address = %q, bars %t", s.Address, s.Bars)
	case !s.Labels.Single || s.Labels.Width != 100*mm || s.Labels.Height != 150*mm:
		t.Errorf("labels = %+v", s.Labels)
	case s.Sewing != ticket.Sewing{StitchLength: 5 * mm, Thread: 69, Needle: 18, BackTack: in / 2, Waste: 15}:
		t.Errorf("sewing = %+v", s.Sewing)
	case s.Limits.Snug != 2*mm:
		t.Errorf("limits = %+v", s.Limits)
	}
}

func TestBadFiles(t *testing.T) {
	const address = "; write for example HTTP://192.168.1.20:8080"
	tests := []struct{ text, want string }{
		{"marjin: 1 in", `1: unknown key "marjin"; shadewright check --settings lists every setting`},
		{"margins: {left: 1 in}", `1: unknown key "margins"; shadewright check --settings lists every setting`},
		{"paperr: a4", `1: unknown key "paperr"; did you mean paper?`},
		{"Paper: a4", `1: unknown key "Paper"; did you mean paper?`},
		{"allow: {hemm: 1 in}", `1: unknown key "allow.hemm"; did you mean allow.hem?`},
		{"allow: 7 in", `1: allow: "7 in" is one value, not a group of settings; write its settings under it, indented`},
		{"allow: [7 in]", `1: allow: is a list, not a group of settings; write its settings under it, indented`},
		{"allow: {wrap: {left: 7 in}}", `1: allow.wrap: is a group of keys; write for example wrap: 9 in`},
		{"allow: {wrap: }", `1: allow.wrap: has no value; write for example wrap: 9 in`},
		{"allow: {wrap: 7}", `1: allow.wrap: "7" has no unit; add mm, cm or in, for example 960 mm`},
		{"allow: {wrap: 7 furlongs}", `1: allow.wrap: "7 furlongs" has the unknown unit "furlongs"; use in, ft, yd, mm, cm or m`},
		{"allow: {wrap: -7 in}", `1: allow.wrap: "-7 in" is negative; write zero or a length above zero`},
		{"allow: {hem: 0 in}", `1: allow.hem: "0 in" is zero; write a length above zero`},
		{"allow: {wrap: 7 in, wrap: 8 in}", `1: "wrap" appears twice, first on line 1; keep one of them`},
		{"allow.wrap: 7 in\nallow: {wrap: 8 in}", `2: allow.wrap: "8 in" appears twice, first on line 1; keep one of them`},
		{"units: cm", `1: units: "cm" is not one of the words allowed here; write in, mm or job`},
		{"paper: foolscap", `1: paper: "foolscap" is not a known paper; write a4, letter, or width x height such as 36 in x 48 in`},
		{"paper: 36 x 48", `1: paper: "36 x 48" has a width that has no unit; add mm, cm or in, for example 960 mm`},
		{"paper: 36 in x 300 in", `1: paper: "36 in x 300 in" has a height that is more than 5080 mm; write a size that a PDF page can have`},
		{"language: elvish", `1: language: "elvish" is not one of the words allowed here; write en`},
		{"rounding: {denominator: 10}", `1: rounding.denominator: "10" is out of range; write 8, 16, 32 or 64`},
		{"rounding: {metric: 0 mm}", `1: rounding.metric: "0 mm" is zero; write a length above zero`},
		{"rounding: {comma: true}", `1: rounding.comma: "true" is not one of the words allowed here; write yes, no or language`},
		{"printer: {x: 0.94}", ""},
		{"printer: {x: 0.89}", `1: printer.x: "0.89" is less than 0.9; write a factor from 0.9 to 1.1; a page further off was scaled by the print dialog`},
		{"printer: {y: 1.2}", `1: printer.y: "1.2" is more than 1.1; write a factor from 0.9 to 1.1; a page further off was scaled by the print dialog`},
		{"printer: {y: 99 %}", `1: printer.y: "99 %" is not a plain number; write for example 1.0031`},
		{"code: {address: bench.local}", `1: code.address: "bench.local" is not the address of a server` + address},
		{"code: {address: 'ftp://bench'}", `1: code.address: "ftp://bench" is not the address of a server` + address},
		{"code: {address: 'http://bench/shop'}", `1: code.address: "http://bench/shop" has a path after the server` + address},
		{"code: {address: 'http://bench_1'}", `1: code.address: "http://bench_1" has "_", which does not fit the code; use letters, digits, dots and dashes: write for example HTTP://192.168.1.20:8080`},
		{"code: {address: 'http://[::1]:80'}", `1: code.address: "http://[::1]:80" has "[", which does not fit the code; use letters, digits, dots and dashes: write for example HTTP://192.168.1.20:8080`},
		{"code: {address: 'http://:80'}", `1: code.address: "http://:80" has no server name` + address},
		{"code: {address: 'http://bench:99999'}", `1: code.address: "http://bench:99999" has an invalid port; use a port from 1 to 65535`},
		{"label: {rows: 0}", `1: label.rows: "0" is out of range; write a number from 1 to 50`},
		{"sewing: {thread: 90}", `1: sewing.thread: "90" is out of range; write 46, 69, 92 or 138, the commercial size of the thread`},
		{"overlap: 1 mm", `1: overlap: "1 mm" is less than 3 mm; check the number and its unit`},
		{"limits: {longest_side: 1 in}", `1: limits.longest_side: "1 in" is less than 254 mm; check the number and its unit`},
		{"opening: {tip_off: 1/8 in or 4}", `1: opening.tip_off: "1/8 in or 4" has no unit; add mm, cm or in, for example 960 mm`},
		{"opening: {width_step: 0 in or 1 mm}", `1: opening.width_step: "0 in or 1 mm" is zero; write a length above zero`},
		{"opening: {cloth_off: 1/2 in}", `1: opening.cloth_off: "1/2 in" does not fit the other deductions; tip_off must be the least, then barrel_off, then cloth_off`},
		{"opening: {differ: 1 mm}", `1: opening.differ: "1 mm" is less than agree; give at least agree, 1/16 in`},
		{"opening: {height: tallest}", `1: opening.height: "tallest" is not one of the words allowed here; write longest, shortest or middle`},
		{"opening: {overlap: 2 in}", `1: opening.overlap: "2 in" is one value, not a group of settings; write its settings under it, indented`},
		{"square: {area: 20}", `1: square.area: "20" has no unit; write for example 20 ft2 or 1.9 m2`},
		{"limits: {lift: 0.5}", `1: limits.lift: "0.5" is less than 1; write a number from 1 to 10`},
		{"limits: {fly: 1.1}", `1: limits.fly: "1.1" is out of range; give more than lift`},
		{"limits: {wraps_stop: 2, wraps_caution: 1}", `1: limits.wraps_caution: "1" is out of range; give at least wraps_stop`},
		{"limits: {wraps_stop: -1}", `1: limits.wraps_stop: "-1" is not a plain number; write for example 1.0031`},
		{"a: b: c", `1: has a misplaced colon; check the indentation, and put text with a colon in quotes`},
		{"- paper", `1: is a list, not a group of keys; write lines such as key: value`},
		{"paperr: a4\nallow: {wrap: 7, hem: 0 in}\nsewing: {waste: x}", `1: unknown key "paperr"; did you mean paper?` + "\n" +
			`2: allow.wrap: "7" has no unit; add mm, cm or in, for example 960 mm` + "\n" +
			`2: allow.hem: "0 in" is zero; write a length above zero` + "\n" +
			`3: sewing.waste: "x" is not a whole number; write a number from 0 to 100, in percent`},
		{"", ""},
		{"# nothing set\n", ""},
	}
	for _, tt := range tests {
		dir := t.TempDir()
		path := write(t, dir, tt.text)
		_, err := Load(Options{JobDir: dir, Papers: papers})
		if tt.want == "" {
			if err != nil {
				t.Errorf("%q gives %v; want no error", tt.text, err)
			}
			continue
		}
		want := path + ":" + strings.ReplaceAll(tt.want, "\n", "\n"+path+":")
		var ps form.Problems
		if !errors.As(err, &ps) || err.Error() != want {
			t.Errorf("%q gives\n     %v\nwant %s", tt.text, err, want)
		}
	}
}

func TestBadSources(t *testing.T) {
	tests := []struct {
		opt  Options
		want string
	}{
		{Options{Environ: []string{"SHADEWRIGHT_PAPER=leter"}}, `environment SHADEWRIGHT_PAPER: "leter" is not a known paper; did you mean letter?`},
		{Options{Environ: []string{"SHADEWRIGHT_PAPERR=a4"}}, `environment: unknown variable "SHADEWRIGHT_PAPERR"; did you mean SHADEWRIGHT_PAPER?`},
		{Options{Environ: []string{"SHADEWRIGHT_PAPER="}}, `environment SHADEWRIGHT_PAPER: is empty; give it a value, or leave it out`},
		{Options{Flags: map[string]string{"paper": "leter"}}, `flag --set paper: "leter" is not a known paper; did you mean letter?`},
		{Options{Flags: map[string]string{"allow.wrap": "7"}}, `flag --set allow.wrap: "7" has no unit; add mm, cm or in, for example 960 mm`},
		{Options{Flags: map[string]string{"allow.wrop": "7 in"}}, `flag --set: unknown key "allow.wrop"; did you mean allow.wrap?`},
		// A value that a flag hides is judged as well.
		{Options{Environ: []string{"SHADEWRIGHT_PAPER=leter"}, Flags: map[string]string{"paper": "a4"}}, `environment SHADEWRIGHT_PAPER: "leter" is not a known paper; did you mean letter?`},
	}
	for _, tt := range tests {
		tt.opt.Papers = papers
		if _, err := Load(tt.opt); err == nil || err.Error() != tt.want {
			t.Errorf("Load(%+v) gives\n     %v\nwant %s", tt.opt, err, tt.want)
		}
	}
	if s := load(t, Options{Papers: []string{"a2"}, Flags: map[string]string{"paper": "a2"}, Environ: []string{"SHADEWRIGHT_PAPER=a2"}}); s.Paper.Name != "a2" {
		t.Errorf("paper = %+v; want a2, which the caller knows", s.Paper)
	}
	none := filepath.Join(t.TempDir(), "none.yaml")
	if _, err := Load(Options{File: none}); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a missing settings file that was named gives %v", err)
	}
	if _, err := Load(Options{JobDir: t.TempDir(), UserDir: t.TempDir()}); err != nil {
		t.Errorf("folders without settings give %v", err)
	}
}

// Every row of the table is complete: a unique key, a sentence, a reason, and
// values that its kind accepts.
func TestTable(t *testing.T) {
	rows := table(Options{})
	byEnv := map[string]string{}
	for _, r := range rows {
		if other, twice := byEnv[envName(r.Name)]; twice {
			t.Errorf("%s and %s have the same variable", r.Name, other)
		}
		byEnv[envName(r.Name)] = r.Name
		if r.Doc == "" || r.reason == "" || r.Example == "" || r.Name != strings.ToLower(r.Name) {
			t.Errorf("%s lacks a sentence, a reason or an example, or has capitals", r.Name)
		}
		for _, text := range []string{r.builtIn, r.Example} {
			var s Settings
			if f := r.Kind.(form.Scalar).Set(text, measure.Undeclared, r.Into(&s)); text != "" && f != nil {
				t.Errorf("%s: %q %s; %s", r.Name, text, f.Problem, f.Fix)
			}
		}
	}
	if got := len(load(t, Options{}).Table()); got != len(rows) {
		t.Errorf("Table has %d rows; want %d", got, len(rows))
	}
	if len(slices.Collect(maps.Keys(byEnv))) != len(rows) {
		t.Error("the table has a key twice")
	}
}

func BenchmarkLoad(b *testing.B) {
	dir := b.TempDir()
	if err := os.WriteFile(filepath.Join(dir, FileName), []byte("paper: a4\nallow: {wrap: 7 in}\n"), 0o600); err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Load(Options{JobDir: dir}); err != nil {
			b.Fatal(err)
		}
	}
}

// The decimal mark follows the language unless it is set.
func TestComma(t *testing.T) {
	known := []Language{{Tag: "en"}, {Tag: "es", Comma: true}}
	tests := []struct {
		flags map[string]string
		want  bool
	}{ // Unicode CLDR: en writes 1.5, es 1,5
		{nil, false},
		{map[string]string{"language": "es"}, true},
		{map[string]string{"language": "es", "rounding.comma": "no"}, false},
		{map[string]string{"rounding.comma": "yes"}, true},
	}
	for _, tt := range tests {
		s, err := Load(Options{Flags: tt.flags, Languages: known})
		if err != nil {
			t.Fatal(err)
		}
		if s.Rounding.Comma != tt.want {
			t.Errorf("%v: comma %v; want %v", tt.flags, s.Rounding.Comma, tt.want)
		}
	}
}

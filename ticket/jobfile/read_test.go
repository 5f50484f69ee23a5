package jobfile

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"shadewright/ticket"
	"shadewright/ticket/goods"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

const (
	sampleInches = "../../testdata/jobs/bunkhouse.yaml"
	sampleMetric = "../../testdata/jobs/narrowboat.yaml"
	sampleStop   = "../../testdata/jobs/leanto.yaml"

	in = measure.Inch
	um = measure.Micrometre
)

// The wanted values are those of the sample, converted to lengths by hand.
func TestReadPath(t *testing.T) {
	f, err := ReadPath(sampleInches, Options{})
	if err != nil {
		t.Fatal(err)
	}
	j := f.Job
	if j.Name != "Heron Landing bunkhouse" || j.ID.String() != "5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31" ||
		j.Client != "Invented for the sample" || !j.Due.Equal(time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC)) ||
		j.Style != measure.Usual(measure.Inches) || f.Paper != (Paper{Name: "letter"}) || len(j.Shades) != 9 {
		t.Errorf("job = %+v on %+v", j, f.Paper)
	}
	allow := ticket.Allow{Wrap: 9 * in, Hem: 3 * in / 8, Pocket: in + 5*in/16, StitchInset: in / 8, TubeOver: in / 8, SlatGap: in / 8}
	sewing := ticket.Sewing{StitchLength: 5 * mm, Thread: 69, Needle: 18, BackTack: in / 2, Waste: 10}
	mesh := ticket.Goods{Name: "reed-mesh", Kind: goods.CoatedMesh, Width: 58 * in, Selvage: [2]measure.Length{in / 2, in / 2},
		Thickness: 600 * um, Mass: 440 * measure.GramPerSquareMetre, Lay: ticket.AnyWay}
	donor := ticket.Roller{Name: "donor", Tube: in + in/8, Shortest: 20 * in, Longest: 36 * in, Count: 4, ByTrial: true}
	aluminium, _ := hang.MaterialNamed("aluminium")
	wood, _ := hang.MaterialNamed("wood")
	flat := ticket.Slat{Name: "flat", Width: in, Thickness: 3 * in / 32, Material: aluminium}
	check(t, "bunk-left", j.Shades[0], ticket.Shade{ID: "bunk-left", Place: "lower bunk, lake side", Quantity: 2,
		Note:     "The left bracket sits 1/4 in lower than the right one.",
		Finished: measure.Size{Width: 27*in + in/2, Length: 40 * in}, AsBefore: true, Goods: mesh, Roller: donor, Slat: flat, Allow: allow, Sewing: sewing})
	check(t, "door", j.Shades[2], ticket.Shade{ID: "door", Place: "door to the landing", Quantity: 1, Roll: ticket.Reverse,
		Note:     "Rolls to the room side to clear the handle.",
		Finished: measure.Size{Width: 23*in + 3*in/4, Length: 70 * in}, AsBefore: true, Goods: mesh, Roller: donor, Slat: flat, Allow: allow, Sewing: sewing})

	own := sewing
	own.Thread, own.Needle = 46, 14
	check(t, "kitchen", j.Shades[3], ticket.Shade{ID: "kitchen", Place: "over the sink", Quantity: 1,
		Finished: measure.Size{Width: 41*in + 3*in/4, Length: 31*in + 5*in/8}, AsBefore: true,
		// 9.25 oz/yd² is 313.628 g/m².
		Goods:  ticket.Goods{Name: "dune-acrylic", Kind: goods.AcrylicCanvas, Width: 60 * in, Selvage: [2]measure.Length{3 * in / 4, 3 * in / 4}, Thickness: 550 * um, Mass: 313_628, Lay: ticket.Lengthwise},
		Roller: ticket.Roller{Name: "long-donor", Tube: in + in/4, Shortest: 34 * in, Longest: 60 * in, Count: 2, ByTrial: true},
		Slat:   ticket.Slat{Name: "rod", Diameter: 3 * in / 8, Material: wood}, Allow: allow, Sewing: own})

	wider := allow
	wider.Wrap, wider.SideHem = 10*in, in/2
	loft := j.Shades[4]
	if loft.Allow != wider || loft.Goods.Selvage != [2]measure.Length{in / 2, in} || loft.Goods.Usable() != 70*in+in/2 {
		t.Errorf("sleeping-loft = %+v", loft)
	}
	if r := j.Shades[5].Roller; r != (ticket.Roller{Name: "porch", Tube: in + in/2, Longest: 73 * in, Count: 1, ByTrial: true}) {
		t.Errorf("porch's roller = %+v", r)
	}
	if want := []int{61, 72, 80, 92, 101, 110, 119, 134, 148}; fmt.Sprint(f.Lines) != fmt.Sprint(want) {
		t.Errorf("lines = %v; want %v", f.Lines, want)
	}
}

func check(t *testing.T, what string, got, want ticket.Shade) {
	t.Helper()
	if got != want {
		t.Errorf("%s is read as\n     %+v\nwant %+v", what, got, want)
	}
}

func TestReadPathMetric(t *testing.T) {
	f, err := ReadPath(sampleMetric, Options{})
	if err != nil {
		t.Fatal(err)
	}
	galley, berth := f.Job.Shades[1], f.Job.Shades[2]
	if galley.Finished != (measure.Size{Width: 1200 * mm, Length: 425 * mm}) || galley.Goods.Width != 1800*mm || galley.Slat.Diameter != 8*mm || !galley.Slat.Round() {
		t.Errorf("galley = %+v", galley)
	}
	if berth.Finished != (measure.Size{Width: 24 * in, Length: 500 * mm}) || berth.Goods.Width != 920*mm || berth.Goods.Lay != ticket.Lengthwise {
		t.Errorf("berth = %+v", berth)
	}
	if f.Job.Style.System != measure.Millimetres || f.Paper.Name != "a4" {
		t.Errorf("style %+v, paper %+v", f.Job.Style, f.Paper)
	}
}

// A job that differs from the sound job only in how it is written reads the same.
func TestOtherWritings(t *testing.T) {
	want, err := Read("job.yaml", []byte(sound), practiceOf)
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{
		"a byte order mark":          "\ufeff" + sound,
		"Windows line ends":          strings.ReplaceAll(sound, "\n", "\r\n"),
		"both":                       "\ufeff" + strings.ReplaceAll(sound, "\n", "\r\n"),
		"a start and an end mark":    "---\n" + sound + "...\n",
		"no last line end":           strings.TrimSuffix(sound, "\n"),
		"lengths in quotes":          strings.Replace(sound, "27-1/2", `'27 1/2"'`, 1),
		"an inch mark":               strings.Replace(sound, "27-1/2", `27-1/2"`, 1),
		"feet and inches":            strings.Replace(sound, "27-1/2", `2' 3 1/2"`, 1),
		"a fraction sign":            strings.Replace(sound, "27-1/2", "27½", 1),
		"a decimal":                  strings.Replace(sound, "27-1/2", "27.5", 1),
		"a decimal comma in quotes":  strings.Replace(sound, "27-1/2", `"27,5"`, 1),
		"millimetres":                strings.Replace(sound, "27-1/2", "698.5 mm", 1),
		"two selvages":               strings.Replace(sound, "selvage: 1/2", "selvage: {left: 1/2, right: 0.5}", 1),
		"definitions at the end":     moved(sound),
		"blanks around a text":       strings.Replace(sound, "job: Heron Landing", "job: ' Heron Landing '", 1),
		"a block instead of braces":  strings.Replace(sound, "{width: 27-1/2, length: 40}", "\n      width: 27-1/2\n      length: 40", 1),
		"a block with decimal comma": strings.Replace(sound, "{width: 27-1/2, length: 40}", "\n      width: 27,5\n      length: 40", 1),
	} {
		got, err := Read("job.yaml", []byte(text), practiceOf)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if fmt.Sprintf("%+v", got.Job) != fmt.Sprintf("%+v", want.Job) || got.Paper != want.Paper {
			t.Errorf("%s is read as\n     %+v\nwant %+v", name, got, want)
		}
	}
}

// moved puts goods, rollers and slats after the shades.
func moved(text string) string {
	a, b := strings.Index(text, "goods:"), strings.Index(text, "shades:")
	return text[:a] + text[b:] + text[a:b]
}

func TestPaper(t *testing.T) {
	for text, want := range map[string]Paper{
		"paper: a3":                               {Name: "a3"},
		"paper: {width: 36, height: 48 in}":       {Width: 36 * in, Height: 48 * in},
		"paper: 610 mm x 48":                      {Width: 610 * mm, Height: 48 * in},
		"paper: 24 × 200 in":                      {Width: 24 * in, Height: 200 * in},
		"due: 2027-03-01":                         {},
		"paper: {width: 914 mm, height: 5080 mm}": {Width: 914 * mm, Height: 200 * in},
	} {
		f, err := Read("job.yaml", []byte(strings.Replace(sound, "paper: letter", text, 1)), practiceOf)
		if err != nil || f.Paper != want {
			t.Errorf("%s is read as %+v, %v; want %+v", text, f, err, want)
		}
	}
}

// The template may have other paper than the rest: roll paper by its width, in the
// job's units if the width has no unit.
func TestTemplatePaper(t *testing.T) {
	for text, want := range map[string]Paper{
		"paper: letter":              {},
		"template_paper: tabloid":    {Name: "tabloid"},
		"template_paper: roll-36in":  {Roll: 36 * in},
		"template_paper: roll-36":    {Roll: 36 * in},
		"template_paper: 914mm roll": {Roll: 914 * mm},
		"template_paper: Roll 24 in": {Roll: 24 * in},
		"template_paper: 24 × 36":    {Width: 24 * in, Height: 36 * in},
	} {
		f, err := Read("job.yaml", []byte(strings.Replace(sound, "paper: letter", text, 1)), practiceOf)
		if err != nil || f.TemplatePaper != want {
			t.Errorf("%s is read as %+v, %v; want %+v", text, f, err, want)
		}
	}
}

// The shop's practice applies where the job gives no value, and the job's where the
// shade gives none. A thread brings its own needle.
func TestPractice(t *testing.T) {
	opt := Options{Practice: ticket.Practice{
		Allow:  ticket.Allow{Wrap: 8 * in, SlatGap: in / 4, Pocket: 2 * in},
		Sewing: ticket.Sewing{StitchLength: 5 * mm, Thread: 92, Needle: 20, Waste: 12},
		Style: func(s measure.System) measure.Style {
			return measure.Style{System: s, Denominator: 32, Metric: mm}
		},
	}}
	text := strings.Replace(sound, "    roll: standard", "    allow: {wrap: 10, slat_gap: 0}\n    sewing: {thread: 69}", 1)
	f, err := Read("job.yaml", []byte(text), opt)
	if err != nil {
		t.Fatal(err)
	}
	left, right := f.Job.Shades[0], f.Job.Shades[1]
	if want := (ticket.Allow{Wrap: 10 * in, Hem: in * 5 / 8, Pocket: in + in*3/8}); left.Allow != want {
		t.Errorf("left: allow %+v; want %+v", left.Allow, want)
	}
	if want := (ticket.Allow{Wrap: 9 * in, Hem: in * 5 / 8, Pocket: in + in*3/8, SlatGap: in / 4}); right.Allow != want {
		t.Errorf("right: allow %+v; want %+v", right.Allow, want)
	}
	if want := (ticket.Sewing{StitchLength: 5 * mm, Thread: 69, Waste: 12}); left.Sewing != want {
		t.Errorf("left: sewing %+v; want %+v", left.Sewing, want)
	}
	if right.Sewing != opt.Practice.Sewing || f.Job.Style.Denominator != 32 {
		t.Errorf("right: sewing %+v, style %+v", right.Sewing, f.Job.Style)
	}
}

// A shop's pocket can be deeper than a shade: the message then points to the size.
func TestFoldsOfTheShop(t *testing.T) {
	text := strings.Replace(sound, "hem: 5/8, ", "", 1)
	opt := practiceOf
	opt.Practice.Allow.Hem = 38 * in
	_, err := Read("job.yaml", []byte(text), opt)
	const want = `job.yaml:24: shades.right.allow.hem: "38 in" is as deep as the shade is long, 37 in; check both numbers and their units`
	if err == nil || err.Error() != want {
		t.Errorf("a hem of 38 in is read as\n     %v\nwant %s", err, want)
	}
}

func TestTooManyUnits(t *testing.T) {
	var b strings.Builder
	b.WriteString(sound)
	for i := range 11 {
		fmt.Fprintf(&b, "  - {id: more-%d, goods: mesh, roller: donor, slat: flat, quantity: 10000, finished: {width: 26, length: 37}}\n", i)
	}
	_, err := Read("job.yaml", []byte(b.String()), practiceOf)
	// 3 units, then ten times 10,000: the tenth brings the job to 100,003.
	const want = `job.yaml:34: shades.more-9.quantity: "10000" brings the job to more than 100000 shades; check the quantities, or split the job`
	if err == nil || err.Error() != want {
		t.Errorf("110,003 units are read as\n     %v\nwant %s", err, want)
	}
}

func TestNewID(t *testing.T) {
	opt := Options{NewID: func() uuid.UUID { return uuid.MustParse("0b9d3b1c-6a57-4e0b-8d8e-2f6c1f7f9a42") }}
	_, err := Read("job.yaml", []byte(strings.Replace(sound, "id: 5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31\n", "", 1)), opt)
	const want = "job.yaml:1: id: is missing; write for example id: 0b9d3b1c-6a57-4e0b-8d8e-2f6c1f7f9a42"
	if err == nil || err.Error() != want {
		t.Errorf("a job without id is read as\n     %v\nwant %s", err, want)
	}
}

func TestReadPathRefuses(t *testing.T) {
	dir := t.TempDir()
	large := filepath.Join(dir, "large.yaml")
	f, err := os.Create(large)
	if err == nil {
		err = errors.Join(f.Truncate(50<<20), f.Close())
	}
	if err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{
		large: large + ": has 50.0 MiB, which is over the limit of 1 MiB; check that this is the right file, or split it",
		dir:   dir + ": is a folder; give the name of a file in it",
	} {
		_, err := ReadPath(path, Options{})
		var ps Problems
		if !errors.As(err, &ps) || err.Error() != want {
			t.Errorf("ReadPath(%s) = %v; want %s", path, err, want)
		}
	}
	_, err = ReadPath(filepath.Join(dir, "none.yaml"), Options{})
	var ps Problems
	if !errors.Is(err, fs.ErrNotExist) || errors.As(err, &ps) {
		t.Errorf("a file that is not there gives %v", err)
	}
}

func FuzzRead(f *testing.F) {
	for _, path := range []string{sampleInches, sampleMetric, sampleStop} {
		data, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	for _, e := range badEdits {
		f.Add([]byte(strings.Replace(sound, e.old, e.new, 1)))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		file, err := Read("job.yaml", data, Options{})
		if err != nil {
			var ps Problems
			if !errors.As(err, &ps) || len(ps) == 0 {
				t.Fatalf("error of type %T", err)
			}
			last := 0
			for _, p := range ps {
				if p.Problem == "" || p.Fix == "" || p.Line < last || p.Line > 1+strings.Count(string(data), "\n") {
					// CR, NEL and the line separators also end a line in YAML.
					if !strings.ContainsAny(string(data), "\r\u0085\u2028\u2029") {
						t.Fatalf("a poor problem: %+v", p)
					}
				}
				last = p.Line
			}
			return
		}
		for _, s := range file.Job.Shades {
			if s.ID == "" || s.Quantity < 1 || s.Opening == nil && (s.Finished.Width <= 0 || s.Finished.Length <= 0) || s.Goods.Width <= 0 || s.Roller.Tube < 0 {
				t.Fatalf("an unsound shade: %+v", s)
			}
		}
	})
}

func BenchmarkRead(b *testing.B) {
	for _, shades := range []int{10, 1000} {
		var text strings.Builder
		text.WriteString(sound)
		for i := range shades - 2 {
			fmt.Fprintf(&text, "  - id: opening-%d\n    place: room %d\n    goods: mesh\n    roller: donor\n    slat: flat\n    finished: {width: 27-1/2, length: 40 3/4}\n", i, i)
		}
		data := []byte(text.String())
		b.Run(strconv.Itoa(shades), func(b *testing.B) {
			b.ReportAllocs()
			b.SetBytes(int64(len(data)))
			for b.Loop() {
				if _, err := Read("job.yaml", data, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

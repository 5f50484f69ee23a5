package jobfile

import (
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/google/uuid"
	"pgregory.net/rapid"

	"shadewright/ticket"
	"shadewright/ticket/goods"
	"shadewright/ticket/measure"
)

// The samples use nearly every key. Written and read again, they are the same jobs,
// whatever the shop's practice.
func TestWriteSamples(t *testing.T) {
	other := Options{Practice: ticket.Practice{
		Allow:  ticket.Allow{Wrap: 99 * mm, Hem: 9 * mm, Pocket: 44 * mm, StitchInset: 2 * mm, SideHem: 8 * mm, TubeOver: 7 * mm, SlatGap: 6 * mm},
		Sewing: ticket.Sewing{StitchLength: 4 * mm, Thread: 46, Needle: 14, BackTack: 5 * mm, Waste: 3},
	}}
	samples, err := filepath.Glob("../../testdata/jobs/*.yaml")
	if err != nil || len(samples) < 2 {
		t.Fatalf("%d samples, %v", len(samples), err)
	}
	for _, path := range samples {
		for _, opt := range []Options{{}, other} {
			f, err := ReadPath(path, opt)
			if err != nil {
				t.Fatal(err)
			}
			text, err := Write(f, WriteOptions{Options: opt, Schema: "../job.schema.json"})
			if err != nil {
				t.Errorf("%s: %v", path, err)
				continue
			}
			back, err := Read(path, text, opt)
			if err != nil {
				t.Errorf("%s: %v\n%s", path, err, text)
			} else if !reflect.DeepEqual(back.Job, f.Job) || back.Paper != f.Paper {
				t.Errorf("%s reads back as\n%+v; want\n%+v", path, back.Job, f.Job)
			}
		}
	}
}

// A job with every key about hanging, and one with every key about goods, are the
// same when written and read again.
func TestWriteHanging(t *testing.T) {
	for _, text := range []string{
		hung,
		strings.Replace(hung, "mount: inside", "mount: outside\n      overlap: {left: 1, right: 2, above: 3, below: 0}\n      valance: 4", 1),
		strings.Replace(hung, "    bracket: jamb\n    behind: wood\n", "", 1),
		strings.Replace(hung, "lay: any}", "lay: any, repeat: 25, allowance: 1/4, price: 18.50, price_per: 1 yd, sold_by: 4-1/2, match: room, on_hand: [{label: shelf-3, width: 40, length: 90}]}", 1),
	} {
		f, err := Read("job.yaml", []byte(text), practiceOf)
		if err != nil {
			t.Errorf("%v\n%s", err, text)
			continue
		}
		if out, err := Write(f, WriteOptions{Options: practiceOf}); err != nil {
			t.Errorf("%v\n%s", err, text)
		} else if strings.Count(string(out), "  - id:") != 1 {
			t.Errorf("wrote\n%s", out)
		}
	}
}

// Write writes a file as a person would, and shows what could be added.
func TestWriteWords(t *testing.T) {
	f, err := ReadPath(sampleInches, Options{})
	if err != nil {
		t.Fatal(err)
	}
	text, err := Write(f, WriteOptions{Head: []string{"Made for a test."}, Schema: "job.schema.json"})
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"# yaml-language-server: $schema=job.schema.json\n# Made for a test.\n",
		"\njob: Heron Landing bunkhouse\n",
		"allow: {wrap: 9, hem: 3/8, pocket: 1-5/16, stitch_inset: 1/8, side_hem: 0, tube_over: 1/8, slat_gap: 1/8}\n",
		"  reed-mesh: {kind: coated-mesh, width: 58, selvage: 1/2, thickness: 0.6 mm, mass: 440 g/m2, lay: any}\n",
		" One of standard, reverse. Default: standard.\n",
		"selvage: {left: 1/2, right: 1}",
		"  - id: bunk-left\n    place: \"lower bunk, lake side\"\n",
		"    finished: {width: 23-3/4, length: 70}\n",
		"    allow: {wrap: 10, side_hem: 1/2}\n",
	} {
		if !strings.Contains(string(text), want) {
			t.Errorf("the file does not have %q:\n%s", want, text)
		}
	}
	f.Job.Client, f.Paper = "", Paper{}
	if text, err = Write(f, WriteOptions{}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"\n# client: the boathouse\n\n", "\n# paper: letter\n\n"} {
		if !strings.Contains(string(text), want) {
			t.Errorf("the file does not offer %q", want)
		}
	}
}

// Ounces stay ounces, and grams stay grams. The values are those of the parsers'
// tests.
func TestWriteOunces(t *testing.T) {
	for _, tt := range []struct{ typed, want string }{
		{"9.25 oz/yd2", "9.25 oz/yd2"},
		{"440 g/m2", "440 g/m2"},
		{"313.6 g/m2", "313.6 g/m2"},
	} {
		m, err := measure.ParseArealMass(tt.typed)
		if got := showAreal(m); err != nil || got != tt.want {
			t.Errorf("showAreal(%s) = %s, %v; want %s", tt.typed, got, err, tt.want)
		}
	}
	for _, tt := range []struct{ typed, want string }{{"1.3 oz/ft", "1.3 oz/ft"}, {"120 g/m", "120 g/m"}, {"120.5 g/m", "120.5 g/m"}} {
		m, err := measure.ParseLinearMass(tt.typed)
		if got := showLinear(m); err != nil || got != tt.want {
			t.Errorf("showLinear(%s) = %s, %v; want %s", tt.typed, got, err, tt.want)
		}
	}
	for _, tt := range []struct{ typed, want string }{{"1 lb 9 oz", "25 oz"}, {"540 g", "540 g"}, {"12.5 oz", "12.5 oz"}} {
		m, err := measure.ParseMass(tt.typed)
		if got := showMass(m); err != nil || got != tt.want {
			t.Errorf("showMass(%s) = %s, %v; want %s", tt.typed, got, err, tt.want)
		}
	}
}

// A job that no file can hold is refused.
func TestWriteRefuses(t *testing.T) {
	for _, tt := range []struct {
		name   string
		change func(*File)
		want   string
	}{
		{"two goods of one name", func(f *File) { f.Job.Shades[1].Goods.Width += in }, `shade bunk-right: goods "reed-mesh" differ from those of another shade; give them another name`},
		{"an id twice", func(f *File) { f.Job.Shades[1].ID = "bunk-left" }, "is also the id of the shade on line"},
		{"a width of nothing", func(f *File) { f.Job.Shades[0].Finished.Width = 0 }, "finished.width"},
		{"no id", func(f *File) { f.Job.ID = uuid.Nil }, "id: is missing"},
	} {
		f, err := ReadPath(sampleInches, Options{})
		if err != nil {
			t.Fatal(err)
		}
		tt.change(f)
		if _, err := Write(f, WriteOptions{}); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: Write error is %v; want %q in it", tt.name, err, tt.want)
		}
	}
}

// Any sound job reads back the same.
func TestWriteLaw(t *testing.T) {
	length := func(t *rapid.T, name string, least, most measure.Length) measure.Length {
		if rapid.Bool().Draw(t, name+" in inches") {
			n := rapid.Int64Range(int64(least/(in/64))+1, int64(most/(in/64))).Draw(t, name)
			return measure.Length(n) * (in / 64)
		}
		return measure.Length(rapid.Int64Range(int64(least), int64(most)).Draw(t, name))
	}
	word := rapid.StringMatching(`[\pL\pN][\pL\pN#:,'"{} -]{0,20}[\pL\pN]`)
	rapid.Check(t, func(t *rapid.T) {
		units := rapid.SampledFrom([]measure.System{measure.Inches, measure.Millimetres}).Draw(t, "units")
		f := &File{Job: ticket.Job{Name: word.Draw(t, "job"), ID: uuid.MustParse("5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31"), Style: measure.Usual(units)}}
		if rapid.Bool().Draw(t, "own paper") {
			f.Paper = Paper{Width: length(t, "paper width", 60*mm, 5000*mm), Height: length(t, "paper height", 60*mm, 5000*mm)}
		}
		if rapid.Bool().Draw(t, "roll paper") {
			f.TemplatePaper = Paper{Roll: length(t, "roll width", 100*mm, 5000*mm)}
		}
		for i := range rapid.IntRange(1, 4).Draw(t, "shades") {
			s := ticket.Shade{
				ID: string(rune('a' + i)), Quantity: rapid.IntRange(1, 9).Draw(t, "quantity"), Note: word.Draw(t, "note"),
				Finished: measure.Size{Width: length(t, "width", 400*mm, 4000*mm), Length: length(t, "length", 400*mm, 4000*mm)},
				Goods: ticket.Goods{Name: word.Draw(t, "goods") + string(rune('a'+i)), Kind: goods.CottonDuck, Width: length(t, "roll", 2000*mm, 4000*mm),
					Lay: rapid.SampledFrom([]ticket.Lay{ticket.AnyWay, ticket.Lengthwise}).Draw(t, "lay")},
				Roller: ticket.Roller{Name: "r" + string(rune('a'+i)), Tube: length(t, "tube", 10*mm, 90*mm), Longest: length(t, "longest", 2000*mm, 9000*mm)},
				Slat:   ticket.Slat{Name: "s" + string(rune('a'+i)), Diameter: length(t, "rod", mm, 90*mm)},
				Roll:   rapid.SampledFrom([]ticket.Roll{ticket.Standard, ticket.Reverse}).Draw(t, "roll"),
				Allow: ticket.Allow{Wrap: length(t, "wrap", 0, 900*mm), Hem: length(t, "hem", mm, 90*mm), Pocket: length(t, "pocket", mm, 90*mm),
					StitchInset: length(t, "inset", mm, 9*mm), SideHem: rapid.SampledFrom([]measure.Length{0, 10 * mm}).Draw(t, "side hem")},
				Sewing: ticket.Sewing{StitchLength: 6 * mm, Thread: rapid.SampledFrom([]int{69, 92}).Draw(t, "thread"), Needle: rapid.SampledFrom([]int{0, 18, 20}).Draw(t, "needle")},
			}
			if rapid.Bool().Draw(t, "telescoping") {
				s.Roller.Shortest = s.Roller.Longest / 2
			}
			if rapid.Bool().Draw(t, "selvage") {
				s.Goods.Selvage = [2]measure.Length{length(t, "left", 0, 90*mm), rapid.SampledFrom([]measure.Length{0, 5 * mm}).Draw(t, "right")}
			}
			f.Job.Shades = append(f.Job.Shades, s)
		}
		if _, err := Write(f, WriteOptions{}); err != nil {
			t.Fatal(err)
		}
	})
}

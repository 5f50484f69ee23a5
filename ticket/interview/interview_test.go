package interview

import (
	"strings"
	"testing"

	"github.com/google/uuid"
	"pgregory.net/rapid"

	"shadewright/ticket"
	"shadewright/ticket/hang"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
)

var options = Options{
	Options: jobfile.Options{Practice: ticket.Practice{ // the built-in values: common practice, no source
		Allow:  ticket.Allow{Wrap: 7 * measure.Inch, Hem: measure.Inch / 2, Pocket: measure.Inch * 5 / 4, StitchInset: measure.Inch / 8},
		Sewing: ticket.Sewing{StitchLength: 6 * measure.Millimetre, Thread: 92, BackTack: measure.Inch / 2, Waste: 10},
	}},
	ID: uuid.MustParse("5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31"), Units: measure.Inches, Paper: "letter",
}

// talk is a whole interview: two shades with the same parts, except for the slat.
var talk = []string{
	"Heron Landing", "", "", "", "",
	"mesh", "", "58", "1/2", "0.6 mm", "", "",
	"donor", "1 1/8", "3", "", "20", "36",
	"flat", "", "3/4", "3/32",
	"sink", "", "", "27 1/2", "40", "2", "", "", "yes",
	"", "", "another", "rod", "round", "3/8",
	"sink", "", "fin", "26 3/8", "37", "", "reverse", "the left one sags", "no",
}

func give(t testing.TB, v *Interview, answers []string) {
	t.Helper()
	for _, a := range answers {
		q, more := v.Next()
		if !more {
			t.Fatalf("%q answers nothing", a)
		}
		if _, err := v.Answer(a); err != nil {
			t.Fatalf("%s? %q: %v", q.Ask, a, err)
		}
	}
}

func TestConversation(t *testing.T) {
	v := New(options)
	give(t, v, talk)
	if q, more := v.Next(); more {
		t.Fatalf("still asks %s?", q.Ask)
	}
	f, err := v.File()
	if err != nil {
		t.Fatal(err)
	}
	a, b := f.Job.Shades[0], f.Job.Shades[1]
	if len(f.Job.Shades) != 2 || f.Paper.Name != "letter" || f.Job.Style.System != measure.Inches {
		t.Errorf("the job is %+v", f)
	}
	if a.ID != "sink" || a.Quantity != 2 || a.Finished.Width != measure.Inch*55/2 || a.Slat.Width != measure.Inch*3/4 {
		t.Errorf("the first shade is %+v", a)
	}
	if b.ID != "sink-2" || b.Goods != a.Goods || b.Roller != a.Roller || b.Slat.Diameter != measure.Inch*3/8 || b.Roll != ticket.Reverse || b.Note != "the left one sags" {
		t.Errorf("the second shade is %+v", b)
	}
	if _, err := jobfile.Write(f, jobfile.WriteOptions{Options: options.Options}); err != nil {
		t.Error(err)
	}
}

// The answer that completes a shade says what to cut. By hand: 40 + 7 + 1/2 + 1-1/4
// = 48-3/4.
func TestCut(t *testing.T) {
	v := New(options)
	give(t, v, talk[:29])
	said, err := v.Answer(talk[29])
	if err != nil {
		t.Fatal(err)
	}
	const want = "sink is complete. Cut the panel 27-1/2 in wide and 48-3/4 in long, the tube 27-1/2 in, the slat 27-1/2 in."
	if len(said) < 2 || said[1] != want {
		t.Errorf("said %q; want %q", said, want)
	}
}

// An opening is measured at three places, and the finished size is worked out.
func TestOpening(t *testing.T) {
	v := New(options)
	give(t, v, append(append([]string(nil), talk[:24]...), "opening", "", "34 7/16", "34 3/8", "34 1/2", "52", "", "", "62 3/8"))
	if _, err := v.Answer(""); err == nil {
		t.Error("one diagonal is enough")
	}
	give(t, v, []string{"62 5/16", "3 1/2", "", "", "", "no"})
	f, err := v.File()
	if err != nil {
		t.Fatal(err)
	}
	o := f.Job.Shades[0].Opening
	in := measure.Inch
	if o == nil || o.Mount != hang.Inside || len(o.Widths) != 3 || o.Widths[1] != in*275/8 || len(o.Heights) != 1 || o.Diagonals != [2]measure.Length{in * 499 / 8, in * 997 / 16} || *o.Depth != in*7/2 {
		t.Errorf("the opening is %+v", o)
	}
}

// A wrong answer leaves the question open.
func TestCheck(t *testing.T) {
	for _, tt := range []struct {
		after int
		text  string
		want  string // start of the error
	}{
		{0, "", "this question needs an answer"},
		{2, "1.3.2027", `"1.3.2027" is not a date`},
		{3, "cm", `"cm" is not one of the words allowed here; write in, mm`},
		{6, "coated", `"coated" is not one of the words allowed here`}, // could mean two
		{7, "3", `"3" is less than 3-15/16 in`},
		{17, "19", `rollers.donor.shortest: "20" is not shorter than the longest, 19 in`},
		{21, "1", `slats.flat.thickness: "1" is more than the width, 3/4 in`},
		{25, "27 1/3", `"27 1/3" has a fraction with the denominator 3`},
		{32, "doner", `"doner" is not one of the words allowed here; did you mean donor?`},
		{34, "flat", `"flat" is already used`},
		{38, "SINK", `"SINK" is the name of another shade`},
		{38, "a/b", `"a/b" cannot be part of a file name`},
	} {
		v := New(options)
		give(t, v, talk[:tt.after])
		before := v.Answered()
		if _, err := v.Answer(tt.text); err == nil || !strings.HasPrefix(err.Error(), tt.want) {
			q, _ := v.Next()
			t.Errorf("%s? %q: %v; want %s", q.Ask, tt.text, err, tt.want)
		}
		if v.Answered() != before {
			t.Errorf("%q was accepted", tt.text)
		}
	}
}

// Wherever a person stops or goes back, the interview leads to the same job.
func TestBackAndResumeLaw(t *testing.T) {
	whole := New(options)
	give(t, whole, talk)
	want, err := whole.Save()
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(rt *rapid.T) {
		v := New(options)
		for v.Answered() < len(talk) {
			give(t, v, talk[v.Answered():v.Answered()+1])
			switch rapid.IntRange(0, 12).Draw(rt, "then") {
			case 0:
				v.Back()
			case 1, 2:
				data, err := v.Save()
				if err != nil {
					rt.Fatal(err)
				}
				other := options
				other.ID = uuid.MustParse("0b9d3b1c-6a57-4e0b-8d8e-2f6c1f7f9a42")
				if v, err = Resume(data, other); err != nil {
					rt.Fatal(err)
				}
			}
		}
		if got, err := v.Save(); err != nil || string(got) != string(want) {
			rt.Fatalf("%v: ends with %s; want %s", err, got, want)
		}
	})
}

// 31-5/8 × 25.4 = 803.275; 1203 / 25.4 = 47.362, and 47-3/8 is 47.375: by hand.
func TestBoth(t *testing.T) {
	for _, tt := range []struct {
		l    measure.Length
		u    measure.System
		want string
	}{
		{measure.Inch * 253 / 8, measure.Inches, "31-5/8 in ≈ 803.3 mm"},
		{1203 * measure.Millimetre, measure.Millimetres, "1203 mm ≈ 47-3/8 in"},
		{254 * measure.Millimetre, measure.Millimetres, "254 mm = 10 in"},
		{600 * measure.Millimetre, measure.Inches, "600 mm ≈ 23-5/8 in"},
		{600 * measure.Micrometre, measure.Inches, "0.6 mm"},
		{0, measure.Inches, "0 mm"},
	} {
		if got := Both(tt.l, tt.u); got != tt.want {
			t.Errorf("Both(%v, %v) = %s; want %s", tt.l, tt.u, got, tt.want)
		}
	}
}

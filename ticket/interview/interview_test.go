package interview

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"
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
	Today: time.Date(2027, time.January, 4, 0, 0, 0, 0, time.UTC),
}

// A step is a question by its key, and an answer.
type step struct{ key, text string }

// talk is a whole interview: an inside and an outside opening, and a finished shade,
// with two cloths, two rollers, one of them fixed, and one slat.
var talk = []step{
	{"job", "Heron Landing"}, {"client", ""}, {"due", "June 5"}, {"units", "inches"}, {"paper", ""},

	{"shades[1].place", "over the sink"}, {"shades[1].id", "sink"}, {"shades[1].from", ""}, {"shades[1].opening.mount", "in"},
	{"shades[1].opening.widths", "27 1/2 27 1/2 27 5/8"}, {"shades[1].opening.heights", "40, 40, 40 1/16"}, {"shades[1].opening.diagonals", "48 9/16 48 9/16"},
	{"shades[1].opening.depth", "4 1/2"}, {"shades[1].opening.obstructions[1].name", "crank"}, {"shades[1].opening.obstructions[1].proud", "1 1/4"},
	{"shades[1].opening.obstructions[1].below", "30"}, {"shades[1].opening.obstructions[2].name", ""},
	{"shades[1].bracket.name", "jamb"}, {"brackets.jamb.plate", "3/4 1 1/2"}, {"brackets.jamb.axle", "3/8 3/4"}, {"brackets.jamb.projection", "1/16"},
	{"brackets.jamb.holes[1]", "3/8 1/4 5/32"}, {"brackets.jamb.holes[2]", "3/8 1 1/4 5/32"}, {"brackets.jamb.holes[3]", ""},
	{"shades[1].behind", "wood"},
	{"shades[1].roller.name", "donor"}, {"rollers.donor.tube", "1 1/8"}, {"rollers.donor.telescopes", ""}, {"rollers.donor.shortest", "20"}, {"rollers.donor.longest", "36"},
	{"rollers.donor.material", ""}, {"rollers.donor.pins", "1/4 1/4"}, {"rollers.donor.spring", "trial"},
	{"shades[1].goods.name", "mesh"}, {"goods.mesh.kind", ""}, {"goods.mesh.width", "58"}, {"goods.mesh.selvage", "1/2"}, {"goods.mesh.thickness", "0.6 mm"},
	{"goods.mesh.mass", "440 g/m2"}, {"goods.mesh.lay", "yes"},
	{"shades[1].slat.name", "flat"}, {"slats.flat.form", ""}, {"slats.flat.width", "3/4"}, {"slats.flat.thickness", "3/32"}, {"slats.flat.material", "alu"},
	{"shades[1].roll", "room"}, {"shades[1].quantity", ""}, {"shades[1].note", "the left one sags"}, {"shades[1].more", ""},

	{"shades[2].place", "stairs"}, {"shades[2].id", ""}, {"shades[2].from", ""}, {"shades[2].opening.mount", "outside"},
	{"shades[2].opening.widths", "34 34 34"}, {"shades[2].opening.heights", "50 50 50"}, {"shades[2].opening.overlap", "2 2 2 1 1/2"},
	{"shades[2].opening.obstructions[1].name", "none"}, {"shades[2].bracket", "-"}, {"shades[2].behind", "-"},
	{"shades[2].roller", "another"}, {"shades[2].roller.name", "long"}, {"rollers.long.tube", "1 1/2"}, {"rollers.long.telescopes", "no"}, {"rollers.long.length", "48"},
	{"rollers.long.material", "-"}, {"rollers.long.pins", "1/4 1/4"}, {"rollers.long.spring", "6.5 Nmm/turn"}, {"rollers.long.spring.most", "24"},
	{"shades[2].goods", ""}, {"shades[2].slat", ""}, {"shades[2].roll", "glass"}, {"shades[2].quantity", ""}, {"shades[2].note", ""}, {"shades[2].more", "yes"},

	{"shades[3].place", ""}, {"shades[3].id", "berth"}, {"shades[3].from", "fin"}, {"shades[3].finished.width", "30"}, {"shades[3].finished.length", "36"},
	{"shades[3].roller", "another"}, {"shades[3].roller.name", "third"}, {"rollers.third.tube", ""}, {"rollers.third.telescopes", ""}, {"rollers.third.shortest", "24"},
	{"rollers.third.longest", "40"}, {"rollers.third.material", ""}, {"rollers.third.pins", ""}, {"rollers.third.spring", ""},
	{"shades[3].goods", ""}, {"shades[3].slat", ""}, {"shades[3].as_before", "yes"}, {"shades[3].roll", ""}, {"shades[3].quantity", "2"}, {"shades[3].note", ""}, {"shades[3].more", "no"},
}

// give answers questions, and skips those about how many rollers there are.
func give(t testing.TB, v *Interview, steps []step) {
	t.Helper()
	for _, s := range steps {
		oneOfEach(t, v)
		q, more := v.Next()
		if !more || q.Key != s.key {
			t.Fatalf("asks %q; want %q", q.Key, s.key)
		}
		if _, err := v.Answer(s.text); err != nil {
			t.Fatalf("%s? %q: %v", q.Ask, s.text, err)
		}
	}
}

// oneOfEach answers the questions about how many rollers there are.
func oneOfEach(t testing.TB, v *Interview) {
	t.Helper()
	for q, more := v.Next(); more && strings.HasSuffix(q.Key, ".count"); q, more = v.Next() {
		if _, err := v.Answer(""); err != nil {
			t.Fatal(err)
		}
	}
}

// until returns the steps before a question.
func until(key string) []step {
	return talk[:slices.IndexFunc(talk, func(s step) bool { return s.key == key })]
}

func job(t testing.TB, v *Interview) *jobfile.File {
	t.Helper()
	f, err := v.File()
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestConversation(t *testing.T) {
	v := New(options)
	give(t, v, talk)
	if q, more := v.Next(); more {
		t.Fatalf("still asks %s", q.Key)
	}
	f := job(t, v)
	if len(f.Job.Shades) != 3 || f.Paper.Name != "letter" || f.Job.Style.System != measure.Inches || f.Job.DueText() != "2027-06-05" {
		t.Fatalf("the job is %+v", f)
	}
	in := measure.Inch
	a, b, c := f.Job.Shades[0], f.Job.Shades[1], f.Job.Shades[2]
	if o := a.Opening; a.ID != "sink" || o.Mount != hang.Inside || !slices.Equal(o.Widths, []measure.Length{in * 55 / 2, in * 55 / 2, in * 221 / 8}) ||
		o.Diagonals != [2]measure.Length{in * 777 / 16, in * 777 / 16} || *o.Depth != in*9/2 || o.Obstructions[0].Name != "crank" || *o.Obstructions[0].Below != 30*in {
		t.Errorf("the first shade is %+v, its opening %+v", a, a.Opening)
	}
	if a.Bracket == nil || len(a.Bracket.Holes) != 2 || a.Bracket.Plate != (measure.Size{Width: in * 3 / 4, Length: in * 3 / 2}) || *a.Behind != hang.Wood || a.Roll != ticket.Reverse {
		t.Errorf("the first shade hangs by %+v, %v, %v", a.Bracket, a.Behind, a.Roll)
	}
	if a.Roller.Tube != in*9/8 || !a.Roller.ByTrial || *a.Roller.Pins != (hang.Pins{Flat: in / 4, Round: in / 4}) || a.Goods.Lay != ticket.AnyWay || a.Slat.Material.Name != "aluminium" {
		t.Errorf("the first shade has %+v, %+v, %+v", a.Roller, a.Goods, a.Slat)
	}
	if b.ID != "stairs" || b.Opening.Mount != hang.Outside || b.Opening.Overlap != (hang.Overlap{Left: 2 * in, Right: 2 * in, Above: 2 * in, Below: in * 3 / 2}) ||
		!b.Opening.Unobstructed || b.Opening.Depth != nil || b.Bracket != nil || b.Behind != nil || b.Roller.Longest != 48*in || b.Roller.Most != 24 || b.Goods != a.Goods {
		t.Errorf("the second shade is %+v, its opening %+v", b, b.Opening)
	}
	if c.ID != "berth" || c.Quantity != 2 || !c.AsBefore || c.Finished != (measure.Size{Width: 30 * in, Length: 36 * in}) || c.Opening != nil || c.Roller.Tube != 0 {
		t.Errorf("the third shade is %+v", c)
	}
	if _, err := jobfile.Write(f, jobfile.WriteOptions{Options: options.Options}); err != nil {
		t.Error(err)
	}
}

// The answer that completes a shade says what to cut. By hand: the opening is 27-1/2 in
// wide; less 1-1/8 in for the cloth (two measuring guides) that is 26-3/8 in. 40-1/16 in,
// rounded down to 40 in by the eighth, + 7 + 1/2 + 1-1/4 = 48-3/4 in.
func TestCut(t *testing.T) {
	v := New(options)
	give(t, v, until("shades[1].note"))
	said, err := v.Answer("")
	if err != nil {
		t.Fatal(err)
	}
	const want = "sink is complete. Cut the panel 26-3/8 in wide and 48-3/4 in long, the tube 26-7/8 in,"
	if len(said) < 2 || !strings.HasPrefix(said[1], want) {
		t.Errorf("said %q; want %q", said, want)
	}
}

// What a question that is passed over leaves unchecked is said at once.
func TestPassedOver(t *testing.T) {
	for _, tt := range []struct{ key, want string }{
		{"shades[1].opening.diagonals", "unchecked: whether the opening is square"},
		{"shades[1].opening.depth", "unchecked: whether the roll fits into the recess"},
		{"shades[1].opening.obstructions[1].name", "unchecked: whether a crank, a handle or a lock is in the way"},
		{"shades[1].bracket.name", "unchecked: where the bracket's holes go"},
		{"shades[1].behind", "unchecked: which screws hold the brackets"},
		{"rollers.donor.pins", "unchecked: whether the roller fits between its brackets"},
		{"rollers.donor.spring", "unchecked: whether the spring lifts the shade"},
		{"goods.mesh.thickness", "unchecked: whether the slat fits its pocket, and whether the roll clears everything around it; 0.3 mm to 0.9 mm, likely for coated-mesh, is assumed"},
		{"goods.mesh.mass", "unchecked: the weight of the shade, the turns of its spring and the sag of its tube; 280 to 650 g/m2, likely for coated-mesh, is assumed"},
		{"slats.flat.material", "unchecked: the weight of the slat"},
	} {
		v := New(options)
		give(t, v, until(tt.key))
		said, err := v.Answer(Pass)
		if err != nil || len(said) < 2 || !strings.HasPrefix(said[1], tt.want) {
			t.Errorf("%s passed over says %q, %v; want %q", tt.key, said, err, tt.want)
		}
	}
}

// An outside mount is never asked for the depth of a recess or for diagonals, and an
// inside mount never for overlaps.
func TestNeverAsked(t *testing.T) {
	v := New(options)
	give(t, v, talk)
	for _, e := range v.Entered() {
		for _, never := range []string{"shades[1].opening.overlap", "shades[2].opening.depth", "shades[2].opening.diagonals", "shades[3].opening", "shades[3].bracket", "shades[3].behind"} {
			if strings.HasPrefix(e.Key, never) {
				t.Errorf("asks %s", e.Key)
			}
		}
	}
}

// A wrong answer leaves the question open.
func TestCheck(t *testing.T) {
	for _, tt := range []struct{ key, text, want string }{
		{"job", "", "this question needs an answer"},
		{"due", "6/5/2027", `"6/5/2027" could be Saturday, 5 June 2027 or Thursday, 6 May 2027; write 2027-06-05 or 2027-05-06`},
		{"due", "soon", `"soon" is not a date; write for example June 5`},
		{"units", "cm", `"cm" is not one of the words allowed here; write in, mm`},
		{"shades[1].opening.widths", "27 12 27 12", `"27 12 27 12" has 4 lengths; write 1 to 3: top, middle, bottom, for example 27 1/2 27 1/2 27 5/8`},
		{"shades[1].opening.widths", "27 1 27", `"27 1 27" is understood as 27 and 1 and 27, too far apart for one opening; write for example 27 1/2 27 1/2 27 5/8`},
		{"shades[1].opening.widths", "27 1/3", `"27 1/3" has a fraction with the denominator 3`},
		{"shades[1].opening.diagonals", "48 9/16", `"48 9/16" has 1 length; write 2: from top left, from top right, for example`},
		{"goods.mesh.kind", "coated", `"coated" could mean coated-mesh or coated-glass-mesh; write more of it`},
		{"shades[1].opening.obstructions[1].name", "c", `"c" could mean crank or casing; write more of it`},
		{"goods.mesh.width", "3", `"3" is less than 3-15/16 in`},
		{"rollers.donor.longest", "19", `rollers.donor.shortest: "20" is not shorter than the longest, 19 in`},
		{"shades[1].opening.diagonals", "68 68", `shades[1].opening.diagonals: "68 in" cannot be a diagonal`}, // 27-1/2 + 40 in is less
		{"slats.flat.thickness", "1", `slats.flat.thickness: "1" is more than the width, 3/4 in`},
		{"shades[2].roller", "doner", `"doner" is not one of the words allowed here; did you mean donor?`},
		{"shades[2].roller.name", "donor", `"donor" is already used`},
		{"shades[2].id", "SINK", `"SINK" is the name of another shade`},
		{"shades[2].id", "a/b", `"a/b" cannot be part of a file name`},
	} {
		v := New(options)
		give(t, v, until(tt.key))
		oneOfEach(t, v)
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

// Free rollers that reach come first; without one, a new roller is described. By hand: the
// outside shade of 34 + 2 + 2 = 38 in needs a tube longer than the donor's 36 in; the
// third shade of 30 in does not.
func TestRollersOffered(t *testing.T) {
	for _, tt := range []struct {
		donors, at, first, def string
	}{
		{"1", "shades[2].roller", "donor", another},
		{"2", "shades[2].roller", "donor", another}, // free, but too short
		{"1", "shades[3].roller", "donor", another},
		{"2", "shades[3].roller", "donor", "donor"},
		{"any", "shades[3].roller", "donor", "donor"},
	} {
		v := New(options)
		give(t, v, until(tt.at))
		v.Goto("rollers.donor.count")
		if _, err := v.Answer(tt.donors); err != nil {
			t.Fatal(err)
		}
		oneOfEach(t, v)
		q, _ := v.Next()
		if q.Key != tt.at || q.Choices[0] != tt.first || q.Default != tt.def {
			t.Errorf("with %s donors %s offers %q, and %s by default; want %s first, and %s", tt.donors, q.Key, q.Choices, q.Default, tt.first, tt.def)
		}
	}
}

// The pocket is proposed from the slat. By hand: 1 + 3/32 in of slat, 1/8 in inset and
// 0.6 mm of cloth are 1.2424 in; the next sixteenth is 1-1/4 in, but a pocket of 1-1/8 in
// is too small.
func TestPocketProposed(t *testing.T) {
	opt := options
	opt.Practice.Allow.Pocket = measure.Inch * 9 / 8
	v := New(opt)
	give(t, v, until("slats.flat.width"))
	give(t, v, []step{{"slats.flat.width", "1"}, {"slats.flat.thickness", "3/32"}, {"slats.flat.material", "wood"}, {"shades[1].roll", ""}})
	if q, _ := v.Next(); q.Key != "shades[1].allow.pocket" || q.Default != "1-1/4" {
		t.Errorf("asks %s with %q; want the pocket with 1-1/4", q.Key, q.Default)
	}
}

// Every field of a question is in the table of the job file.
func TestFieldsExist(t *testing.T) {
	fields := jobfile.FieldsOf(options.Options)
	all := slices.Concat(jobItems, nameItems, openingItems, obstructionItems, fixingItems, lastItems, []item{asBefore, holeItem})
	for _, k := range kinds {
		all = append(all, k.items...)
	}
	for _, it := range all {
		if it.schema == "" {
			continue
		}
		path := it.schema
		if len(it.parts) > 0 {
			path += "." + it.parts[0]
		}
		if !fields.Has(path) {
			t.Errorf("%s: there is no field %s", it.ask, path)
		}
	}
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

package interview

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/uuid"
	"pgregory.net/rapid"

	"shadewright/ticket/form"
	"shadewright/ticket/measure"
)

// Going back shows the old answer, and one answer corrects it: nothing after it is asked
// again.
func TestOneAnswerCorrects(t *testing.T) {
	v := New(options)
	give(t, v, until("shades[2].roll"))
	open, _ := v.Next()
	for range 3 {
		v.Back()
	}
	if !v.Goto("shades[1].opening.depth") {
		t.Fatal("the depth is not among the answers")
	}
	if q, _ := v.Next(); q.Was != "4 1/2" {
		t.Errorf("shows %q; want 4 1/2", q.Was)
	}
	if _, err := v.Answer("5"); err != nil {
		t.Fatal(err)
	}
	if q, _ := v.Next(); q.Key != open.Key {
		t.Errorf("asks %s after the correction; want %s", q.Key, open.Key)
	}
	if d := job(t, v).Job.Shades[0].Opening.Depth; *d != 5*measure.Inch {
		t.Errorf("the depth is %v", *d)
	}
	v.Back() // an unchanged answer costs one key
	if _, err := v.Answer(""); err != nil {
		t.Fatal(err)
	}
	if q, _ := v.Next(); q.Key != open.Key {
		t.Errorf("asks %s; want %s", q.Key, open.Key)
	}
}

// Answers that no longer apply are asked again, and only these.
func TestOnlyWhatNoLongerApplies(t *testing.T) {
	for _, tt := range []struct {
		key, text string
		again     []string
	}{
		{"shades[1].opening.mount", "outside", []string{"shades[1].opening.overlap"}},
		{"rollers.donor.telescopes", "no", []string{"rollers.donor.length"}},
		{"shades[1].opening.heights", "20 20 20", []string{"shades[1].opening.diagonals"}}, // 27-1/2 + 20 is less than 48-9/16
		{"shades[3].from", "opening", []string{"shades[3].opening.mount"}},
		{"shades[1].roller.name", "old donor", nil},
		{"shades[1].id", "pantry", nil},
		{"units", "mm", nil},
	} {
		v := New(options)
		give(t, v, talk)
		v.Goto(tt.key)
		if _, err := v.Answer(tt.text); err != nil {
			t.Fatalf("%s: %v", tt.key, err)
		}
		var got []string
		if q, more := v.Next(); more {
			got = append(got, q.Key)
		}
		if !slices.Equal(got, tt.again) {
			t.Errorf("after %s %s asks %q; want %q", tt.key, tt.text, got, tt.again)
		}
	}
}

// Another unit leaves every length as long as it was.
func TestUnitsChange(t *testing.T) {
	v := New(options)
	give(t, v, talk)
	was := job(t, v)
	v.Goto("units")
	if _, err := v.Answer("mm"); err != nil {
		t.Fatal(err)
	}
	now := job(t, v)
	if now.Job.Style.System != measure.Millimetres {
		t.Fatal("the unit is the same")
	}
	for i, s := range now.Job.Shades {
		o := was.Job.Shades[i]
		if s.Finished != o.Finished || fmt.Sprint(s.Opening) != fmt.Sprint(o.Opening) && s.Opening != nil && !slices.Equal(s.Opening.Widths, o.Opening.Widths) || s.Roller.Longest != o.Roller.Longest || s.Goods.Width != o.Goods.Width {
			t.Errorf("%s was %+v and is %+v", s.ID, o, s)
		}
	}
}

// An existing job can be edited with the same questions: all count as answered, what no
// question asks is kept, and one change changes one thing.
func TestEdit(t *testing.T) {
	const text = `job: Heron Landing
id: 5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31
units: in
allow: {wrap: 9}
goods: {mesh: {kind: coated-mesh, width: 58, selvage: {left: 1/2, right: 1}, repeat: 25}}
rollers: {donor: {tube: 1-1/8, shortest: 20, longest: 36, spring: trial}, spare: {tube: 1, length: 40}}
slats: {rod: {diameter: 3/8}}
shades:
  - {id: sink, goods: mesh, roller: donor, slat: rod, finished: {width: 27, length: 40}, sewing: {thread: 46}}
  - {id: loft, goods: mesh, roller: donor, slat: rod, opening: {mount: inside, widths: [30, 30 1/16], heights: [40], obstructions: [{name: crank, proud: 1}]}}
`
	top, bad := form.Parse("job.yaml", []byte(text))
	if bad != nil {
		t.Fatal(bad)
	}
	v := Edit(top, options)
	if q, more := v.Next(); more {
		t.Fatalf("asks %s of a complete job: %s", q.Key, q.Why)
	}
	if got, want := string(form.Format(v.Top(), nil)), string(form.Format(top, nil)); got != want {
		t.Errorf("without a change the job is\n%s\nwant\n%s", got, want)
	}
	if !v.Goto("shades[2].opening.widths") {
		t.Fatal("the widths are not among the answers")
	}
	if q, _ := v.Next(); q.Was != "30; 30 1/16" {
		t.Errorf("the widths were %q", q.Was)
	}
	if _, err := v.Answer("31 31"); err != nil {
		t.Fatal(err)
	}
	got := string(form.Format(v.Top(), nil))
	if want := strings.Replace(string(form.Format(top, nil)), "[30, 30 1/16]", "[31, 31]", 1); got != want {
		t.Errorf("with other widths the job is\n%s\nwant\n%s", got, want)
	}
}

// Wherever a person stops, goes back, or changes an answer and changes it again, the
// interview leads to the same job.
func TestBackAndResumeLaw(t *testing.T) {
	part := until("rollers.donor.telescopes")
	whole := New(options)
	give(t, whole, part)
	want, err := whole.Save()
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(rt *rapid.T) {
		v := New(options)
		for at := 0; at < len(part); at++ {
			give(t, v, part[at:at+1])
			switch rapid.IntRange(0, 25).Draw(rt, "then") {
			case 0:
				for range rapid.IntRange(1, 4).Draw(rt, "back") {
					v.Back()
				}
				if _, err := v.Answer(""); err != nil {
					rt.Fatal(err)
				}
			case 1:
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

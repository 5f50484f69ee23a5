package offcut

import (
	"context"
	"strings"
	"testing"

	"github.com/google/uuid"
	"pgregory.net/rapid"

	"shadewright/ticket"
	"shadewright/ticket/cutplan"
	"shadewright/ticket/goods"
	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
	"shadewright/ticket/route"
)

const in = measure.Inch

var mesh = ticket.Goods{Name: "mesh", Kind: goods.CoatedMesh, Width: 54 * in, Thickness: 600 * measure.Micrometre, Lay: ticket.AnyWay}

// jobOf is a job of one shade whose panel is w × l.
func jobOf(id byte, w, l measure.Length) *ticket.Job {
	return &ticket.Job{
		Name: "job " + string('0'+rune(id)), ID: uuid.UUID{id}, Style: measure.Usual(measure.Inches),
		Shades: []ticket.Shade{{
			ID: "a", Quantity: 1, Finished: measure.Size{Width: w, Length: l - 9*in + in/4}, Goods: mesh,
			Roller: ticket.Roller{Name: "donor", Tube: in * 9 / 8, Longest: 60 * in},
			Slat:   ticket.Slat{Name: "flat", Width: in, Thickness: in * 3 / 32},
			// The built-in allowances: common practice, no source.
			Allow:  ticket.Allow{Wrap: 7 * in, Hem: in / 2, Pocket: in * 5 / 4, StitchInset: in / 8},
			Sewing: ticket.Sewing{StitchLength: 6 * measure.Millimetre, Thread: 92},
		}},
	}
}

// plan lays a job with the offcuts that the record offers.
func plan(t testing.TB, r *Record, job *ticket.Job) []*cutplan.Plan {
	t.Helper()
	tickets, err := ticket.Make(job, ticket.Options{Route: route.Usual()})
	if err != nil {
		t.Fatal(err)
	}
	plans, _, err := cutplan.Make(context.Background(), tickets, cutplan.Options{
		KeepWidth: 12 * in, KeepLength: 18 * in, Effort: nest.Seconds(1), Record: r.For(job),
	})
	if err != nil {
		t.Fatal(err)
	}
	return plans
}

// On a 54 in roll, a panel of 30 × 40 in laid lengthwise leaves 24 × 40. Turned, it
// uses less roll if it fits: 40 of 54, leaving 14 × 30. So job 1 uses 30 in of roll
// and leaves 14 × 30 in, by hand.
func TestCut(t *testing.T) {
	r, first := &Record{}, jobOf(1, 30*in, 40*in)
	plans := plan(t, r, first)
	if on := r.OnHand(); len(on) != 0 {
		t.Fatalf("planning added %v", on)
	}
	used, left, _ := r.Cut(first, plans, nil)
	if len(used) != 0 || len(left) != 1 || left[0].Width != 14*in || left[0].Length != 30*in || left[0].Goods != "mesh" {
		t.Fatalf("used %v, left %v; want one of 14 × 30 in", used, left)
	}
	// A panel of the job that is cut again comes out of what the job left: 12 × 18 in.
	small := jobOf(1, 12*in, 18*in)
	if again := plan(t, r, small); again[0].Used != 0 || len(again[0].OnHand) != 1 {
		t.Errorf("a panel cut again takes %v of the roll and %d pieces", again[0].Used, len(again[0].OnHand))
	}
	// It offers the piece to the next job: 13 × 20 in come out of it.
	next := jobOf(2, 13*in, 20*in)
	for range 2 { // planning marks nothing as used
		p := plan(t, r, next)
		if p[0].Used != 0 || len(p[0].OnHand) != 1 || p[0].OnHand[0].Label != left[0].Label {
			t.Fatalf("the next job takes %v of the roll and %v", p[0].Used, p[0].OnHand)
		}
	}
	panel := plan(t, r, next)[0].Panels[0].Ticket
	other := *panel
	other.Code, other.Remake = "23456789AB", 1
	used, _, _ = r.Cut(next, plan(t, r, next), nil)
	if len(used) != 1 || used[0].Label != left[0].Label || !r.WasCut(panel) || r.WasCut(&other) || r.TimesCut(next.ID) != 1 || r.TimesCut(uuid.UUID{3}) != 0 {
		t.Errorf("used %v", used)
	}
	// It offers the piece to no job again.
	if p := plan(t, r, jobOf(3, 13*in, 20*in)); p[0].Used == 0 {
		t.Error("a used piece is offered again")
	}
	if p := plan(t, r, next); p[0].Used == 0 {
		t.Error("a used piece is offered to its own job again")
	}
}

// Only pieces of the same goods are offered, and none that the job lists itself.
func TestOffered(t *testing.T) {
	piece := func(label, name string, k goods.Kind) Piece {
		return Piece{Piece: ticket.Piece{Label: label, Width: 40 * in, Length: 50 * in}, Goods: name, Kind: k}
	}
	r := &Record{pieces: []Piece{piece("a", "mesh", goods.CoatedMesh), piece("b", "mesh", goods.CottonDuck), piece("c", "duck", goods.CoatedMesh), piece("d", "mesh", goods.CoatedMesh)}}
	job := jobOf(1, 30*in, 40*in)
	job.Supply.Goods = map[string]ticket.GoodsSupply{"mesh": {OnHand: []ticket.Piece{{Label: "d", Width: in, Length: in}}}}
	got, err := r.For(job).Offcuts(mesh)
	if err != nil || len(got) != 1 || got[0].Label != "a" {
		t.Errorf("offered %v, %v; want a alone", got, err)
	}
	for i := range 300 {
		r.pieces = append(r.pieces, piece(string(rune(0x100+i)), "mesh", goods.CoatedMesh))
	}
	if got, _ = r.For(job).Offcuts(mesh); len(got) != nest.MostOnHand-1 {
		t.Errorf("%d offered; a plan takes %d, one is the job's own", len(got), nest.MostOnHand)
	}
}

// Bytes and Read return the same record.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		r := &Record{}
		for i := range rapid.IntRange(0, 5).Draw(rt, "n") {
			p := Piece{
				Piece: ticket.Piece{Label: string('a' + rune(i)), Width: measure.Length(rapid.Int64Range(1, int64(longest)).Draw(rt, "w")), Length: measure.Length(rapid.Int64Range(1, int64(longest)).Draw(rt, "l"))},
				Goods: "mesh", Kind: goods.CoatedMesh, Job: rapid.StringMatching(`[a-zé"\\ ]{0,9}`).Draw(rt, "job"),
				From: uuid.UUID{rapid.Byte().Draw(rt, "from")}, UsedBy: uuid.UUID{rapid.Byte().Draw(rt, "by")},
			}
			r.pieces, r.cutJobs = append(r.pieces, p), append(r.cutJobs, uuid.UUID{byte(i + 1)})
		}
		data, err := r.Bytes()
		if err != nil {
			rt.Fatal(err)
		}
		got, err := Read(data)
		if err != nil || len(got.pieces) != len(r.pieces) || len(got.cutJobs) != len(r.cutJobs) {
			rt.Fatalf("%s: %v, %v", data, got, err)
		}
		for i := range r.pieces {
			if got.pieces[i] != r.pieces[i] || got.cutJobs[i] != r.cutJobs[i] {
				rt.Errorf("%+v is read back as %+v", r.pieces[i], got.pieces[i])
			}
		}
	})
}

func TestReadBad(t *testing.T) {
	entry := func(s string) string { return `{"note": "", "offcuts": [` + s + `], "jobs_cut": []}` }
	good := `{"label": "a", "goods": "mesh", "kind": "coated-mesh", "width": "14 in", "length": "30 in"}`
	for _, tt := range []struct{ text, want string }{
		{"", ""}, {" \n", ""}, {entry(good), ""},
		{"offcuts", "is not a record of offcuts: "},
		{entry(strings.Replace(good, "width", "breadth", 1)), `unknown field "breadth"`},
		{entry(good + "," + good), `offcuts[2]: label "a" appears twice; give each piece its own label`},
		{entry(strings.Replace(good, "14 in", "14", 1)), `offcuts[1]: width: length "14" has no unit`},
		{entry(strings.Replace(good, "14 in", "-14 in", 1)), `offcuts[1]: width: "-14 in" cannot be the size of a piece; check the number and its unit`},
		{entry(strings.Replace(good, "coated-mesh", "tin", 1)), `offcuts[1]: kind "tin" is not a known kind of goods; write for example coated-mesh`},
		{entry(strings.Replace(good, `"a"`, `""`, 1)), `offcuts[1]: label "", goods "mesh": a piece needs a label`},
		{entry(strings.Replace(good, `}`, `, "from": "me"}`, 1)), `offcuts[1]: from: "me" is not a UUID; remove it, or copy the job's id`},
	} {
		_, err := Read([]byte(tt.text))
		if (err == nil) != (tt.want == "") || err != nil && !strings.Contains(err.Error(), tt.want) {
			t.Errorf("Read(%q) = %v; want %q", tt.text, err, tt.want)
		}
	}
}

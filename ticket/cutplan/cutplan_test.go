package cutplan_test

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"strings"
	"testing"
	"unicode"

	"github.com/google/uuid"
	"pgregory.net/rapid"

	"shadewright/ticket"
	"shadewright/ticket/cutplan"
	"shadewright/ticket/goods"
	"shadewright/ticket/measure"
	"shadewright/ticket/message/pseudo"
	"shadewright/ticket/nest"
	"shadewright/ticket/route"
)

const in = measure.Inch

// shadeOf has panels of w × (l + 8-3/4 in): wrap 7, hem 1/2, pocket 1-1/4.
func shadeOf(id string, g ticket.Goods, w, l measure.Length, n int) ticket.Shade {
	return ticket.Shade{
		ID: id, Quantity: n, Finished: measure.Size{Width: w, Length: l}, Goods: g,
		Roller: ticket.Roller{Name: "donor", Tube: in, Longest: 200 * in},
		Slat:   ticket.Slat{Name: "flat", Width: in / 2, Thickness: in / 16},
		// The built-in allowances: common practice, no source.
		Allow:  ticket.Allow{Wrap: 7 * in, Hem: in / 2, Pocket: in * 5 / 4, StitchInset: in / 8, TubeOver: in / 8, SlatGap: in / 8},
		Sewing: ticket.Sewing{StitchLength: 6 * measure.Millimetre, Thread: 92},
	}
}

func mesh(lay ticket.Lay) ticket.Goods {
	return ticket.Goods{Name: "mesh", Kind: goods.CoatedMesh, Width: 54 * in, Selvage: [2]measure.Length{in / 2, in / 2}, Thickness: 600 * measure.Micrometre, Lay: lay}
}

func options() cutplan.Options {
	return cutplan.Options{KeepWidth: 12 * in, KeepLength: 18 * in, Effort: nest.Seconds(0.3)}
}

// plan makes the tickets of shades and their plans.
func plan(t rapid.TB, opt cutplan.Options, shades ...ticket.Shade) ([]*ticket.Ticket, []*cutplan.Plan) {
	t.Helper()
	job := &ticket.Job{Name: "Heron Landing", ID: uuid.MustParse("5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31"), Style: measure.Usual(measure.Inches), Shades: shades}
	lim := ticket.Limits{Table: opt.Table}
	if opt.Overhang {
		lim.Table = 0
	}
	all, err := ticket.Make(job, ticket.Options{Route: route.Usual(), Limits: lim})
	if err != nil {
		t.Fatal(err)
	}
	plans, laid, err := cutplan.Make(context.Background(), all, opt)
	if err != nil {
		t.Fatal(err)
	}
	ticket.Seal(all, laid)
	for _, p := range plans {
		mustSpeak(t, p)
	}
	return all, plans
}

func notLetter(r rune) bool { return !unicode.IsLetter(r) }

// mustSpeak fails if a plan names a part in words that have no translation and are
// not the job's own.
func mustSpeak(t rapid.TB, p *cutplan.Plan) {
	t.Helper()
	var own []string
	for _, q := range p.Panels {
		own = append(own, strings.FieldsFunc(q.Ticket.Shade.ID, notLetter)...)
	}
	for _, h := range p.OnHand {
		own = append(own, strings.FieldsFunc(h.Label, notLetter)...)
	}
	for _, part := range p.Parts {
		if w := pseudo.Unmarked(pseudo.Put(part.Name), own...); w != nil {
			t.Errorf("part %q has words in English only: %q", part.Name, w)
		}
	}
}

// By hand: a panel is 37 + 7 + 1/2 + 1-1/4 = 45-3/4 in long and 26-3/8 wide. On
// goods 46 in wide that may lie any way it is turned, because 45-3/4 ≤ 46, and uses
// 26-3/8 in of roll. If it may not turn, it uses 45-3/4.
func TestTurned(t *testing.T) {
	g := mesh(ticket.AnyWay)
	g.Width, g.Selvage = 46*in, [2]measure.Length{}
	all, plans := plan(t, options(), shadeOf("a", g, 26*in+in*3/8, 37*in, 1))
	mustHold(t, plans[0])
	if p := plans[0]; p.Used != 26*in+in*3/8 || !p.Proven || !all[0].Plan.Turned {
		t.Errorf("used %v, place %+v; want 26-3/8 in, turned: 45-3/4 ≤ 46", p.Used, all[0].Plan)
	}
	g.Lay = ticket.Lengthwise
	all, plans = plan(t, options(), shadeOf("a", g, 26*in+in*3/8, 37*in, 1))
	if p := plans[0]; p.Used != 45*in+in*3/4 || all[0].Plan.Turned {
		t.Errorf("used %v, place %+v; want 45-3/4 in, not turned", p.Used, all[0].Plan)
	}
}

// Three panels of 20 × 24 in on goods of 46 in, by hand: two turned, one behind the
// other, beside a straight one (24 + 20 ≤ 46) use 40 in of roll; all straight, two
// and one (20 + 20 ≤ 46), 48; all turned (24 + 24 > 46), 60. Each ticket notes that
// units of one shade lie differently; if they lie alike, there is no note.
func TestUnlike(t *testing.T) {
	g := mesh(ticket.AnyWay)
	g.Width, g.Selvage = 46*in, [2]measure.Length{}
	told := func(all []*ticket.Ticket) (n int) {
		for _, k := range all {
			for _, f := range k.Findings {
				if f.Field == "goods.match" && f.Text.String() == "of this shade's 3 panels, 2 are cut turned a quarter" {
					n++
				}
			}
		}
		return n
	}
	all, plans := plan(t, options(), shadeOf("a", g, 20*in, 15*in+in/4, 3))
	if plans[0].Used != 40*in || told(all) != 3 {
		t.Errorf("used %v, %d of 3 tickets tell; want 40 in, all", plans[0].Used, told(all))
	}
	g.Match = ticket.MatchRoom
	all, plans = plan(t, options(), shadeOf("a", g, 20*in, 15*in+in/4, 3))
	if plans[0].Used != 48*in || told(all) != 0 {
		t.Errorf("matched: used %v, %d tickets tell; want 48 in, none", plans[0].Used, told(all))
	}
}

// Two panels of 26 in lie side by side on 53 in. The roll is cut once and trimmed
// on the left, where a panel begins. The scrap of 1 in at the right keeps its selvage: by
// hand.
func TestByHand(t *testing.T) {
	_, plans := plan(t, options(), shadeOf("a", mesh(ticket.Lengthwise), 26*in, 40*in, 2))
	p := plans[0]
	mustHold(t, p)
	var got []string
	for _, c := range p.Cuts {
		got = append(got, fmt.Sprintf("%d %s %s %s: %s | %s", c.Number, p.Parts[c.From].Name, c.Way, c.At.Exact(measure.Inches), p.Parts[c.Near].Name, p.Parts[c.Far].Name))
	}
	want := []string{
		"1 roll across 48-3/4 in: section 1 | roll",
		"2 section 1 along 1/2 in: selvage | section 1",
		"3 section 1 along 26 in: a, unit 1 | A",
		"4 A along 26 in: a, unit 2 | scrap",
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("cuts\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if s := p.Panels[0].Ticket.Plan.String(); s != "section 1, cuts 1–3" {
		t.Errorf("place %q; want section 1, cuts 1–3", s)
	}
	// The cuts run over 54 and 3 × 48-3/4 in.
	if got, want := p.CutLength(), 54*in+3*(48*in+in*3/4); got != want {
		t.Errorf("cuts are %v long; want %v", got, want)
	}
}

// anyJob draws shades of one goods, with everything that a plan may have to
// observe.
func anyJob(rt *rapid.T) (g ticket.Goods, opt cutplan.Options, shades []ticket.Shade) {
	sixteenths := func(lo, hi int, name string) measure.Length {
		return measure.Length(rapid.IntRange(lo*16, hi*16).Draw(rt, name)) * in / 16
	}
	g = mesh(ticket.Lay(rapid.IntRange(0, 1).Draw(rt, "lay")))
	g.Selvage = [2]measure.Length{sixteenths(0, 1, "left"), sixteenths(0, 2, "right")}
	g.Allowance = sixteenths(0, 1, "allowance")
	g.Match = ticket.Match(rapid.IntRange(0, 2).Draw(rt, "match"))
	if rapid.Bool().Draw(rt, "patterned") {
		g.Repeat = sixteenths(3, 25, "repeat")
	}
	opt = options()
	opt.Effort = nest.Effort{Work: 20_000}
	if rapid.Bool().Draw(rt, "table") {
		opt.Table = sixteenths(60, 120, "table length")
	}
	opt.Overhang = rapid.Bool().Draw(rt, "overhang")
	if rapid.Bool().Draw(rt, "square end") {
		opt.SquareEnd = sixteenths(1, 4, "square end")
	}
	var on []ticket.Piece
	for i := range rapid.IntRange(0, 3).Draw(rt, "on hand") {
		on = append(on, ticket.Piece{Label: fmt.Sprint("piece ", i), Width: sixteenths(10, 60, "on hand w"), Length: sixteenths(10, 90, "on hand l")})
	}
	opt.Supply.Goods = map[string]ticket.GoodsSupply{"mesh": {OnHand: on}}
	for i := range rapid.IntRange(1, 6).Draw(rt, "shades") {
		w, l := sixteenths(10, 70, "w"), sixteenths(10, 60, "l")
		if square := w - 8*in - 3*in/4; rapid.Bool().Draw(rt, "square") && square > 4*in {
			l = square // of the panel: see shadeOf
		}
		s := shadeOf(fmt.Sprint("s", i), g, w, l, rapid.IntRange(1, 3).Draw(rt, "n"))
		s.Room = rapid.SampledFrom([]string{"", "north", "south"}).Draw(rt, "room")
		shades = append(shades, s)
	}
	return g, opt, shades
}

func TestAnyJob(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		g, opt, shades := anyJob(rt)
		all, plans := plan(rt, opt, shades...)
		planned := 0
		turned := map[string]bool{}
		for _, k := range all {
			if k.Plan.Planned() == k.Stopped() {
				rt.Fatalf("%s: planned %v, stopped %v: %v", k.Name(), k.Plan.Planned(), k.Stopped(), k.Findings)
			}
			if !k.Plan.Planned() {
				continue
			}
			planned++
			room := map[ticket.Match]string{ticket.MatchAll: "all", ticket.MatchRoom: "room " + k.Shade.Room}[g.Match]
			if g.Match == ticket.MatchRoom && k.Shade.Room == "" {
				room = k.Shade.ID
			}
			if before, ok := turned[room]; ok && room != "" && before != k.Plan.Turned {
				rt.Fatalf("%s is not turned like the others of %q", k.Name(), room)
			}
			turned[room] = k.Plan.Turned
			if k.Plan.Turned && (g.Lay == ticket.Lengthwise || g.Repeat > 0) {
				rt.Fatalf("%s is turned on goods that may not be", k.Name())
			}
		}
		for _, p := range plans {
			for _, bad := range judge(p) {
				rt.Error(bad)
			}
			for _, c := range needless(p) {
				rt.Errorf("cut %d frees no edge of a panel or of an offcut to keep", c)
			}
			want := opt.SquareEnd
			if len(p.Sections) == 0 {
				want = 0
			}
			if p.Square != want {
				rt.Errorf("%v squares the end; want %v", p.Square, want)
			}
			planned -= len(p.Panels)
			for i, s := range p.Sections {
				l := p.Parts[s.Part].Length
				if g.Repeat > 0 { // the stretch between a panel's end and the next repeat may hang over
					l -= min(l, g.Repeat-measure.Nanometre)
				}
				if opt.Table > 0 && !opt.Overhang && l > opt.Table {
					rt.Errorf("section %d of %v is longer than the table of %v", i+1, l, opt.Table)
				}
			}
		}
		if planned != 0 {
			rt.Errorf("%d tickets have a place and no panel on a plan", planned)
		}
	})
}

// Panels that must turn alike but cannot: one is wider than the roll, the other
// longer than the roll is wide.
func TestMatchStops(t *testing.T) {
	g := mesh(ticket.AnyWay)
	g.Match = ticket.MatchAll
	all, plans := plan(t, options(), shadeOf("wide", g, 60*in, 30*in, 1), shadeOf("tall", g, 30*in, 60*in, 2))
	if len(plans) != 0 {
		t.Errorf("%d plans; want none", len(plans))
	}
	for _, k := range all {
		if !k.Stopped() || k.Findings[0].Field != "goods.match" || !strings.Contains(k.Findings[0].Text.String(), "tall fits only straight and wide only turned") {
			t.Errorf("%s: findings %+v; want a stop that names both", k.Name(), k.Findings)
		}
		if f := k.Findings[0]; pseudo.Unmarked(pseudo.Put(f.Text)+pseudo.Put(f.Remedy), "wide", "tall", "mesh") != nil {
			t.Errorf("%+v has words in English only", f)
		}
	}
}

// The revision of a ticket covers its place: a piece on hand changes it.
func TestRevision(t *testing.T) {
	opt := options()
	before, _ := plan(t, opt, shadeOf("a", mesh(ticket.AnyWay), 26*in+in*3/8, 37*in, 1))
	again, _ := plan(t, opt, shadeOf("a", mesh(ticket.AnyWay), 26*in+in*3/8, 37*in, 1))
	opt.Supply.Goods = map[string]ticket.GoodsSupply{"mesh": {OnHand: []ticket.Piece{{Label: "shelf-3", Width: 30 * in, Length: 50 * in}}}}
	after, plans := plan(t, opt, shadeOf("a", mesh(ticket.AnyWay), 26*in+in*3/8, 37*in, 1))
	if before[0].Revision != again[0].Revision || before[0].Revision == after[0].Revision {
		t.Errorf("revisions %s, again %s, from stock %s", before[0].Revision, again[0].Revision, after[0].Revision)
	}
	if p := plans[0]; p.Used != 0 || after[0].Plan.On != "shelf-3" {
		t.Errorf("used %v, place %+v; want nothing of the roll", p.Used, after[0].Plan)
	}
	if s := after[0].Plan.String(); s != "piece on hand shelf-3, cuts 1 and 2" {
		t.Errorf("place %q", s)
	}
	mustHold(t, plans[0])
}

// A record stands in for the shop's record of offcuts.
type record struct {
	pieces []ticket.Piece
	err    error
}

func (r record) Offcuts(ticket.Goods) ([]ticket.Piece, error) { return r.pieces, r.err }

func TestRecord(t *testing.T) {
	opt := options()
	opt.Record = record{pieces: []ticket.Piece{{Label: "March", Width: 30 * in, Length: 50 * in}}}
	all, _ := plan(t, opt, shadeOf("a", mesh(ticket.AnyWay), 26*in+in*3/8, 37*in, 1))
	if all[0].Plan.On != "March" {
		t.Errorf("place %+v; want the offcut of the record", all[0].Plan)
	}
	opt.Record = record{err: errors.New("disk")}
	_, _, err := cutplan.Make(context.Background(), all, opt)
	if err == nil || err.Error() != "goods mesh: record of offcuts: disk" {
		t.Errorf("error %v", err)
	}
}

func TestRefused(t *testing.T) {
	all, _ := plan(t, options(), shadeOf("a", mesh(ticket.AnyWay), 26*in+in*3/8, 37*in, 1))
	many := make([]*ticket.Ticket, nest.MostPieces+1)
	for i := range many {
		many[i] = all[0]
	}
	_, _, err := cutplan.Make(context.Background(), many, options())
	var r *cutplan.Refusal
	if !errors.As(err, &r) || r.Goods != "mesh" || !strings.Contains(err.Error(), "10000") {
		t.Errorf("%d panels: %v; want a refusal that names the limit", len(many), err)
	}
}

// A search that is stopped before it starts still gives a plan that holds.
func TestInterrupted(t *testing.T) {
	var shades []ticket.Shade
	for i := range 40 {
		shades = append(shades, shadeOf(fmt.Sprint("s", i), mesh(ticket.AnyWay), 12*in+measure.Length(i)*in*7/16, 20*in+measure.Length(i*i)*in/16, 1))
	}
	all, _ := plan(t, options(), shades...)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	plans, laid, err := cutplan.Make(ctx, all, cutplan.Options{Effort: nest.Seconds(1000)})
	if err != nil {
		t.Fatal(err)
	}
	ticket.Seal(all, laid)
	mustHold(t, plans[0])
	if p, inches := plans[0], measure.Usual(measure.Inches); !p.Cut || !strings.HasSuffix(p.Verdict(inches, inches.Format).String(), "; the search was interrupted") {
		t.Errorf("cut short %v: %s", p.Cut, p.Verdict(inches, inches.Format))
	}
}

func TestVerdict(t *testing.T) {
	inches := measure.Usual(measure.Inches)
	for _, tt := range []struct {
		plan nest.Plan
		want string
		src  string
	}{
		{nest.Plan{Used: 100 * in, Bound: 100 * in, Proven: true}, "proven shortest", "equal"},
		{nest.Plan{Used: 1018 * in, Bound: 1000 * in}, "within 1.8 % of the best possible: no plan uses less than 1000 in", "18 / 1000"},
		{nest.Plan{Used: 10181 * in, Bound: 10000 * in}, "within 1.9 % of the best possible: no plan uses less than 10000 in", "1.81 %, never called better"},
		{nest.Plan{Used: 10 * in}, "how much shorter it could be is unknown", "no bound"},
	} {
		if got := cutplan.Verdict(tt.plan, inches, inches.Format).String(); got != tt.want {
			t.Errorf("Verdict = %q; want %q (%s)", got, tt.want, tt.src)
		}
		tt.plan.Interrupted = true
		if w := pseudo.Unmarked(pseudo.Put(cutplan.Verdict(tt.plan, inches, inches.Format))); w != nil {
			t.Errorf("%q has words in English only: %q", tt.want, w)
		}
	}
}

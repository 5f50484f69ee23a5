package mark

import (
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"shadewright/ticket/code"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/message/pseudo"
	"shadewright/ticket/route"
)

var (
	job  = uuid.MustParse("5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31")
	noon = time.Date(2027, 3, 1, 12, 0, 0, 0, time.UTC)
)

func aTicket(shade string, unit, remake int) *Ticket {
	t := &Ticket{
		Job: job, JobName: "Heron Landing bunkhouse", Due: time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC),
		Shade: shade, Unit: unit, Of: 2, Remake: remake, Revision: "BK24",
		Panel:   measure.Size{Width: 26*measure.Inch + 3*measure.Inch/8, Length: 48 * measure.Inch},
		Summary: []byte(`{"place":"lower bunk"}`),
		Route: route.Route{
			{Key: "cut", Name: message.StepTerm.Term("Cut the panel"), Reading: route.Width},
			{Key: "square", Name: message.StepTerm.Term("Square the panel"), Reading: route.Diagonals},
			{Key: "sew", Name: message.StepTerm.Term("Sew the pocket")},
			{Key: "tension", Name: message.StepTerm.Term("Tension the spring"), Reading: route.Turns},
		},
	}
	t.ID = code.Identity(job, shade, unit, remake)
	t.Code = code.Derive(t.ID)
	if remake > 0 {
		t.Replaces = code.Derive(code.Identity(job, shade, unit, remake-1))
	}
	return t
}

func of(t *Ticket, kind Kind, step string) Mark {
	m := Mark{ID: uuid.New(), Code: t.Code, Kind: kind, Step: step, Who: "ann", Where: "bench 2", Time: noon}
	if kind == Held || kind == Remade {
		m.Reason = message.ReasonTerm.Term("no cloth left")
	}
	return m
}

func TestMarkCheck(t *testing.T) {
	good := of(aTicket("bunk-left", 1, 0), Done, "sew")
	tests := []struct {
		change func(*Mark)
		want   string
	}{
		{func(m *Mark) {}, ""},
		{func(m *Mark) { m.ID = uuid.Nil }, "mark has no id; give each mark a new UUID"},
		{func(m *Mark) { m.Code = "KM46SAXN4F" }, `code "KM46SAXN4F" is mistyped: one symbol is wrong, or two are swapped; type it again or scan it`},
		{func(m *Mark) { m.Revision = "BK2" }, `revision: code "BK2" has 3 symbols; a code has 10, and 4 more with its revision`},
		{func(m *Mark) { m.Kind = "blessed" }, `unknown kind "blessed"; the kinds are done, measured, undone, held, released, remade`},
		{func(m *Mark) { m.Kind = Held }, "a hold needs a reason; say in a few words why"},
		{func(m *Mark) { m.Reason = message.ReasonTerm.Term("x") }, `reason "x" is given for done; only held and remade have one`},
		{func(m *Mark) { m.Kind = Undone; m.Readings.Turns = 1 }, "a reading is given for undone; only done and measured have one"},
		{func(m *Mark) { m.Readings.Diagonals[1] = 5 }, "only one diagonal is given; measure both"},
		{func(m *Mark) { m.Readings.Width = -5 }, "a reading is below zero; measure again"},
		{func(m *Mark) { m.Readings.Turns = MostTurns + 1 }, "a reading is much too large; measure again"},
		{func(m *Mark) { m.Who = "an\nn" }, `who "an\nn" has a control character; write it on one line`},
		{func(m *Mark) { m.Where = "b\xff" }, `where "b\xff" is not UTF-8 text`},
		{func(m *Mark) { m.Who = strings.Repeat("ж", 81) }, `who "` + strings.Repeat("ж", 20) + `"… is longer than 80 characters; shorten it`},
		{func(m *Mark) { m.Time = time.Time{} }, `time "0001-01-01T00:00:00Z" cannot be the time of a mark; give the time when it was made`},
		{func(m *Mark) { m.Time = noon.In(time.FixedZone("", 3601)) }, `time "2027-03-01T13:00:01+01:00" has seconds in its offset; give the offset in hours and minutes`},
	}
	for _, tt := range tests {
		m := good
		tt.change(&m)
		got := ""
		if err := m.Check(); err != nil {
			got = err.Error()
		}
		if got != tt.want {
			t.Errorf("Check() = %q; want %q", got, tt.want)
		}
	}
}

func TestTicketCheck(t *testing.T) {
	tests := []struct {
		change func(*Ticket)
		want   string
	}{
		{func(k *Ticket) {}, ""},
		{func(k *Ticket) { k.Unit = 2 }, `code KM46SAXN4E does not belong to shade "bunk-left" unit 2 remake 0 in job 5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31; register what was printed`},
		{func(k *Ticket) { k.Of = 0 }, `shade "bunk-left" unit 1 of 0 remake 0 is not a unit of a shade`},
		{func(k *Ticket) { k.Replaces = "2222222222" }, `replaces "2222222222" is not the ticket before remake 0`},
		{func(k *Ticket) { k.Due = noon }, `due 2027-03-01T12:00:00Z is not a date`},
		{func(k *Ticket) { k.Panel.Width = -1 }, `panel -0.000001 mm × 1219.2 mm is not a size`},
		{func(k *Ticket) { k.Turns = TurnRange{Least: 1300, Best: 1200, Most: 1400} }, `turns 13 to 14, best 12, are not a range`},
		{func(k *Ticket) { k.Summary = []byte("{") }, `summary is not JSON of at most 65536 bytes`},
		{func(k *Ticket) { k.Summary = []byte("\"\xff\"") }, `summary is not JSON of at most 65536 bytes`},
		{func(k *Ticket) { k.Route = nil }, `route: the route has no steps; write at least one, or leave the route out to use the usual one`},
		{func(k *Ticket) { k.Revision = "" }, `revision: code "" has 0 symbols; a code has 10, and 4 more with its revision`},
		{func(k *Ticket) { k.JobName = "a\tb" }, `job "a\tb" has a control character; write it on one line`},
	}
	for _, tt := range tests {
		k := aTicket("bunk-left", 1, 0)
		tt.change(k)
		got := ""
		if err := k.Check(); err != nil {
			got = err.Error()
		}
		if got != tt.want {
			t.Errorf("Check() = %q; want %q", got, tt.want)
		}
	}
}

func TestParseTurns(t *testing.T) {
	tests := []struct {
		in   string
		want Turns // hundredths
	}{
		{"12", 1200}, {"12.5", 1250}, {"12,25", 1225}, {"12 1/2", 1250}, {"12-1/2", 1250}, {"12½", 1250},
		{"¾", 75}, {"0", 0}, {"100", 10000}, {" 8 ", 800}, {"8.07", 807},
	}
	for _, tt := range tests {
		if got, err := ParseTurns(tt.in); got != tt.want || err != nil {
			t.Errorf("ParseTurns(%q) = %d, %v; want %d", tt.in, got, err, tt.want)
		}
	}
	for _, in := range []string{"", "x", "-3", "1.234", "101", "12.5 1/2", "1 2", "1/3", "+5", ".5", "1/2 1/2", "99999999999", "1e2"} {
		if got, err := ParseTurns(in); err == nil {
			t.Errorf("ParseTurns(%q) = %d; want it refused", in, got)
		}
	}
}

// TestJudge sends marks to one ticket in a row and reads every answer.
func TestJudge(t *testing.T) {
	in := measure.Inch
	reading := func(m Mark, r Readings) Mark { m.Readings = r; return m }
	k := aTicket("bunk-left", 1, 0)
	revision := func(r code.Revision) Mark { m := of(k, Done, ""); m.Revision = r; return m }
	anyway := reading(of(k, Done, "square"), Readings{Diagonals: [2]measure.Length{55 * in, 54*in + in/2}})
	anyway.Anyway = true
	const at = " at 12:00 on 1 March by ann"
	steps := []struct {
		send    Mark
		outcome Outcome
		want    string
	}{
		{revision("CCCC"), NoRevision, "NO  bunk-left, unit 1: revision CCCC was never printed; the newest is BK24; read the paper again, or leave the revision out"},
		{of(k, Undone, ""), AlreadyIs, "NO  bunk-left, unit 1: no step is done yet; nothing to undo"},
		{of(k, Undone, "sew"), AlreadyIs, "NO  bunk-left, unit 1: Sew the pocket is not done; nothing to undo"},
		{of(k, Released, ""), AlreadyIs, "NO  bunk-left, unit 1: it is not held; go on; next: Cut the panel"},
		{of(k, Done, "paint"), NoStep, `NO  bunk-left, unit 1: the route has no step "paint"; its steps are cut, square, sew, tension`},
		{reading(of(k, Done, "cut"), Readings{Width: 26*in + in/2}), ReadingOff, "NOT YET  bunk-left, unit 1: Cut the panel is not done; too wide by 1/8 in; trim it off one side and measure again"},
		{reading(of(k, Done, "cut"), Readings{Width: 25*in + 3*in/8}), ReadingOff, "NOT YET  bunk-left, unit 1: Cut the panel is not done; too narrow by 1 in; hold the ticket, or cut the panel again"},
		{reading(of(k, Measured, "cut"), Readings{Width: 26*in + 3*in/8}), Taken, "KEPT  bunk-left, unit 1: Cut the panel is not marked done; the width is right"},
		{reading(of(k, Done, ""), Readings{Width: 26*in + 7*in/16}), Taken, "DONE  bunk-left, unit 1: Cut the panel; the width is right; next: Square the panel"},
		{of(k, Done, "cut"), AlreadyIs, "NO  bunk-left, unit 1: Cut the panel was already done" + at + "; undo it if that was wrong; next: Square the panel"},
		{reading(of(k, Done, "sew"), Readings{Turns: 100}), NotAsked, "NO  bunk-left, unit 1: Sew the pocket does not ask for that reading; it asks for none"},
		{of(k, Done, "sew"), Skipping, "DONE, BUT  bunk-left, unit 1: Sew the pocket was marked before: Square the panel; next: Square the panel"},
		{of(k, Undone, ""), Taken, "UNDONE  bunk-left, unit 1: Sew the pocket; next: Square the panel"},
		// By hand, for w = 26-3/8, l = 48: w² + l² = 2999.640625 and 4wl = 5064, so
		// sin δ = 0.5·√(4 × 2999.640625 − 0.25) / 5064 = 0.010815. 48 × that =
		// 0.5191 in, rounded up to 9/16; 26-3/8 × that = 0.2853 in, rounded up to
		// 5/16.
		{reading(of(k, Done, ""), Readings{Diagonals: [2]measure.Length{55 * in, 54*in + in/2}}), ReadingOff,
			"NOT YET  bunk-left, unit 1: Square the panel is not done; not square: the top edge is 9/16 in out to the left; cut 5/16 in off at the top left corner and at the bottom right corner, tapering to nothing at the other corner of that end, and measure again"},
		{reading(of(k, Done, ""), Readings{Diagonals: [2]measure.Length{54*in + in/2, 55 * in}}), ReadingOff,
			"NOT YET  bunk-left, unit 1: Square the panel is not done; not square: the top edge is 9/16 in out to the right; cut 5/16 in off at the top right corner and at the bottom left corner, tapering to nothing at the other corner of that end, and measure again"},
		{anyway, Taken, "DONE  bunk-left, unit 1: Square the panel; not square: the top edge is 9/16 in out to the left; cut 5/16 in off at the top left corner and at the bottom right corner, tapering to nothing at the other corner of that end, and measure again; next: Sew the pocket"},
		{of(k, Undone, "square"), Taken, "UNDONE  bunk-left, unit 1: Square the panel; next: Square the panel"},
		{reading(of(k, Done, ""), Readings{Diagonals: [2]measure.Length{54*in + in/2, 54*in + in/2}}), Taken, "DONE  bunk-left, unit 1: Square the panel; square; next: Sew the pocket"},
		{of(k, Held, ""), Taken, "HELD  bunk-left, unit 1: no cloth left; release it when work can go on"},
		{of(k, Held, ""), AlreadyIs, "NO  bunk-left, unit 1: already held: no cloth left" + at + "; release it before you hold it for another reason"},
		{of(k, Done, ""), OnHold, "NO  bunk-left, unit 1: held: no cloth left" + at + "; release it first"},
		{of(k, Released, ""), Taken, "RELEASED  bunk-left, unit 1: go on; next: Sew the pocket"},
		{of(k, Done, ""), Taken, "DONE  bunk-left, unit 1: Sew the pocket; next: Tension the spring"},
		{of(k, Done, ""), Taken, "DONE  bunk-left, unit 1: Tension the spring; it asks for the turns of the spring; every step is done"},
		{of(k, Undone, ""), Taken, "UNDONE  bunk-left, unit 1: Tension the spring; next: Tension the spring"},
		{reading(of(k, Done, ""), Readings{Turns: 1250}), Taken, "DONE  bunk-left, unit 1: Tension the spring; 12.5 turns kept; every step is done"},
		{of(k, Done, ""), Finished, "NO  bunk-left, unit 1: every step is done; nothing is left to mark"},
		{of(k, Remade, ""), Taken, "REMADE  bunk-left, unit 1: no cloth left; print the job again for its new ticket 7M4-NP9E-XY2 and cut another panel"},
		{of(k, Done, ""), Spoilt, "NO  bunk-left, unit 1: this panel was remade: no cloth left" + at + "; print the job again for its new ticket 7M4-NP9E-XY2"},
		{of(k, Undone, ""), Taken, "UNDONE  bunk-left, unit 1: this panel counts again; its remake is cancelled; every step is done"},
		{of(k, Undone, ""), Taken, "UNDONE  bunk-left, unit 1: Tension the spring; next: Tension the spring"},
	}
	p := UsualPolicy()
	s, seq := NewState(k, 1), int64(1)
	for i, step := range steps {
		before := *s
		a := p.Judge(s, step.send)
		if a.Outcome != step.outcome || a.Message().String() != step.want {
			t.Fatalf("step %d: %s %q\nwant %s %q", i+1, a.Outcome, a.Message().String(), step.outcome, step.want)
		}
		said := strings.ReplaceAll(pseudo.Put(a.Message()), "cut, square, sew, tension", "") // the route's keys
		if found := pseudo.Unmarked(said, "bunk", "left", "March", "ann", "paint", "cloth"); len(found) > 0 {
			t.Errorf("step %d says past the language %q: %s", i+1, found, said)
		}
		if a.Recorded() {
			seq++
			a.Entry.Seq = seq
			s = s.With(a.Entry)
			if a.Entry.Revision != "BK24" || a.Entry.Kind == Done && a.Entry.Step == "" {
				t.Errorf("step %d: recorded %+v", i+1, a.Entry)
			}
		}
		if before.Last == s.Last && len(before.Steps) != len(s.Steps) {
			t.Errorf("step %d changed the state without being recorded", i+1)
		}
	}
}

func TestJudgePaper(t *testing.T) {
	k := aTicket("bunk-left", 1, 0)
	again := *k
	again.Revision = "T6TY"
	s := NewState(k, 1).Register(&again, 2)
	p := UsualPolicy()
	old := of(k, Done, "")
	old.Revision = "BK24"
	if a := p.Judge(s, old); a.Outcome != Superseded || a.Recorded() || a.Message().String() != "NO  bunk-left, unit 1: this paper is revision BK24, the newest is T6TY; throw it away and use the newest, or print it again" {
		t.Errorf("old paper: %s %q", a.Outcome, a.Message().String())
	}
	if a := p.Judge(s.Register(k, 3), old); a.Outcome != Taken {
		t.Errorf("the old wording printed again counts: %s %q", a.Outcome, a.Message().String())
	}
	if a := p.Judge(nil, old); a.Outcome != Unknown || a.Message().String() != "NO  KM4-6SAX-N4E: no ticket has this code; print its job with this shop’s record, then scan again" {
		t.Errorf("unknown: %s %q", a.Outcome, a.Message().String())
	}
	spoilt := s.With(Entry{Seq: 3, Mark: of(k, Remade, "")}).Replace(4)
	if a := p.Judge(spoilt, of(k, Undone, "")); a.Outcome != Spoilt || a.Message().String() != "NO  bunk-left, unit 1: its new ticket 7M4-NP9E-XY2 is printed already; use that one" {
		t.Errorf("undoing a remake: %s %q", a.Outcome, a.Message().String())
	}
	p.OutOfOrder = Refuse
	if a := p.Judge(s, of(k, Done, "sew")); a.Outcome != OutOfOrder || a.Recorded() || a.Message().String() != "NO  bunk-left, unit 1: Sew the pocket comes later; first do and mark: Cut the panel, Square the panel" {
		t.Errorf("out of order: %s %q", a.Outcome, a.Message().String())
	}
	if a := p.Look(s, k.Code, "T6TY"); a.Outcome != Unchanged || a.Recorded() || a.Message().String() != "READY  bunk-left, unit 1: go on; next: Cut the panel" {
		t.Errorf("look: %s %q", a.Outcome, a.Message().String())
	}
}

func TestDurationsAndClocks(t *testing.T) {
	k := aTicket("bunk-left", 1, 0)
	s := NewState(k, 1)
	marks := []struct {
		kind Kind
		step string
		at   time.Duration // after noon
		took time.Duration
	}{
		{Done, "cut", 0, 0}, // nothing before it
		{Done, "square", 10 * time.Minute, 10 * time.Minute},      // since cut
		{Held, "", 20 * time.Minute, 0},                           // waits for an hour
		{Released, "", 80 * time.Minute, 0},                       //
		{Done, "sew", 85 * time.Minute, 5 * time.Minute},          // since it was released
		{Done, "tension", -3 * time.Hour, 0},                      // the clock went back: unknown
		{Undone, "tension", -3*time.Hour + time.Minute, 0},        //
		{Done, "tension", -3*time.Hour + 2*time.Minute, 2 * 60e9}, // counts from the new time
	}
	for i, m := range marks {
		mk := of(k, m.kind, m.step)
		mk.Time = noon.Add(m.at)
		s = s.With(Entry{Seq: int64(i + 2), Mark: mk})
		if m.kind != Done {
			continue
		}
		if d, ok := s.Step(m.step); !ok || d.Took != m.took || d.Seq != int64(i+2) {
			t.Errorf("mark %d: %+v, %v; want %s", i+1, d, ok, m.took)
		}
	}
	if !s.Finished() || s.Last != 9 {
		t.Errorf("%+v", s)
	}
}

func TestLate(t *testing.T) {
	k := aTicket("bunk-left", 1, 0) // due 1 March 2027
	s := NewState(k, 1)
	east := time.FixedZone("east", 10*3600)
	tests := []struct {
		now  time.Time
		want bool
	}{
		{time.Date(2027, 3, 1, 23, 59, 0, 0, time.UTC), false},
		{time.Date(2027, 3, 2, 0, 0, 0, 0, time.UTC), true},
		{time.Date(2027, 3, 2, 0, 30, 0, 0, east), true}, // still the 1st in UTC
		{time.Date(2027, 3, 1, 20, 0, 0, 0, time.FixedZone("west", -10*3600)), false},
	}
	for _, tt := range tests {
		if got := s.Late(tt.now); got != tt.want {
			t.Errorf("Late(%s) = %v; want %v", tt.now, got, tt.want)
		}
	}
	for i, st := range k.Route {
		s = s.With(Entry{Seq: int64(i + 2), Mark: of(k, Done, st.Key)})
	}
	if s.Late(tests[1].now) {
		t.Error("a finished ticket is late")
	}
}

// A panel that is cut again leaves the donor stripped and the slat cut. What is about the
// panel is to do again.
func TestRemakeKeepsTheOtherSteps(t *testing.T) {
	old, next := *aTicket("bunk-left", 1, 0), *aTicket("bunk-left", 1, 1)
	old.Route, next.Route = route.Usual(), route.Usual()
	s := NewState(&old, 1)
	for i, key := range []string{"strip", "cut", "square", "trim-tube"} {
		s = s.With(Entry{Seq: int64(i + 2), Mark: Mark{Kind: Done, Step: key}})
	}
	n := NewState(&next, 9).After(s)
	for key, want := range map[string]bool{"strip": true, "trim-tube": true, "cut": false, "square": false, "trim-slat": false} {
		if _, done := n.Step(key); done != want {
			t.Errorf("%s is done: %v; want %v", key, done, want)
		}
	}
	if step, _ := n.Next(); step.Key != "cut" {
		t.Errorf("the next step is %s; want cut", step.Key)
	}
	if n = n.With(Entry{Seq: 10, Mark: Mark{Kind: Undone, Step: "strip"}}); n.Finished() {
		t.Error("finished")
	}
	if _, done := n.Step("strip"); done {
		t.Error("a step that is undone stays done")
	}
}

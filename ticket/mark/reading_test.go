package mark

import (
	"fmt"
	"testing"

	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
	"shadewright/ticket/square"
)

// By hand: a panel w × l whose diagonals differ by Δ leans by sin δ = Δ·√(4(w² +
// l²) − Δ²) / (4·w·l). Its top stands out by l·sin δ, and w·sin δ comes off each
// end.
func TestAnswerSquare(t *testing.T) {
	const mm = measure.Millimetre
	size := func(w, l measure.Length) measure.Size { return measure.Size{Width: w, Length: l} }
	metric := Policy{Style: measure.Style{System: measure.Millimetres, Metric: mm / 100}}
	out := "not square: the top edge is 19.88 mm out to the %s; cut 14.91 mm off at the top %s corner and at the bottom %s corner, tapering to nothing at the other corner of that end, and measure again"
	tests := []struct {
		d1, d2 measure.Length
		panel  measure.Size
		want   string
		pass   bool
		src    string
	}{
		{500 * mm, 500 * mm, size(300*mm, 400*mm), "square", true, "equal diagonals"},
		{501 * mm, 500 * mm, size(300*mm, 400*mm), "square: the diagonals differ by 1 mm; 3 mm is allowed", true, "manualshelf.com JPG006, p. 8: 1/8 in up to 20 square feet, here 3 mm; 0.12 m² are 1.3"},
		{503 * mm, 500 * mm, size(300*mm, 400*mm), "square: the diagonals differ by 3 mm; 3 mm is allowed", true, "at the limit"},
		{1505 * mm, 1500 * mm, size(1500*mm, 1300*mm), "square: the diagonals differ by 5 mm; 6 mm is allowed", true, "1.95 m² are more than 20 square feet: 6 mm"},
		// Δ = 23.86: 23.86·√(10⁶ − 569.3) / 480,000 = 0.0496942; × 400 = 19.8777, × 300 = 14.9083.
		{512 * mm, 48814 * mm / 100, size(300*mm, 400*mm), fmt.Sprintf(out, "left", "left", "right"), false, "by hand"},
		{48814 * mm / 100, 512 * mm, size(300*mm, 400*mm), fmt.Sprintf(out, "right", "right", "left"), false, "its mirror image"},
		{700 * mm, 100 * mm, size(300*mm, 400*mm), "a panel of this size cannot have such diagonals; measure both again", false, "a diagonal is less than 300 + 400 and more than 400 − 300"},
		{500 * mm, 400 * mm, measure.Size{}, "", true, "a panel of unknown size is not judged"},
	}
	for _, tt := range tests {
		got, pass := metric.answer(route.Diagonals, Readings{Diagonals: [2]measure.Length{tt.d1, tt.d2}}, &Ticket{Panel: tt.panel})
		if got.String() != tt.want || pass != tt.pass {
			t.Errorf("diagonals %s and %s of %v:\n got %q, %t\nwant %q, %t (%s)", tt.d1, tt.d2, tt.panel, got, pass, tt.want, tt.pass, tt.src)
		}
	}
	own := Policy{Style: metric.Style, Square: square.Limit{Small: mm, Large: mm}}
	if got, pass := own.answer(route.Diagonals, Readings{Diagonals: [2]measure.Length{502 * mm, 500 * mm}}, &Ticket{Panel: size(300*mm, 400*mm)}); pass {
		t.Errorf("a shop that allows 1 mm says %q to 2 mm", got)
	}
}

// The turns on the ticket are compared, and every number passes.
func TestAnswerTurns(t *testing.T) {
	k := &Ticket{Turns: turnsOf(&hang.Wind{OK: true, Least: 10.42, Turns: 12, Most: 13.58})}
	if want := (TurnRange{Least: 1050, Best: 1200, Most: 1350}); k.Turns != want {
		t.Errorf("turns %v; want %v: to the tenth, inwards", k.Turns, want)
	}
	// There is no tenth between 10.01 and 10.04, so the middle, 10.025, becomes
	// 10.0.
	if got, want := turnsOf(&hang.Wind{OK: true, Least: 10.01, Turns: 10.025, Most: 10.04}), (TurnRange{1000, 1000, 1000}); got != want {
		t.Errorf("turns %v; want %v", got, want)
	}
	if got, want := turnsOf(&hang.Wind{OK: true, Least: 0.213, Turns: 0.246, Most: 0.279}), (TurnRange{22, 25, 27}); got != want {
		t.Errorf("turns %v; want %v: a stiff spring's to the hundredth", got, want)
	}
	for _, none := range []*hang.Wind{nil, {Least: 3, Most: 2}, {OK: true, Least: 100, Turns: 200, Most: 300}} {
		if got := turnsOf(none); got != (TurnRange{}) {
			t.Errorf("turns %v of %+v; want none", got, none)
		}
	}
	tests := []struct {
		got  Turns
		of   *Ticket
		want string
	}{
		{1250, &Ticket{}, "12.5 turns kept"},
		{1200, k, "12 turns kept"},
		{1100, k, "11 turns kept; the ticket says 12; 10.5 to 13.5 work"},
		{1025, k, "10.25 turns kept; the ticket says 12 and at least 10.5: it may not roll all the way up"},
		{1400, k, "14 turns kept; the ticket says 12 and at most 13.5: it may fly up or bind"},
	}
	for _, tt := range tests {
		got, pass := UsualPolicy().answer(route.Turns, Readings{Turns: tt.got}, tt.of)
		if got.String() != tt.want || !pass {
			t.Errorf("%s turns: %q, %t; want %q", tt.got, got, pass, tt.want)
		}
	}
	if got := Turns(1250).In(measure.Style{Comma: true}); got != "12,5" {
		t.Errorf("12.5 turns with a comma are %s", got)
	}
}

// A reading that arrives after its step was marked is added to it, once.
func TestReadingComesLate(t *testing.T) {
	in := measure.Inch
	k := aTicket("bunk-left", 1, 0)
	s := NewState(k, 1).With(Entry{Seq: 2, Mark: of(k, Done, "cut")})
	late := func(step string, r Readings) Mark { m := of(k, Measured, step); m.Readings = r; return m }
	a := UsualPolicy().Judge(s, late("cut", Readings{Width: 26*in + 3*in/8}))
	if want := "KEPT  bunk-left, unit 1: Cut the panel stays marked done; the width is right; next: Square the panel"; a.Outcome != Taken || a.Message().String() != want {
		t.Errorf("a late width: %s %q; want %q", a.Outcome, a.Message(), want)
	}
	if d, done := a.State.Step("cut"); !done || d.Readings.Width != 26*in+3*in/8 {
		t.Errorf("the step is kept as %+v, %t", d, done)
	}
	if d, _ := s.Step("cut"); d.Readings != (Readings{}) {
		t.Error("the state before was changed")
	}
	if b := UsualPolicy().Judge(a.State, late("cut", Readings{Width: 25*in + 3*in/8})); b.Outcome != AlreadyIs {
		t.Errorf("a second reading: %s %q", b.Outcome, b.Message())
	}
	off := UsualPolicy().Judge(s, late("cut", Readings{Width: 25*in + 3*in/8}))
	if want := "READING OFF  bunk-left, unit 1: Cut the panel stays marked done; too narrow by 1 in; hold the ticket, or cut the panel again; undo the step, put it right, and mark it again"; off.Outcome != ReadingOff || off.Message().String() != want {
		t.Errorf("a late width that is off: %s %q; want %q", off.Outcome, off.Message(), want)
	}
	for r, want := range map[Readings]Outcome{{}: AlreadyIs, {Turns: 5}: NotAsked, {Width: in, Turns: 5}: NotAsked} {
		if b := UsualPolicy().Judge(s, late("cut", r)); b.Outcome != want {
			t.Errorf("%+v for a width: %s %q; want %s", r, b.Outcome, b.Message(), want)
		}
	}
}

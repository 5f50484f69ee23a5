package scan

import (
	"testing"
	"time"

	"shadewright/ticket/mark"
	"shadewright/ticket/measure"
	"shadewright/ticket/route"
)

func TestParseReadings(t *testing.T) {
	const in, mm = measure.Inch, measure.Millimetre
	square := func(a, b measure.Length) mark.Readings {
		return mark.Readings{Diagonals: [2]measure.Length{a, b}}
	}
	tests := []struct {
		in    string
		units measure.System
		code  string
		want  mark.Readings
	}{ // by hand
		{"diagonals 1500 1502", measure.Millimetres, "", square(1500*mm, 1502*mm)},
		{"Diagonals 82 1/4 82-1/2", measure.Inches, "", square(82*in+in/4, 82*in+in/2)},
		{"diagonals 3 ft 7 in 44 in", measure.Inches, "", square(43*in, 44*in)},
		{"diagonals 1500 mm and 1502", measure.Millimetres, "", square(1500*mm, 1502*mm)},
		{c + "-BK24 diagonals 82-1/4 82-1/4", measure.Inches, c + "-BK24", square(82*in+in/4, 82*in+in/4)},
		{"z3a-b4y9-x6n  WIDTH 27½", measure.Inches, c, mark.Readings{Width: 27*in + in/2}},
		{"turns 12 1/2", measure.Inches, "", mark.Readings{Turns: 1250}},
	}
	for _, tt := range tests {
		l, err := Parser{Units: tt.units}.Parse(tt.in)
		if err != nil || l.Code.With(l.Revision) != tt.code || l.Readings != tt.want || l.Reading == route.None {
			t.Errorf("Parse(%q) = %+v, %v; want %s %+v", tt.in, l, err, tt.code, tt.want)
		}
	}
	refused := []struct{ in, want string }{
		{"diagonals 1500", `"diagonals 1500" cannot be read: it needs two lengths; write for example diagonals 59-1/16 59-1/8, or diagonals 1500 mm and 1502 mm`},
		{"diagonals", `"diagonals" cannot be read: it needs two lengths; write for example diagonals 59-1/16 59-1/8, or diagonals 1500 mm and 1502 mm`},
		{"diagonals 3' 7 1/2", `"diagonals 3' 7 1/2" cannot be read: it is not clear where the first length in "3' 7 1/2" ends; put and between the two; write for example diagonals 59-1/16 59-1/8, or diagonals 1500 mm and 1502 mm`},
		{"turns x", `"turns x" cannot be read: "x" is not a number of turns; write for example 12, 12.5 or 12-1/2, at most 100; write for example turns 12-1/2`},
		{Control{Word: Undo}.String() + " turns 12", `"` + Control{Word: Undo}.String() + ` turns 12" has a code of the bench sheet before the reading; scan the ticket, then type the reading`},
		{"Z3AB4Y9X6P width 27", `code "Z3AB4Y9X6P" is mistyped: one symbol is wrong, or two are swapped; type it again or scan it`},
	}
	for _, tt := range refused {
		if l, err := (Parser{Units: measure.Inches}).Parse(tt.in); err == nil || err.Error() != tt.want {
			t.Errorf("Parse(%q) = %+v, %v; want %s", tt.in, l, err, tt.want)
		}
	}
}

// A reading typed after a ticket belongs to the step that the scan marked.
func TestDeskReadings(t *testing.T) {
	now := time.Date(2027, 3, 1, 9, 0, 0, 0, time.UTC)
	k := &mark.Ticket{Shade: "door", Of: 1, Code: c, Revision: "BK24", Route: route.Usual()}
	width := mark.Readings{Width: 27 * measure.Inch}
	typed := Line{Reading: route.Width, Readings: width}
	d := Desk{Who: "ann"}
	if got := d.Take(typed, now); got.Send || got.Say != "NO  no ticket was scanned and marked just before; scan the ticket, then type the reading" {
		t.Fatalf("a reading of nothing: %+v", got)
	}
	s := mark.NewState(k, 1)
	hear := func(m mark.Mark) {
		s = s.With(mark.Entry{Seq: s.Last + 1, Mark: m})
		d.Answered(mark.Answer{Outcome: mark.Taken, State: s, Entry: mark.Entry{Mark: m}})
	}
	scanned := d.Take(Line{Code: c}, now).Mark
	scanned.Revision, scanned.Step = "BK24", "cut"
	hear(scanned)
	want := mark.Mark{Code: c, Revision: "BK24", Kind: mark.Measured, Step: "cut", Readings: width, Who: "ann", Time: now}
	got := d.Take(typed, now)
	if got.Mark.ID == scanned.ID || got.Mark.Check() != nil {
		t.Errorf("mark %+v: %v", got.Mark, got.Mark.Check())
	}
	if want.ID = got.Mark.ID; !got.Send || got.Mark != want {
		t.Errorf("a reading after its ticket: %+v; want %+v", got.Mark, want)
	}
	// A reading that kept the step from passing is followed by one that marks it.
	off := scanned
	off.Kind, off.Step = mark.Measured, "square"
	hear(off)
	if got := d.Take(typed, now).Mark; got.Kind != mark.Done || got.Step != "square" {
		t.Errorf("a reading after one that was off: %+v", got)
	}
	// A reading on the line of its code marks like a scan.
	typed.Code = c
	if got := d.Take(typed, now).Mark; got.Kind != mark.Done || got.Step != "" || got.Readings != width {
		t.Errorf("a code with a reading: %+v", got)
	}
	d.Take(Line{Control: Control{Word: Undo}}, now)
	if got := d.Take(typed, now); got.Send || got.Say != "NO  UNDO needs a ticket without a reading; scan the ticket alone" {
		t.Errorf("a reading to undo: %+v", got)
	}
	d.Answered(mark.Answer{Outcome: mark.OnHold})
	typed.Code = ""
	if got := d.Take(typed, now); got.Send {
		t.Errorf("a reading after a ticket that was refused: %+v", got)
	}
}

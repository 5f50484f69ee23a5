package mark

import (
	"strings"
	"testing"

	"shadewright/ticket"
)

// printedAs returns a registration of the test's ticket with the given values on
// its paper, in a format of the list.
func printedAs(format int, keysAndTexts ...string) *Ticket {
	p := ticket.Printed{Format: format}
	for i := 0; i < len(keysAndTexts); i += 2 {
		p.Values = append(p.Values, ticket.Value{Key: keysAndTexts[i], Text: keysAndTexts[i+1]})
	}
	t := *aTicket("bunk-left", 1, 0)
	t.Printed, t.Revision = p.String(), p.Revision()
	return &t
}

// Paper of an earlier format says the same as the first paper of a later format
// that agrees with it, including values that its own format did not keep. So it is
// superseded when that paper is, and valid again when that paper is printed again.
func TestEarlierFormat(t *testing.T) {
	// Format 1 kept the slat and no measured opening.
	old := printedAs(1, "slat.trim", "977900000nm")
	same := printedAs(2, "slat.trim", "977900000nm", "opening.width", "990600000nm")
	wider := printedAs(2, "slat.trim", "977900000nm", "opening.width", "993775000nm")
	steps := []struct {
		name       string
		register   *Ticket
		valid, not []*Ticket
	}{
		{"printed by the program before", old, []*Ticket{old}, nil},
		{"printed again", same, []*Ticket{old, same}, nil},
		{"with another opening", wider, []*Ticket{wider}, []*Ticket{old, same}},
		{"with the first opening again", same, []*Ticket{old, same}, []*Ticket{wider}},
	}
	var s *State
	for i, step := range steps {
		if s == nil {
			s = NewState(step.register, 1)
		} else {
			s = s.Register(step.register, int64(i+1))
		}
		for _, k := range step.valid {
			if a := UsualPolicy().Look(s, k.Code, k.Revision); a.Outcome != Unchanged {
				t.Errorf("%s: paper %s is %s: %s", step.name, k.Revision, a.Outcome, a.Text.String())
			}
		}
		for _, k := range step.not {
			if a := UsualPolicy().Look(s, k.Code, k.Revision); a.Outcome != Superseded || !strings.Contains(a.Text.String(), "; what changed: opening width ") {
				t.Errorf("%s: paper %s is %s: %s", step.name, k.Revision, a.Outcome, a.Text.String())
			}
		}
	}
}

// A mark made with valid paper of an earlier format keeps the revision that was
// read, so the same mark sent again is still the same.
func TestMarkOnEarlierPaper(t *testing.T) {
	old, now := printedAs(1, "slat.trim", "977900000nm"), printedAs(2, "slat.trim", "977900000nm")
	s := NewState(old, 1).Register(now, 2)
	m := of(now, Done, "")
	m.Revision = old.Revision
	a := UsualPolicy().Judge(s, m)
	if a.Outcome != Taken || a.Entry.Revision != old.Revision {
		t.Fatalf("%s with revision %s; want it taken with %s", a.Outcome, a.Entry.Revision, old.Revision)
	}
	if again, same := UsualPolicy().Repeat(a.State, a.Entry, m); !same || again.Outcome != Again {
		t.Errorf("sent again: %s, the same %v", again.Outcome, same)
	}
	m.Revision = ""
	if a := UsualPolicy().Judge(s, m); a.Entry.Revision != now.Revision {
		t.Errorf("without a revision it is taken with %s; want the newest, %s", a.Entry.Revision, now.Revision)
	}
}

// A registration whose values make another revision was not printed that way.
func TestPrintedIsChecked(t *testing.T) {
	for _, tt := range []struct {
		change func(*Ticket)
		want   string
	}{
		{func(*Ticket) {}, ""},
		{func(k *Ticket) { k.Revision = "BK24" }, "revision BK24 was not made from the printed values; register what was printed"},
		{func(k *Ticket) { k.Printed = "format 1\nunit=1\n" }, ""}, // format 1 made revisions from other things
		{func(k *Ticket) { k.Printed = "a note" }, `printed: a ticket's values start with "a note", not with "format " and a number`},
		{func(k *Ticket) { k.Printed = "format 1\n" + strings.Repeat("note=x\n", 10_000) }, "printed is not text of at most 65536 bytes"},
	} {
		k := printedAs(2, "unit", "1")
		tt.change(k)
		if err := k.Check(); (err == nil) != (tt.want == "") || err != nil && err.Error() != tt.want {
			t.Errorf("Check: %v; want %q", err, tt.want)
		}
	}
}

// Two papers that keep too little to compare never count as the same.
func TestNothingKept(t *testing.T) {
	a, b := printedAs(1, "sag", "0.1"), printedAs(2, "weight", "700")
	if a.Agrees(b) || !a.Agrees(a) {
		t.Error("papers without a value in common agree, or one does not agree with itself")
	}
}

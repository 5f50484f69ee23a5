package message

import (
	"encoding/json"
	"fmt"
	"testing"
	"time"
)

func TestString(t *testing.T) {
	day := time.Date(2026, time.March, 9, 14, 5, 0, 0, time.UTC)
	tests := []struct {
		p    Message
		want string
	}{ // by hand from the texts
		{Message{}, ""},
		{Of("the hem of %s", "1/2 in"), "the hem of 1/2 in"},
		{Of("common.glass"), "glass"},
		{Of("common.turns", "12"), "12 turns"},
		{Of("10 %% more"), "10 % more"},
		{Of("%d %% more", 10), "10 % more"},
		{Count(1, "%d shade", "%d shades"), "1 shade"},
		{Count(0, "%d shade", "%d shades"), "0 shades"},
		{Count(2, "%d shade of %s", "%d shades of %s", "door"), "2 shades of door"},
		{Verbatim("100 %"), "100 %"},
		{Join("; ", Of("one"), Message{}, Verbatim("2")), "one; 2"},
		{Join("", Verbatim("a"), Verbatim("b")), "ab"},
		{List(), ""},
		{List(Verbatim("a")), "a"},
		{List(Verbatim("a"), Verbatim("b")), "a and b"},
		{List(Verbatim("a"), Verbatim("b"), Verbatim("c")), "a, b and c"},
		{Of("held: %s", Of("done at %s", At(day, Clock))), "held: done at 14:05"},
		{Of("%s", At(day, DayMonth)), "9 March"},
		{Of("%s", At(day, Date)), "9 March 2026"},
		{Of("%s", At(day, Stamp)), "Mon 9 Mar, 14:05"}, // 9 March 2026 is a Monday (ISO 8601 week 11)
	}
	for _, tt := range tests {
		if got := tt.p.String(); got != tt.want {
			t.Errorf("%#v = %q; want %q", tt.p, got, tt.want)
		}
	}
}

// A term of the program's own is translated, also one that an old record kept in
// English; a shop's own is kept to the letter.
func TestTerm(t *testing.T) {
	say := func(id ID) string {
		if id == "reason.stained" {
			return "con manchas"
		}
		return id.English()
	}
	for in, want := range map[string]string{"stained": "con manchas", "rod | bent 5%%": "rod | bent 5%%", "": ""} {
		for _, m := range []Message{ReasonTerm.Term(in).Message(), {Args: []any{Word(in)}}} {
			if got := Of("held: %s", m).In(say, Time.String); got != "held: "+want {
				t.Errorf("%q becomes %q; want %q", in, got, want)
			}
		}
	}
	tests := []struct {
		term Term
		json string
	}{
		{ReasonTerm.Term("stained"), `{"id":"reason.stained"}`},
		{StepTerm.Term("Cut the panel"), `{"id":"step.cut"}`},
		{ReasonTerm.Term("Cut the panel"), `"Cut the panel"`}, // of another kind
		{BenchTerm.Term("cutting"), `{"id":"bench.cutting"}`},
		{ReasonTerm.Term("waiting for the tide"), `"waiting for the tide"`},
		{ReasonTerm.Kept("reason.stained", ""), `{"id":"reason.stained"}`},
		{ReasonTerm.Kept("", "stained"), `{"id":"reason.stained"}`},
	}
	for _, tt := range tests {
		b, err := json.Marshal(tt.term)
		if err != nil || string(b) != tt.json {
			t.Errorf("%#v is kept as %s, %v; want %s", tt.term, b, err, tt.json)
		}
	}
	for in, want := range map[string]Term{
		`{"id":"step.cut"}`: {ID: "step.cut"}, `"Cut the panel"`: {ID: "step.cut"}, `"Weld the pocket"`: {Words: "Weld the pocket"}, `""`: {},
	} {
		var got Term
		if err := json.Unmarshal([]byte(in), &got); err != nil || got != want {
			t.Errorf("%s is read as %#v, %v; want %#v", in, got, err, want)
		}
	}
	var none Term
	if err := json.Unmarshal([]byte(`{"id":"card.rev"}`), &none); err == nil || err.Error() != `id "card.rev" names no step, bench or reason` {
		t.Errorf("the id of another text: %v", err)
	}
}

func TestIn(t *testing.T) {
	// A language that turns arguments round: order is the translator's.
	say := func(id ID) string {
		return map[ID]string{"%s of %s": "%[2]s: %[1]s", "card.hem": "dobladillo"}[id]
	}
	p := Of("%s of %s", Of("card.hem"), "12 mm")
	if got, want := p.In(say, Time.String), "12 mm: dobladillo"; got != want {
		t.Errorf("In = %q; want %q", got, want)
	}
}

func TestJSON(t *testing.T) {
	b, err := json.Marshal(map[string]any{"text": Of("hem of %s", "12 mm")})
	if want := `{"text":"hem of 12 mm"}`; err != nil || string(b) != want {
		t.Errorf("json = %s, %v; want %s", b, err, want)
	}
}

func BenchmarkString(b *testing.B) {
	p := Of("the hem of %s is deeper than the pocket of %s", "1/2 in", Of("half"))
	b.ReportAllocs()
	for b.Loop() {
		if fmt.Stringer(p).String() == "" {
			b.Fatal("no text")
		}
	}
}

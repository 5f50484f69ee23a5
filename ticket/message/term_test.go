package message

import (
	"encoding/json"
	"testing"
)

// English words of the program are its own term, of their kind only. A shop's words
// stay as they are.
func TestTerm(t *testing.T) {
	tests := []struct {
		kind  TermKind
		words string
		want  Term
	}{
		{ReasonTerm, "stained", Term{ID: "reason.stained"}}, // as records and settings have held it
		{ReasonTerm, ID("reason.stained").English(), Term{ID: "reason.stained"}},
		{StepTerm, "sewing", Term{Words: "sewing"}}, // a bench, and no step
		{StepTerm, "Strip the donor, mark its direction", Term{ID: "step.strip"}},
		{BenchTerm, "rod | bent 5%%", Term{Words: "rod | bent 5%%"}},
		{BenchTerm, "", Term{}},
	}
	for _, tt := range tests {
		got := tt.kind.Term(tt.words)
		if got != tt.want {
			t.Errorf("%s %q is %#v; want %#v", tt.kind, tt.words, got, tt.want)
		}
		want := tt.words
		if got.ID != "" {
			want = inSpanish(got.ID)
		}
		if said := got.Message().In(inSpanish, Time.String); said != want {
			t.Errorf("%#v reads %q; want %q", got, said, want)
		}
	}
}

func TestTermJSON(t *testing.T) {
	tests := []struct {
		term Term
		want string // by hand
	}{
		{Term{ID: "reason.stained"}, `{"id":"reason.stained"}`},
		{Term{ID: "step.not-yet-made"}, `{"id":"step.not-yet-made"}`}, // of a newer program
		{Term{Words: "rod bent"}, `"rod bent"`},
	}
	for _, tt := range tests {
		b, err := json.Marshal(tt.term)
		if err != nil || string(b) != tt.want {
			t.Errorf("%#v is stored as %s, %v; want %s", tt.term, b, err, tt.want)
		}
		var again Term
		if err := json.Unmarshal([]byte(tt.want), &again); err != nil || again != tt.term {
			t.Errorf("%s reads %#v, %v; want %#v", tt.want, again, err, tt.term)
		}
	}
	var term Term
	if got := ReasonTerm.Kept("reason.stained", ""); got != (Term{ID: "reason.stained"}) {
		t.Errorf("a record with an id has %#v", got)
	}
	if got := ReasonTerm.Kept("", "stained"); got != (Term{ID: "reason.stained"}) {
		t.Errorf("a record with English words has %#v", got)
	}
	if err := json.Unmarshal([]byte(`"flaw in the cloth"`), &term); err != nil || term != (Term{ID: "reason.flaw"}) {
		t.Errorf("English of an earlier record reads %#v, %v", term, err)
	}
	for _, bad := range []string{`{"id":"card.hem"}`, `{"id":"reason"}`, `5`} {
		if err := json.Unmarshal([]byte(bad), &term); err == nil {
			t.Errorf("%s reads %#v; want an error", bad, term)
		}
	}
}

package phrase

import (
	"encoding/json"
	"errors"
	"fmt"
	"testing"
	"time"
)

// A phrase that was kept says the same, in any language.
func TestKept(t *testing.T) {
	day := time.Date(2026, time.March, 9, 14, 5, 0, 0, time.UTC)
	tests := []struct {
		p    Phrase
		want string // by hand
	}{
		{Phrase{}, `{}`},
		{Verbatim("27-1/2 in"), `"27-1/2 in"`},
		{Verbatim("5"), `"5"`},
		{Of("for %s", time.Minute), `{"en":"for %s","with":["1m0s"]}`},
		{Of("%d of %d", int64(1), 2), `{"en":"%d of %d","with":[1,2]}`},
		{Of("left|side"), `{"en":"left|side"}`},
		{Of("%d shades of %s", 2, "door"), `{"en":"%d shades of %s","with":[2,"door"]}`},
		{Join(", ", Of("one"), Verbatim("2")), `{"with":[{"en":"one"},", ","2"]}`},
		{Of("held: %s", Known("stained")), `{"en":"held: %s","with":[{"with":[{"word":"stained"}]}]}`},
		{Of("at %s", At(day, Clock)), `{"en":"at %s","with":[{"at":"2026-03-09T14:05:00Z","form":2}]}`},
	}
	loud := func(e English) string { return "«" + e.String() + "»" }
	for _, tt := range tests {
		b, err := json.Marshal(Kept{tt.p})
		if err != nil || string(b) != tt.want {
			t.Errorf("%v is kept as %s, %v; want %s", tt.p, b, err, tt.want)
		}
		var again Kept
		if err := json.Unmarshal(b, &again); err != nil || again.In(loud, Time.String) != tt.p.In(loud, Time.String) {
			t.Errorf("%s says %q, %v; want %q", b, again.In(loud, Time.String), err, tt.p.In(loud, Time.String))
		}
	}
	for _, bad := range []string{`5`, `{"with":[[1]]}`, `{"with":[{"at":"2026-03-09T14:05:00Z","form":9}]}`, `{"en":5}`} {
		var k Kept
		if err := json.Unmarshal([]byte(bad), &k); err == nil {
			t.Errorf("%s is read as %q", bad, k)
		}
	}
}

func TestTold(t *testing.T) {
	err := errors.Join(Wrong("no %s", "reason"), fmt.Errorf("width: %w", errors.New("odd")), fmt.Errorf("form: %w", Wrong("two|of them")))
	loud := func(e English) string { return "«" + e.String() + "»" }
	if got, want := Told(err).In(loud, Time.String), "«no reason»; width: odd; «two»"; got != want {
		t.Errorf("Told = %q; want %q", got, want)
	}
	if !Told(nil).IsZero() || !Told(errors.Join()).IsZero() {
		t.Error("no error says something")
	}
}

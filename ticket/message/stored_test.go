package message

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"
)

// A stored message reads the same in any language.
func TestStored(t *testing.T) {
	day := time.Date(2026, time.March, 9, 14, 5, 0, 0, time.UTC)
	tests := []struct {
		m    Message
		want string // by hand
	}{
		{Message{}, `{}`},
		{Verbatim("27-1/2 in"), `"27-1/2 in"`},
		{Verbatim("5"), `"5"`},
		{Of("test.hem", time.Minute), `{"id":"test.hem","with":["1m0s"]}`},
		{Of("test.shades", int64(2), "mesh"), `{"id":"test.shades","with":[2,"mesh"]}`},
		{Of("test.share", uint8(10)), `{"id":"test.share","with":[10]}`},
		{Of("test.hem", Of("test.more")), `{"id":"test.hem","with":[{"id":"test.more"}]}`},
		{Of("test.turned", 7, "roll"), `{"id":"test.turned","with":[7,"roll"]}`},
		{Of("test.full"), `{"id":"test.full"}`},
		{Of("test.quoted", "5 q"), `{"id":"test.quoted","with":["5 q"]}`},
		{Join(", ", Of("test.one"), Verbatim("2")), `{"with":[{"id":"test.one"},", ","2"]}`},
		{Of("test.hem", ReasonTerm.Term("stained").Message()), `{"id":"test.hem","with":[{"id":"reason.stained"}]}`},
		{Of("test.hem", At(day, Clock)), `{"id":"test.hem","with":[{"at":"2026-03-09T14:05:00Z","form":2}]}`},
		{Of("card.not-yet-made", "7 mm", 2), `{"id":"card.not-yet-made","with":["7 mm",2]}`}, // of a newer program
	}
	loud := func(id ID) string { return "«" + id.English() + "»" }
	for _, tt := range tests {
		b, err := json.Marshal(Stored{tt.m})
		if err != nil || string(b) != tt.want {
			t.Errorf("%v is stored as %s, %v; want %s", tt.m, b, err, tt.want)
		}
		var again Stored
		if err := json.Unmarshal(b, &again); err != nil || again.In(loud, Time.String) != tt.m.In(loud, Time.String) {
			t.Errorf("%s reads %q, %v; want %q", b, again.In(loud, Time.String), err, tt.m.In(loud, Time.String))
		}
	}
	for _, bad := range []string{`5`, `{"with":[[1]]}`, `{"with":[{"at":"2026-03-09T14:05:00Z","form":9}]}`, `{"id":5}`, `{"en":5}`, `{"en":"%s","with":[5]}`} {
		var s Stored
		if err := json.Unmarshal([]byte(bad), &s); err == nil {
			t.Errorf("%s reads %q; want an error", bad, s)
		}
	}
}

// A record may come from another hand. What cannot be shown as it was meant, would be
// shown without end, or would take long to read is refused.
func TestStoredIsPlain(t *testing.T) {
	in := func(open, leaf, end string, n int) string {
		return strings.Repeat(open, n) + leaf + strings.Repeat(end, n)
	}
	tests := []struct{ stored, want string }{
		{`{"id":"test.and","with":["a"]}`, `text "%s and %s" needs more than 1 arguments`},
		{`{"id":"test.and"}`, `text "%s and %s" needs more than 0 arguments`},
		{`{"id":"test.hem","with":["a","b"]}`, `text "the hem of %s" has no place for b`},
		{`{"id":"test.one","with":[5]}`, `text "one" has no place for 5`},
		{`{"id":"test.share","with":["a"]}`, `text "%d %% more" needs an argument of another kind than a`},
		{`{"id":"test.hem","with":[5]}`, `text "the hem of %s" needs an argument of another kind than 5`},
		{`{"id":"%s","with":["a"]}`, `id "%s" has a % in it; no id has`},
		{`{"en":"%s, 50 %","with":["a"]}`, `text "%s, 50 %" has a verb other than %s, %d and %q`},
		{`{"en":"%[2]s","with":["a","b"]}`, `text "%[2]s" has no place for a`},
		{`{"en":"%[3]s %s","with":["a","b"]}`, `text "%[3]s %s" needs more than 2 arguments`},
		{`{"en":"%[1]*d","with":[9]}`, `text "%[1]*d" has a verb other than %s, %d and %q`},
		{`{"en":"%v","with":["a"]}`, `text "%v" has a verb other than %s, %d and %q`},
		{`{"en":"%999999d","with":[1]}`, `text "%999999d" has a verb other than %s, %d and %q`},
		{`{"en":"%*d","with":[999999,1]}`, `text "%*d" has a verb other than %s, %d and %q`},
		{in(`{"en":"%[1]s%[1]s","with":[`, `"a"`, `]}`, 7), `text "%[1]s%[1]s" uses a twice`}, // 2 to the 7th
		{in(`{"with":[`, `"a"`, `]}`, 9), "messages are nested more than 8 deep"},
		{in(`{"with":[`, `"a"`, `]}`, 4900), "messages are nested more than 8 deep"}, // encoding/json takes 10000 brackets
	}
	for _, tt := range tests {
		var s Stored
		if err := json.Unmarshal([]byte(tt.stored), &s); err == nil || err.Error() != tt.want || !s.IsZero() {
			t.Errorf("%.80s reads %.80q, %v; want %s", tt.stored, s.String(), err, tt.want)
		}
	}
	var s Stored
	if err := json.Unmarshal([]byte(in(`{"with":[`, `"a"`, `]}`, 8)), &s); err != nil || s.String() != "a" {
		t.Errorf("8 deep: %q, %v", s, err)
	}
}

func TestFromError(t *testing.T) {
	err := errors.Join(NewError("test.hem", "reason"), fmt.Errorf("width: %w", errors.New("odd")), fmt.Errorf("form: %w", NewError("test.one")))
	loud := func(id ID) string { return "«" + id.English() + "»" }
	if got, want := FromError(err).In(loud, Time.String), "«the hem of reason»; width: odd; «one»"; got != want {
		t.Errorf("FromError = %q; want %q", got, want)
	}
	if !FromError(nil).IsZero() || !FromError(errors.Join()).IsZero() {
		t.Error("no error says something")
	}
}

// Whatever a record holds can be shown, at no more length than quotes within quotes
// need, and is the same after it is stored and read again.
func FuzzStored(f *testing.F) {
	for _, s := range []string{
		`"x"`, `{}`, `null`, `{"en":"%d of %s|x","with":[1,{"word":"a"}]}`, `{"id":"test.shades","with":[1,"2"]}`, `{"en":"%q","with":[{"en":"%q","with":["\"\\"]}]}`,
		`{"with":[null,"a",{"at":"2026-03-09T14:05:00Z","form":3}]}`, `{"en":"%%%s","with":["%"]}`, `{"en":"%q","with":[-1]}`, `{"id":"card.newer","with":["%d",{"id":"x"}]}`,
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		var first, again Stored
		if json.Unmarshal([]byte(s), &first) != nil {
			return
		}
		said := first.String()
		if most := 64 + len(s)<<(deepest+2); len(said) > most {
			t.Errorf("%d bytes read as %d bytes", len(s), len(said))
		}
		b, err := json.Marshal(first)
		if err == nil {
			err = json.Unmarshal(b, &again)
		}
		if err != nil || again.String() != said {
			t.Errorf("%q is stored as %s and reads %q, %v; want %q", s, b, again, err, said)
		}
	})
}

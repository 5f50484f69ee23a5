package message

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"
)

// A message that was kept says the same, in any language.
func TestStored(t *testing.T) {
	day := time.Date(2026, time.March, 9, 14, 5, 0, 0, time.UTC)
	tests := []struct {
		p    Message
		want string // by hand
	}{
		{Message{}, `{}`},
		{Verbatim("27-1/2 in"), `"27-1/2 in"`},
		{Verbatim("5"), `"5"`},
		{Of("for %s", time.Minute), `{"id":"for %s","with":["1m0s"]}`},
		{Of("common.of", int64(1), uint8(2)), `{"id":"common.of","with":[1,2]}`},
		{Of("10 %% of %s", Of("10 %% more")), `{"id":"10 %% of %s","with":[{"id":"10 %% more"}]}`},
		{Of("%[2]s, and %[1]d", 7, "roll"), `{"id":"%[2]s, and %[1]d","with":[7,"roll"]}`},
		{Of("at 100 %, no less"), `{"id":"at 100 %, no less"}`},
		{Of("%d shades of %s", 2, "door"), `{"id":"%d shades of %s","with":[2,"door"]}`},
		{Join(", ", Of("one"), Verbatim("2")), `{"with":[{"id":"one"},", ","2"]}`},
		{Of("held: %s", Message{Args: []any{Word("stained")}}), `{"id":"held: %s","with":[{"with":[{"word":"stained"}]}]}`},
		{Of("at %s", At(day, Clock)), `{"id":"at %s","with":[{"at":"2026-03-09T14:05:00Z","form":2}]}`},
	}
	loud := func(id ID) string { return "«" + id.English() + "»" }
	for _, tt := range tests {
		b, err := json.Marshal(Stored{tt.p})
		if err != nil || string(b) != tt.want {
			t.Errorf("%v is kept as %s, %v; want %s", tt.p, b, err, tt.want)
		}
		var again Stored
		if err := json.Unmarshal(b, &again); err != nil || again.In(loud, Time.String) != tt.p.In(loud, Time.String) {
			t.Errorf("%s says %q, %v; want %q", b, again.In(loud, Time.String), err, tt.p.In(loud, Time.String))
		}
	}
	for _, bad := range []string{`5`, `{"with":[[1]]}`, `{"with":[{"at":"2026-03-09T14:05:00Z","form":9}]}`, `{"id":5}`, `{"en":5}`, `{"en":"%s","with":[5]}`} {
		var k Stored
		if err := json.Unmarshal([]byte(bad), &k); err == nil {
			t.Errorf("%s is read as %q", bad, k)
		}
	}
}

// What was put into a record by another hand is refused where it could not be said
// as it was meant, would be said without end, or take long to read.
func TestStoredIsPlain(t *testing.T) {
	in := func(open, leaf, end string, n int) string {
		return strings.Repeat(open, n) + leaf + strings.Repeat(end, n)
	}
	tests := []struct{ kept, want string }{
		{`{"id":"common.and","with":["a"]}`, `text "%s and %s" has more verbs than the 1 that stand in it`},
		{`{"id":"%s","with":["a","b"]}`, `text "%s" has no place for b`},
		{`{"id":"cut","with":[5]}`, `text "cut" has no place for 5`},
		{`{"id":"%d","with":["a"]}`, `text "%d" has a in the place of another kind`},
		{`{"id":"%s","with":[5]}`, `text "%s" has 5 in the place of another kind`},
		{`{"id":"%s, 50 %","with":["a"]}`, `text "%s, 50 %" has another verb than %s, %d and %q`},
		{`{"id":"%[2]s","with":["a","b"]}`, `text "%[2]s" has no place for a`},
		{`{"id":"%[3]s %s","with":["a","b"]}`, `text "%[3]s %s" has more verbs than the 2 that stand in it`},
		{`{"id":"%[1]*d","with":[9]}`, `text "%[1]*d" has another verb than %s, %d and %q`},
		{`{"id":"%v","with":["a"]}`, `text "%v" has another verb than %s, %d and %q`},
		{`{"id":"%999999d","with":[1]}`, `text "%999999d" has another verb than %s, %d and %q`},
		{`{"id":"%*d","with":[999999,1]}`, `text "%*d" has another verb than %s, %d and %q`},
		{in(`{"id":"%[1]s%[1]s","with":[`, `"a"`, `]}`, 7), `text "%[1]s%[1]s" says a twice`}, // 2 to the 7th
		{in(`{"with":[`, `"a"`, `]}`, 9), "messages stand in one another more than 8 deep"},
		{in(`{"with":[`, `"a"`, `]}`, 4900), "messages stand in one another more than 8 deep"}, // encoding/json takes 10000 brackets
	}
	for _, tt := range tests {
		var k Stored
		if err := json.Unmarshal([]byte(tt.kept), &k); err == nil || err.Error() != tt.want || !k.IsZero() {
			t.Errorf("%.80s is read as %.80q, %v; want %s", tt.kept, k.String(), err, tt.want)
		}
	}
	var k Stored
	if err := json.Unmarshal([]byte(in(`{"with":[`, `"a"`, `]}`, 8)), &k); err != nil || k.String() != "a" {
		t.Errorf("8 deep: %q, %v", k, err)
	}
}

// What an earlier version kept as English reads right in every language; a text that
// it never had, and what a shop wrote, stay as they are.
func TestLegacy(t *testing.T) {
	spanish := func(id ID) string { s, _ := Spanish.Text(id); return s }
	tests := []struct{ kept, want string }{ // the Spanish of the catalogue
		{`{"en":"step %d","with":[3]}`, "step 3"},
		{`{"en":"%s and %s","with":[{"en":"wood"},"x"]}`, "madera y x"},
		{`{"en":"LEFT|sheet"}`, "IZQUIERDA"},
		{`{"en":"never said|note"}`, "never said"},
		{`{"en":"10 %% of %s|cloth","with":["2 m"]}`, "10 % of 2 m"},
		{`{"with":[{"word":"flaw in the cloth"}]}`, "defecto en la tela"},
		{`{"with":[{"word":"wet"}]}`, "wet"},
	}
	for _, tt := range tests {
		var k Stored
		if err := json.Unmarshal([]byte(tt.kept), &k); err != nil || k.In(spanish, Time.String) != tt.want {
			t.Errorf("%s says %q, %v; want %q", tt.kept, k.In(spanish, Time.String), err, tt.want)
		}
	}
	for text, id := range legacy() {
		if _, ok := English.Text(id); !ok && !retired[id] {
			t.Errorf("the earlier text %q has id %q, which the catalogue lacks", text, id)
		}
	}
}

// retired lists ids of earlier texts that records cannot hold and the catalogue has
// dropped.
var retired = map[ID]bool{}

func TestFromError(t *testing.T) {
	err := errors.Join(NewError("no %s", "reason"), fmt.Errorf("width: %w", errors.New("odd")), fmt.Errorf("form: %w", NewError("two")))
	loud := func(id ID) string { return "«" + id.English() + "»" }
	if got, want := FromError(err).In(loud, Time.String), "«no reason»; width: odd; «two»"; got != want {
		t.Errorf("FromError = %q; want %q", got, want)
	}
	if !FromError(nil).IsZero() || !FromError(errors.Join()).IsZero() {
		t.Error("no error says something")
	}
}

// Whatever a record holds is said in the end, in no more than the quotes within
// quotes make of it, and kept and read again is the same.
func FuzzStored(f *testing.F) {
	for _, s := range []string{
		`"x"`, `{}`, `null`, `{"en":"%d of %s|x","with":[1,{"word":"a"}]}`, `{"id":"common.of","with":[1,2]}`, `{"en":"%q","with":[{"en":"%q","with":["\"\\"]}]}`,
		`{"with":[null,"a",{"at":"2026-03-09T14:05:00Z","form":3}]}`, `{"en":"%%%s","with":["%"]}`, `{"en":"%q","with":[-1]}`,
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		var k, again Stored
		if json.Unmarshal([]byte(s), &k) != nil {
			return
		}
		said := k.String()
		if most := 64 + len(s)<<(deepest+2); len(said) > most {
			t.Errorf("%d bytes are said in %d", len(s), len(said))
		}
		b, err := json.Marshal(k)
		if err == nil {
			err = json.Unmarshal(b, &again)
		}
		if err != nil || again.String() != said {
			t.Errorf("%q is kept as %s and read as %q, %v; want %q", s, b, again, err, said)
		}
	})
}

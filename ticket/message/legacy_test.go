package message

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"testing"
)

func inSpanish(id ID) string {
	text, _ := Spanish.Text(id)
	return text
}

// A text that an earlier version stored as English reads right in every language.
// A text that the program never had, and a shop's own words, stay as they are.
func TestLegacy(t *testing.T) {
	say := func(id ID, args ...any) string { return Of(id, args...).In(inSpanish, Time.String) }
	tests := []struct{ stored, want string }{
		{`{"en":"step %d","with":[3]}`, "step 3"}, // never of the program
		{`{"en":"%s and %s","with":[{"en":"wood"},"x"]}`, say("common.and", Of("hang.wood"), "x")},
		{`{"en":"LEFT|sheet"}`, say("mounting.left-sheet")},
		{`{"en":"Strip the donor, mark its direction"}`, say("step.strip")},
		{`{"en":"never said|note"}`, "never said"},
		{`{"en":"10 %% of %s|cloth","with":["2 m"]}`, "10 % of 2 m"},
		{`{"with":[{"word":"flaw in the cloth"}]}`, say("reason.flaw")},
		{`{"with":[{"word":"wet"}]}`, "wet"},
	}
	for _, tt := range tests {
		var s Stored
		if err := json.Unmarshal([]byte(tt.stored), &s); err != nil || s.In(inSpanish, Time.String) != tt.want {
			t.Errorf("%s reads %q, %v; want %q", tt.stored, s.In(inSpanish, Time.String), err, tt.want)
		}
	}
}

// argumentsOf returns arguments for the verbs of a text, each unlike the others.
func argumentsOf(text string) []any {
	var args []any
	next := 1
	for _, m := range verb.FindAllStringSubmatch(text, -1) {
		if m[2] == "" {
			continue
		}
		if m[1] != "" {
			next, _ = strconv.Atoi(m[1]) // digits by the pattern
		}
		for len(args) < next {
			args = append(args, nil)
		}
		args[next-1] = fmt.Sprintf("§%d§", next)
		if m[2] == "d" {
			args[next-1] = 9000 + next
		}
		next++
	}
	return args
}

// Every text of the list is in the catalogue, has as many arguments there, and shows
// each of them in Spanish.
func TestEveryLegacyText(t *testing.T) {
	if n := len(legacy()); n < 800 {
		t.Fatalf("the list has %d texts; the program had more", n)
	}
	for text, id := range legacy() {
		words, ok := Spanish.Text(id)
		if !ok {
			t.Errorf("the earlier text %q has the id %q, which the catalogue lacks; a row that goes moves to catalogue_retired.go", text, id)
			continue
		}
		args := argumentsOf(text)
		b, err := json.Marshal(map[string]any{"en": text, "with": args})
		var s Stored
		if err == nil {
			err = json.Unmarshal(b, &s)
		}
		if err != nil || s.ID != id {
			t.Errorf("%s is read as %q, %v; want %q", b, s.ID, err, id)
			continue
		}
		got := s.In(inSpanish, Time.String)
		if len(args) == 0 && got != plain(words) || strings.Contains(got, "%!") {
			t.Errorf("%s reads %q; its Spanish is %q", b, got, words)
		}
		for _, a := range args {
			if !strings.Contains(got, fmt.Sprint(a)) {
				t.Errorf("%s reads %q, without %v", b, got, a)
			}
		}
	}
}

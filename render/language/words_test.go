package language

import (
	"regexp"
	"strings"
	"testing"

	"shadewright/ticket/message"
)

// english matches English words that are not Spanish, which show a text that
// was copied and not fully translated. It does not match the keys of the job
// file and the settings, which are typed as they are.
var english = regexp.MustCompile(`(?i)\b(the|of|and|or|with|without|from|for|by|at|to|is|are|it|its|this|that|not|off|cut|cuts|shade|shades|tube|slat|cloth|goods|turns|job|ticket|sheet|sheets|step|steps|done|left|right|width|length|page)\b`)

var typed = regexp.MustCompile(`\b[a-z]+[._][a-z_]+\b|\b[a-z]+: [a-z]+\b`)

func TestNoEnglish(t *testing.T) {
	for _, key := range message.IDs() {
		s, _ := message.Spanish.Text(key) // TestCatalogue checks that it exists
		if w := english.FindAllString(typed.ReplaceAllString(s, ""), -1); w != nil {
			t.Errorf("%q: its Spanish %q has English in it: %s", key, s, strings.Join(w, ", "))
		}
	}
}

package language

import (
	"regexp"
	"strings"
	"testing"

	"shadewright/ticket/message"
)

// english finds words that are English and no Spanish: a text that was copied to
// be translated and was not, in whole or in part. Keys of the job file and of the
// settings, as they are typed, do not count.
var english = regexp.MustCompile(`(?i)\b(the|of|and|or|with|without|from|for|by|at|to|is|are|it|its|this|that|not|off|cut|cuts|shade|shades|tube|slat|cloth|goods|turns|job|ticket|sheet|sheets|step|steps|done|left|right|width|length|page)\b`)

var typed = regexp.MustCompile(`\b[a-z]+[._][a-z_]+\b|\b[a-z]+: [a-z]+\b`)

func TestNoEnglish(t *testing.T) {
	for _, key := range message.IDs() {
		s, _ := message.Spanish.Text(key) // TestCatalogue has seen it
		if w := english.FindAllString(typed.ReplaceAllString(s, ""), -1); w != nil {
			t.Errorf("%q: its Spanish %q has English in it: %s", key, s, strings.Join(w, ", "))
		}
	}
}

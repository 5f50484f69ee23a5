// Package marked is for tests only: it finds what is said without being a text
// that can be put into another language.
package pseudo

import (
	"regexp"
	"slices"
	"strings"

	"shadewright/ticket/message"
)

var accents = strings.NewReplacer("a", "á", "e", "é", "i", "í", "o", "ó", "u", "ú", "A", "Á", "E", "É", "I", "Í", "O", "Ó", "U", "Ú")

// Say returns a text with an accent on every vowel.
func Say(id message.ID) string { return accents.Replace(id.English()) }

// When returns a time in English with an accent on every vowel.
func When(t message.Time) string { return accents.Replace(t.String()) }

// Put returns a message in the marked language.
func Put(p message.Message) string { return p.In(Say, When) }

var word = regexp.MustCompile(`\pL{3,}`)

// Unmarked returns the words of a text in the marked language that did not pass
// through it: those of three letters and more with a vowel that has no accent.
// Own are words that stay as they are, in any case: names of the sample, units,
// codes.
func Unmarked(text string, own ...string) []string {
	var found []string
	for _, w := range word.FindAllString(text, -1) {
		if strings.ContainsAny(w, "aeiouAEIOU") &&
			!slices.ContainsFunc(own, func(o string) bool { return strings.EqualFold(o, w) }) && !slices.Contains(found, w) {
			found = append(found, w)
		}
	}
	return found
}

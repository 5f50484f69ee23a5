// Package pseudo is for tests only. It has a pseudo-language, English with an accent
// on every vowel, and finds the words of a page that are not in it: those words
// bypass package message and could not be translated.
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

// Put returns a message in the pseudo-language.
func Put(m message.Message) string { return m.In(Say, When) }

var word = regexp.MustCompile(`\pL{3,}`)

// Unmarked returns the words of a text that are not in the pseudo-language: those of
// three letters or more that have a vowel without an accent. It leaves out the words
// of own, in upper or lower case: names of the sample, units, codes.
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

package proof

import (
	"regexp"
	"slices"
	"strings"

	"shadewright/render/language"
	"shadewright/ticket/phrase"
)

var accents = strings.NewReplacer("a", "á", "e", "é", "i", "í", "o", "ó", "u", "ú", "A", "Á", "E", "É", "I", "Í", "O", "Ó", "U", "Ú")

// Marked returns a language for finding what is shown without passing through a
// language: each text of the program wears an accent on every vowel.
func Marked() language.Language {
	return language.With(func(e phrase.English) string { return accents.Replace(e.String()) })
}

var word = regexp.MustCompile(`\pL{3,}`)

// Unmarked returns the words of a text shown in the language [Marked] that did
// not pass through it: those of three letters and more with a vowel that has no
// accent. Own are words that stay as they are, in any case: names of the sample,
// units, codes.
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

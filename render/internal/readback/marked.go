package readback

import (
	"shadewright/render/language"
	"shadewright/ticket/message/pseudo"
)

// Marked returns a language for finding what is shown without passing through a
// language: each text of the program, and each time, wears an accent on every vowel.
func Marked() language.Language { return language.With(pseudo.Say, pseudo.When) }

// Unmarked returns the words of a text shown in the language [Marked] that did
// not pass through it: those of three letters and more with a vowel that has no
// accent. Own are words that stay as they are, in any case: names of the sample,
// units, codes.
func Unmarked(text string, own ...string) []string { return pseudo.Unmarked(text, own...) }

package readback

import (
	"shadewright/render/language"
	"shadewright/ticket/message/pseudo"
)

// Marked returns a language that puts an accent on every vowel of the program's
// texts and times. Text without accents has bypassed the language.
func Marked() language.Language { return language.With(pseudo.Say, pseudo.When) }

// Unmarked returns the words of text, drawn in the language [Marked], that
// bypassed it: words of three letters or more with an unaccented vowel. Own
// lists words that stay as they are, in upper or lower case: names of the
// sample, units and codes.
func Unmarked(text string, own ...string) []string { return pseudo.Unmarked(text, own...) }

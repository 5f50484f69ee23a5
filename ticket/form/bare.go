package form

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Bare takes the accents off letters: habitación becomes habitacion.
func Bare(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return r
	}, norm.NFD.String(s))
}

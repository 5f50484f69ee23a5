package form

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Bare removes the accents of letters: habitación becomes habitacion.
func Bare(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return r
	}, norm.NFD.String(s))
}

// Slug turns a name into one that is safe for files: letters a to z, digits, dots,
// dashes and underscores.
func Slug(s string) string {
	var b strings.Builder
	gap := false
	for _, r := range Bare(strings.TrimSpace(s)) {
		plain := r < 128 && (unicode.IsLetter(r) || unicode.IsDigit(r) || r == '.' || r == '_' || r == '-')
		if !plain {
			gap = true
			continue
		}
		if gap && b.Len() > 0 {
			b.WriteByte('-')
		}
		gap = false
		b.WriteRune(r)
	}
	out := strings.Trim(b.String(), ".-_")
	if len(out) > 0 && out != s {
		out = strings.ToLower(out)
	}
	return out
}

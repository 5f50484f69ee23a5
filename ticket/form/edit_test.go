package form

import (
	"errors"
	"strings"
	"testing"
)

// Edit changes only what it is asked to change. The wanted texts were written by
// hand.
func TestEdit(t *testing.T) {
	for _, tt := range []struct{ name, in, path, value, want string }{
		{"nothing yet", "", "printers/office/x", "1.0031", "printers:\n  office:\n    x: 1.0031\n"},
		{"comments only", "# mine\n", "printer/name", "office", "# mine\nprinter:\n  name: office\n"},
		{"another group", "allow: {wrap: 8 in} # long\n\n# end\n", "printer/name", "office", "allow: {wrap: 8 in} # long\n\n# end\nprinter:\n  name: office\n"},
		{"no last line end", "paper: a4", "printer/name", "office", "paper: a4\nprinter:\n  name: office\n"},
		{"a value", "printer:\n  # measured in May\n  x: 1.01   # wide\n  y: 1\n", "printer/x", "1.0031", "printer:\n  # measured in May\n  x: 1.0031   # wide\n  y: 1\n"},
		{"a value in quotes", "printer: {name: \"old one\", x: 1}\n", "printer/name", "office", "printer: {name: office, x: 1}\n"},
		{"a key of a group", "printers:\n    back: {x: 1, y: 1}\npaper: a4\n", "printers/office/x", "1.0031", "printers:\n    office:\n      x: 1.0031\n    back: {x: 1, y: 1}\npaper: a4\n"},
		{"a key in braces", "printers: {back: {x: 1, y: 1}}\n", "printers/office/x", "1.0031", "printers: {office: {x: 1.0031}, back: {x: 1, y: 1}}\n"},
		{"Windows line ends", "paper: a4\r\nunits: in\r\n", "units", "mm", "paper: a4\r\nunits: mm\r\n"},
		{"letters before", "language: \"e\u0301n\"\nprinter: {name: é, x: 1.01}\n", "printer/x", "1.02", "language: \"e\u0301n\"\nprinter: {name: é, x: 1.02}\n"},
		{"a group without keys", "printers: # measured\npaper: a4\n", "printers/office/x", "1", "printers: # measured\n  office:\n    x: 1\npaper: a4\n"},
		{"empty braces", "printers: {} # none\n", "printers/office/x", "1", "printers: {office: {x: 1}} # none\n"},
		{"a name with marks", "paper: a4\n", "printers/back: room/x", "1", "paper: a4\nprinters:\n  \"back: room\":\n    x: 1\n"},
	} {
		got, err := Edit("shop.yaml", []byte(tt.in), strings.Split(tt.path, "/"), tt.value)
		if err != nil || string(got) != tt.want {
			t.Errorf("%s: %v, %q; want %q", tt.name, err, got, tt.want)
		}
	}
}

func TestEditRefuses(t *testing.T) {
	for _, tt := range []struct {
		in   string
		want error
	}{
		{"printers: office\n", ErrByHand},
		{"printers: {office: [1]}\n", ErrByHand},
		{"printers: {office: {x: {of: 1}}}\n", ErrByHand},
		{"printers: {office: {x: |-\n 1}}\n", Problems{}},
	} {
		_, err := Edit("shop.yaml", []byte(tt.in), []string{"printers", "office", "x"}, "1")
		var bad Problems
		if want := errors.Is(tt.want, ErrByHand); err == nil || want != errors.Is(err, ErrByHand) || want == errors.As(err, &bad) {
			t.Errorf("Edit of %q: %v; want %v", tt.in, err, tt.want)
		}
	}
}

package code

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"shadewright/ticket/message"
)

// A Problem says in which way a text is no code.
type Problem uint8

const (
	Empty         Problem = iota + 1 // nothing was read
	Foreign                          // a symbol that no code uses
	WrongLength                      // too few or too many symbols
	Mistyped                         // the check character does not fit
	SomethingElse                    // an address or another kind of label
)

// An Error says why a text is no code.
type Error struct {
	Text    string // as it was given, cut short if very long
	Problem Problem
	Symbol  rune       // of Foreign
	At      int        // of Foreign: its place among the symbols, from 1
	Count   int        // of WrongLength: how many symbols there were
	Kind    message.ID // of SomethingElse: what it looks like
}

func (e *Error) Error() string { return e.Message().String() }

// Message returns what the error says for any language.
func (e *Error) Message() message.Message {
	switch e.Problem {
	case Empty:
		return message.Of("mark.no-code")
	case Foreign:
		return message.Of("mark.code-wrong-symbol", e.Text, e.Symbol, e.At)
	case WrongLength:
		return message.Of("mark.code-wrong-length", e.Text, e.Count, Length, RevisionLength)
	case Mistyped:
		return message.Of("mark.code-mistyped", e.Text)
	}
	return message.Of("mark.not-a-ticket", e.Text, message.Of(e.Kind))
}

// longestText bounds the work done on a hostile text and the length of messages.
const longestText = 200

// Parse reads a ticket's code, with its revision if there is one, as a scanner
// or a hand gives it: CODE-REV, an address that ends in /T/CODE-REV, or the
// code alone; in capitals or not, in groups parted by spaces or dashes or not.
// The revision is empty if the text has none. Every error is an [*Error].
func Parse(text string) (Code, Revision, error) {
	c, r, e := parse(text)
	if e != nil {
		e.Text = shorten(text)
		return "", "", e
	}
	return c, r, nil
}

func parse(text string) (Code, Revision, *Error) {
	if len(text) > longestText || !utf8.ValidString(text) {
		return "", "", &Error{Problem: SomethingElse, Kind: "mark.kind-not-text"}
	}
	body, e := afterAddress(strings.TrimSpace(text))
	if e != nil {
		return "", "", e
	}
	body = plain(body)
	c, r := body, ""
	if len(body) == Length+RevisionLength {
		c, r = body[:Length], body[Length:]
	}
	switch e := spelling(body, len(c)+len(r)); {
	case body == "":
		return "", "", &Error{Problem: Empty}
	case strings.Contains(body, ":"):
		return "", "", &Error{Problem: SomethingElse, Kind: "mark.kind-other-code"}
	case digitsOnly(body) && tradeNumber[len(body)] && Code(c).problem() != nil:
		return "", "", &Error{Problem: SomethingElse, Kind: "mark.kind-article"}
	case e != nil:
		return "", "", e
	}
	if e := Code(c).problem(); e != nil {
		return "", "", e
	}
	return Code(c), Revision(r), nil
}

// tradeNumber holds the digits of retail article numbers: 8, 12, 13 and 14
// (GS1 General Specifications, GTIN).
var tradeNumber = map[int]bool{8: true, 12: true, 13: true, 14: true}

// afterAddress returns what follows /T/ in an address, or the text itself.
func afterAddress(text string) (string, *Error) {
	scheme, rest, found := strings.Cut(text, "://")
	if !found {
		return text, nil
	}
	_, path, _ := strings.Cut(rest, "/")
	if s := strings.ToUpper(scheme); s == "HTTP" || s == "HTTPS" {
		if len(path) > 1 && strings.EqualFold(path[:2], "T/") {
			return strings.TrimSuffix(path[2:], "/"), nil
		}
	}
	return "", &Error{Problem: SomethingElse, Kind: "mark.kind-address"}
}

// plain drops what hands put between groups and turns letters into capitals.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r), unicode.Is(unicode.Pd, r), r == '\u2212':
			return -1
		case r >= 'a' && r <= 'z':
			return r - 'a' + 'A'
		}
		return r
	}, s)
}

func digitsOnly(s string) bool {
	return strings.IndexFunc(s, func(r rune) bool { return r < '0' || r > '9' }) < 0
}

// shorten keeps messages to one line.
func shorten(s string) string {
	const keep = 40
	s = strings.ToValidUTF8(s, "�")
	if r := []rune(s); len(r) > keep {
		return string(r[:keep]) + "…"
	}
	return s
}

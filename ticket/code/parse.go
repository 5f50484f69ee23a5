package code

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"shadewright/ticket/message"
)

// A Problem says why a text is not a code.
type Problem uint8

const (
	Empty         Problem = iota + 1 // there is no text
	Foreign                          // a symbol that codes do not use
	WrongLength                      // too few or too many symbols
	Mistyped                         // the check symbol does not fit
	SomethingElse                    // an address or another kind of label
)

// An Error describes a text that is not a code.
type Error struct {
	Text    string // as given, cut short if very long
	Problem Problem
	Symbol  rune       // for Foreign
	At      int        // for Foreign: its position among the symbols, from 1
	Count   int        // for WrongLength: the number of symbols
	Kind    message.ID // for SomethingElse: what the text looks like
}

func (e *Error) Error() string { return e.Message().String() }

// Message returns the error's text for any language.
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

// longestText limits the work done on a hostile text, and the length of messages.
const longestText = 200

// Parse reads a ticket's code, with its revision if there is one, as a scanner or a
// person enters it. The text is CODE-REV, an address that ends in /T/CODE-REV, or
// the code alone. Case does not matter, nor do spaces or dashes between the
// symbols. Without a revision in the text, the revision is empty. Every error is an
// [*Error].
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

// tradeNumber holds the lengths of retail article numbers: 8, 12, 13 and 14 digits
// (GS1 General Specifications, GTIN).
var tradeNumber = map[int]bool{8: true, 12: true, 13: true, 14: true}

// afterAddress returns the part of an address after /T/, or the text itself if it
// is not an address.
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

// plain removes spaces and dashes and turns letters into capitals.
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

// shorten cuts a text short, so that a message fits on one line.
func shorten(s string) string {
	const keep = 40
	s = strings.ToValidUTF8(s, "�")
	if r := []rune(s); len(r) > keep {
		return string(r[:keep]) + "…"
	}
	return s
}

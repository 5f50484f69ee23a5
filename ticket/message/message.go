// Package message holds texts that wait for a language. The domain expresses what
// it has to say as a [Message]: the [ID] of a text in the catalogue, and its
// arguments. The code that shows a message to a person chooses the language.
//
// The catalogue (catalogue_*.go) holds each text in English with its Spanish beside
// it. To change a wording, change its row: the record keeps ids, so nothing else
// depends on the words. A text that takes other arguments than before is a
// different text and gets a new id, because records hold the old arguments.
//
// Lengths and other quantities become words before they become arguments.
package message

import (
	"fmt"
	"strings"
	"time"
)

// A Message is a text of the catalogue and its arguments: strings that are the same
// in every language, whole numbers, a [Time], or other messages. The zero Message
// is an empty text.
type Message struct {
	ID   ID // empty if Args simply follow one another
	Args []any
}

// Of returns a message.
func Of(id ID, args ...any) Message { return Message{id, args} }

// Count returns a message about n things, with n as its first argument. one is the
// text for a single thing, and many for none or several, the rule of English,
// Spanish and related languages.
func Count(n int, one, many ID, args ...any) Message {
	if n == 1 {
		many = one
	}
	return Message{many, append([]any{n}, args...)}
}

// Verbatim returns a text that is the same in every language: a name, a number
// with its unit.
func Verbatim(s string) Message {
	if s == "" {
		return Message{}
	}
	return Message{Args: []any{s}}
}

// Join returns messages one after another, with a separator that is the same in
// every language. It leaves out empty messages.
func Join(between string, parts ...Message) Message {
	var joined Message
	for _, p := range parts {
		if p.IsZero() {
			continue
		}
		if joined.Args != nil && between != "" {
			joined.Args = append(joined.Args, between)
		}
		joined.Args = append(joined.Args, p)
	}
	return joined
}

// List returns messages as a list in a sentence: "a", "a and b", "a, b and c".
func List(parts ...Message) Message {
	n := len(parts)
	if n < 2 {
		return Join("", parts...)
	}
	return Of("common.and", Join(", ", parts[:n-1]...), parts[n-1])
}

// IsZero reports whether the message is empty.
func (m Message) IsZero() bool { return m.ID == "" && len(m.Args) == 0 }

// String returns the message in English.
func (m Message) String() string { return m.In(ID.English, Time.String) }

// MarshalText returns the message in English, as programs read it.
func (m Message) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// In returns the message in a language: say returns the language's text of an id,
// and when returns a time as the language writes it.
func (m Message) In(say func(ID) string, when func(Time) string) string {
	if len(m.Args) == 0 {
		return plain(say(m.ID))
	}
	args := make([]any, len(m.Args))
	for i, a := range m.Args {
		switch a := a.(type) {
		case Message:
			args[i] = a.In(say, when)
		case Time:
			args[i] = when(a)
		default:
			args[i] = a
		}
	}
	if m.ID == "" {
		return joined(args, "")
	}
	text := say(m.ID)
	if !strings.Contains(text, "%") { // the catalogue lacks this id, so show the id
		return fmt.Sprintf("%s (%s)", text, joined(args, ", "))
	}
	return fmt.Sprintf(text, args...)
}

// plain returns what fmt makes of a text without arguments.
func plain(s string) string { return strings.ReplaceAll(s, "%%", "%") }

// joined returns strings and numbers with a separator. Unlike fmt.Sprint, it adds
// no space between two numbers.
func joined(args []any, between string) string {
	var b strings.Builder
	for i, a := range args {
		if i > 0 {
			b.WriteString(between)
		}
		fmt.Fprint(&b, a)
	}
	return b.String()
}

// A TimeDetail says which parts of a time a message shows. Records hold its number.
type TimeDetail uint8

// The details of a time.
const (
	DayMonth TimeDetail = iota // 2 January
	Date                       // 2 January 2006
	Clock                      // 15:04
	Stamp                      // Mon 2 Jan, 15:04
)

// A Time is a time as a message shows it, in its own time zone.
type Time struct {
	time.Time
	Detail TimeDetail
}

// At returns a time for a message.
func At(t time.Time, d TimeDetail) Time { return Time{t, d} }

// String returns the time for a terminal, which has no country. The month is in
// words, so it cannot be mistaken for a day, and 24 hours need no AM or PM. Paper
// and phones use the form of their country; see package render/language.
func (t Time) String() string {
	return t.Format([...]string{"2 January", "2 January 2006", "15:04", "Mon 2 Jan, 15:04"}[t.Detail])
}

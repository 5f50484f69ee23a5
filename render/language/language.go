// Package language writes messages in the language that a shop reads, on paper
// and on the phone, and writes dates and times as its country does. The texts
// come from the catalogue in package message. The zero [Language] is English.
package language

import (
	"fmt"
	"strings"

	"shadewright/ticket/message"
)

// A Language is what a shop reads: its texts, its dates and its decimal mark.
type Language struct {
	locale *locale
	say    func(message.ID) (string, bool) // nil: English

	when func(message.Time) string // nil: the locale's
}

// A locale holds the conventions of a country, apart from texts.
type locale struct {
	tag   string // BCP 47
	name  string // the readers' name for it
	comma bool   // the decimal mark is a comma
	times calendar
	texts message.Language
}

// locales lists the available choices. Decimal marks, dates and times follow
// Unicode CLDR, and tests check them: the marks with golang.org/x/text, the
// rest with a table made by ICU.
var locales = []locale{
	{tag: "en", name: "English", times: usEnglish},
	{tag: "en-GB", name: "English (United Kingdom)", times: ukEnglish},
	{tag: "en-US", name: "English (United States)", times: usEnglish},
	{tag: "es", name: "español", comma: true, times: spainSpanish, texts: message.Spanish},
	{tag: "es-MX", name: "español (México)", times: mexicoSpanish, texts: message.Spanish},
	{tag: "es-US", name: "español (Estados Unidos)", times: usSpanish, texts: message.Spanish},
}

// Names returns the tags that [Named] accepts, in order.
func Names() []string {
	var names []string
	for _, w := range locales {
		names = append(names, w.tag)
	}
	return names
}

// All returns every language.
func All() []Language {
	var all []Language
	for i := range locales {
		all = append(all, locales[i].language())
	}
	return all
}

// Named returns the language with a BCP 47 tag, in upper or lower case.
func Named(tag string) (Language, error) {
	for i := range locales {
		if w := &locales[i]; strings.EqualFold(w.tag, tag) {
			return w.language(), nil
		}
	}
	return Language{}, fmt.Errorf("unknown language %q; use %s", tag, strings.Join(Names(), ", "))
}

func (w *locale) language() Language {
	l := Language{locale: w}
	if w.texts != message.English {
		l.say = w.texts.Text
	}
	return l
}

// With returns a language with its own functions for texts and times. Tests use
// it to draw a page with words of another length or script.
func With(say func(message.ID) string, when func(message.Time) string) Language {
	return Language{say: func(id message.ID) (string, bool) { return say(id), true }, when: when}
}

func (l Language) orEnglish() *locale {
	if l.locale == nil {
		return &locales[0]
	}
	return l.locale
}

// Tag returns the language's BCP 47 tag, for programs that read a file or a
// page.
func (l Language) Tag() string { return l.orEnglish().tag }

// Name returns the readers' name for the language.
func (l Language) Name() string { return l.orEnglish().name }

// Comma reports whether the decimal mark is a comma.
func (l Language) Comma() bool { return l.orEnglish().comma }

// Say returns a text in the language.
func (l Language) Say(id message.ID, args ...any) string { return l.Put(message.Of(id, args...)) }

// Put returns a message in the language.
func (l Language) Put(m message.Message) string { return m.In(l.text, l.Time) }

func (l Language) text(id message.ID) string {
	if l.say != nil {
		if s, ok := l.say(id); ok {
			return s
		}
	}
	return id.English()
}

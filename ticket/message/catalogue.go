package message

import "sync"

// An ID names a text of the catalogue, for example "card.finished": the part of the
// program that says it, a dot, and what it is about.
type ID string

// A Language is one that the catalogue has every text in.
type Language uint8

// The languages of the catalogue.
const (
	English Language = iota
	Spanish
)

// texts holds texts by their ids. A text has the verbs %s, %d and %q of package fmt
// for its arguments; another language may number them to change their order.
type texts map[ID]wording

// A wording is one text in each [Language], in their order.
type wording [2]string

// catalogue is every text of the program.
var catalogue = sync.OnceValue(func() texts {
	all := texts{}
	for _, part := range parts {
		for id, w := range part {
			all[id] = w
		}
	}
	return all
})

// parts lists the tables of the catalogue.
var parts = []texts{
	commonTexts, ticketTexts, hangTexts, cardTexts, planTexts, templateTexts, mountingTexts, webTexts, markTexts, changeTexts,
	retiredTexts,
}

// Text returns a text in the language; ok is false if the catalogue has no such id.
func (l Language) Text(id ID) (text string, ok bool) {
	w, ok := catalogue()[id]
	return w[l], ok
}

// English returns the text in English. An id that the catalogue lacks stands for
// itself: a newer program may have written it to the record.
func (id ID) English() string {
	if text, ok := English.Text(id); ok {
		return text
	}
	return string(id)
}

// IDs returns the ids of all texts, in no order, with those that are retired.
func IDs() []ID {
	list := make([]ID, 0, len(catalogue()))
	for id := range catalogue() {
		list = append(list, id)
	}
	return list
}

// Retired reports whether the program says a text no more: only records hold it.
func (id ID) Retired() bool {
	_, retired := retiredTexts[id]
	return retired
}

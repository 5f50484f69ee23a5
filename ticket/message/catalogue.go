package message

import "sync"

// An ID names a text of the catalogue, for example "card.finished": the part of the
// program that uses it, a dot, and its subject.
type ID string

// A Language is a language of the catalogue, which has every text in it.
type Language uint8

// The languages of the catalogue.
const (
	English Language = iota
	Spanish
)

// texts holds texts by their ids. A text has the verbs %s, %d and %q of package fmt
// for its arguments. A translation may number them to change their order.
type texts map[ID]wording

// A wording is one text in each [Language], in the order of the languages.
type wording [2]string

// catalogue holds every text of the program.
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
	commonTexts, ticketTexts, hangTexts, cardTexts, planTexts, templateTexts, mountingTexts, webTexts, markTexts, changeTexts, measuringTexts, gapTexts, paperTexts, fittingTexts,
	retiredTexts,
}

// Text returns a text in the language. ok is false if the catalogue has no such id.
func (l Language) Text(id ID) (text string, ok bool) {
	w, ok := catalogue()[id]
	return w[l], ok
}

// English returns the text in English. An id that the catalogue lacks, because a
// newer program wrote it to the record, is returned as it is.
func (id ID) English() string {
	if text, ok := English.Text(id); ok {
		return text
	}
	return string(id)
}

// IDs returns the ids of all texts, retired ones included, in no order.
func IDs() []ID {
	list := make([]ID, 0, len(catalogue()))
	for id := range catalogue() {
		list = append(list, id)
	}
	return list
}

// Retired reports whether the program no longer uses a text, so that only records
// hold it.
func (id ID) Retired() bool {
	_, retired := retiredTexts[id]
	return retired
}

package message

import (
	"strings"
	"sync"
)

// A Word is a bench, a step or a reason in a message of an old record, which kept its
// English. It is shown in the reader's language if it is one of the program's own,
// else as the shop wrote it. Today a [Term] keeps the id.
type Word string

// in returns the word as a language says it.
func (w Word) in(say func(ID) string) string {
	if id, own := OwnWord(string(w)); own {
		return say(id)
	}
	return string(w)
}

// ownWords begins the ids of the words that settings and records may share with the
// program.
var ownWords = []string{"step.", "bench.", "reason."}

func isOwnWord(id ID) bool {
	for _, prefix := range ownWords {
		if strings.HasPrefix(string(id), prefix) {
			return true
		}
	}
	return false
}

// OwnWord returns the id of a word that is the program's own, as it is worded in
// English today or was in an earlier version.
func OwnWord(word string) (ID, bool) {
	id, ok := wordIDs()[word]
	return id, ok
}

var wordIDs = sync.OnceValue(func() map[string]ID {
	ids := map[string]ID{}
	for text, id := range legacy() {
		if isOwnWord(id) {
			ids[text] = id
		}
	}
	for id, w := range catalogue() {
		if isOwnWord(id) {
			ids[w[English]] = id
		}
	}
	return ids
})

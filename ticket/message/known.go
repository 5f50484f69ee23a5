package message

// A Word is a word of the record or of the settings: in the reader's language if
// it is one of the program's own, else as the shop wrote it.
type Word string

// Known returns such a word as a message.
func Known(word string) Message {
	if word == "" {
		return Message{}
	}
	return Message{Args: []any{Word(word)}}
}

// in returns the word as a language says it.
func (w Word) in(say func(English) string) string {
	if said, own := say(English(w)), English(w).String(); said != own {
		return said
	}
	return string(w)
}

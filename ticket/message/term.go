package message

import (
	"encoding/json"
	"fmt"
	"strings"
)

// A Term is a short text that may be the program's own: the name of a step or a
// bench, the reason of a hold. A term of the program's own is the id of a text, so
// that it can be worded anew and is said in any language; the shop's is kept to the
// letter. The zero Term is none.
type Term struct {
	ID    ID     // empty for the shop's own words
	Words string // empty for the program's own
}

// A TermKind begins the ids of the terms of one kind.
type TermKind string

// The kinds of terms.
const (
	StepTerm   TermKind = "step."
	BenchTerm  TermKind = "bench."
	ReasonTerm TermKind = "reason."
)

// Term returns the term that words stand for. Words that the program has for a term
// of this kind, or had in an earlier version, are that term.
func (k TermKind) Term(words string) Term {
	if id, own := OwnWord(words); own && k.Has(id) {
		return Term{ID: id}
	}
	return Term{Words: words}
}

// Kept returns the term that a record keeps as an id or as words. An earlier version
// kept the English of the program's own terms as words.
func (k TermKind) Kept(id, words string) Term {
	if id != "" {
		return Term{ID: ID(id), Words: words}
	}
	return k.Term(words)
}

// Has reports whether an id is of the kind.
func (k TermKind) Has(id ID) bool { return strings.HasPrefix(string(id), string(k)) }

// IsZero reports whether there is no term.
func (t Term) IsZero() bool { return t == Term{} }

// Message returns the term as a message.
func (t Term) Message() Message {
	if t.ID != "" {
		return Of(t.ID)
	}
	return Verbatim(t.Words)
}

// String returns the term in English, as programs read it.
func (t Term) String() string { return t.Message().String() }

// MarshalJSON writes the term as [Stored] writes its message.
func (t Term) MarshalJSON() ([]byte, error) { return json.Marshal(Stored{t.Message()}) }

// UnmarshalJSON reads what MarshalJSON wrote; a string that is the program's own, of
// a record that kept English, is the program's own again.
func (t *Term) UnmarshalJSON(data []byte) error {
	var words string
	if json.Unmarshal(data, &words) == nil {
		*t = Term{Words: words}
		if id, own := OwnWord(words); own {
			*t = Term{ID: id}
		}
		return nil
	}
	var in struct {
		ID ID `json:"id"`
	}
	if err := json.Unmarshal(data, &in); err != nil {
		return err
	}
	if !isOwnWord(in.ID) {
		return fmt.Errorf("id %q names no step, bench or reason", in.ID)
	}
	*t = Term{ID: in.ID}
	return nil
}

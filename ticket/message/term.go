package message

import (
	"encoding/json"
	"fmt"
	"strings"
	"sync"
)

// A Term is a short text that may be the program's own or the shop's: the name of a
// step or a bench, or the reason for a hold. The program's own terms are ids of
// texts, so every language has them and their wording can change. The shop's own
// words stay as they are. The zero Term means none.
type Term struct {
	ID    ID     // empty for the shop's own words
	Words string // empty for the program's own
}

// A TermKind is the prefix of the ids of one kind of terms.
type TermKind string

// The kinds of terms.
const (
	StepTerm   TermKind = "step."
	BenchTerm  TermKind = "bench."
	ReasonTerm TermKind = "reason."
)

// Term returns the term for words that a person typed or a record holds. If they
// are the English of one of the program's own terms of this kind, today or in an
// earlier version, it returns that term.
func (k TermKind) Term(words string) Term {
	if id, own := ownTerms()[k][words]; own {
		return Term{ID: id}
	}
	return Term{Words: words}
}

// termOf returns the term for words of unknown kind.
func termOf(words string) Term {
	for _, k := range []TermKind{StepTerm, BenchTerm, ReasonTerm} {
		if t := k.Term(words); t.ID != "" {
			return t
		}
	}
	return Term{Words: words}
}

// ownTerms returns the ids of the program's own terms by kind and English words.
var ownTerms = sync.OnceValue(func() map[TermKind]map[string]ID {
	terms := map[TermKind]map[string]ID{StepTerm: {}, BenchTerm: {}, ReasonTerm: {}}
	add := func(id ID, words string) {
		if ids, ok := terms[kindOf(id)]; ok {
			ids[words] = id
		}
	}
	for words, id := range legacy() {
		add(id, words)
	}
	for id, w := range catalogue() {
		add(id, w[English])
	}
	return terms
})

// kindOf returns the kind of the term with this id, if it is a term.
func kindOf(id ID) TermKind {
	i := strings.IndexByte(string(id), '.')
	return TermKind(id[:i+1])
}

// Kept returns the term that a record keeps as an id or as words. Earlier versions
// kept the English of the program's own terms as words.
func (k TermKind) Kept(id, words string) Term {
	if id != "" {
		return Term{ID: ID(id), Words: words}
	}
	return k.Term(words)
}

// Has reports whether an id is of this kind.
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

// UnmarshalJSON reads what MarshalJSON wrote. A string from a record that kept
// English becomes the program's own term again, if it is one.
func (t *Term) UnmarshalJSON(data []byte) error {
	var words string
	if json.Unmarshal(data, &words) == nil {
		*t = termOf(words)
		return nil
	}
	var in struct {
		ID ID `json:"id"`
	}
	if err := json.Unmarshal(data, &in); err != nil {
		return err
	}
	if _, ok := ownTerms()[kindOf(in.ID)]; !ok {
		return fmt.Errorf("id %q names no step, bench or reason", in.ID)
	}
	*t = Term{ID: in.ID}
	return nil
}

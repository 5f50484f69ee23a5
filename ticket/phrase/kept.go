package phrase

import (
	"encoding/json"
	"fmt"
	"reflect"
	"time"
)

// Kept is a phrase as it is stored, in JSON, so that it can be put into any
// language later: plain text that is the same in all of them as a string,
// anything else as its English with what stands in it. A string that was stored
// by hand or by an earlier version is read as such text.
type Kept struct{ Phrase }

// keptPhrase, keptWord and keptTime are the objects of a kept phrase.
type (
	keptPhrase struct {
		English English `json:"en,omitempty"`
		Args    []any   `json:"with,omitempty"`
	}
	keptWord struct {
		Word Word `json:"word"`
	}
	keptTime struct {
		At   time.Time `json:"at"`
		Form Form      `json:"form"`
	}
)

// MarshalJSON writes the phrase.
func (k Kept) MarshalJSON() ([]byte, error) {
	if k.English == "" && len(k.Args) == 1 {
		if s, ok := k.Args[0].(string); ok {
			return json.Marshal(s)
		}
	}
	out := keptPhrase{English: k.English, Args: make([]any, len(k.Args))}
	for i, a := range k.Args {
		switch a := a.(type) {
		case Phrase:
			out.Args[i] = Kept{a}
		case Time:
			out.Args[i] = keptTime{a.Time, a.Form}
		case Word:
			out.Args[i] = keptWord{a}
		default:
			// A whole number stays one; text, and what has words for itself, is text.
			_, worded := a.(fmt.Stringer)
			if v := reflect.ValueOf(a); v.CanInt() && !worded {
				out.Args[i] = v.Int()
			} else {
				out.Args[i] = fmt.Sprint(a)
			}
		}
	}
	return json.Marshal(out)
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (k *Kept) UnmarshalJSON(data []byte) error {
	var s string
	if json.Unmarshal(data, &s) == nil {
		k.Phrase = Verbatim(s)
		return nil
	}
	var in struct {
		English English           `json:"en"`
		Args    []json.RawMessage `json:"with"`
	}
	if err := json.Unmarshal(data, &in); err != nil {
		return err
	}
	k.Phrase = Phrase{English: in.English}
	for _, raw := range in.Args {
		a, err := keptArg(raw)
		if err != nil {
			return err
		}
		k.Args = append(k.Args, a)
	}
	return nil
}

// keptArg reads one argument: a number, a time, or text of either kind.
func keptArg(raw json.RawMessage) (any, error) {
	var n int
	if json.Unmarshal(raw, &n) == nil {
		return n, nil
	}
	var s string
	if json.Unmarshal(raw, &s) == nil {
		return s, nil
	}
	var t struct {
		Word *Word      `json:"word"`
		At   *time.Time `json:"at"`
		Form Form       `json:"form"`
	}
	err := json.Unmarshal(raw, &t)
	if err == nil && t.Word != nil {
		return *t.Word, nil
	}
	if err == nil && t.At != nil {
		if t.Form > Stamp {
			return nil, fmt.Errorf("form %d of a time is not known", t.Form)
		}
		return At(*t.At, t.Form), nil
	}
	var k Kept
	err = json.Unmarshal(raw, &k)
	return k.Phrase, err
}

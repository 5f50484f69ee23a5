package message

import (
	"encoding/json"
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Stored is a message as a record holds it, in JSON, so that a later reader can
// choose the language. It is {"id": …, "with": [arguments]}, or a plain string for
// text that is the same in every language.
//
// Records of earlier versions have the English text in place of its id, as "en".
type Stored struct{ Message }

// storedMessage and storedTime are the objects of a stored message.
type (
	storedMessage struct {
		ID   ID    `json:"id,omitempty"`
		Args []any `json:"with,omitempty"`
	}
	storedTime struct {
		At     time.Time  `json:"at"`
		Detail TimeDetail `json:"form"`
	}
)

// MarshalJSON writes the message.
func (s Stored) MarshalJSON() ([]byte, error) {
	if s.ID == "" && len(s.Args) == 1 {
		if text, ok := s.Args[0].(string); ok {
			return json.Marshal(text)
		}
	}
	out := storedMessage{ID: s.ID, Args: make([]any, len(s.Args))}
	for i, a := range s.Args {
		switch a := a.(type) {
		case Message:
			out.Args[i] = Stored{a}
		case Time:
			out.Args[i] = storedTime{a.Time, a.Detail}
		default:
			// A whole number stays a number, unless its type has words for it.
			_, worded := a.(fmt.Stringer)
			switch v := reflect.ValueOf(a); {
			case v.CanInt() && !worded:
				out.Args[i] = v.Int()
			case v.CanUint() && !worded:
				out.Args[i] = v.Uint()
			default:
				out.Args[i] = fmt.Sprint(a)
			}
		}
	}
	return json.Marshal(out)
}

// deepest is the most levels of messages within messages in a record: more than the
// program makes, and few enough to read quickly.
const deepest = 8

// UnmarshalJSON reads what MarshalJSON or an earlier version wrote. It refuses a
// message whose arguments do not fit its text: a record may come from elsewhere,
// and package fmt obeys widths and repeats that no text of the program has.
func (s *Stored) UnmarshalJSON(data []byte) error {
	m, err := storedIn(data, 1)
	if err != nil {
		return err
	}
	s.Message = m
	return nil
}

// storedIn reads a message at the given depth.
func storedIn(data []byte, depth int) (Message, error) {
	if depth > deepest {
		return Message{}, fmt.Errorf("messages are nested more than %d deep", deepest)
	}
	var s string
	if json.Unmarshal(data, &s) == nil {
		return Verbatim(s), nil
	}
	var in struct {
		ID      ID                `json:"id"`
		English string            `json:"en"` // in records of earlier versions
		Args    []json.RawMessage `json:"with"`
	}
	if err := json.Unmarshal(data, &in); err != nil {
		return Message{}, err
	}
	m := Message{ID: in.ID}
	for _, raw := range in.Args {
		a, err := storedArg(raw, depth)
		if err != nil {
			return Message{}, err
		}
		m.Args = append(m.Args, a)
	}
	if in.ID == "" && in.English != "" {
		return fromEnglish(in.English, m.Args)
	}
	switch text, known := English.Text(in.ID); {
	case known:
		return m, fits(text, m.Args)
	case strings.Contains(string(in.ID), "%"):
		return Message{}, fmt.Errorf("id %q has a %% in it; no id has", in.ID)
	}
	return m, nil // a newer program may have written it; In shows as much as it can
}

// fromEnglish returns the message that an earlier version stored as English. A text
// that the program never had stays English in every language.
func fromEnglish(english string, args []any) (Message, error) {
	if id, ok := legacy()[english]; ok {
		return Message{id, args}, fits(id.English(), args)
	}
	text, _, _ := strings.Cut(english, "|") // a note for translators followed the bar
	if len(args) == 0 {
		return Verbatim(plain(text)), nil
	}
	if err := fits(text, args); err != nil {
		return Message{}, err
	}
	return Verbatim(fmt.Sprintf(text, args...)), nil
}

// storedArg reads one argument: a number, a time, a text or a message.
func storedArg(raw json.RawMessage, depth int) (any, error) {
	var n int
	if json.Unmarshal(raw, &n) == nil {
		return n, nil
	}
	var s string
	if json.Unmarshal(raw, &s) == nil {
		return s, nil
	}
	var t struct {
		Word   *string    `json:"word"`
		At     *time.Time `json:"at"`
		Detail TimeDetail `json:"form"`
	}
	err := json.Unmarshal(raw, &t)
	if err == nil && t.Word != nil { // in records of earlier versions
		return termOf(*t.Word).Message(), nil
	}
	if err == nil && t.At != nil {
		if t.Detail > Stamp {
			return nil, fmt.Errorf("a time has the unknown form %d", t.Detail)
		}
		return At(*t.At, t.Detail), nil
	}
	return storedIn(raw, depth+1)
}

// verb matches what a text may contain: a plain verb, or one with the number of its
// argument.
var verb = regexp.MustCompile(`%%|%(?:\[([1-9][0-9]?)\])?([sdq])`)

// fits refuses arguments unless the text has one verb of the right kind for each.
func fits(text string, args []any) error {
	// Without arguments a text does not pass through package fmt, and may say "100 %".
	if len(args) > 0 && strings.Contains(verb.ReplaceAllString(text, ""), "%") {
		return fmt.Errorf("text %q has a verb other than %%s, %%d and %%q", text)
	}
	said, next := make([]bool, len(args)), 0
	for _, m := range verb.FindAllStringSubmatch(text, -1) {
		if m[2] == "" {
			continue
		}
		if m[1] != "" {
			next, _ = strconv.Atoi(m[1]) // digits by the pattern
			next--
		}
		switch {
		case next >= len(args):
			return fmt.Errorf("text %q needs more than %d arguments", text, len(args))
		case said[next]:
			return fmt.Errorf("text %q uses %v twice", text, args[next])
		}
		if _, number := args[next].(int); number != (m[2] == "d") && m[2] != "q" {
			return fmt.Errorf("text %q needs an argument of another kind than %v", text, args[next])
		}
		said[next] = true
		next++
	}
	if i := slices.Index(said, false); i >= 0 {
		return fmt.Errorf("text %q has no place for %v", text, args[i])
	}
	return nil
}

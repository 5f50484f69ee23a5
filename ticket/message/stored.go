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

// Stored is a message as it is stored, in JSON, so that it can be put into any
// language later: plain text that is the same in all of them as a string,
// anything else as its English with what stands in it. A string that was stored
// by hand or by an earlier version is read as such text.
type Stored struct{ Message }

// storedMessage, storedWord and storedTime are the objects of a kept message.
type (
	storedMessage struct {
		ID   ID    `json:"id,omitempty"`
		Args []any `json:"with,omitempty"`
	}
	storedWord struct {
		Word Word `json:"word"`
	}
	storedTime struct {
		At   time.Time `json:"at"`
		Form Form      `json:"form"`
	}
)

// MarshalJSON writes the message.
func (k Stored) MarshalJSON() ([]byte, error) {
	if k.ID == "" && len(k.Args) == 1 {
		if s, ok := k.Args[0].(string); ok {
			return json.Marshal(s)
		}
	}
	out := storedMessage{ID: k.ID, Args: make([]any, len(k.Args))}
	for i, a := range k.Args {
		switch a := a.(type) {
		case Message:
			out.Args[i] = Stored{a}
		case Time:
			out.Args[i] = storedTime{a.Time, a.Form}
		case Word:
			out.Args[i] = storedWord{a}
		default:
			// A whole number stays one; text, and what has words for itself, is text.
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

// deepest is how far kept messages may stand in one another: more than any that the
// program makes, and few enough that none takes long to read or to say.
const deepest = 8

// UnmarshalJSON reads what MarshalJSON wrote. It refuses what cannot be said as it
// was meant: a record may come from elsewhere, and fmt obeys widths and repeats
// that no text of the program has.
func (k *Stored) UnmarshalJSON(data []byte) error {
	p, err := storedIn(data, 1)
	if err != nil {
		return err
	}
	k.Message = p
	return nil
}

// storedIn reads a message that stands at a depth.
func storedIn(data []byte, depth int) (Message, error) {
	if depth > deepest {
		return Message{}, fmt.Errorf("messages stand in one another more than %d deep", deepest)
	}
	var s string
	if json.Unmarshal(data, &s) == nil {
		return Verbatim(s), nil
	}
	var in struct {
		ID      ID                `json:"id"`
		English string            `json:"en"` // of a record that kept English
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
	return m, fits(m.ID.English(), m.Args)
}

// fromEnglish returns the message that an earlier version stored under its English.
// A text that the program never had keeps its English in every language.
func fromEnglish(english string, args []any) (Message, error) {
	if err := fits(english, args); err != nil {
		return Message{}, err
	}
	if id, ok := legacy()[english]; ok {
		return Message{id, args}, fits(id.English(), args)
	}
	text, _, _ := strings.Cut(english, "|")
	if len(args) == 0 {
		return Verbatim(plain(text)), nil
	}
	return Verbatim(fmt.Sprintf(text, args...)), nil
}

// storedArg reads one argument: a number, a time, or text of either kind.
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
	return storedIn(raw, depth+1)
}

// verb is one of those that a text has: plain, or with the number of its argument.
var verb = regexp.MustCompile(`%%|%(?:\[([1-9][0-9]?)\])?([sdq])`)

// fits refuses a text that does not have a verb for each argument, once and of its
// kind.
func fits(text string, args []any) error {
	if text == "" || len(args) == 0 {
		return nil // package fmt has no part in it
	}
	text, _, _ = strings.Cut(text, "|")
	if strings.Contains(verb.ReplaceAllString(text, ""), "%") {
		return fmt.Errorf("text %q has another verb than %%s, %%d and %%q", text)
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
			return fmt.Errorf("text %q has more verbs than the %d that stand in it", text, len(args))
		case said[next]:
			return fmt.Errorf("text %q says %v twice", text, args[next])
		}
		if _, number := args[next].(int); number != (m[2] == "d") && m[2] != "q" {
			return fmt.Errorf("text %q has %v in the place of another kind", text, args[next])
		}
		said[next] = true
		next++
	}
	if i := slices.Index(said, false); i >= 0 {
		return fmt.Errorf("text %q has no place for %v", text, args[i])
	}
	return nil
}

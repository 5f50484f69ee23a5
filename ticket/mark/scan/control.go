package scan

import (
	"fmt"
	"net/url"
	"slices"
	"strings"
	"unicode/utf8"

	"shadewright/ticket/code"
)

// A Word says what a code on the bench sheet does.
type Word string

// The words. Step, By, At, Hold and Remade have a value.
const (
	Step    Word = "STEP"    // mark this step from now on
	Next    Word = "NEXT"    // mark the next step of each ticket from now on
	By      Word = "BY"      // this person works here from now on
	At      Word = "AT"      // this is the place from now on
	Undo    Word = "UNDO"    // undo on the next ticket scanned
	Hold    Word = "HOLD"    // hold the next ticket scanned, for this reason
	Release Word = "RELEASE" // release the next ticket scanned
	Remade  Word = "REMADE"  // the panel of the next ticket scanned is spoilt, for this reason
	Clear   Word = "CLEAR"   // forget step, person, place and anything waiting for a ticket
)

var valued = map[Word]bool{
	Step: true, By: true, At: true, Hold: true, Remade: true,
	Next: false, Undo: false, Release: false, Clear: false,
}

// A Control is a code on the bench sheet. Its value is in small letters. The symbol
// on the sheet has only capitals, so that it stays small, and scanners may change
// the case of letters.
type Control struct {
	Word  Word
	Value string
}

// String returns the text of the control's symbol, WORD:VALUE:XX or WORD:XX. It
// uses the capitals, digits and signs that QR's alphanumeric mode and Code 128
// share; other characters of the value are escaped with a percent sign. XX is a
// check. A control never looks like a ticket's code, which has no colon.
func (c Control) String() string {
	body := string(c.Word)
	if valued[c.Word] {
		body += ":" + escape(c.Value)
	}
	return body + ":" + check(body)
}

// longestValue is the length limit of a name or place in a mark.
const longestValue = 80

// Check returns what is wrong with a control for a bench sheet, or nil.
func (c Control) Check() error {
	takes, known := valued[c.Word]
	switch {
	case !known:
		return fmt.Errorf("unknown word %q; the words are %s", c.Word, words())
	case takes && strings.TrimSpace(c.Value) == "":
		return fmt.Errorf("%s has no value; give one", c.Word)
	case !takes && c.Value != "":
		return fmt.Errorf("%s takes no value, but has %q", c.Word, c.Value)
	case !utf8.ValidString(c.Value) || utf8.RuneCountInString(c.Value) > longestValue:
		return fmt.Errorf("value %q of %s is longer than %d characters, or is not text", c.Value, c.Word, longestValue)
	case c.Value != strings.ToLower(c.Value):
		return fmt.Errorf("value %q of %s has capitals; write it in small letters", c.Value, c.Word)
	}
	return nil
}

func words() string {
	var list []string
	for w := range valued {
		list = append(list, string(w))
	}
	slices.Sort(list)
	return strings.Join(list, ", ")
}

// escape leaves capitals, digits, dot and dash as they are.
func escape(value string) string {
	var b strings.Builder
	for _, c := range []byte(value) {
		switch {
		case c >= 'a' && c <= 'z':
			b.WriteByte(c - 'a' + 'A')
		case c >= '0' && c <= '9', c == '.', c == '-':
			b.WriteByte(c)
		default:
			fmt.Fprintf(&b, "%%%02X", c)
		}
	}
	return b.String()
}

// isControl reports whether a line is meant as a control: it starts with one of the
// words and a colon.
func isControl(line string) bool {
	word, _, found := strings.Cut(line, ":")
	_, known := valued[Word(strings.ToUpper(word))]
	return found && known
}

// parseControl reads the text that String returns, in any case of letters.
func parseControl(line string) (Control, error) {
	line = strings.ToUpper(line)
	at := strings.LastIndexByte(line, ':')
	body, sum := line[:max(at, 0)], line[at+1:]
	word, value, hasValue := strings.Cut(body, ":")
	c := Control{Word: Word(word)}
	takes, known := valued[c.Word]
	if !known || hasValue != takes || check(body) != sum {
		return Control{}, &Error{Text: line, Problem: "is mistyped or cut short", Fix: "scan it on the bench sheet again"}
	}
	text, err := url.PathUnescape(value)
	c.Value = strings.ToLower(text)
	if err == nil {
		err = c.Check()
	}
	if err != nil {
		return Control{}, &Error{Text: line, Problem: "is not a code of a bench sheet", Fix: "print the bench sheet again"}
	}
	return c, nil
}

// The check is a polynomial in root over the field of prime elements. A wrong
// character changes it by a difference of two characters times a power of root. Two
// swapped characters change it by the same times a difference of two powers.
// Neither is zero: prime is above any character's number, and root generates all of
// the field, so its powers differ up to 838 characters. Two symbols of 29 can write
// any number below prime.
const (
	prime = 839
	root  = 11
)

// check returns the two check symbols of a control's body.
func check(body string) string {
	h := 0
	for i := range len(body) {
		h = (h*root + int(body[i])) % prime
	}
	n := len(code.Alphabet)
	return string([]byte{code.Alphabet[h/n], code.Alphabet[h%n]})
}

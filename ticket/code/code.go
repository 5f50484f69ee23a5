// Package code defines the names of a ticket: its identity, the short code that is
// printed, scanned and read aloud, and the revision of what the paper says.
//
// A code is ten symbols of [Alphabet], of which the last is a check. The check
// detects every single wrong symbol and every swap of two symbols, so a typing
// mistake never leads to another ticket. A revision is four symbols and has no
// check. Only [Parse] checks text; a Code or Revision from another source must go
// through its Check method.
//
// [Letters] and [Chalked] make names for things on paper and on cloth.
package code

import (
	"crypto/sha256"
	"strconv"
	"strings"

	"github.com/google/uuid"
)

// Alphabet holds the symbols of codes and revisions: digits and capitals without 0
// O Q, 1 I L and U. People confuse these with each other, or U with V, when they
// read aloud or write by hand. The number of symbols is a prime, which the check
// symbol depends on.
const Alphabet = "23456789ABCDEFGHJKMNPRSTVWXYZ"

const (
	// Length is the number of symbols of a code, check symbol included.
	Length = 10
	// RevisionLength is the number of symbols of a revision.
	RevisionLength = 4
)

const base = len(Alphabet)

// codes is the number of codes, 29⁹, about 1.45 × 10¹³. Among 10,000 tickets, the
// chance that two share a code is 1 in 290,000 (n²/2 over the number).
const codes = 29 * 29 * 29 * 29 * 29 * 29 * 29 * 29 * 29

// A Code names one ticket. It is ten capitals and digits without separators.
type Code string

// A Revision names one content of a ticket: four capitals and digits. It is empty
// if the reading did not include a revision.
type Revision string

// Identity returns the permanent identity of a ticket: a UUIDv5 in the job's own
// namespace. unit counts from 1. remake is 0 for the first panel and counts the
// panels cut again. The length of the shade's id in bytes precedes the id, so two
// different shades can never make the same name.
func Identity(job uuid.UUID, shade string, unit, remake int) uuid.UUID {
	name := "ticket " + strconv.Itoa(len(shade)) + ":" + shade + " " + strconv.Itoa(unit) + " " + strconv.Itoa(remake)
	return uuid.NewSHA1(job, []byte(name))
}

// Derive returns the code of an identity: its 128 bits as one number, high byte
// first, modulo 29⁹, written in nine symbols and the check symbol.
func Derive(id uuid.UUID) Code {
	var n int64
	for _, b := range id {
		n = (n<<8 | int64(b)) % codes // below 29⁹ × 256 = 3.7 × 10¹⁵
	}
	body := symbols(n, Length-1)
	return Code(append(body, Alphabet[checkOf(body)]))
}

// RevisionOf returns the revision of a ticket's content: its SHA-256 as one number,
// high byte first, modulo 29⁴. The chance that two contents share a revision is 1
// in 707,281.
func RevisionOf(content []byte) Revision {
	const revisions = 29 * 29 * 29 * 29
	var n int64
	for _, b := range sha256.Sum256(content) {
		n = (n<<8 | int64(b)) % revisions
	}
	return Revision(symbols(n, RevisionLength))
}

// Grouped returns the code as it is printed for a person: XXX-XXXX-XXX. c must be a
// valid code.
func (c Code) Grouped() string {
	return string(c[:3] + "-" + c[3:7] + "-" + c[7:])
}

// With returns the text for a code symbol: CODE-REV, or the code alone if the
// revision is empty.
func (c Code) With(r Revision) string {
	if r == "" {
		return string(c)
	}
	return string(c) + "-" + string(r)
}

// Check returns nil for a valid code, else an [*Error].
func (c Code) Check() error {
	if e := c.problem(); e != nil {
		return e
	}
	return nil
}

// Check returns nil for a valid revision, else an [*Error].
func (r Revision) Check() error {
	if e := spelling(string(r), RevisionLength); e != nil {
		return e
	}
	return nil
}

func (c Code) problem() *Error {
	if e := spelling(string(c), Length); e != nil {
		return e
	}
	if weighted(string(c)) != 0 {
		return &Error{Text: shorten(string(c)), Problem: Mistyped}
	}
	return nil
}

// spelling refuses symbols that are not in the alphabet, and any other length.
func spelling(s string, length int) *Error {
	at := 0
	for _, r := range s {
		if at++; !strings.ContainsRune(Alphabet, r) {
			return &Error{Text: shorten(s), Problem: Foreign, Symbol: r, At: at}
		}
	}
	if at != length {
		return &Error{Text: shorten(s), Problem: WrongLength, Count: at}
	}
	return nil
}

// symbols writes n in k symbols, highest first.
func symbols(n int64, k int) []byte {
	b := make([]byte, k, k+1)
	for i := k - 1; i >= 0; i-- {
		b[i], n = Alphabet[n%int64(base)], n/int64(base)
	}
	return b
}

// checkOf returns the value of the check symbol for the nine symbols of a body.
func checkOf(body []byte) int { return (base - weighted(string(body))) % base }

// weighted returns the sum of the symbols' values times 10, 9, … 1, modulo 29. The
// weights are different and not zero modulo a prime, so one wrong symbol or a swap
// of two always changes the sum.
func weighted(s string) int {
	sum := 0
	for i := range len(s) {
		sum += (Length - i) * strings.IndexByte(Alphabet, s[i])
	}
	return sum % base
}

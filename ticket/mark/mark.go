// Package mark holds what is done: marks, which are appended and never edited, the
// state that they make of a ticket, and the answer to a new mark.
//
// A [Mark] is a fact: this step of this ticket is done, then, by whom. Undoing is
// another mark. A [State] results from applying a ticket's marks in the order of
// their sequence numbers, which package record assigns. Times are kept as the
// sender gave them and decide nothing, because clocks jump. [Policy.Judge] says
// whether a mark is accepted, and answers in words.
//
// Only [Mark.Check] and [Ticket.Check] check whether marks and registrations are
// well formed; all other code trusts that they have run. The package opens no file
// and reads no clock; package record keeps everything on disk.
package mark

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/google/uuid"

	"shadewright/ticket/code"
	"shadewright/ticket/message"
)

// A Kind says what a mark states.
type Kind string

// The kinds of marks.
const (
	Done     Kind = "done"     // the step is done
	Measured Kind = "measured" // a reading was taken that does not let the step pass
	Undone   Kind = "undone"   // the step is not done after all
	Held     Kind = "held"     // work on the ticket waits, for a reason
	Released Kind = "released" // work goes on
	Remade   Kind = "remade"   // the panel is spoilt; another is cut, with another code
)

// Kinds lists the kinds of marks.
func Kinds() []Kind { return []Kind{Done, Measured, Undone, Held, Released, Remade} }

// A Mark is what a sender states about a ticket.
type Mark struct {
	ID       uuid.UUID     // made by the sender: the same mark sent twice is one mark
	Code     code.Code     // of the ticket
	Revision code.Revision // of the paper that was read; empty if only the code was read, until the mark is accepted
	Kind     Kind
	Step     string       // key of the step; until the mark is accepted, empty means the next one (or, to undo, the last)
	Reason   message.Term // for held and remade
	Readings Readings     // for done and measured
	Anyway   bool         // the sender knows that the reading is off, and lets it pass
	Who      string       // may be empty
	Where    string       // bench or device; may be empty
	Time     time.Time
}

// An Entry is an accepted mark with its place in the record.
type Entry struct {
	Seq int64 // from 1, without gaps between marks and registrations; decides the order
	Mark
}

const (
	longestWords = 200 // characters of a reason
	longestWord  = 80  // characters of a name, a place or a step's key
)

// Check reports everything that is wrong with a mark that a sender may send.
func (m Mark) Check() error {
	var errs []error
	wrong := func(format string, args ...any) { errs = append(errs, fmt.Errorf(format, args...)) }
	if m.ID == uuid.Nil {
		wrong("mark has no id; give each mark a new UUID")
	}
	if err := m.Code.Check(); err != nil {
		errs = append(errs, err)
	}
	if err := m.Revision.Check(); m.Revision != "" && err != nil {
		errs = append(errs, fmt.Errorf("revision: %w", err))
	}
	if !slices.Contains(Kinds(), m.Kind) {
		wrong("unknown kind %q; the kinds are done, measured, undone, held, released, remade", m.Kind)
	}
	needsReason := m.Kind == Held || m.Kind == Remade
	switch {
	case needsReason && strings.TrimSpace(m.Reason.String()) == "":
		errs = append(errs, noReason(m.Kind))
	case !needsReason && !m.Reason.IsZero():
		wrong("reason %q is given for %s; only held and remade have one", m.Reason, m.Kind)
	}
	if m.Kind != Done && m.Kind != Measured && (m.Readings != Readings{} || m.Anyway) {
		wrong("a reading is given for %s; only done and measured have one", m.Kind)
	}
	if id := m.Reason.ID; id != "" && (!message.ReasonTerm.Has(id) || m.Reason.Words != "") {
		wrong("reason %q is not a reason that this program knows; give the reason in words", string(id))
	}
	errs = append(errs, m.Readings.check(),
		plainText("reason", m.Reason.String(), longestWords), plainText("step", m.Step, longestWord),
		plainText("who", m.Who, longestWord), plainText("where", m.Where, longestWord))
	if y := m.Time.Year(); m.Time.IsZero() || y < 1970 || y > 9999 {
		wrong("time %q cannot be the time of a mark; give the time when it was made", m.Time.Format(time.RFC3339))
	}
	if _, offset := m.Time.Zone(); offset%60 != 0 || offset <= -24*3600 || offset >= 24*3600 {
		wrong("time %q has seconds in its offset; give the offset in hours and minutes", m.Time.Format(time.RFC3339))
	}
	return errors.Join(errs...)
}

func noReason(k Kind) error {
	if k == Held {
		return message.NewError("mark.hold-without-reason")
	}
	return message.NewError("mark.remake-without-reason")
}

// plainText refuses text that does not fit on one line of a board.
func plainText(name, s string, longest int) error {
	switch {
	case !utf8.ValidString(s):
		return fmt.Errorf("%s %q is not UTF-8 text", name, s)
	case utf8.RuneCountInString(s) > longest:
		return fmt.Errorf("%s %q… is longer than %d characters; shorten it", name, string([]rune(s)[:20]), longest)
	case strings.ContainsFunc(s, unicode.IsControl):
		return fmt.Errorf("%s %q has a control character; write it on one line", name, s)
	}
	return nil
}

// Same reports whether b may be m sent again. m was accepted, so what the sender
// left open has been filled in.
func (m Mark) Same(b Mark) bool {
	kind := b.Kind == m.Kind || b.Kind == Done && m.Kind == Measured
	return kind && m.Code == b.Code && m.Reason == b.Reason && m.Readings == b.Readings &&
		m.Who == b.Who && m.Where == b.Where && m.Anyway == b.Anyway && m.Time.Equal(b.Time) &&
		(b.Step == "" || b.Step == m.Step) && (b.Revision == "" || b.Revision == m.Revision)
}

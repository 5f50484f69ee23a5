package mark

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"time"
	"unicode/utf8"

	"github.com/google/uuid"

	"shadewright/ticket"
	"shadewright/ticket/code"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// A Ticket is what is registered when a ticket is printed: enough to judge a scan
// of it and to show where it stands.
type Ticket struct {
	ID       uuid.UUID // its permanent identity; the code derives from it
	Code     code.Code
	Revision code.Revision // of the newest paper
	Job      uuid.UUID
	JobName  string
	Due      time.Time // a date in UTC; zero if none was given
	Shade    string
	Unit, Of int             // from 1; the number of shades alike
	Remake   int             // 0 for the first panel; counts the panels cut again
	Replaces code.Code       // code of the spoilt panel's ticket; empty if Remake is 0
	Panel    measure.Size    // the size to cut; zero if unknown, and then readings are not judged
	Turns    TurnRange       // for its spring; zero if not worked out
	Route    route.Route     // shared among tickets, never changed
	Summary  json.RawMessage // what a screen shows; kept and returned as it is
	Printed  string          // the values on the paper, as [ticket.Printed] writes them; empty if unknown
}

// TicketOf returns the registration of a printed ticket.
func TicketOf(t *ticket.Ticket) (*Ticket, error) {
	summary, err := json.Marshal(SummaryOf(t))
	if err != nil {
		return nil, fmt.Errorf("shade %s: %w", t.Shade.ID, err)
	}
	m := &Ticket{
		ID: t.Identity, Code: t.Code, Revision: t.Revision, Job: t.Job.ID, JobName: t.Job.Name, Due: t.Job.Due,
		Shade: t.Shade.ID, Unit: t.Unit, Of: t.Of, Remake: t.Remake,
		Panel: measure.Size{Width: t.Cut.Width, Length: t.Cut.Length}, Turns: turnsOf(t.Wind), Route: t.Route, Summary: summary, Printed: t.Printed().String(),
	}
	if t.Remake > 0 {
		m.Replaces = code.Derive(code.Identity(t.Job.ID, t.Shade.ID, t.Unit, t.Remake-1))
	}
	return m, nil
}

const (
	longestSummary = 64 << 10
	longestPrinted = 64 << 10
	dateLayout     = time.DateOnly
)

// Name returns the name of the ticket for a person: "bunk-left, unit 1", with the
// remake if it is one.
func (t *Ticket) Name() string { return t.Called().String() }

// Called returns the ticket's name for any language.
func (t *Ticket) Called() message.Message {
	name := ticket.UnitName(t.Shade, t.Unit, t.Of)
	if t.Remake > 0 {
		name = message.Of("mark.cut-again", name, t.Remake)
	}
	return name
}

// Successor returns the code of the ticket that replaces this one if it is remade.
func (t *Ticket) Successor() code.Code {
	return code.Derive(code.Identity(t.Job, t.Shade, t.Unit, t.Remake+1))
}

// Equal reports whether two registrations are the same.
func (t *Ticket) Equal(o *Ticket) bool {
	return t.ID == o.ID && t.Code == o.Code && t.Revision == o.Revision && t.Job == o.Job && t.JobName == o.JobName &&
		t.Due.Equal(o.Due) && t.Shade == o.Shade && t.Unit == o.Unit && t.Of == o.Of && t.Remake == o.Remake &&
		t.Replaces == o.Replaces && t.Printed == o.Printed && t.Panel == o.Panel && t.Turns == o.Turns && t.Route.Equal(o.Route) && bytes.Equal(t.Summary, o.Summary)
}

// Check reports everything that is wrong with a registration.
func (t *Ticket) Check() error {
	return errors.Join(t.checkNames(), t.checkUnit(), t.checkDue(), t.checkFigures(), t.checkKept(),
		plainText("shade", t.Shade, longestWords), plainText("job", t.JobName, longestWords))
}

// checkNames checks code and identity against the unit from which they are made.
func (t *Ticket) checkNames() error {
	var errs []error
	if err := t.Code.Check(); err != nil {
		errs = append(errs, err)
	}
	if err := t.Revision.Check(); err != nil {
		errs = append(errs, fmt.Errorf("revision: %w", err))
	}
	if t.ID != code.Identity(t.Job, t.Shade, t.Unit, t.Remake) || t.Code != code.Derive(t.ID) {
		errs = append(errs, fmt.Errorf("code %s does not belong to shade %q unit %d remake %d in job %s; register what was printed", t.Code, t.Shade, t.Unit, t.Remake, t.Job))
	}
	return errors.Join(errs...)
}

func (t *Ticket) checkUnit() error {
	var errs []error
	if t.Shade == "" || t.Unit < 1 || t.Unit > t.Of || t.Remake < 0 {
		errs = append(errs, fmt.Errorf("shade %q unit %d of %d remake %d is not a unit of a shade", t.Shade, t.Unit, t.Of, t.Remake))
	}
	var before code.Code // code of the spoilt panel's ticket
	if t.Remake > 0 {
		before = code.Derive(code.Identity(t.Job, t.Shade, t.Unit, t.Remake-1))
	}
	if t.Replaces != before {
		errs = append(errs, fmt.Errorf("replaces %q is not the ticket before remake %d", t.Replaces, t.Remake))
	}
	return errors.Join(errs...)
}

func (t *Ticket) checkDue() error {
	if t.Due.IsZero() || t.Due.Equal(t.Due.UTC().Truncate(24*time.Hour)) && t.Due.Year() >= 1970 && t.Due.Year() <= 9999 {
		return nil
	}
	return fmt.Errorf("due %s is not a date", t.Due.Format(time.RFC3339))
}

func (t *Ticket) checkFigures() error {
	var errs []error
	if p := t.Panel; p.Width < 0 || p.Length < 0 || p.Width > measure.Longest || p.Length > measure.Longest {
		errs = append(errs, fmt.Errorf("panel %s × %s is not a size", p.Width, p.Length))
	}
	if r := t.Turns; r.Least < 0 || r.Best < r.Least || r.Most < r.Best || r.Most > MostTurns {
		errs = append(errs, fmt.Errorf("turns %s to %s, best %s, are not a range", r.Least, r.Most, r.Best))
	}
	return errors.Join(errs...)
}

// checkKept checks the values that are kept to be read later.
func (t *Ticket) checkKept() error {
	var errs []error
	if s := t.Summary; len(s) > longestSummary || len(s) > 0 && !(json.Valid(s) && utf8.Valid(s)) {
		errs = append(errs, fmt.Errorf("summary is not JSON of at most %d bytes", longestSummary))
	}
	if err := t.checkPrinted(); err != nil {
		errs = append(errs, err)
	}
	if err := t.Route.Check(); err != nil {
		errs = append(errs, fmt.Errorf("route: %w", err))
	}
	return errors.Join(errs...)
}

// checkPrinted checks the revision against the values from which it is made. A
// revision registered in format 1 was made from other things.
func (t *Ticket) checkPrinted() error {
	if t.Printed == "" {
		return nil
	}
	if len(t.Printed) > longestPrinted || !utf8.ValidString(t.Printed) {
		return fmt.Errorf("printed is not text of at most %d bytes", longestPrinted)
	}
	p, err := ticket.ReadPrinted(t.Printed)
	if err != nil {
		return fmt.Errorf("printed: %w", err)
	}
	if p.Format > 1 && p.Revision() != t.Revision {
		return fmt.Errorf("revision %s was not made from the printed values; register what was printed", t.Revision)
	}
	return nil
}

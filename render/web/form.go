package web

import (
	"cmp"
	"errors"
	"fmt"
	"net/url"
	"strings"
	"time"

	"github.com/google/uuid"

	"shadewright/ticket/code"
	"shadewright/ticket/mark"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// actions are the kinds of marks that a page can send.
var actions = map[string]mark.Kind{
	"done": mark.Done, "undone": mark.Undone, "held": mark.Held, "released": mark.Released, "remade": mark.Remade,
}

// olderKind is the field for the kind in marks that an older page stored in a
// phone.
const olderKind = "deed"

// longestPath is longer than any code, however it is grouped.
const longestPath = 64

// ticketPath reads the part of an address after /T/.
func ticketPath(text string) (code.Code, code.Revision, error) {
	if len(text) > longestPath {
		return "", "", message.NewError("web.address-too-long")
	}
	return code.Parse(text)
}

// A phone's clock may be wrong, and a mark may wait in the phone. The phone's
// time counts unless it is in the future or older than oldestMark.
const (
	oldestMark  = 7 * 24 * time.Hour
	clockMayErr = 2 * time.Minute
)

// markOf reads the form of a ticket page into a mark. The given mark has the
// ticket, the sender and the time. A reading without a unit is in the units of
// the page.
func markOf(f url.Values, m mark.Mark, units measure.System) (mark.Mark, error) {
	now := m.Time
	m.Anyway, m.Step = f.Get("anyway") == "yes", f.Get("step")
	var errs []error
	var known bool
	if m.Kind, known = actions[cmp.Or(f.Get("kind"), f.Get(olderKind))]; !known {
		errs = append(errs, message.NewError("web.form-without-kind"))
	}
	id, err := uuid.Parse(f.Get("id"))
	if err != nil {
		errs = append(errs, message.NewError("web.form-without-id"))
	}
	if at, err := time.Parse(time.RFC3339Nano, f.Get("at")); err == nil && at.After(now.Add(-oldestMark)) && at.Before(now.Add(clockMayErr)) {
		m.Time = at.In(now.Location()) // scripts send UTC
	}
	switch m.Kind {
	case mark.Held, mark.Remade:
		m.Step = ""
		if m.Reason = message.ReasonTerm.Term(oneLine(f.Get("words"))); m.Reason.IsZero() {
			m.Reason = message.ReasonTerm.Term(oneLine(f.Get("reason")))
		}
	case mark.Released:
		m.Step = ""
	case mark.Done:
		m.Readings, err = readingsOf(f, units)
		errs = append(errs, err)
	}
	m.ID = idOf(id, m)
	return m, errors.Join(errs...)
}

// idOf derives the id of a mark from the id of its form and its content. A form
// sent twice is one mark; the same form filled in differently, after going back
// to it, is another mark. Sender and time do not count, because a phone sends a
// waiting mark again until it gets an answer.
func idOf(form uuid.UUID, m mark.Mark) uuid.UUID {
	g := m.Readings
	return uuid.NewSHA1(form, fmt.Appendf(nil, "%s\x00%s\x00%s\x00%s\x00%d %d %d %d\x00%t", m.Code, m.Kind, m.Step, m.Reason, g.Diagonals[0], g.Diagonals[1], g.Width, g.Turns, m.Anyway))
}

// oneLine joins text to one line with single spaces.
func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

func readingsOf(f url.Values, units measure.System) (mark.Readings, error) {
	var out mark.Readings
	var errs []error
	example := "27-1/2"
	if units == measure.Millimetres {
		example = "700"
	}
	length := func(name string, what message.ID, into *measure.Length) {
		text := strings.TrimSpace(f.Get(name))
		if text == "" {
			return
		}
		var err error
		if *into, err = measure.Parse(text, units); err != nil {
			errs = append(errs, message.NewError("web.not-a-length", message.Of(what), shortened(text), example))
		}
	}
	length("first", "web.first-diagonal", &out.Diagonals[0])
	length("second", "web.second-diagonal", &out.Diagonals[1])
	length("width", "web.width", &out.Width)
	if text := strings.TrimSpace(f.Get("turns")); text != "" {
		v, err := mark.ParseTurns(text)
		errs = append(errs, err)
		out.Turns = v
	}
	return out, errors.Join(errs...)
}

// shortened cuts a text to the length that an answer has room for.
func shortened(text string) string {
	const most = 30
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}

// unitsOf returns the unit of a bare number on the page of a ticket.
func unitsOf(sum mark.Summary) measure.System {
	if sum.Units == "mm" {
		return measure.Millimetres
	}
	return measure.Inches
}

// localPath returns a path of this server, or the first page. A link must not
// lead a phone that just joined to another site.
func localPath(path string) string {
	if !strings.HasPrefix(path, "/") || strings.HasPrefix(path, "//") || strings.ContainsAny(path, "\\\r\n\t") || len(path) > 200 {
		return "/"
	}
	return path
}

func queryPath(path string) string { return url.QueryEscape(localPath(path)) }

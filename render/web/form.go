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

// actions are the kinds of marks that a page sends.
var actions = map[string]mark.Kind{
	"done": mark.Done, "undone": mark.Undone, "held": mark.Held, "released": mark.Released, "remade": mark.Remade,
}

// olderKind names the kind in marks that wait in a phone since an older page.
const olderKind = "deed"

// longestPath is more than any code, however it is grouped.
const longestPath = 64

// ticketPath reads what stands after /T/ in an address.
func ticketPath(text string) (code.Code, code.Revision, error) {
	if len(text) > longestPath {
		return "", "", message.NewError("web.address-too-long")
	}
	return code.Parse(text)
}

// A phone's clock may be off, and a mark may wait in it: its time is taken if it
// is not in the future nor older than this.
const (
	oldestMark  = 7 * 24 * time.Hour
	clockMayErr = 2 * time.Minute
)

// markOf reads the form of a ticket page into a mark that knows its ticket, who
// sends it and when. A bare number of a reading is in the units of the page.
func markOf(f url.Values, m mark.Mark, units measure.System) (mark.Mark, error) {
	now := m.Time
	m.Anyway, m.Step = f.Get("anyway") == "yes", f.Get("step")
	var errs []error
	var known bool
	if m.Kind, known = actions[cmp.Or(f.Get("kind"), f.Get(olderKind))]; !known {
		errs = append(errs, message.NewError("web.form-without-deed"))
	}
	id, err := uuid.Parse(f.Get("id"))
	if err != nil {
		errs = append(errs, message.NewError("web.form-without-id"))
	}
	if at, err := time.Parse(time.RFC3339Nano, f.Get("at")); err == nil && at.After(now.Add(-oldestMark)) && at.Before(now.Add(clockMayErr)) {
		m.Time = at.In(now.Location()) // a script tells it in UTC
	}
	switch m.Kind {
	case mark.Held, mark.Remade:
		m.Step = ""
		if m.Reason = oneLine(f.Get("words")); m.Reason == "" {
			m.Reason = oneLine(f.Get("reason"))
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

// idOf returns the id of a mark from the id of its form and what it says. A form
// that is sent twice is one mark; one that is filled in anew, after going back to
// it, is another. Who sends it and when is left out: a mark that waited in a
// phone is sent again until it is answered.
func idOf(form uuid.UUID, m mark.Mark) uuid.UUID {
	g := m.Readings
	return uuid.NewSHA1(form, fmt.Appendf(nil, "%s\x00%s\x00%s\x00%s\x00%d %d %d %d\x00%t", m.Code, m.Kind, m.Step, m.Reason, g.Diagonals[0], g.Diagonals[1], g.Width, g.Turns, m.Anyway))
}

// oneLine is text on one line, as a hand meant it.
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

// shortened keeps so much of a text as an answer has room for.
func shortened(text string) string {
	const most = 30
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}

// unitsOf is what a bare number means on the page of a ticket.
func unitsOf(sum Summary) measure.System {
	if sum.Units == "mm" {
		return measure.Millimetres
	}
	return measure.Inches
}

// localPath returns a path of this server, or the first page: a link must not
// lead a phone that just joined elsewhere.
func localPath(path string) string {
	if !strings.HasPrefix(path, "/") || strings.HasPrefix(path, "//") || strings.ContainsAny(path, "\\\r\n\t") || len(path) > 200 {
		return "/"
	}
	return path
}

func queryPath(path string) string { return url.QueryEscape(localPath(path)) }

package mark

import (
	"fmt"
	"strconv"
	"time"

	"github.com/google/uuid"

	"shadewright/ticket/code"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// fields reads the typed values of a row and collects what is wrong with them.
type fields struct {
	row row
	err func(column string, err error)
}

func (f fields) id(column string) uuid.UUID {
	v, err := uuid.Parse(f.row[column])
	if err != nil {
		f.err(column, fmt.Errorf("%s %q is not a UUID", column, f.row[column]))
	}
	return v
}

func (f fields) count(column string) int {
	v, err := strconv.ParseUint(f.row[column], 10, 31)
	if err != nil {
		f.err(column, fmt.Errorf("%s %q is not a whole number", column, f.row[column]))
	}
	return int(v)
}

func (f fields) length(column string) measure.Length {
	text := f.row[column]
	if text == "" {
		return 0
	}
	v, err := measure.Parse(text, measure.Millimetres)
	if err != nil {
		f.err(column, fmt.Errorf("%s: %w", column, err))
	}
	return v
}

func (f fields) turns(column string) Turns {
	text := f.row[column]
	if text == "" {
		return 0
	}
	v, err := ParseTurns(text)
	if err != nil {
		f.err(column, err)
	}
	return v
}

func (f fields) time(column, layout string) time.Time {
	text := f.row[column]
	if text == "" && layout == dateLayout {
		return time.Time{}
	}
	v, err := time.Parse(layout, text)
	if err != nil {
		f.err(column, fmt.Errorf("%s %q is not a time; write it as in %s", column, text, layout))
	}
	return v
}

func (f fields) ticket(routes map[string]route.Route) *Ticket {
	t := &Ticket{
		ID: f.id("id"), Code: code.Code(f.row["code"]), Revision: code.Revision(f.row["revision"]),
		Job: f.id("job"), JobName: f.row["job_name"], Due: f.time("due", dateLayout),
		Shade: f.row["shade"], Unit: f.count("unit"), Of: f.count("of"), Remake: f.count("remake"), Replaces: code.Code(f.row["replaces"]),
		Panel: measure.Size{Width: f.length("panel_width_mm"), Length: f.length("panel_length_mm")},
		Turns: TurnRange{Least: f.turns("turns_least"), Best: f.turns("turns"), Most: f.turns("turns_most")},
	}
	if s := f.row["summary"]; s != "" {
		t.Summary = Reworded([]byte(s))
	}
	steps, ok := routes[f.row["route"]]
	if !ok {
		f.err("route", fmt.Errorf("no earlier route record has the name %q", f.row["route"]))
	}
	t.Route = steps
	return t.Complete()
}

func (f fields) mark() *Mark {
	m := &Mark{
		ID: f.id("id"), Code: code.Code(f.row["code"]), Revision: code.Revision(f.row["revision"]),
		Kind: Kind(f.row["kind"]), Step: f.row["step"], Reason: message.ReasonTerm.Kept(f.row["reason_id"], f.row["reason"]),
		Who: f.row["who"], Where: f.row["where"], Time: f.time("time", time.RFC3339Nano),
		Readings: Readings{
			Diagonals: [2]measure.Length{f.length("diagonal_1_mm"), f.length("diagonal_2_mm")},
			Width:     f.length("width_mm"),
			Turns:     f.turns("turns"),
		},
	}
	switch s := f.row["anyway"]; s {
	case "", "yes":
		m.Anyway = s == "yes"
	default:
		f.err("anyway", fmt.Errorf("anyway %q is neither yes nor empty", s))
	}
	return m
}

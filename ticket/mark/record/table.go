package record

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"time"

	"github.com/google/uuid"

	"shadewright/ticket/mark"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// A querier is a database, one of its connections or a transaction.
type querier interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

const headQuery = "SELECT coalesce((SELECT max(seq) FROM marks), 0), coalesce((SELECT max(seq) FROM tickets), 0)"

// headOf returns the last sequence number from a row of headQuery, or 0 for an
// empty record.
func headOf(row *sql.Row) (int64, error) {
	var marks, tickets int64
	err := row.Scan(&marks, &tickets)
	return max(marks, tickets), err
}

// load returns the lines after a sequence number, in order.
func load(ctx context.Context, q querier, after int64) ([]mark.Line, error) {
	tickets, err := loadTickets(ctx, q, after)
	if err != nil {
		return nil, err
	}
	marks, err := loadMarks(ctx, q, "seq > $1", after)
	if err != nil {
		return nil, err
	}
	records := make([]mark.Line, 0, len(tickets)+len(marks))
	for i := range marks {
		for len(tickets) > 0 && tickets[0].Seq < marks[i].Seq {
			records, tickets = append(records, tickets[0]), tickets[1:]
		}
		records = append(records, mark.Line{Seq: marks[i].Seq, Mark: &marks[i].Mark})
	}
	return append(records, tickets...), nil
}

const (
	markColumns   = "seq, id, code, revision, kind, step, reason, diagonal_1, diagonal_2, width, turns, anyway, who, place, at, reason_id"
	ticketColumns = "seq, id, code, revision, job, job_name, due, shade, unit, of_units, remake, replaces, panel_width, panel_length, route, summary, turns_least, turns_best, turns_most, printed"

	insertMark   = "INSERT INTO marks (" + markColumns + ") VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16)"
	insertTicket = "INSERT INTO tickets (" + ticketColumns + ") VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17, $18, $19, $20)"
)

// loadMarksAt returns the marks with these sequence numbers.
func loadMarksAt(ctx context.Context, q querier, seqs []int64) ([]mark.Entry, error) {
	if len(seqs) == 0 {
		return nil, nil
	}
	list := make([]string, len(seqs))
	for i, n := range seqs {
		list[i] = strconv.FormatInt(n, 10)
	}
	return loadMarks(ctx, q, "seq IN ("+strings.Join(list, ", ")+")")
}

// loadMarks returns the marks that match a condition.
func loadMarks(ctx context.Context, q querier, where string, args ...any) ([]mark.Entry, error) {
	var entries []mark.Entry
	words := interned{}
	err := each(ctx, q, "SELECT "+markColumns+" FROM marks WHERE "+where+" ORDER BY seq", args, func(rows *sql.Rows) error {
		var e mark.Entry
		var id, at, reason, reasonID string
		r := &e.Readings
		err := rows.Scan(&e.Seq, &id, &e.Code, &e.Revision, &e.Kind, &e.Step, &reason,
			&r.Diagonals[0], &r.Diagonals[1], &r.Width, &r.Turns, &e.Anyway, &e.Who, &e.Where, &at, &reasonID)
		if err != nil {
			return err
		}
		if e.ID, err = uuid.Parse(id); err != nil {
			return damaged("mark %d: id %q is not a UUID", e.Seq, id)
		}
		if e.Time, err = time.Parse(time.RFC3339Nano, at); err != nil {
			return damaged("mark %d: time %q", e.Seq, at)
		}
		e.Reason = message.ReasonTerm.Kept(reasonID, reason) // a program of an earlier version may still be writing
		e.Kind = mark.Kind(words.of(string(e.Kind)))
		e.Step, e.Who, e.Where = words.of(e.Step), words.of(e.Who), words.of(e.Where)
		entries = append(entries, e)
		return nil
	})
	return entries, err
}

// interned keeps a single copy of strings that appear in thousands of lines.
type interned map[string]string

func (in interned) of(s string) string {
	if kept, ok := in[s]; ok {
		return kept
	}
	in[s] = s
	return s
}

func damaged(format string, args ...any) error {
	return &Error{Fault: Damaged, Err: fmt.Errorf(format, args...)}
}

func loadTickets(ctx context.Context, q querier, after int64) ([]mark.Line, error) {
	routes, err := loadRoutes(ctx, q)
	if err != nil {
		return nil, err
	}
	var records []mark.Line
	err = each(ctx, q, "SELECT "+ticketColumns+" FROM tickets WHERE seq > $1 ORDER BY seq", []any{after}, func(rows *sql.Rows) error {
		t := &mark.Ticket{}
		r := mark.Line{Ticket: t}
		var id, job, due, steps, summary string
		err := rows.Scan(&r.Seq, &id, &t.Code, &t.Revision, &job, &t.JobName, &due, &t.Shade, &t.Unit, &t.Of, &t.Remake,
			&t.Replaces, &t.Panel.Width, &t.Panel.Length, &steps, &summary, &t.Turns.Least, &t.Turns.Best, &t.Turns.Most, &t.Printed)
		if err != nil {
			return err
		}
		if t.ID, err = uuid.Parse(id); err == nil {
			t.Job, err = uuid.Parse(job)
		}
		if err == nil && due != "" {
			t.Due, err = time.Parse(time.DateOnly, due)
		}
		var known bool
		if t.Route, known = routes[steps]; err != nil || !known {
			return damaged("ticket %d: id %q, job %q, due %q, route %q", r.Seq, id, job, due, steps)
		}
		if summary != "" {
			t.Summary = json.RawMessage(summary)
		}
		r.Ticket = t.Complete() // a registration of an earlier version keeps no values
		records = append(records, r)
		return nil
	})
	return records, err
}

func loadRoutes(ctx context.Context, q querier) (map[string]route.Route, error) {
	routes := map[string]route.Route{}
	err := each(ctx, q, "SELECT id, steps FROM routes", nil, func(rows *sql.Rows) error {
		var id, steps string
		if err := rows.Scan(&id, &steps); err != nil {
			return err
		}
		var r route.Route
		if err := json.Unmarshal([]byte(steps), &r); err != nil {
			return damaged("route %s: %w", id, err)
		}
		routes[id] = r
		return nil
	})
	return routes, err
}

// each calls row for every row of a query.
func each(ctx context.Context, q querier, query string, args []any, row func(*sql.Rows) error) (err error) {
	rows, err := q.QueryContext(ctx, query, args...)
	if err != nil {
		return err
	}
	defer func() {
		if e := rows.Close(); err == nil {
			err = e
		}
	}()
	for rows.Next() {
		if err := row(rows); err != nil {
			return err
		}
	}
	return rows.Err()
}

// markRow returns the values of markColumns.
func markRow(seq int64, m *mark.Mark) []any {
	r := m.Readings
	var anyway int64
	if m.Anyway {
		anyway = 1
	}
	return []any{
		seq, m.ID.String(), string(m.Code), string(m.Revision), string(m.Kind), m.Step, m.Reason.Words,
		int64(r.Diagonals[0]), int64(r.Diagonals[1]), int64(r.Width), int64(r.Turns), anyway,
		m.Who, m.Where, m.Time.Format(time.RFC3339Nano), string(m.Reason.ID),
	}
}

// ticketRow returns the values of ticketColumns.
func ticketRow(seq int64, t *mark.Ticket, routeID string) []any {
	due := ""
	if !t.Due.IsZero() {
		due = t.Due.UTC().Format(time.DateOnly)
	}
	return []any{
		seq, t.ID.String(), string(t.Code), string(t.Revision), t.Job.String(), t.JobName, due, t.Shade, t.Unit, t.Of, t.Remake,
		string(t.Replaces), int64(t.Panel.Width), int64(t.Panel.Length), routeID, string(t.Summary),
		int64(t.Turns.Least), int64(t.Turns.Best), int64(t.Turns.Most), t.Printed,
	}
}

// routeRow returns a route's id, which is a digest of its steps, and its steps.
func routeRow(r route.Route) (id, steps string, err error) {
	b, err := json.Marshal(r)
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:8]), string(b), err
}

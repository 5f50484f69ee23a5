package record

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"

	"shadewright/ticket/mark"
	"shadewright/ticket/message"
	"shadewright/ticket/route"
)

// convertSentences brings a record to version 3: English texts become ids, and each
// registration gets the values of its paper. Marks and registrations keep their
// numbers and their order.
func convertSentences(ctx context.Context, t transaction) error {
	if err := convertRoutes(ctx, t); err != nil {
		return err
	}
	if err := convertTickets(ctx, t); err != nil {
		return err
	}
	return convertReasons(ctx, t)
}

// convertRoutes replaces the program's own names of steps and benches by their ids.
// A route's id is a digest of its steps, so it changes too.
func convertRoutes(ctx context.Context, t transaction) error {
	old := map[string]string{}
	err := each(ctx, t, "SELECT id, steps FROM routes", nil, func(rows *sql.Rows) error {
		var id, steps string
		err := rows.Scan(&id, &steps)
		old[id] = steps
		return err
	})
	if err != nil {
		return err
	}
	for id, text := range old {
		var r route.Route
		if err := json.Unmarshal([]byte(text), &r); err != nil {
			return damaged("route %s: %w", id, err)
		}
		fresh, steps, err := routeRow(r)
		if err != nil {
			return err
		}
		if fresh == id {
			continue
		}
		for _, s := range []struct {
			statement string
			args      []any
		}{
			{"INSERT INTO routes (id, steps) VALUES ($1, $2) ON CONFLICT (id) DO NOTHING", []any{fresh, steps}},
			{"UPDATE tickets SET route = $1 WHERE route = $2", []any{fresh, id}},
			{"DELETE FROM routes WHERE id = $1", []any{id}},
		} {
			if err := run(ctx, t, s.statement, s.args...); err != nil {
				return err
			}
		}
	}
	return nil
}

// convertTickets replaces the texts of summaries by their ids, and adds the values
// that each registration kept of its paper.
func convertTickets(ctx context.Context, t transaction) error {
	tickets, err := loadTickets(ctx, t, 0)
	if err != nil {
		return err
	}
	for _, r := range tickets {
		k := *r.Ticket
		k.Summary, k.Printed = mark.Reworded(k.Summary), ""
		err := run(ctx, t, "UPDATE tickets SET summary = $1, printed = $2 WHERE seq = $3", string(k.Summary), k.Complete().Printed, r.Seq)
		if err != nil {
			return fmt.Errorf("registration %d: %w", r.Seq, err)
		}
	}
	return nil
}

// convertReasons replaces the program's own reasons by their ids.
func convertReasons(ctx context.Context, t transaction) error {
	var reasons []string
	err := each(ctx, t, "SELECT DISTINCT reason FROM marks WHERE reason <> ''", nil, func(rows *sql.Rows) error {
		var words string
		err := rows.Scan(&words)
		reasons = append(reasons, words)
		return err
	})
	if err != nil {
		return err
	}
	for _, words := range reasons {
		id := message.ReasonTerm.Term(words).ID
		if id == "" {
			continue // the shop's own words
		}
		if err := run(ctx, t, "UPDATE marks SET reason_id = $1, reason = '' WHERE reason = $2", string(id), words); err != nil {
			return err
		}
	}
	return nil
}

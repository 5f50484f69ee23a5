package record

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"

	"shadewright/ticket/mark"
)

// normal checks all tickets. It returns them with their summaries in a normal form,
// so that equal summaries are the same text.
func normal(tickets []*mark.Ticket) ([]*mark.Ticket, error) {
	var errs []error
	out := make([]*mark.Ticket, len(tickets))
	for i, t := range tickets {
		if err := t.Check(); err != nil {
			errs = append(errs, fmt.Errorf("ticket %d (%s): %w", i+1, t.Name(), err))
			continue
		}
		c := *t.Complete()
		if len(t.Summary) > 0 {
			var b bytes.Buffer
			if err := json.Compact(&b, t.Summary); err != nil {
				return nil, err
			}
			c.Summary = b.Bytes()
		}
		out[i] = &c
	}
	return out, errors.Join(errs...)
}

// Imported counts what an import added, and what was already there.
type Imported struct{ Tickets, Marks, Known int }

// Import adds an export to the record, as [mark.ImportJSON] or [mark.ImportCSV]
// read it: all of it or nothing. In an empty record it produces the same board.
// What the record already has stays as it is, so importing twice adds nothing.
func (l *Record) Import(ctx context.Context, records []mark.Line) (Imported, error) {
	var count Imported
	err := l.do(ctx, &request{alone: true, work: func(ctx context.Context, b *batch) error {
		count = Imported{}
		known, err := b.known(ctx)
		if err != nil {
			b.broken = err
			return err
		}
		for _, r := range records {
			if err := b.importOne(ctx, r, known, &count); err != nil {
				return fmt.Errorf("record %d of the import: %w", r.Seq, err)
			}
		}
		return nil
	}})
	if err != nil {
		return Imported{}, err // the writer may still be counting
	}
	return count, nil
}

// known counts the registrations in the record by their fingerprints.
func (b *batch) known(ctx context.Context) (map[string]int, error) {
	known := map[string]int{}
	tickets, err := loadTickets(ctx, b.w.conn, 0)
	for _, r := range tickets {
		known[fingerprint(r.Ticket)]++
	}
	return known, err
}

// fingerprint returns the same text for two registrations that are the same.
func fingerprint(t *mark.Ticket) string {
	return fmt.Sprint(ticketRow(0, t, fmt.Sprint(t.Route))...)
}

func (b *batch) importOne(ctx context.Context, r mark.Line, known map[string]int, count *Imported) error {
	if t := r.Ticket; t != nil {
		if old := b.state(t.Code); old != nil && old.Ticket.ID != t.ID {
			return &TakenError{Old: old.Ticket, New: t}
		}
		if f := fingerprint(t); known[f] > 0 {
			known[f]--
			count.Known++
			return nil
		}
		count.Tickets++
		return b.stage(mark.Line{Ticket: t})
	}
	old, there, err := b.find(ctx, *r.Mark)
	switch {
	case err != nil:
		b.broken = err
		return err
	case there && !old.Same(*r.Mark):
		return &IDError{Sent: *r.Mark, Old: old.Mark}
	case there:
		count.Known++
		return nil
	}
	count.Marks++
	return b.stage(mark.Line{Mark: r.Mark})
}

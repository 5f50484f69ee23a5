package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"shadewright/config"
	"shadewright/ticket"
	"shadewright/ticket/mark"
	"shadewright/ticket/mark/record"
	"shadewright/ticket/measure"
)

// recordAt returns the path or the address of the shop's record.
func recordAt(s environment, c config.Settings) (string, error) {
	at := c.Record.At
	switch {
	case at == "" && s.dataDir == "":
		return "", usageError{errors.New("there is no data folder for the record; name a file in the setting record.at")}
	case at == "":
		return filepath.Join(s.dataDir, "marks.db"), nil
	case !strings.Contains(at, "://") && !filepath.IsAbs(at):
		return "", usageError{fmt.Errorf("record.at: %q is a different file in every folder; write the full path", at)}
	}
	return at, nil
}

// openRecord opens the shop's record.
func openRecord(ctx context.Context, s environment, c config.Settings) (*record.Record, error) {
	at, err := recordAt(s, c)
	if err != nil {
		return nil, err
	}
	return record.Open(ctx, at, record.Options{Policy: c.Policy()})
}

// withRecord opens the record, calls use and closes the record.
func withRecord(ctx context.Context, s environment, c config.Settings, use func(*record.Record) error) (err error) {
	rec, err := openRecord(ctx, s, c)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, rec.Close()) }()
	return use(rec)
}

// A partError ends a run that did only a part of its work, for example wrote the paper and
// failed to register it.
type partError struct{ error }

func (e partError) Unwrap() error { return e.error }

// Is makes a partError an [errPart].
func (e partError) Is(target error) bool { return target == errPart }

// A register is the record as print uses it. If the record cannot be opened, print still
// writes the paper.
type register struct {
	rec *record.Record
	err error // why the record cannot be used
}

// openRegister opens the record. It keeps an error until the paper is written.
func openRegister(ctx context.Context, s environment, c config.Settings) *register {
	rec, err := openRecord(ctx, s, c)
	return &register{rec, err}
}

// remakes returns how often each unit of a job was remade.
func (r *register) remakes(ctx context.Context, job *ticket.Job) func(shade string, unit int) int {
	if r.rec == nil {
		return nil
	}
	again, err := r.rec.Remakes(ctx, job.ID)
	if err != nil {
		r.err = errors.Join(r.err, err)
		return nil
	}
	return func(shade string, unit int) int { return again[record.Unit{Shade: shade, Unit: unit}] }
}

// knownRemakes returns how often each unit of a job was remade. It does not create a record
// if there is none. The caller only shows the error: check works without the record.
func knownRemakes(ctx context.Context, s environment, l *loadedJob) (again func(shade string, unit int) int, remark error) {
	at, err := recordAt(s, l.settings)
	if err != nil {
		return nil, nil // without a place for a record there is no record
	}
	if _, err := os.Stat(at); !strings.Contains(at, "://") && errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	r := openRegister(ctx, s, l.settings)
	again = r.remakes(ctx, &l.file.Job)
	l.done = r.cutting(ctx, &l.file.Job)
	return again, errors.Join(r.err, r.close())
}

// add registers the printed tickets, closes the record, and says how they were registered.
func (r *register) add(ctx context.Context, sel selection, p *progress) (words string, err error) {
	tickets := sel.tickets
	var n record.Registered
	if r.err == nil {
		p.say(func() string { return "registering " + measure.Count(len(tickets), "ticket") })
		var list []*mark.Ticket
		if list, r.err = registrations(tickets); r.err == nil {
			n, r.err = r.rec.Register(ctx, list)
		}
	}
	if r.err != nil {
		r.err = partError{fmt.Errorf("the paper is written, but its tickets are not in the record: %w; correct that and print again, or print with --no-record", r.err)}
		return "", errors.Join(r.err, r.close())
	}
	return registeredWords(r.rec.Where(), n, len(sel.all)-len(tickets), tickets[0].Job.Style), r.close()
}

// close closes the record. Calling it twice is safe.
func (r *register) close() error {
	if r.rec == nil {
		return nil
	}
	return r.rec.Close()
}

// registrations returns tickets in the form that the record keeps.
func registrations(tickets []*ticket.Ticket) ([]*mark.Ticket, error) {
	list := make([]*mark.Ticket, len(tickets))
	for i, t := range tickets {
		var err error
		if list[i], err = mark.TicketOf(t); err != nil {
			return nil, err
		}
	}
	return list, nil
}

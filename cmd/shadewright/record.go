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
)

// storeAt returns where the shop's record of marks is: a path or an address.
func storeAt(s environment, c config.Settings) (string, error) {
	at := c.Record.At
	switch {
	case at == "" && s.dataDir == "":
		return "", usageError{errors.New("this user has no data folder to keep marks in; name a file with the setting record.at")}
	case at == "":
		return filepath.Join(s.dataDir, "marks.db"), nil
	case !strings.Contains(at, "://") && !filepath.IsAbs(at):
		return "", usageError{fmt.Errorf("record.at: %q would be another file in every folder; write the whole path", at)}
	}
	return at, nil
}

// openRecord opens the shop's record of marks.
func openRecord(ctx context.Context, s environment, c config.Settings) (*record.Record, error) {
	at, err := storeAt(s, c)
	if err != nil {
		return nil, err
	}
	return record.Open(ctx, at, record.Options{Policy: c.Policy()})
}

// withRecord opens the record for the time of a function.
func withRecord(ctx context.Context, s environment, c config.Settings, use func(*record.Record) error) (err error) {
	log, err := openRecord(ctx, s, c)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, log.Close()) }()
	return use(log)
}

// A partError is a run that gave the paper and failed to register it.
type partError struct{ error }

func (e partError) Unwrap() error { return e.error }

// Is says that it is done in part.
func (e partError) Is(target error) bool { return target == errPart }

// A register is what print asks of the record, if it asks at all.
type register struct {
	log *record.Record
	err error // why there is none
}

// openRegister opens the record; what stands in the way is kept until the paper
// is out.
func openRegister(ctx context.Context, s environment, c config.Settings) *register {
	log, err := openRecord(ctx, s, c)
	return &register{log, err}
}

// remakes returns how often each unit of a job is to be cut again.
func (r *register) remakes(ctx context.Context, job *ticket.Job) func(shade string, unit int) int {
	if r.log == nil {
		return nil
	}
	again, err := r.log.Remakes(ctx, job.ID)
	if err != nil {
		r.err = errors.Join(r.err, err)
		return nil
	}
	return func(shade string, unit int) int { return again[record.Unit{Shade: shade, Unit: unit}] }
}

// knownRemakes returns how often each unit of a job is to be cut again, as far as
// there is a record yet: it makes none. What stands in the way is for a remark.
func knownRemakes(ctx context.Context, s environment, l *loaded) (again func(shade string, unit int) int, remark error) {
	at, err := storeAt(s, l.settings)
	if err != nil {
		return nil, nil // no place for a record, so there is none
	}
	if _, err := os.Stat(at); !strings.Contains(at, "://") && errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	r := openRegister(ctx, s, l.settings)
	again = r.remakes(ctx, &l.file.Job)
	return again, errors.Join(r.err, r.close())
}

// add registers tickets that were printed, closes the record, and says in words
// what became of them.
func (r *register) add(ctx context.Context, sel selection, p *progress) (words string, err error) {
	tickets := sel.tickets
	var n record.Registered
	if r.err == nil {
		p.say(func() string { return "registering " + count(len(tickets), "ticket") })
		var list []*mark.Ticket
		if list, r.err = registrations(tickets); r.err == nil {
			n, r.err = r.log.Register(ctx, list)
		}
	}
	if r.err != nil {
		r.err = partError{fmt.Errorf("the paper is written, but its tickets are not in the record: %w; print again when that is mended, or with --no-record", r.err)}
		return "", errors.Join(r.err, r.close())
	}
	return registeredWords(r.log.Where(), n, len(sel.all)-len(tickets), tickets[0].Job.Style), r.close()
}

// close closes the record; it may be called twice.
func (r *register) close() error {
	if r.log == nil {
		return nil
	}
	return r.log.Close()
}

// registrations returns what is kept of tickets that were printed.
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

// Package record keeps the shop's record of marks and tickets on disk: in one
// SQLite file by default, or in a PostgreSQL database that several machines share.
//
// A mark that [Record.Mark] answers as recorded is on disk. Marks that arrive
// together are committed together. A single goroutine writes. It judges each mark
// inside the transaction that records it, so two people cannot both mark one step.
// Several programs may use one record at the same time. Marks and registrations are
// in the order of their sequence numbers, which have no gaps; the clock decides
// nothing.
//
// Any failure of disk or network is an [*Error] that names its [Fault].
package record

import (
	"context"
	"database/sql"
	"errors"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"github.com/google/uuid"

	"shadewright/ticket/code"
	"shadewright/ticket/mark"
	"shadewright/ticket/measure"
)

// mostConnections is the most connections that a record uses: one writes, and the
// others read. A reader takes well under a millisecond, so a few serve many phones.
const mostConnections = 6

// Options are what a shop may set. For every field except Policy, zero means a
// sound default.
type Options struct {
	Policy   mark.Policy
	Poll     time.Duration // time between checks for other programs' changes, while somebody waits; 300 ms
	Patience time.Duration // how long a mark waits for a record that is busy or out of reach; 5 s

	pragma string               // an extra pragma for SQLite connections, for tests of a full disk
	stage  func(reached string) // called as an upgrade of the record progresses, for tests that stop it there
}

// A Record is an open record. Many goroutines may use it at the same time.
type Record struct {
	where string // as a person would name it, without secrets
	db    *sql.DB
	dial  dialect
	opts  Options
	steps []migration

	queue   chan *request
	closing chan struct{} // closed when the record is about to close
	idle    chan struct{} // closed when the writer has ended
	ended   sync.WaitGroup
	once    sync.Once

	mu      sync.RWMutex // guards the fields below
	cache   *cache
	changed chan struct{} // closed when the cache has grown
	waiters atomic.Int32
	commits atomic.Int64 // to measure how well groups form
}

// Open opens the record at a file's path, or at an address that starts with
// postgres://, and creates it if it does not exist. It upgrades a record of an
// older version. It refuses a record that is damaged, of a newer version or of
// another program, and leaves it unchanged.
func Open(ctx context.Context, at string, opts Options) (*Record, error) {
	return openAt(ctx, at, opts, migrations)
}

func openAt(ctx context.Context, at string, opts Options, steps []migration) (*Record, error) {
	if opts.Poll <= 0 {
		opts.Poll = 300 * time.Millisecond
	}
	if opts.Patience <= 0 {
		opts.Patience = 5 * time.Second
	}
	l := &Record{
		opts: opts, steps: steps, queue: make(chan *request, mostTogether), closing: make(chan struct{}), idle: make(chan struct{}),
		cache: newCache(), changed: make(chan struct{}),
	}
	open := openSQLite
	if isPostgres(at) {
		open = openPostgres
	}
	if err := open(ctx, l, at); err != nil {
		return nil, err
	}
	l.db.SetMaxOpenConns(mostConnections)
	l.db.SetMaxIdleConns(mostConnections)
	if err := l.refresh(ctx); err != nil {
		return nil, errors.Join(err, l.db.Close())
	}
	l.ended.Add(2)
	go l.write()
	go l.poll()
	return l, nil
}

func isPostgres(at string) bool {
	return strings.HasPrefix(at, "postgres://") || strings.HasPrefix(at, "postgresql://")
}

// Where names the record for a person: its path, or its address without the
// password.
func (l *Record) Where() string { return l.where }

// Close finishes what is being written and closes the record. It refuses everything
// that is queued after that or comes later.
func (l *Record) Close() error {
	var err error
	l.once.Do(func() {
		close(l.closing)
		l.ended.Wait()
		err = l.db.Close()
	})
	return err
}

// Mark judges m and records it if it is accepted. The error is nil whenever there
// is an answer, also for a refused mark. After an error it is unknown whether the
// mark was recorded; sending the same mark again is always safe.
func (l *Record) Mark(ctx context.Context, m mark.Mark) (mark.Answer, error) {
	m.Time = m.Time.Round(0) // the monotonic reading means nothing on disk
	if err := m.Check(); err != nil {
		return mark.Answer{}, err
	}
	var answer mark.Answer
	err := l.do(ctx, &request{work: func(ctx context.Context, b *batch) error {
		var err error
		answer, err = b.judge(ctx, m)
		return err
	}})
	if err != nil {
		return mark.Answer{}, err
	}
	return answer, nil
}

// Look answers a scan that marks nothing.
func (l *Record) Look(ctx context.Context, c code.Code, r code.Revision) (mark.Answer, error) {
	s, err := l.State(ctx, c)
	if err != nil {
		return mark.Answer{}, err
	}
	return l.opts.Policy.Look(s, c, r), nil
}

// State returns where a ticket stands, or nil if the code is unknown.
func (l *Record) State(ctx context.Context, c code.Code) (*mark.State, error) {
	if err := l.refresh(ctx); err != nil {
		return nil, err
	}
	l.mu.RLock()
	defer l.mu.RUnlock()
	return l.cache.states[c], nil
}

// Board returns every ticket by job.
func (l *Record) Board(ctx context.Context) (mark.Board, error) {
	if err := l.refresh(ctx); err != nil {
		return mark.Board{}, err
	}
	l.mu.RLock()
	states, seq := l.cache.all(), l.cache.seq
	l.mu.RUnlock()
	return mark.NewBoard(seq, states), nil
}

// A Unit names one unit of a shade.
type Unit struct {
	Shade string
	Unit  int
}

// Remakes returns the remake to print now for each unit of a job with a spoilt
// panel: 1 after the first one was spoilt.
func (l *Record) Remakes(ctx context.Context, job uuid.UUID) (map[Unit]int, error) {
	if err := l.refresh(ctx); err != nil {
		return nil, err
	}
	l.mu.RLock()
	defer l.mu.RUnlock()
	remakes := map[Unit]int{}
	for _, s := range l.cache.states {
		t := s.Ticket
		n := t.Remake
		if s.Spoilt != nil {
			n++
		}
		if u := (Unit{t.Shade, t.Unit}); t.Job == job && n > remakes[u] {
			remakes[u] = n
		}
	}
	return remakes, nil
}

// Cut returns the panels of a job that are cut, by the codes of their tickets: the step of
// cutting is marked, and the panel is not spoilt. The size is that of [mark.State.CutSize].
func (l *Record) Cut(ctx context.Context, job uuid.UUID) (map[code.Code]measure.Size, error) {
	if err := l.refresh(ctx); err != nil {
		return nil, err
	}
	l.mu.RLock()
	defer l.mu.RUnlock()
	cut := map[code.Code]measure.Size{}
	for c, s := range l.cache.states {
		if size, done := s.CutSize(); done && s.Ticket.Job == job {
			cut[c] = size
		}
	}
	return cut, nil
}

// Tickets returns the tickets of a job by their codes, as they were registered last.
func (l *Record) Tickets(ctx context.Context, job uuid.UUID) (map[code.Code]*mark.Ticket, error) {
	if err := l.refresh(ctx); err != nil {
		return nil, err
	}
	l.mu.RLock()
	defer l.mu.RUnlock()
	all := map[code.Code]*mark.Ticket{}
	for c, s := range l.cache.states {
		if s.Ticket.Job == job {
			all[c] = s.Ticket
		}
	}
	return all, nil
}

// History returns the marks of a ticket in order.
func (l *Record) History(ctx context.Context, c code.Code) ([]mark.Entry, error) {
	if err := l.refresh(ctx); err != nil {
		return nil, err
	}
	l.mu.RLock()
	seqs := slices.Clone(l.cache.marks[c])
	l.mu.RUnlock()
	entries, err := loadMarksAt(ctx, l.db, seqs)
	return entries, l.fault(err)
}

// Records returns all lines of the record in order, for an export.
func (l *Record) Records(ctx context.Context) ([]mark.Line, error) {
	var records []mark.Line
	err := l.snapshot(ctx, func(q querier) error {
		var err error
		records, err = load(ctx, q, 0)
		return err
	})
	return records, l.fault(err)
}

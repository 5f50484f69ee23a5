package record

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"errors"
	"runtime"
	"time"

	"github.com/google/uuid"

	"shadewright/ticket/code"
	"shadewright/ticket/mark"
)

// mostTogether is the most requests in one commit.
const mostTogether = 512

// longestImport is the time after which a server that receives an import counts as
// hanging.
const longestImport = 10 * time.Minute

// A dialect holds the differences between the databases.
type dialect struct {
	begin    string             // takes the right to write, or starts the transaction in which lock does
	lock     string             // empty if begin takes the lock
	snapshot sql.IsolationLevel // the level at which several tables are read as of one moment
	network  bool               // a statement may hang, so it needs a time limit
	insert   func(context.Context, *writer, []mark.Line) error
}

// A request is work to commit.
type request struct {
	alone bool       // not together with others: its failure must undo only itself
	work  work       // called again if the commit is tried again
	done  chan error // receives nil once the work is on disk
	err   error      // of work
	until time.Time  // when its patience ends
}

// work stages lines. Its context is that of the transaction.
type work func(context.Context, *batch) error

// do queues a request and waits until it is on disk.
func (l *Record) do(ctx context.Context, r *request) error {
	r.done, r.until = make(chan error, 1), time.Now().Add(l.opts.Patience)
	select {
	case <-l.closing:
		return &Error{Fault: Closed, Where: l.where}
	default:
	}
	select {
	case l.queue <- r:
	case <-ctx.Done():
		return ctx.Err()
	case <-l.closing:
		return &Error{Fault: Closed, Where: l.where}
	}
	select {
	case err := <-r.done:
		return err
	case <-ctx.Done():
		return ctx.Err()
	case <-l.idle:
	}
	select {
	case err := <-r.done: // it was the writer's last request
		return err
	default:
		return &Error{Fault: Closed, Where: l.where}
	}
}

// write is the goroutine that writes. It commits together what is queued together.
func (l *Record) write() {
	defer l.ended.Done()
	defer close(l.idle)
	w := &writer{l: l}
	defer w.drop()
	var next *request // taken from the queue, but not to be committed with the others
	for {
		var group []*request
		if next != nil {
			group, next = append(group, next), nil
		} else {
			select {
			case r := <-l.queue:
				group = append(group, r)
			case <-l.closing:
				return
			}
		}
		if !group[0].alone {
			group, next = l.gather(group)
		}
		w.settle(group)
	}
}

// gather takes the queued requests, up to one that must be committed alone. It
// first lets senders run that were just answered. Otherwise each group would have
// only a few early ones, and the rest would wait for another commit.
func (l *Record) gather(group []*request) (all []*request, next *request) {
	for had := 0; had < len(group); runtime.Gosched() {
		had = len(group)
		for more := true; more && len(group) < mostTogether; {
			select {
			case r := <-l.queue:
				if r.alone {
					return group, r
				}
				group = append(group, r)
			default:
				more = false
			}
		}
	}
	return group, nil
}

// A writer holds the connection that writes and the statements prepared on it.
type writer struct {
	l      *Record
	conn   *sql.Conn
	head   *sql.Stmt
	mark   *sql.Stmt
	ticket *sql.Stmt
}

// settle commits a group and answers it. While the record is busy or out of reach,
// it tries again until the patience of the longest waiting request ends.
func (w *writer) settle(group []*request) {
	var err error
	for pause := 20 * time.Millisecond; ; pause = min(2*pause, 500*time.Millisecond) {
		err = w.l.fault(w.commit(group))
		if !passing(err) || time.Now().Add(pause).After(group[0].until) || !w.l.sleep(pause) {
			break
		}
	}
	for _, r := range group {
		if err != nil {
			r.err = err
		}
		r.done <- r.err
	}
}

// sleep waits. It returns false if the record is closing.
func (l *Record) sleep(d time.Duration) bool {
	select {
	case <-time.After(d):
		return true
	case <-l.closing:
		return false
	}
}

// passing reports whether a fault may end by itself.
func passing(err error) bool {
	var e *Error
	return errors.As(err, &e) && (e.Fault == Busy || e.Fault == Unreachable)
}

// commit runs the work of a group in one transaction.
func (w *writer) commit(group []*request) (err error) {
	ctx := context.Background() // a sender that gives up must not undo the others
	if w.l.dial.network {
		limit := 2 * w.l.opts.Patience
		if group[0].alone {
			limit = longestImport
		}
		var cancel context.CancelFunc
		ctx, cancel = context.WithTimeout(ctx, limit)
		defer cancel()
	}
	defer func() {
		if err != nil {
			w.drop()
		}
	}()
	if err := w.begin(ctx); err != nil {
		return err
	}
	head, err := headOf(w.head.QueryRowContext(ctx))
	if err != nil {
		return err
	}
	if err := w.l.catchUp(ctx, w.conn, head); err != nil {
		return err
	}
	b := &batch{l: w.l, w: w, head: head, states: map[code.Code]*mark.State{}, ids: map[uuid.UUID]int{}}
	for _, r := range group {
		if r.err = r.work(ctx, b); r.err != nil && r.alone {
			b.records = nil
		}
		if b.broken != nil {
			return b.broken
		}
	}
	if err := w.insert(ctx, b.records); err != nil {
		return err
	}
	if _, err := w.conn.ExecContext(ctx, "COMMIT"); err != nil {
		return err
	}
	w.l.commits.Add(1)
	return w.l.publish(b.records)
}

// begin starts the transaction that keeps every other writer out.
func (w *writer) begin(ctx context.Context) error {
	if w.conn == nil {
		conn, err := w.l.db.Conn(ctx)
		if err != nil {
			return err
		}
		w.conn = conn
		if w.head, err = conn.PrepareContext(ctx, headQuery); err != nil {
			return err
		}
		if w.mark, err = conn.PrepareContext(ctx, insertMark); err != nil {
			return err
		}
		if w.ticket, err = conn.PrepareContext(ctx, insertTicket); err != nil {
			return err
		}
	}
	if err := run(ctx, w.conn, w.l.dial.begin); err != nil || w.l.dial.lock == "" {
		return err
	}
	return run(ctx, w.conn, w.l.dial.lock)
}

// drop closes the connection with everything open on it, so that the next
// transaction starts on a clean one.
func (w *writer) drop() {
	if w.conn == nil {
		return
	}
	// The connection is discarded, so errors of the rollback or the close do not
	// matter. But an open statement would keep the file open.
	if !w.l.dial.network {
		_, _ = w.conn.ExecContext(context.Background(), "ROLLBACK")
	}
	for _, prepared := range []*sql.Stmt{w.head, w.mark, w.ticket} {
		if prepared != nil {
			_ = prepared.Close()
		}
	}
	_ = w.conn.Raw(func(any) error { return driver.ErrBadConn })
	w.conn, w.head, w.mark, w.ticket = nil, nil, nil, nil
}

// insert writes lines: tickets one by one, and marks the way the dialect does.
func (w *writer) insert(ctx context.Context, records []mark.Line) error {
	var marks []mark.Line
	routes := map[string]bool{}
	for _, r := range records {
		if r.Ticket == nil {
			marks = append(marks, r)
			continue
		}
		id, steps, err := routeRow(r.Ticket.Route)
		if err != nil {
			return err
		}
		if !routes[id] {
			routes[id] = true
			if err := run(ctx, w.conn, "INSERT INTO routes (id, steps) VALUES ($1, $2) ON CONFLICT (id) DO NOTHING", id, steps); err != nil {
				return err
			}
		}
		if _, err := w.ticket.ExecContext(ctx, ticketRow(r.Seq, r.Ticket, id)...); err != nil {
			return err
		}
	}
	if len(marks) == 0 {
		return nil
	}
	return w.l.dial.insert(ctx, w, marks)
}

func (w *writer) insertMark(ctx context.Context, r mark.Line) error {
	_, err := w.mark.ExecContext(ctx, markRow(r.Seq, r.Mark)...)
	return err
}

// A batch is what one transaction will add on top of the cache.
type batch struct {
	l       *Record
	w       *writer
	head    int64
	states  map[code.Code]*mark.State
	ids     map[uuid.UUID]int // ids of staged marks: their places in records
	records []mark.Line
	broken  error // an error of the database, not of the work
}

// state returns a ticket as it will stand, or nil if it is unknown.
func (b *batch) state(c code.Code) *mark.State {
	if s, ok := b.states[c]; ok {
		return s
	}
	b.l.mu.RLock()
	defer b.l.mu.RUnlock()
	return b.l.cache.states[c]
}

// stage adds a line under the next sequence number.
func (b *batch) stage(r mark.Line) error {
	r.Seq = b.head + 1
	if err := fold(r, b.state, func(s *mark.State) { b.states[s.Ticket.Code] = s }); err != nil {
		return err
	}
	if r.Mark != nil {
		b.ids[r.Mark.ID] = len(b.records)
	}
	b.head, b.records = r.Seq, append(b.records, r)
	return nil
}

// An IDError is a mark whose id belongs to another mark.
type IDError struct{ Sent, Old mark.Mark }

func (e *IDError) Error() string {
	return "mark " + e.Sent.ID.String() + " differs from the mark sent earlier under this id; give each mark a new UUID"
}

// judge answers a mark and stages it if it is to be recorded.
func (b *batch) judge(ctx context.Context, m mark.Mark) (mark.Answer, error) {
	policy, s := b.l.opts.Policy, b.state(m.Code)
	old, known, err := b.find(ctx, m)
	if err != nil {
		b.broken = err
		return mark.Answer{}, err
	}
	if known {
		answer, same := policy.Repeat(b.state(old.Code), old, m)
		if !same {
			return mark.Answer{}, &IDError{Sent: m, Old: old.Mark}
		}
		return answer, nil
	}
	answer := policy.Judge(s, m)
	if !answer.Recorded() {
		return answer, nil
	}
	taken := answer.Entry.Mark
	if err := b.stage(mark.Line{Mark: &taken}); err != nil {
		return mark.Answer{}, err
	}
	answer.Entry.Seq, answer.State = b.head, b.state(m.Code)
	return answer, nil
}

// find returns the mark, recorded or staged, with the id of m.
func (b *batch) find(ctx context.Context, m mark.Mark) (mark.Entry, bool, error) {
	if i, ok := b.ids[m.ID]; ok {
		r := b.records[i]
		return mark.Entry{Seq: r.Seq, Mark: *r.Mark}, true, nil
	}
	b.l.mu.RLock()
	seq, known := b.l.cache.ids[m.ID]
	b.l.mu.RUnlock()
	if !known {
		return mark.Entry{}, false, nil
	}
	entries, err := loadMarksAt(ctx, b.w.conn, []int64{seq})
	if err == nil && len(entries) == 0 {
		err = damaged("mark %s has disappeared", m.ID)
	}
	if err != nil {
		return mark.Entry{}, false, err
	}
	return entries[0], true, nil
}

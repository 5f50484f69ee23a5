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

// mostTogether is how many requests one commit may hold.
const mostTogether = 512

// longestImport is when a server that takes an import counts as hanging.
const longestImport = 10 * time.Minute

// A dialect is what differs between the databases.
type dialect struct {
	begin    string             // takes the right to write, or the transaction in which lock does
	lock     string             // empty if begin locks
	snapshot sql.IsolationLevel // that shows one moment of several tables
	network  bool               // a statement may hang, so it needs an end
	insert   func(context.Context, *writer, []mark.Line) error
}

// A request is work that is to be committed.
type request struct {
	alone bool       // not together with others: its failure must undo only itself
	work  work       // may be called again if the commit is tried again
	done  chan error // nil once it is on disk
	err   error      // of work
	until time.Time  // when patience ends
}

// Work stages records. Its context is that of the transaction.
type work func(context.Context, *batch) error

// do queues a request and waits for it to be on disk.
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
	case err := <-r.done: // it was the writer's last
		return err
	default:
		return &Error{Fault: Closed, Where: l.where}
	}
}

// write is the goroutine that writes. It commits what is queued together.
func (l *Record) write() {
	defer l.ended.Done()
	defer close(l.idle)
	w := &writer{l: l}
	defer w.drop()
	var next *request // taken from the queue, but not to go with the others
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

// gather takes what else is queued, up to one that must go alone. Senders that
// were just answered are let run first, lest each group be a few early ones
// while the rest wait for another commit.
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

// A writer holds the connection that writes and what is prepared on it.
type writer struct {
	l      *Record
	conn   *sql.Conn
	head   *sql.Stmt
	mark   *sql.Stmt
	ticket *sql.Stmt
}

// settle commits a group and answers it. While the store is busy or out of
// reach it tries again until the patience of the longest waiting ends.
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

// sleep waits, and reports false if the log is being closed.
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

// drop gives up the connection with whatever is open on it, so that the next
// transaction begins on a clean one.
func (w *writer) drop() {
	if w.conn == nil {
		return
	}
	// The connection is thrown away; what rolling back or closing it says
	// changes nothing. A statement left open would keep the file open.
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

// insert writes records: tickets one by one, marks the way the dialect does.
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

// A batch is what one transaction will add, on top of the cache.
type batch struct {
	l       *Record
	w       *writer
	head    int64
	states  map[code.Code]*mark.State
	ids     map[uuid.UUID]int // of marks staged: their place in records
	records []mark.Line
	broken  error // of the database, not of the work
}

// state returns a ticket as it will stand, nil if unknown.
func (b *batch) state(c code.Code) *mark.State {
	if s, ok := b.states[c]; ok {
		return s
	}
	b.l.mu.RLock()
	defer b.l.mu.RUnlock()
	return b.l.cache.states[c]
}

// stage adds a record under the next sequence number.
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

// An IDError is a mark whose id another mark has.
type IDError struct{ Sent, Old mark.Mark }

func (e *IDError) Error() string {
	return "mark " + e.Sent.ID.String() + " is not the one that was sent under this id before; give each mark a new UUID"
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

// find returns the mark that is recorded or staged under the id of m.
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
		err = damaged("mark %s was there and is not any more", m.ID)
	}
	if err != nil {
		return mark.Entry{}, false, err
	}
	return entries[0], true, nil
}

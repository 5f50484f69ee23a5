package record

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"github.com/google/uuid"

	"shadewright/ticket/code"
	"shadewright/ticket/mark"
)

// mostRecent is how many changes are remembered for those who follow them. A
// follower that is further behind gets everything anew.
const mostRecent = 4096

// A cache is the state that results from the record up to seq. The states in it
// never change.
//
// It holds the id of every mark, and the writer brings it up to date under the lock
// that keeps other writers out. So the cache decides whether a mark was sent
// before, and the database needs no index of ids. Such an index would cost a
// rewritten page for every mark, because the ids are random.
type cache struct {
	seq    int64
	states map[code.Code]*mark.State
	ids    map[uuid.UUID]int64   // by mark: its sequence number
	marks  map[code.Code][]int64 // by ticket: its marks
	recent []change              // the last changes, in order
}

type change struct {
	seq  int64
	code code.Code
}

func newCache() *cache {
	return &cache{states: map[code.Code]*mark.State{}, ids: map[uuid.UUID]int64{}, marks: map[code.Code][]int64{}}
}

func (c *cache) all() []*mark.State {
	states := make([]*mark.State, 0, len(c.states))
	for _, s := range c.states {
		states = append(states, s)
	}
	return states
}

// fold adds a line to the states that get finds, and stores the result with put. It
// refuses lines that no record of ours has.
func fold(r mark.Line, get func(code.Code) *mark.State, put func(*mark.State)) error {
	if t := r.Ticket; t != nil {
		was := get(t.Replaces)
		if t.Replaces == "" {
			was = nil
		}
		if was != nil {
			put(was.Replace(r.Seq))
		}
		if old := get(t.Code); old != nil {
			put(old.Register(t, r.Seq))
		} else {
			put(mark.NewState(t, r.Seq).After(was))
		}
		return nil
	}
	s := get(r.Mark.Code)
	if s == nil {
		return fmt.Errorf("mark %s at %d names ticket %s, which is not registered before it", r.Mark.ID, r.Seq, r.Mark.Code)
	}
	put(s.With(mark.Entry{Seq: r.Seq, Mark: *r.Mark}))
	return nil
}

// grow adds committed lines. It leaves out those that the cache already has,
// because another reader may have added them.
func (c *cache) grow(records []mark.Line) (grown bool, err error) {
	for _, r := range records {
		if r.Seq <= c.seq {
			continue
		}
		if r.Seq != c.seq+1 {
			return grown, fmt.Errorf("record %d is missing", c.seq+1)
		}
		if err := c.index(r); err != nil {
			return grown, err
		}
		err := fold(r, func(k code.Code) *mark.State { return c.states[k] }, func(s *mark.State) {
			c.states[s.Ticket.Code] = s
			c.recent = append(c.recent, change{r.Seq, s.Ticket.Code})
		})
		if err != nil {
			return grown, err
		}
		c.seq, grown = r.Seq, true
	}
	if n := len(c.recent); n > 2*mostRecent {
		c.recent = append([]change(nil), c.recent[n-mostRecent:]...)
	}
	return grown, nil
}

// index adds a mark's id, and refuses a mark that appears twice.
func (c *cache) index(r mark.Line) error {
	m := r.Mark
	if m == nil {
		return nil
	}
	if first, twice := c.ids[m.ID]; twice {
		return fmt.Errorf("mark %s appears twice, at %d and %d", m.ID, first, r.Seq)
	}
	c.ids[m.ID], c.marks[m.Code] = r.Seq, append(c.marks[m.Code], r.Seq)
	return nil
}

// since returns the codes that changed after seq. It returns false if seq is
// further back than is remembered.
func (c *cache) since(seq int64) (map[code.Code]bool, bool) {
	codes := map[code.Code]bool{}
	for i := len(c.recent) - 1; i >= 0; i-- {
		if c.recent[i].seq <= seq {
			return codes, true
		}
		codes[c.recent[i].code] = true
	}
	return codes, len(c.recent) == 0 || c.recent[0].seq <= seq+1
}

// publish adds committed lines to the cache and wakes the waiters.
func (l *Record) publish(records []mark.Line) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	grown, err := l.cache.grow(records)
	if grown {
		close(l.changed)
		l.changed = make(chan struct{})
	}
	if err != nil {
		return &Error{Fault: Damaged, Where: l.where, Err: err}
	}
	return nil
}

func (l *Record) seq() int64 {
	l.mu.RLock()
	defer l.mu.RUnlock()
	return l.cache.seq
}

// catchUp brings the cache up to head with what q sees.
func (l *Record) catchUp(ctx context.Context, q querier, head int64) error {
	have := l.seq()
	if head <= have {
		return nil
	}
	records, err := load(ctx, q, have)
	if err != nil {
		return err
	}
	return l.publish(records)
}

// refresh brings the cache up to what any program has committed.
func (l *Record) refresh(ctx context.Context) error {
	select {
	case <-l.closing:
		return &Error{Fault: Closed, Where: l.where}
	default:
	}
	head, err := headOf(l.db.QueryRowContext(ctx, headQuery))
	if err == nil && head > l.seq() {
		err = l.snapshot(ctx, func(q querier) error { return l.catchUp(ctx, q, head) })
	}
	if err != nil {
		select {
		case <-l.closing: // the database was closed while it was being read
			return &Error{Fault: Closed, Where: l.where}
		default:
		}
	}
	return l.fault(err)
}

// snapshot reads both tables as they were at one moment.
func (l *Record) snapshot(ctx context.Context, read func(querier) error) error {
	tx, err := l.db.BeginTx(ctx, &sql.TxOptions{ReadOnly: true, Isolation: l.dial.snapshot})
	if err != nil {
		return err
	}
	err = read(tx)
	return errors.Join(err, tx.Rollback())
}

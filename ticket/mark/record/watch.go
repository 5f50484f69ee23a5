package record

import (
	"context"
	"time"

	"shadewright/ticket/mark"
)

// A Change is what happened to the board after a sequence number.
type Change struct {
	Seq    int64         // of the record now: ask next for changes after it
	All    bool          // Latest holds every ticket, because the caller was far behind
	Latest []*mark.State // the tickets that changed, in no order
}

// Changes returns what changed after a sequence number. It waits until something
// has changed or ctx ends. Start with 0. Changes from other programs are seen
// within the poll time.
func (l *Record) Changes(ctx context.Context, after int64) (Change, error) {
	l.waiters.Add(1)
	defer l.waiters.Add(-1)
	if err := l.refresh(ctx); err != nil {
		return Change{}, err
	}
	for {
		l.mu.RLock()
		changed, c := l.changed, l.since(after)
		l.mu.RUnlock()
		if c.Seq > after {
			return c, nil
		}
		select {
		case <-changed:
		case <-ctx.Done():
			return Change{}, ctx.Err()
		case <-l.closing:
			return Change{}, &Error{Fault: Closed, Where: l.where}
		}
	}
}

// since collects what changed. The caller holds the lock.
func (l *Record) since(after int64) Change {
	c := Change{Seq: l.cache.seq}
	if c.Seq <= after {
		return c
	}
	codes, known := l.cache.since(after)
	if !known {
		c.All, c.Latest = true, l.cache.all()
		return c
	}
	for code := range codes {
		c.Latest = append(c.Latest, l.cache.states[code])
	}
	return c
}

// poll looks for changes from other programs while somebody waits.
func (l *Record) poll() {
	defer l.ended.Done()
	tick := time.NewTicker(l.opts.Poll)
	defer tick.Stop()
	for {
		select {
		case <-l.closing:
			return
		case <-tick.C:
		}
		if l.waiters.Load() == 0 {
			continue
		}
		ctx, cancel := context.WithTimeout(context.Background(), l.opts.Patience)
		// A record that does not answer now is asked again at the next tick.
		// Whoever marks or asks for the board gets the error.
		_ = l.refresh(ctx)
		cancel()
	}
}

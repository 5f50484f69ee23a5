package web

import (
	"sync"
	"time"
)

const (
	freeTries   = 3           // wrong ones that a hand may make before it has to wait
	longestWait = time.Minute // after many wrong tries
	tryWindow   = time.Minute
	triesInAll  = 10   // wrong ones in a window, from all addresses together
	mostSenders = 1000 // remembered
	forgetAfter = time.Hour
)

// tries slows down whoever guesses PINs: each sender, and all of them together,
// since an address costs nothing.
type tries struct {
	now func() time.Time

	mu     sync.Mutex
	by     map[string]sender
	window time.Time // when the count of all began
	wrong  int       // in it
}

type sender struct {
	wrong int
	until time.Time // no try before
}

func newTries(now func() time.Time) *tries { return &tries{now: now, by: map[string]sender{}} }

// try lets a sender try, unless it must wait: then it returns how long. One try
// is judged at a time, so that many at once are not free.
func (t *tries) try(from string, fits func() bool) (ok bool, wait time.Duration) {
	t.mu.Lock()
	defer t.mu.Unlock()
	now := t.now()
	if wait := t.wait(from, now); wait > 0 {
		return false, wait
	}
	if fits() {
		delete(t.by, from)
		return true, 0
	}
	t.failed(from, now)
	return false, 0
}

func (t *tries) wait(from string, now time.Time) time.Duration {
	wait := t.by[from].until.Sub(now)
	if t.wrong >= triesInAll {
		wait = max(wait, t.window.Add(tryWindow).Sub(now))
	}
	return min(max(wait, 0), longestWait)
}

func (t *tries) failed(from string, now time.Time) {
	if age := now.Sub(t.window); age >= tryWindow || age < 0 {
		t.window, t.wrong = now, 0
	}
	t.wrong++
	s := t.by[from]
	s.wrong++
	if over := s.wrong - freeTries; over >= 0 {
		s.until = now.Add(min(time.Second<<min(over, 6), longestWait))
	}
	if len(t.by) >= mostSenders {
		t.forget(now)
	}
	t.by[from] = s
}

// forget drops senders that were long quiet, or all if there are too many: the
// count of all still holds.
func (t *tries) forget(now time.Time) {
	for from, s := range t.by {
		if now.Sub(s.until) > forgetAfter {
			delete(t.by, from)
		}
	}
	if len(t.by) >= mostSenders {
		clear(t.by)
	}
}

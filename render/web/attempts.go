package web

import (
	"sync"
	"time"
)

const (
	freeAttempts  = 3           // wrong PINs from one sender before it must wait
	longestWait   = time.Minute // after many wrong PINs
	attemptWindow = time.Minute
	attemptsInAll = 10   // wrong PINs in a window, from all senders together
	mostSenders   = 1000 // senders remembered
	forgetAfter   = time.Hour
)

// attempts slows down anyone who guesses PINs. It limits each sender, and all
// senders together because an attacker can use many addresses.
type attempts struct {
	now func() time.Time

	mu     sync.Mutex
	by     map[string]sender
	window time.Time // start of the current window
	wrong  int       // wrong PINs in the window
}

type sender struct {
	wrong int
	until time.Time // no attempt allowed before
}

func newAttempts(now func() time.Time) *attempts { return &attempts{now: now, by: map[string]sender{}} }

// try judges an attempt, unless its sender must wait: then it returns how long.
// It judges one attempt at a time, so that many parallel attempts do not escape
// the limit.
func (a *attempts) try(from string, fits func() bool) (ok bool, wait time.Duration) {
	a.mu.Lock()
	defer a.mu.Unlock()
	now := a.now()
	if wait := a.wait(from, now); wait > 0 {
		return false, wait
	}
	if fits() {
		delete(a.by, from)
		return true, 0
	}
	a.failed(from, now)
	return false, 0
}

func (a *attempts) wait(from string, now time.Time) time.Duration {
	wait := a.by[from].until.Sub(now)
	if a.wrong >= attemptsInAll {
		wait = max(wait, a.window.Add(attemptWindow).Sub(now))
	}
	return min(max(wait, 0), longestWait)
}

func (a *attempts) failed(from string, now time.Time) {
	if age := now.Sub(a.window); age >= attemptWindow || age < 0 {
		a.window, a.wrong = now, 0
	}
	a.wrong++
	s := a.by[from]
	s.wrong++
	if over := s.wrong - freeAttempts; over >= 0 {
		s.until = now.Add(min(time.Second<<min(over, 6), longestWait))
	}
	if len(a.by) >= mostSenders {
		a.forget(now)
	}
	a.by[from] = s
}

// forget drops senders that have been quiet for a long time, or all senders if
// there are too many. The limit for all senders together still holds.
func (a *attempts) forget(now time.Time) {
	for from, s := range a.by {
		if now.Sub(s.until) > forgetAfter {
			delete(a.by, from)
		}
	}
	if len(a.by) >= mostSenders {
		clear(a.by)
	}
}

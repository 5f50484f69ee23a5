package web

import (
	"context"
	"errors"
	"sync"
)

// mostStreams is how many boards are open at once, so that they cannot take all
// memory.
const mostStreams = 1000

// streams counts the boards that are open, and makes each change once for all
// of them that wait at the same place.
type streams struct {
	mu     sync.Mutex
	open   int
	making map[boardView]*making
	kept   []boardView // of making, the oldest first
}

// A boardView is how far a board has come, and how it is looked at.
type boardView struct {
	after, to int64
	all       bool
	lang      string // its tag
}

// making is a change that somebody makes or has made.
type making struct {
	done chan struct{} // closed when it is made
	data []byte
	err  error
}

// errUnmade is what those get who waited for a making that broke off.
var errUnmade = errors.New("web: the change was not made")

// mostKept is how many changes are kept for boards that come to their place a
// moment later.
const mostKept = 16

// once returns what work returns, which one caller of a place runs while the
// others wait for it. No lock is held meanwhile: a store that takes its time
// keeps nobody else waiting.
func (st *streams) once(ctx context.Context, at boardView, work func() ([]byte, error)) ([]byte, error) {
	m, mine := st.join(at)
	if mine {
		m.err = errUnmade
		defer func() { // also if work panics: nobody is left waiting
			if m.err != nil {
				st.forget(at, m)
			}
			close(m.done)
		}()
		m.data, m.err = work()
		return m.data, m.err
	}
	select {
	case <-m.done:
		return m.data, m.err
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// join returns the making of a place; mine says that the caller is to make it.
func (st *streams) join(at boardView) (m *making, mine bool) {
	st.mu.Lock()
	defer st.mu.Unlock()
	if m, ok := st.making[at]; ok {
		return m, false
	}
	if st.making == nil {
		st.making = map[boardView]*making{}
	}
	if len(st.kept) >= mostKept {
		delete(st.making, st.kept[0])
		st.kept = st.kept[1:]
	}
	m = &making{done: make(chan struct{})}
	st.making[at], st.kept = m, append(st.kept, at)
	return m, true
}

// forget drops a making that failed, so that the next board tries again.
func (st *streams) forget(at boardView, m *making) {
	st.mu.Lock()
	defer st.mu.Unlock()
	if st.making[at] == m {
		delete(st.making, at)
	}
}

func (st *streams) enter() bool {
	st.mu.Lock()
	defer st.mu.Unlock()
	if st.open >= mostStreams {
		return false
	}
	st.open++
	return true
}

func (st *streams) leave() {
	st.mu.Lock()
	defer st.mu.Unlock()
	st.open--
}

package web

import (
	"context"
	"errors"
	"sync"
)

// mostStreams is the greatest number of open boards, so that they cannot use up
// all memory.
const mostStreams = 1000

// streams counts the open boards, and builds each update once for all boards
// that wait at the same place.
type streams struct {
	mu     sync.Mutex
	open   int
	builds map[boardView]*build
	kept   []boardView // keys of builds, the oldest first
}

// A boardView is how far a board has come, and how its phone sees it.
type boardView struct {
	after, to int64
	all       bool
	lang      string // language tag
}

// A build is an update that one board's request builds for all.
type build struct {
	done chan struct{} // closed when the update is ready
	data []byte
	err  error
}

// errNotBuilt is the error for boards that waited for a build that broke off.
var errNotBuilt = errors.New("web: the update was not built")

// mostKept is how many updates stay available for boards that arrive a moment
// later.
const mostKept = 16

// once returns the result of work for a place. One caller runs work while the
// others wait for the result. It holds no lock meanwhile, so a slow record
// delays nobody else.
func (st *streams) once(ctx context.Context, at boardView, work func() ([]byte, error)) ([]byte, error) {
	m, mine := st.join(at)
	if mine {
		m.err = errNotBuilt
		defer func() { // also if work panics, so that nobody waits forever
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

// join returns the build for a place. If mine is true, the caller must run it.
func (st *streams) join(at boardView) (m *build, mine bool) {
	st.mu.Lock()
	defer st.mu.Unlock()
	if m, ok := st.builds[at]; ok {
		return m, false
	}
	if st.builds == nil {
		st.builds = map[boardView]*build{}
	}
	if len(st.kept) >= mostKept {
		delete(st.builds, st.kept[0])
		st.kept = st.kept[1:]
	}
	m = &build{done: make(chan struct{})}
	st.builds[at], st.kept = m, append(st.kept, at)
	return m, true
}

// forget drops a build that failed, so that the next board tries again.
func (st *streams) forget(at boardView, m *build) {
	st.mu.Lock()
	defer st.mu.Unlock()
	if st.builds[at] == m {
		delete(st.builds, at)
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

package web

import (
	"context"
	"errors"
	"testing"
	"time"

	"shadewright/ticket/mark"
	"shadewright/ticket/mark/record"
)

// A slowRecord always has a change, and reads its board only when the test
// allows it.
type slowRecord struct {
	shopRecord
	entered chan struct{} // signals that a board is requested
	let     chan error    // allows one board to be read
}

func (slowRecord) Changes(_ context.Context, after int64) (record.Change, error) {
	return record.Change{Seq: after + 1}, nil
}

func (s slowRecord) Board(ctx context.Context) (mark.Board, error) {
	s.entered <- struct{}{}
	select {
	case err := <-s.let:
		return mark.Board{}, err
	case <-ctx.Done():
		return mark.Board{}, ctx.Err()
	}
}

func slowServer(t *testing.T) (*Server, slowRecord) {
	t.Helper()
	slow := slowRecord{entered: make(chan struct{}, 10), let: make(chan error)}
	s, err := New(Options{Record: slow, Key: testKey, PIN: testPIN, Days: 1})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.Close)
	return s, slow
}

// arrives waits a long time for a value that comes at once if nothing is
// broken.
func arrives[T any](t *testing.T, from <-chan T, what string) T {
	t.Helper()
	select {
	case v := <-from:
		return v
	case <-time.After(time.Minute):
		t.Fatal(what + " never comes")
	}
	panic("unreachable")
}

// A record that is slow for one board delays no other board, whether it waits
// at another place, arrives or leaves.
func TestSlowRecord(t *testing.T) {
	s, slow := slowServer(t)
	await := func(after int64) <-chan error {
		done := make(chan error, 1)
		go func() {
			_, _, err := s.await(context.Background(), boardView{after: after}, s.opt.Language)
			done <- err
		}()
		return done
	}
	first := await(1)
	arrives(t, slow.entered, "the first board's reading")
	second := await(2)
	arrives(t, slow.entered, "the second board's reading, while the first is read")
	counted := make(chan bool, 1)
	go func() { counted <- s.streams.enter(); s.streams.leave() }()
	if !arrives(t, counted, "another board's opening") {
		t.Error("another board is refused")
	}
	slow.let <- nil
	slow.let <- nil
	for _, c := range []<-chan error{first, second} {
		if err := arrives(t, c, "a change"); err != nil {
			t.Error(err)
		}
	}
}

// Boards that wait at the same place share one update. If one of them gives up,
// the others still get it. If it fails, it is tried again.
func TestChangeIsMadeOnce(t *testing.T) {
	s, slow := slowServer(t)
	type result struct {
		data []byte
		err  error
	}
	await := func(ctx context.Context) <-chan result {
		done := make(chan result, 1)
		go func() {
			_, data, err := s.await(ctx, boardView{after: 1}, s.opt.Language)
			done <- result{data, err}
		}()
		return done
	}
	ctx, cancel := context.WithCancel(context.Background())
	first := await(ctx)
	arrives(t, slow.entered, "the first reading")
	second := await(context.Background())
	gone, goes := context.WithCancel(context.Background())
	third := await(gone)
	goes()
	if r := arrives(t, third, "the end of a board that left"); !errors.Is(r.err, context.Canceled) {
		t.Errorf("a board that left gets %v", r.err)
	}
	cancel() // the second board still needs the reading
	slow.let <- nil
	a, b := arrives(t, first, "the first"), arrives(t, second, "the second")
	if a.err != nil || b.err != nil || string(a.data) != string(b.data) || len(a.data) == 0 {
		t.Errorf("two boards at one place get %q, %v and %q, %v", a.data, a.err, b.data, b.err)
	}
	if len(slow.entered) != 0 {
		t.Error("the board was read twice")
	}
	s.streams = streams{}
	broken := errors.New("broken")
	failed := await(context.Background())
	arrives(t, slow.entered, "a reading that will fail")
	slow.let <- broken
	if r := arrives(t, failed, "a failure"); !errors.Is(r.err, broken) {
		t.Errorf("a reading that fails gives %v", r.err)
	}
	again := await(context.Background())
	arrives(t, slow.entered, "another try")
	slow.let <- nil
	if r := arrives(t, again, "the other try"); r.err != nil {
		t.Error(r.err)
	}
}

// A build that breaks off leaves nobody waiting, and is tried again.
func TestBuildBreaksOff(t *testing.T) {
	var st streams
	begun, end := make(chan struct{}), make(chan struct{})
	go func() {
		defer func() { recover() }() // as the server of every request does
		_, _ = st.once(context.Background(), boardView{}, func() ([]byte, error) {
			close(begun)
			<-end
			panic("broken")
		})
	}()
	arrives(t, begun, "the build")
	waiting := make(chan error, 1)
	m, mine := st.join(boardView{})
	if mine {
		t.Fatal("a second build has started")
	}
	go func() { <-m.done; waiting <- m.err }()
	close(end)
	if err := arrives(t, waiting, "the end of the build"); !errors.Is(err, errNotBuilt) {
		t.Errorf("a board that waited gets %v", err)
	}
	data, err := st.once(context.Background(), boardView{}, func() ([]byte, error) { return []byte("made"), nil })
	if err != nil || string(data) != "made" {
		t.Errorf("another try gives %q, %v", data, err)
	}
}

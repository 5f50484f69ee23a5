package web

import (
	"context"
	"errors"
	"testing"
	"time"

	"shadewright/ticket/mark"
	"shadewright/ticket/mark/record"
)

// A slowStore has changed to whatever is asked after, and reads its board only
// when it is let.
type slowStore struct {
	shopRecord
	entered chan struct{} // told when a board is asked for
	let     chan error    // lets one board be read
}

func (slowStore) Changes(_ context.Context, after int64) (record.Change, error) {
	return record.Change{Seq: after + 1}, nil
}

func (s slowStore) Board(ctx context.Context) (mark.Board, error) {
	s.entered <- struct{}{}
	select {
	case err := <-s.let:
		return mark.Board{}, err
	case <-ctx.Done():
		return mark.Board{}, ctx.Err()
	}
}

func slowScreen(t *testing.T) (*Server, slowStore) {
	t.Helper()
	slow := slowStore{entered: make(chan struct{}, 10), let: make(chan error)}
	s, err := New(Options{Record: slow, Key: testKey, PIN: testPIN, Days: 1})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.Close)
	return s, slow
}

// arrives waits long for what comes at once if nothing is broken.
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

// A store that takes its time over one board keeps no other waiting: neither one
// at another place, nor one that comes or goes.
func TestSlowStore(t *testing.T) {
	s, slow := slowScreen(t)
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

// Boards that wait at the same place share one reading; one that gives up leaves
// the others theirs, and one that fails is tried again.
func TestChangeIsMadeOnce(t *testing.T) {
	s, slow := slowScreen(t)
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
	if r := arrives(t, third, "the end of a board that went"); !errors.Is(r.err, context.Canceled) {
		t.Errorf("a board that went gets %v", r.err)
	}
	cancel() // the reading goes on for the second
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

// A making that breaks off leaves nobody waiting, and is tried again.
func TestMakingBreaksOff(t *testing.T) {
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
	arrives(t, begun, "the making")
	waiting := make(chan error, 1)
	m, mine := st.join(boardView{})
	if mine {
		t.Fatal("a second making is begun")
	}
	go func() { <-m.done; waiting <- m.err }()
	close(end)
	if err := arrives(t, waiting, "the end of the making"); !errors.Is(err, errUnmade) {
		t.Errorf("who waited gets %v", err)
	}
	data, err := st.once(context.Background(), boardView{}, func() ([]byte, error) { return []byte("made"), nil })
	if err != nil || string(data) != "made" {
		t.Errorf("another try gives %q, %v", data, err)
	}
}

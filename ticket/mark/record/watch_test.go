package record

import (
	"context"
	"errors"
	"runtime"
	"testing"
	"time"

	"shadewright/ticket/mark"
)

func TestChanges(t *testing.T) {
	onEach(t, func(t *testing.T, at string) {
		l, other := openWith(t, at, Options{Policy: mark.UsualPolicy(), Poll: 5 * time.Millisecond}), open(t, at)
		a, b := aTicket("bunk-left", 1, 0), aTicket("bunk-left", 2, 0)
		register(t, l, a, b)
		c, err := l.Changes(background, 0)
		if err != nil || c.Seq != 2 || len(c.Latest) != 2 {
			t.Fatalf("from the beginning: %+v, %v", c, err)
		}
		waits, cancel := context.WithCancel(background)
		go func() {
			awaitWaiter(l)
			cancel()
		}()
		if _, err := l.Changes(waits, 2); !errors.Is(err, context.Canceled) {
			t.Errorf("nothing happened, but: %v", err)
		}
		got := make(chan Change)
		go func() {
			c, err := l.Changes(background, 2)
			if err != nil {
				t.Error(err)
			}
			got <- c
		}()
		send(t, other, of(b, mark.Done, ""), mark.Taken) // by another program
		if c := <-got; c.Seq != 3 || len(c.Latest) != 1 || c.Latest[0].Ticket.Code != b.Code || len(c.Latest[0].Steps) != 1 {
			t.Errorf("change %+v", c)
		}
		go func() {
			_, err := l.Changes(background, 3)
			if !errors.Is(err, &Error{Fault: Closed}) {
				t.Errorf("waiting while it closes: %v", err)
			}
			got <- Change{}
		}()
		awaitWaiter(l)
		shut(t, l)
		<-got
		if _, err := l.Mark(background, of(a, mark.Done, "")); !errors.Is(err, &Error{Fault: Closed}) {
			t.Errorf("marking after it closed: %v", err)
		}
	})
}

// awaitWaiter returns once somebody waits for changes.
func awaitWaiter(l *Record) {
	for l.waiters.Load() == 0 {
		runtime.Gosched()
	}
}

package main

import (
	"fmt"
	"io"
	"sync"
	"sync/atomic"
	"time"
)

// A progress is one line on a terminal, written over and over, that says what takes
// so long: nothing within the first second, nothing where standard error is no
// terminal or one that takes lines alone. A nil progress shows nothing.
type progress struct {
	w     io.Writer
	ticks <-chan time.Time
	stop  func()
	end   chan struct{} // closed when nothing more is to be shown
	idle  chan struct{} // closed when nothing more will be

	mu    sync.Mutex
	now   func() string // what is being done
	shown bool
}

// everySecond ticks a second from now, and then every second.
func everySecond() (ticks <-chan time.Time, stop func()) {
	t := time.NewTicker(time.Second)
	return t.C, t.Stop
}

// progress returns what shows the progress of what begins now; it must be wiped.
func (s environment) progress() *progress {
	if !isTerminal(s.err) || s.plainly() {
		return nil
	}
	clock := s.seconds
	if clock == nil {
		clock = everySecond
	}
	p := &progress{w: s.err, end: make(chan struct{}), idle: make(chan struct{})}
	p.ticks, p.stop = clock()
	go p.watch()
	return p
}

// watch shows at each tick what is being done, for a step that says nothing itself.
func (p *progress) watch() {
	defer close(p.idle)
	for {
		select {
		case <-p.end:
			return
		case _, more := <-p.ticks:
			if !more {
				return
			}
			p.show()
		}
	}
}

// say tells what is being done from now on; words is called when it is shown.
func (p *progress) say(words func() string) {
	if p == nil {
		return
	}
	p.mu.Lock()
	p.now = words
	p.mu.Unlock()
	select {
	case <-p.ticks:
		p.show()
	default:
	}
}

// count tells that a number of things is being done, by a format that takes how
// many are done and how many there are; done counts one.
func (p *progress) count(format string, of int) (done func()) {
	var n atomic.Int64
	p.say(func() string { return fmt.Sprintf(format, n.Load(), of) })
	return func() { n.Add(1) }
}

const (
	blankLine = "\r\x1b[K" // to the start of the line, and clear it
	// Between these two, a line that is wider than the terminal stays one line (DECAWM
	// of the VT220, from memory): what flowed on to a second would not be cleared, and
	// each tick would leave a line.
	noWrap, wrap = "\x1b[?7l", "\x1b[?7h"
)

func (p *progress) show() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.now == nil {
		return
	}
	p.shown = true
	// A terminal that is gone is no reason to stop working.
	_, _ = io.WriteString(p.w, blankLine+noWrap+p.now()+wrap)
}

// wipe ends the progress and clears its line. It may be called twice.
func (p *progress) wipe() {
	if p == nil || p.stop == nil {
		return
	}
	p.stop()
	p.stop = nil
	close(p.end)
	<-p.idle
	if p.shown {
		_, _ = io.WriteString(p.w, blankLine) // as above
	}
}

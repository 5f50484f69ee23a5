package main

import (
	"fmt"
	"io"
	"sync"
	"sync/atomic"
	"time"
)

// A progress is one line on a terminal, rewritten every second, that says what the program
// is doing. It shows nothing in the first second, and nothing if standard error is not a
// terminal or is one that cannot rewrite a line. A nil progress shows nothing.
type progress struct {
	w     io.Writer
	ticks <-chan time.Time
	stop  func()
	end   chan struct{} // closed to stop watch
	idle  chan struct{} // closed when watch has stopped

	mu    sync.Mutex
	now   func() string // the words to show
	shown bool
}

// everySecond ticks every second, first a second from now.
func everySecond() (ticks <-chan time.Time, stop func()) {
	t := time.NewTicker(time.Second)
	return t.C, t.Stop
}

// progress starts a progress for the work that begins now. The caller must wipe it.
func (s environment) progress() *progress {
	if !isTerminal(s.err) || s.plainly() || s.hints() != s.err {
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

// watch rewrites the line at each tick, so that it moves even during a step that reports
// nothing.
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

// say sets the words for the work that begins now. They are called when the line is
// shown.
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

// count shows how many things are done. Format takes the number done and the number in
// all; done counts one more.
func (p *progress) count(format string, of int) (done func()) {
	var n atomic.Int64
	p.say(func() string { return fmt.Sprintf(format, n.Load(), of) })
	return func() { n.Add(1) }
}

const (
	blankLine = "\r\x1b[K" // go to the start of the line and clear it
	// These switch the wrapping of lines off and on (DECAWM of the VT220, from memory).
	// blankLine clears one line only: if a long line wrapped, each tick would leave a part
	// of it behind.
	noWrap, wrap = "\x1b[?7l", "\x1b[?7h"
)

func (p *progress) show() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.now == nil {
		return
	}
	p.shown = true
	// Work goes on even if the terminal is gone, so the error is dropped.
	_, _ = io.WriteString(p.w, blankLine+noWrap+p.now()+wrap)
}

// wipe ends the progress and clears its line. Calling it twice is safe.
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

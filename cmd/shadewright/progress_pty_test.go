//go:build linux || darwin

package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/creack/pty"
)

// A glass is a real terminal that collects what is written to it.
type glass struct {
	t    *testing.T
	tty  *os.File
	seen chan string
}

func newGlass(t *testing.T) *glass {
	t.Helper()
	outer, inner, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	g := &glass{t: t, tty: inner, seen: make(chan string, 1)}
	go func() {
		var b bytes.Buffer
		_, _ = io.Copy(&b, outer) // on Linux, closing the other side ends it with an error
		g.seen <- b.String()
		outer.Close()
	}()
	return g
}

// closed closes the terminal and returns all that was written to it.
func (g *glass) closed() string {
	g.t.Helper()
	if err := g.tty.Close(); err != nil {
		g.t.Fatal(err)
	}
	select {
	case s := <-g.seen:
		return s
	case <-time.After(30 * time.Second):
		g.t.Fatal("the terminal does not end")
		return ""
	}
}

// On the clock always, a second has always passed; on the clock never, none does.
func always() (<-chan time.Time, func()) {
	c := make(chan time.Time)
	close(c)
	return c, func() {}
}

func never() (<-chan time.Time, func()) { return nil, func() {} }

// printSample runs print with a standard error and a clock, and returns the summary.
func printSample(t *testing.T, errs io.Writer, seconds func() (<-chan time.Time, func())) string {
	t.Helper()
	var out bytes.Buffer
	dir := t.TempDir()
	s := environment{in: strings.NewReader(""), out: &out, err: errs, dataDir: dir, seconds: seconds}
	if code := run(context.Background(), []string{"print", "--preview", "png", "--preview-dpi", "20", "--out", filepath.Join(dir, "out"), sampleJob}, s); code != exitDone {
		t.Fatalf("print ends with %d: %s", code, out.String())
	}
	return out.String()
}

// pageCounts matches the number of pages at the end of a document's line in a summary.
var pageCounts = regexp.MustCompile(`(?m)^.*\.pdf\t.*, ([0-9]+) (?:sheet|page)s?$`)

// On a terminal, a print that takes long shows what it is doing in one line, and clears the
// line at the end.
func TestPrintingShowsProgress(t *testing.T) {
	g := newGlass(t)
	summary := printSample(t, g.tty, always)
	seen := g.closed()
	files := 0 // each document, and a preview of each of its pages
	for _, m := range pageCounts.FindAllStringSubmatch(summary, -1) {
		pages, err := strconv.Atoi(m[1])
		if err != nil {
			t.Fatal(err)
		}
		files += 1 + pages
	}
	for _, want := range []string{
		"drawing: 0 of 5 documents",
		fmt.Sprintf("writing: 0 of %d files (Ctrl-C stops and keeps the earlier files)", files),
		"registering 10 tickets",
	} {
		before, after, ok := strings.Cut(seen, blankLine+noWrap+want+wrap)
		if !ok {
			t.Fatalf("the terminal never shows %q after the words before it; it shows %q", want, seen)
		}
		if strings.Contains(before, "\n") {
			t.Errorf("before %q the terminal has more than a line: %q", want, before)
		}
		seen = after
	}
	if seen != blankLine {
		t.Errorf("the terminal shows %q at the end; want the line cleared and nothing more", seen)
	}
}

// A print that takes less than a second shows nothing.
func TestPrintingShowsNothingAtFirst(t *testing.T) {
	g := newGlass(t)
	printSample(t, g.tty, never)
	if seen := g.closed(); seen != "" {
		t.Errorf("the terminal shows %q", seen)
	}
}

// A print whose standard error is not a terminal shows nothing, however long it takes.
func TestPrintingShowsNothingInAPipe(t *testing.T) {
	var errs bytes.Buffer
	printSample(t, &errs, always)
	if errs.Len() > 0 {
		t.Errorf("standard error has %q", errs.String())
	}
	from, to, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	printSample(t, to, always)
	if err := to.Close(); err != nil {
		t.Fatal(err)
	}
	if data, err := io.ReadAll(from); err != nil || len(data) > 0 {
		t.Errorf("the pipe has %q, %v", data, err)
	}
}

// A dumb terminal cannot rewrite a line, and a screen reader would read out every one.
func TestProgressOnPlainTerminals(t *testing.T) {
	for _, env := range []string{"TERM=dumb", "ACCESSIBLE=1"} {
		g := newGlass(t)
		p := environment{err: g.tty, environ: []string{env}, seconds: always}.progress()
		p.say(func() string { return "sewing" })
		p.wipe()
		if seen := g.closed(); seen != "" {
			t.Errorf("%s: the terminal shows %q", env, seen)
		}
	}
}

// A progress wider than the terminal leaves nothing behind. If it wrapped to a second line,
// the first would stay. The test uses a model of a terminal 20 letters wide.
func TestProgressOnNarrowTerminal(t *testing.T) {
	g := newGlass(t)
	p := environment{err: g.tty, seconds: always}.progress()
	for range 3 {
		p.say(func() string { return "sewing a seam along three sides of a very wide panel" })
	}
	p.wipe()
	for i, l := range narrow(t, g.closed(), 20) {
		if l != "" {
			t.Errorf("line %d has %q at the end; want it bare", i+1, l)
		}
	}
}

// narrow returns the lines that a terminal of this width shows.
func narrow(t *testing.T, written string, width int) []string {
	t.Helper()
	lines, at, flows := []string{""}, 0, true
	for len(written) > 0 {
		n := 1
		last := &lines[len(lines)-1]
		switch {
		case strings.HasPrefix(written, blankLine):
			n, at, *last = len(blankLine), 0, ""
		case strings.HasPrefix(written, noWrap):
			n, flows = len(noWrap), false
		case strings.HasPrefix(written, wrap):
			n, flows = len(wrap), true
		case written[0] < ' ':
			t.Fatalf("the terminal does not know %q", written)
		case at < width:
			*last += written[:1]
			at++
		case flows:
			lines, at = append(lines, written[:1]), 1
		}
		written = written[n:]
	}
	return lines
}

// The progress of a step that reports nothing is shown at every tick, with how much of it
// is done.
func TestProgressTicks(t *testing.T) {
	g := newGlass(t)
	ticks := make(chan time.Time)
	stopped := 0
	s := environment{err: g.tty, seconds: func() (<-chan time.Time, func()) { return ticks, func() { stopped++ } }}
	p := s.progress()
	tick := func() {
		ticks <- time.Time{}
		ticks <- time.Time{} // is taken only after the first was shown
	}
	tick() // there are no words yet
	done := p.count("sewing: %d of %d", 2)
	tick()
	done()
	tick()
	p.say(func() string { return "sweeping" })
	tick()
	p.wipe()
	p.wipe()
	seen := g.closed()
	rest := seen
	for _, want := range []string{"sewing: 0 of 2", "sewing: 1 of 2", "sweeping"} {
		var ok bool
		if _, rest, ok = strings.Cut(rest, blankLine+noWrap+want+wrap); !ok {
			t.Errorf("the terminal never shows %q in its turn; it shows %q", want, seen)
		}
	}
	if !strings.HasSuffix(seen, blankLine) || stopped != 1 {
		t.Errorf("the terminal shows %q at the end, and the clock was stopped %d times", seen, stopped)
	}
}

// A search for a plan shows its progress by the same clock.
func TestPlanningShowsProgress(t *testing.T) {
	g := newGlass(t)
	var out bytes.Buffer
	s := environment{out: &out, err: g.tty, seconds: always}
	if code := run(context.Background(), []string{"nest", "--width", "58", "--seconds", "1", "../../testdata/pieces.csv"}, s); code != exitDone {
		t.Fatalf("nest ends with %d", code)
	}
	if seen := g.closed(); !strings.HasPrefix(seen, blankLine+noWrap+"laying panels: ") || !strings.HasSuffix(seen, blankLine) {
		t.Errorf("the terminal shows %q", seen)
	}
}

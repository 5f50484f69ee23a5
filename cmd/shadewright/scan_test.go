package main

import (
	"bytes"
	"context"
	"io"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"
)

// printed prints the sample job and returns an environment whose record has its tickets.
func printed(t testing.TB) environment {
	t.Helper()
	s := environment{in: strings.NewReader(""), out: io.Discard, err: io.Discard, dataDir: t.TempDir()}
	if code := run(context.Background(), []string{"print", "--out", t.TempDir(), sampleJob}, s); code != exitDone {
		t.Fatalf("print: exit %d", code)
	}
	return s
}

// The bell rings once for a good line and three times for one that needs attention.
func TestScanSounds(t *testing.T) {
	s := printed(t)
	s.hears = true
	tests := []struct {
		in    string
		args  []string
		rings int
		parts int // pauses between the rings of one answer
	}{
		{"6WNKSHDMPM\n", nil, 1, 0},
		{"ANMN826BJZ\nnothing\n", nil, 1 + 3, 2},
		{"KM46SAXN4E\n", []string{"--quiet"}, 0, 0},
	}
	for _, tt := range tests {
		var errs bytes.Buffer
		s.in, s.err = strings.NewReader(tt.in), &errs
		pauses := 0
		s.pause = func(d time.Duration) {
			if pauses++; d < 100*time.Millisecond {
				t.Errorf("the bell pauses for %s; two rings so close sound as one", d)
			}
		}
		run(context.Background(), append([]string{"scan"}, tt.args...), s)
		got := strings.Count(errs.String(), "\a")
		if got != tt.rings || pauses != tt.parts {
			t.Errorf("%q rings %d times with %d pauses; want %d and %d", tt.in, got, pauses, tt.rings, tt.parts)
		}
	}
}

// An interrupted run ends even if no line comes.
func TestScanInterrupted(t *testing.T) {
	s := printed(t)
	in, typing := io.Pipe()
	defer typing.Close()
	var talk bytes.Buffer
	s.in, s.err = in, &talk
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan int)
	go func() { ended <- run(ctx, []string{"scan"}, s) }()
	cancel()
	select {
	case code := <-ended:
		if code != exitInterrupted {
			t.Errorf("exit %d; want %d", code, exitInterrupted)
		}
		if !strings.HasSuffix(talk.String(), "shadewright: interrupted\n") {
			t.Errorf("it says %q; want that it was interrupted", talk.String())
		}
	case <-time.After(time.Minute):
		t.Fatal("scan does not end")
	}
}

// Large letters are the two halves of a DEC double-height line.
func TestScanLarge(t *testing.T) {
	s := printed(t)
	var out bytes.Buffer
	s.in, s.out = strings.NewReader("x\n"), &out
	run(context.Background(), []string{"scan", "--large"}, s)
	lines := strings.Split(out.String(), "\n")
	if len(lines) != 3 || !strings.HasPrefix(lines[0], "\x1b#3NO  ") || strings.TrimPrefix(lines[0], "\x1b#3") != strings.TrimPrefix(lines[1], "\x1b#4") {
		t.Errorf("answer %q", out.String())
	}
}

// A tap is a writer. Another goroutine can wait for its text.
type tap struct {
	mu   sync.Mutex
	text strings.Builder
	more chan struct{}
}

func newTap() *tap { return &tap{more: make(chan struct{}, 1)} }

func (w *tap) Write(p []byte) (int, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	select {
	case w.more <- struct{}{}:
	default:
	}
	return w.text.Write(p)
}

func (w *tap) String() string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.text.String()
}

// await waits until the text matches, and returns the match.
func (w *tap) await(t testing.TB, pattern string) string {
	t.Helper()
	deadline := time.After(time.Minute)
	for re := regexp.MustCompile(pattern); ; {
		if found := re.FindString(w.String()); found != "" {
			return found
		}
		select {
		case <-w.more:
		case <-deadline:
			t.Fatalf("%q never matches %s", w, pattern)
		}
	}
}

// Watching prints the board again after a change, and ends when the run is interrupted.
func TestBoardWatch(t *testing.T) {
	s := printed(t)
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	out := newTap()
	watching := s
	watching.out = out
	ended := make(chan int, 1)
	go func() { ended <- run(ctx, []string{"board", "--watch"}, watching) }()
	out.await(t, "waiting")
	s.in = strings.NewReader("6WNKSHDMPM\n")
	if code := run(context.Background(), []string{"scan"}, s); code != exitDone {
		t.Fatalf("scan: exit %d", code)
	}
	out.await(t, "begun")
	cancel()
	if code := <-ended; code != exitDone {
		t.Errorf("exit %d; want %d", code, exitDone)
	}
}

// The folders for a user's data are those of the XDG Base Directory Specification, Apple's
// File System Programming Guide and the known folders of Windows.
func TestUserDataDir(t *testing.T) {
	tests := []struct {
		system string
		env    map[string]string
		want   string
	}{
		{"linux", map[string]string{"HOME": "/home/ann"}, "/home/ann/.local/share"},
		{"linux", map[string]string{"HOME": "/home/ann", "XDG_DATA_HOME": "/data"}, "/data"},
		{"linux", map[string]string{"HOME": "/home/ann", "XDG_DATA_HOME": "data"}, "/home/ann/.local/share"},
		{"darwin", map[string]string{"HOME": "/Users/ann"}, "/Users/ann/Library/Application Support"},
		{"windows", map[string]string{"LocalAppData": `C:\Users\ann\AppData\Local`}, `C:\Users\ann\AppData\Local`},
		{"linux", nil, ""},
	}
	for _, tt := range tests {
		got := userDataDir(tt.system, func(name string) string { return tt.env[name] })
		if filepath.ToSlash(got) != filepath.ToSlash(tt.want) {
			t.Errorf("userDataDir(%s, %v) = %q; want %q", tt.system, tt.env, got, tt.want)
		}
	}
}

// BenchmarkScan measures from a line to its answer, with the mark on disk.
func BenchmarkScan(b *testing.B) {
	s := printed(b)
	var lines strings.Builder
	const codes = "6WNKSHDMPM\nANMN826BJZ\n"
	for range 8 {
		lines.WriteString(codes)
	}
	b.ReportAllocs()
	for b.Loop() {
		s.in = strings.NewReader(lines.String())
		run(context.Background(), []string{"scan"}, s)
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*16), "µs/scan")
}

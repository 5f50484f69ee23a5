//go:build linux || darwin

package main

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/creack/pty"

	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
)

// A seat is a real terminal that runs the program.
type seat struct {
	t    *testing.T
	pty  *os.File
	cmd  *exec.Cmd
	done chan error

	mu   sync.Mutex
	seen strings.Builder
	from int // where the next wait starts to look

	more chan struct{} // receives whenever the terminal shows more
}

// controls matches sequences that a screen obeys and does not show (ECMA-48, 5.4 and
// 8.3.89).
var controls = regexp.MustCompile("\x1b\\[[0-9;:?<>=$]*[ -/]*[@-~]|\x1b\\][^\x07\x1b]*(\x07|\x1b\\\\)|\x1bP[^\x1b]*\x1b\\\\|\x1b[=>78]")

func start(t *testing.T, dir string, args ...string) *seat {
	t.Helper()
	return sit(t, dir, exec.Command("shadewright", args...))
}

// sit runs a command in a terminal; its home is dir.
func sit(t *testing.T, dir string, cmd *exec.Cmd) *seat {
	t.Helper()
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "TERM=xterm-256color", "LANG=en_US.UTF-8", "LC_ALL=", "LC_MEASUREMENT=", "LC_PAPER=", "ACCESSIBLE=", "HOME="+dir, "XDG_CONFIG_HOME="+dir, "XDG_DATA_HOME="+dir, "ENV=", "PS1="+ready)
	f, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: 40, Cols: 120})
	if err != nil {
		t.Fatal(err)
	}
	s := &seat{t: t, pty: f, cmd: cmd, done: make(chan error, 1), more: make(chan struct{}, 1)}
	go func() {
		buf := make([]byte, 4096)
		for {
			n, err := f.Read(buf)
			s.mu.Lock()
			s.seen.Write(buf[:n])
			s.mu.Unlock()
			select {
			case s.more <- struct{}{}:
			default:
			}
			if err != nil { // the program has ended, and its screen with it
				s.done <- cmd.Wait()
				return
			}
		}
	}()
	t.Cleanup(func() {
		f.Close()          // ends the reader if the program is still running
		cmd.Process.Kill() // fails if the program has ended, which is fine
	})
	return s
}

func (s *seat) text() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return controls.ReplaceAllString(s.seen.String(), "")
}

// wait waits until the terminal shows the words, after those of the wait before.
func (s *seat) wait(words string) {
	s.t.Helper()
	for deadline := time.After(30 * time.Second); ; {
		if all := s.text(); len(all) >= s.from {
			if at := strings.Index(all[s.from:], words); at >= 0 {
				s.from += at + len(words)
				return
			}
		}
		select {
		case <-s.more:
		case <-deadline:
			s.t.Fatalf("the screen never shows %q; it shows\n%s", words, s.text())
		}
	}
}

func (s *seat) keys(text string) {
	s.t.Helper()
	if _, err := io.WriteString(s.pty, text); err != nil {
		s.t.Fatal(err)
	}
}

// answer waits for the question, types and presses return.
func (s *seat) answer(question, text string) {
	s.t.Helper()
	s.wait(question)
	s.keys(text + "\r")
}

// exit waits for the end and returns the exit code.
func (s *seat) exit() int {
	s.t.Helper()
	select {
	case <-s.done:
		return s.cmd.ProcessState.ExitCode()
	case <-time.After(30 * time.Second):
		s.t.Fatalf("the program does not end; the screen shows\n%s", s.text())
		return 0
	}
}

const (
	ready  = "at the bench> " // the shell's prompt
	escape = "\x1b"
	down   = "\x1b[B"
	ctrlC  = "\x03"
)

// A person measures one shade in a terminal, makes mistakes, goes back, stops and
// continues, then prints and checks the job.
func TestNewInTerminal(t *testing.T) {
	dir := t.TempDir()
	s := start(t, dir, "new", "hut.yaml")
	s.answer("What is the job called?", "Heron Landing")
	s.answer("Who is it for?", "")
	s.answer("When is it due?", "soon")
	s.wait("is not a date") // the error appears under the field
	s.keys(strings.Repeat("\x7f", 4) + "2027-03-01\r")
	s.answer("Which unit do you measure in?", "") // inches, from the locale
	s.wait("Which unit do you measure in: in")
	s.answer("What paper is in the printer?", "")
	s.wait("What paper is in the printer: letter")
	s.answer("What do you call the goods?", "canvas")
	s.answer("What kind of cloth is it?", down+down)
	s.wait("What kind of cloth is it: acrylic-canvas")
	s.answer("How wide is the roll of cloth?", "60")
	s.wait("60 in = 1524 mm")
	s.answer("How wide is the selvage at each side?", "3/4")
	s.answer("How thick is the cloth?", "0.55 mm")
	s.answer("How heavy is the cloth per area?", "9.25 oz/yd2")
	s.answer("How may panels lie on the cloth?", "")
	s.answer("What do you call the roller?", "donor")
	s.answer("What is the outside diameter of the tube?", "1 1/8")
	s.answer("How many of these rollers do you have?", "2")
	s.answer("Does the tube telescope?", "")
	s.wait("How short can you set the tube?")
	s.keys(ctrlC)
	if code := s.exit(); code != exitPart {
		t.Fatalf("stopped with exit code %d; want %d", code, exitPart)
	}
	s = start(t, dir, "new", "hut.yaml")
	s.wait("Continuing after 16 answers")
	s.answer("How short can you set the tube?", "20")
	s.answer("How long can you set the tube?", "36")
	s.answer("What do you call the slat?", "flat")
	s.answer("Is the slat flat or round?", "")
	s.answer("How wide is the slat?", "3/4")
	s.answer("How thick is the slat?", "3/32")
	s.answer("Where does the shade hang?", "over the sink")
	s.answer("What is the shade's short name?", "")
	s.answer("Did you measure the finished shade or the opening?", "")
	s.answer("Finished width?", "31 5/8")
	s.wait("31-5/8 in ≈ 803.3 mm")
	s.wait("Finished length?")
	s.keys(escape)
	s.answer("Finished width?", "27½")
	s.wait("27-1/2 in = 698.5 mm")
	s.answer("Finished length?", "3' 4\"")
	s.answer("How many shades like this?", "2")
	s.answer("On which side of the tube does the cloth fall?", down)
	s.wait("On which side of the tube does the cloth fall: reverse")
	s.answer("Is there anything the bench should know?", "")
	s.wait("over-the-sink is complete. Cut the panel 27-1/2 in wide and 48-3/4 in long, the tube 27-5/8 in, the slat 27-1/4 in.")
	s.answer("Is there another shade?", down)
	if code := s.exit(); code != exitDone {
		t.Fatalf("exit code %d; the screen shows\n%s", code, s.text())
	}
	f, err := jobfile.ReadPath(filepath.Join(dir, "hut.yaml"), jobfile.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if sh := f.Job.Shades[0]; sh.Quantity != 2 || sh.Finished != (measure.Size{Width: measure.Inch * 55 / 2, Length: 40 * measure.Inch}) || sh.Roll.String() != "reverse" {
		t.Errorf("the job has %+v", sh)
	}
	if _, err := os.Stat(filepath.Join(dir, "hut.yaml.unfinished")); err == nil {
		t.Error("the file of answers is still there")
	}
	for _, args := range [][]string{{"check", "hut.yaml"}, {"print", "hut.yaml"}} {
		s = start(t, dir, args...)
		if code := s.exit(); code != exitPart { // the opening was not measured
			t.Errorf("%s: exit code %d\n%s", args, code, s.text())
		}
	}
}

// In a narrow window no line breaks within a word. The library alone would break a date at
// its hyphens and a number at its point.
func TestNewInNarrowWindow(t *testing.T) {
	s := start(t, t.TempDir(), "new", "hut.yaml")
	if err := pty.Setsize(s.pty, &pty.Winsize{Rows: 30, Cols: 60}); err != nil {
		t.Fatal(err)
	}
	s.answer("What is the job called?", "Heron Landing")
	s.answer("Who is it for?", "")
	s.wait("When is it due?")
	s.wait("2027-03-01.")
	s.keys("soon\r")
	s.wait(`"soon" is not a date`)
	s.wait("2027-03-01")
	s.keys(ctrlC)
	if code := s.exit(); code != exitPart {
		t.Errorf("exit code %d; want %d", code, exitPart)
	}
}

// Ctrl-C at a plain line says how to continue, not that a context was cancelled.
func TestPlainInterrupted(t *testing.T) {
	s := start(t, t.TempDir(), "new", "--plain", "hut.yaml")
	s.answer("What is the job called?", "Heron Landing")
	s.wait("Who is it for?")
	s.keys(ctrlC)
	s.wait("shadewright: interrupted; to continue, run shadewright new hut.yaml")
	if code := s.exit(); code != exitInterrupted {
		t.Errorf("exit code %d; want %d", code, exitInterrupted)
	}
}

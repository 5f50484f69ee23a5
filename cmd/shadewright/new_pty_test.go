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
	"unicode/utf8"

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

	pressed int // keys pressed at the questions

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

// keys presses keys, and counts them: an arrow is one key, although it sends three bytes.
func (s *seat) keys(text string) {
	s.t.Helper()
	s.pressed += utf8.RuneCountInString(strings.ReplaceAll(text, down, "v"))
	s.send(text)
}

// send presses keys that are not counted.
func (s *seat) send(text string) {
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

	listAnswers = "\x0c" // ctrl-l
	emptyLine   = "\x15" // ctrl-u
)

// A person measures one shade in a terminal, with the keys of a list, stops in the middle
// and continues, opens the list of answers, then prints and checks the job.
func TestNewInTerminal(t *testing.T) {
	dir := t.TempDir()
	s := start(t, dir, "new", "hut.yaml")
	s.answers([2]string{"What is the job called?", "Heron Landing"}, [2]string{"Who is it for?", ""})
	s.slip("When is it due?", "soon", "is not a date") // the error appears under the field
	s.keys("March 1, 2027\r")
	s.answer("Which unit do you measure in?", "") // inches, from the locale
	s.wait("Which unit do you measure in: in")
	s.answer("What paper is in the printer?", "")
	s.wait("What paper is in the printer: letter")
	s.answers([2]string{"Where does the shade hang?", "over the sink"}, [2]string{"What is the shade's short name?", ""})
	s.answer("Did you measure the opening or the finished shade?", down)
	s.wait("Did you measure the opening or the finished shade: finished shade")
	s.wait("Finished width?")
	s.keys(ctrlC)
	if code := s.exit(); code != exitPart {
		t.Fatalf("stopped with exit code %d; want %d", code, exitPart)
	}
	s = start(t, dir, "new", "hut.yaml")
	s.wait("Continuing after 8 answers")
	s.answer("Finished width?", "31 5/8")
	s.wait("31-5/8 in ≈ 803.3 mm")
	s.wait("Finished length?")
	s.keys(escape)
	s.wait("Finished width?")
	s.wait("31 5/8") // the old answer is there to edit
	s.keys(strings.Repeat("\x7f", 6) + "27½\r")
	s.wait("27-1/2 in = 698.5 mm")
	s.answer("Finished length?", "3' 4\"")
	s.answers([2]string{"What do you call the roller?", "donor"}, [2]string{"What is the outside diameter of the tube of donor?", "?"})
	s.wait("old cloth and tape make it thicker") // the longer explanation
	s.answers([2]string{"What is the outside diameter of the tube of donor?", "1 1/8"}, [2]string{"Does the tube telescope?", ""},
		[2]string{"How short can you set the tube?", "20"}, [2]string{"How long can you set the tube?", "36"}, [2]string{"What is the tube made of?", ""},
		[2]string{"How far do the pins stick out", ""})
	s.wait("unchecked: whether the roller fits between its brackets") // said at once
	s.answers([2]string{"What is the rate of its spring?", down}, [2]string{"How many of these rollers do you have?", "2"},
		[2]string{"What do you call the cloth?", "canvas"})
	s.answer("What kind of cloth is it?", down+down)
	s.wait("What kind of cloth is it: acrylic-canvas")
	s.answers([2]string{"How wide is the roll of cloth?", "60"}, [2]string{"How wide is the selvage at each side?", "3/4"}, [2]string{"How thick is the cloth?", "0.55 mm"},
		[2]string{"How heavy is the cloth?", "9.25 oz/yd2"}, [2]string{"May a panel be laid sideways on the cloth?", ""},
		[2]string{"What do you call the slat?", "flat"}, [2]string{"Is the slat flat or round?", ""}, [2]string{"How wide is the slat?", "3/4"}, [2]string{"How thick is the slat?", "3/32"},
		[2]string{"What is the slat made of?", down}, [2]string{"Did a shade of this size hang there", down})
	s.answer("On which side of the roller does the cloth come down?", down)
	s.answers([2]string{"How many shades like this?", "2"}, [2]string{"Is there anything the bench should know?", ""})
	s.wait("over-the-sink is complete. Cut the panel 27-1/2 in wide and 48-3/4 in long, the tube 27-5/8 in, the slat 27-1/4 in.")
	s.wait("Is there another shade?")
	s.keys(listAnswers)
	s.wait("Which answer do you want to change?")
	s.keys("\r") // the first row changes nothing
	s.answer("Is there another shade?", down)
	if code := s.exit(); code != exitDone {
		t.Fatalf("exit code %d; the screen shows\n%s", code, s.text())
	}
	f, err := jobfile.ReadPath(filepath.Join(dir, "hut.yaml"), jobfile.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if sh := f.Job.Shades[0]; sh.Quantity != 2 || sh.Finished != (measure.Size{Width: measure.Inch * 55 / 2, Length: 40 * measure.Inch}) || sh.Roll.String() != "reverse" || !sh.AsBefore {
		t.Errorf("the job has %+v", sh)
	}
	if _, err := os.Stat(filepath.Join(dir, "hut.yaml.unfinished")); err == nil {
		t.Error("the file of answers is still there")
	}
	for _, args := range [][]string{{"check", "hut.yaml"}, {"print", "hut.yaml"}} {
		s = start(t, dir, args...)
		if code := s.exit(); code != exitDone {
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
	s.wait("2027-06-25.")
	s.keys("soon\r")
	s.wait(`"soon" is not a date`)
	s.wait("2027-06-05")
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

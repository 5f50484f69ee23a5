//go:build linux || darwin

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// keptJob is a job with its owner's remarks.
const keptJob = `# The hut, as measured on a wet day.
job: Heron hut     # short
id: 5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31
units: in
paper: letter
goods:
  mesh: {kind: coated-mesh, width: 58, thickness: 0.6 mm, lay: any}   # the last roll
rollers:
  donor: {tube: 1-1/8, shortest: 20, longest: 36, count: 2}
slats:
  flat: {width: 3/4, thickness: 3/32}

# from the door round
shades:
  - id: left
    goods: mesh
    roller: donor
    slat: flat
    finished: {width: 27-1/2, length: 40}   # measured twice

  # The crank is new.
  - id: right
    goods: mesh
    roller: donor
    slat: flat
    finished: {width: 26, length: 37}
`

// A person changes one width of a job in a terminal, removes a shade and adds one. Only
// these lines of the file change.
func TestEditInTerminal(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "hut.yaml")
	if err := os.WriteFile(path, []byte(keptJob), 0o600); err != nil {
		t.Fatal(err)
	}
	s := start(t, dir, "new", "hut.yaml")
	s.wait("Heron hut, 2 shades, bare numbers in in.")
	s.answer("What do you want to do?", "change a shade")
	s.answer("Which shade do you want to change?", "left")
	s.answer("Which answer do you want to change?", "finished width")
	s.wait("Finished width?")
	s.wait("27-1/2")                                    // the present answer, ready to edit
	s.keys(strings.Repeat("\x7f", 3) + "1/3\r")         // wrong first
	s.wait("fraction with the denominator 3")           // the error appears under the field
	s.keys(strings.Repeat("\x7f", 3) + "5/8\r")         // and then right
	s.wait("Finished width: 27-5/8 in ≈ 701.7 mm")      // 27.625 × 25.4 = 701.675, by hand
	s.answer("Which answer do you want to change?", "") // done
	s.answer("What do you want to do?", "remove")
	s.wait("Which shade do you want to remove?")
	s.keys(escape) // back
	s.answer("What do you want to do?", "remove")
	s.answer("Which shade do you want to remove?", "right")
	s.wait("right is removed.")
	s.answer("What do you want to do?", "add")
	s.answer("Where does the shade hang?", "over the sink")
	s.answer("What is the shade's short name?", "")
	s.answer("Did you measure the opening or the finished shade?", "finished")
	s.answer("Finished width?", "31")
	s.answer("Finished length?", "41")
	s.answer("Which roller?", "")
	s.answer("Which cloth?", "")
	s.answer("Which slat?", "")
	s.answer("Did a shade of this size hang there", "")
	s.answer("the cloth come", "")
	s.answer("How many shades like this?", "")
	s.answer("Is there anything the bench should know?", "")
	s.answer("What do you want to do?", "write")
	s.wait("old 19:     finished: {width: 27-1/2, length: 40}   # measured twice")
	s.wait("new 19:     finished: {width: 27-5/8, length: 40}   # measured twice")
	s.answer("Write these changes to hut.yaml?", "")
	if code := s.exit(); code != exitDone {
		t.Fatalf("exit code %d; the screen shows\n%s", code, s.text())
	}
	want := strings.Replace(keptJob, "27-1/2, length: 40", "27-5/8, length: 40", 1)
	want = want[:strings.Index(want, "  # The crank is new.")] + `  - id: over-the-sink
    place: over the sink
    goods: mesh
    roller: donor
    slat: flat
    finished: {width: 31, length: 41}
`
	got, err := os.ReadFile(path)
	if err != nil || string(got) != want {
		t.Errorf("%v: the file is\n%s\nwant\n%s", err, got, want)
	}
	if info, err := os.Stat(path); err != nil || info.Mode() != 0o600 {
		t.Errorf("%v: the file may be read by others: %v", err, info.Mode())
	}
}

// Ctrl-c leaves the job as it is, and says so.
func TestEditInterrupted(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "hut.yaml")
	if err := os.WriteFile(path, []byte(keptJob), 0o600); err != nil {
		t.Fatal(err)
	}
	s := start(t, dir, "new", "hut.yaml")
	s.answer("What do you want to do?", "remove")
	s.answer("Which shade do you want to remove?", "right")
	s.wait("right is removed.")
	s.wait("What do you want to do?")
	s.keys(ctrlC)
	s.wait("stopped; hut.yaml is unchanged")
	if code := s.exit(); code != exitPart {
		t.Errorf("exit code %d; want %d", code, exitPart)
	}
	if got, err := os.ReadFile(path); err != nil || string(got) != keptJob {
		t.Errorf("%v: the file is\n%s", err, got)
	}
}

// A file that somebody saves meanwhile is not overwritten.
func TestEditMeanwhile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "hut.yaml")
	if err := os.WriteFile(path, []byte(keptJob), 0o600); err != nil {
		t.Fatal(err)
	}
	s := start(t, dir, "new", "hut.yaml")
	s.answer("What do you want to do?", "remove")
	s.answer("Which shade do you want to remove?", "right")
	s.answer("What do you want to do?", "write")
	s.wait("Write these changes to hut.yaml?")
	if err := os.WriteFile(path, []byte(keptJob+"# saved by hand\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	s.keys("\r")
	s.wait("hut.yaml: another program changed it meanwhile, so nothing is written")
	if code := s.exit(); code != exitFailed {
		t.Errorf("exit code %d; want %d", code, exitFailed)
	}
	if got, err := os.ReadFile(path); err != nil || string(got) != keptJob+"# saved by hand\n" {
		t.Errorf("%v: the file is\n%s", err, got)
	}
}

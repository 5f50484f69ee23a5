//go:build linux || darwin

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
)

// run types a command into the shell.
func (s *seat) run(command string) {
	s.t.Helper()
	s.wait(ready)
	s.keys(command + "; echo left with $?\r")
	s.wait("echo left with $?") // the shell's echo of the command
}

// left waits for the exit code of the running command.
func (s *seat) left(code int) {
	s.t.Helper()
	s.wait(fmt.Sprintf("left with %d", code))
}

// slip gives a wrong answer, waits for the reply, and deletes the answer.
func (s *seat) slip(question, text, says string) {
	s.t.Helper()
	s.wait(question)
	s.keys(text + "\r")
	s.wait(says)
	s.keys(strings.Repeat("\x7f", len([]rune(text))))
}

// A person measures six openings, prints and checks, in one sitting at one shell. There
// are wrong answers, a step back, a shade that cannot be made as measured, and a break for
// lunch.
func TestFirstJobInTerminal(t *testing.T) {
	if testing.Short() {
		t.Skip("a whole sitting in a terminal takes some seconds")
	}
	dir := t.TempDir()
	s := sit(t, dir, exec.Command("sh"))
	s.run("shadewright new gull.yaml")
	s.measureParts()
	s.measureFirst()

	// Lunch: ctrl-c in the middle of the second shade, then continue.
	s.answer("Where does the shade hang?", "stairs")
	s.answer("What is the shade's short name?", "")
	s.wait("Did you measure the finished shade or the opening?")
	s.keys(ctrlC)
	s.wait("stopped; to continue, run shadewright new gull.yaml")
	s.left(exitPart)
	s.run("shadewright new gull.yaml")
	s.wait("Continuing after")

	s.measureOpening()
	s.measureTooWide()
	for _, id := range []string{"porch", "loft", "berth"} {
		s.another(id)
		s.answer("Did you measure the finished shade or the opening?", "fin") // the beginning of a word is enough
		s.answer("Finished width?", "28 1/4")
		s.wait("28-1/4 in ≈ 717.6 mm")
		s.answer("Finished length?", "4 ft 2 in")
		s.wait("50 in = 1270 mm")
		s.finish()
		s.wait(id + " is complete. Cut the panel 28-1/4 in wide and 58-3/4 in long")
	}
	s.answer("Is there another shade?", "no")
	s.wait("6 shades; next: shadewright check gull.yaml")
	s.left(exitDone)

	s.run("shadewright print gull.yaml")
	s.wait("tickets of 6 shades, 6 pages")
	s.wait("6 new tickets registered")
	s.left(exitPart) // only half was measured
	s.run("shadewright check gull.yaml")
	s.wait("berth")
	s.left(exitPart) // only half was measured
	s.run("shadewright new gull.yaml")
	s.wait("already exists; use another name, or edit the file")
	s.left(exitFailed)
	s.wait(ready)
	s.keys("exit\r")
	s.exit()

	sixOpenings(t, dir)
}

// measureParts answers the questions about the job, its cloth, roller and slat.
func (s *seat) measureParts() {
	s.t.Helper()
	s.answer("What is the job called?", "Gull Point")
	s.answer("Who is it for?", "")
	s.answer("When is it due?", "")
	s.answer("Which unit do you measure in?", "")
	s.wait("Which unit do you measure in: in")
	s.slip("What paper is in the printer?", "papyrus", "is not a known paper; write a3, a4, a5")
	s.keys("\r")
	s.wait("What paper is in the printer: letter")
	s.answer("What do you call the goods?", "mesh")
	s.wait("What kind of cloth is it?")
	s.keys("velvet\r") // typed, although a list is shown
	s.wait("is not one of the words allowed here; write coated-mesh")
	s.keys("coated-m\r")
	s.wait("What kind of cloth is it: coated-mesh")
	s.slip("How wide is the roll of cloth?", "wide", "is missing a number; write for example 31-5/8")
	s.keys("60\r")
	s.wait("60 in = 1524 mm")
	s.answer("How wide is the selvage at each side?", "3/4")
	s.answer("How thick is the cloth?", "0.6 mm")
	s.answer("How heavy is the cloth per area?", "13 oz/yd2")
	s.answer("How may panels lie on the cloth?", "any")
	s.answer("What do you call the roller?", "donor")
	s.answer("What is the outside diameter of the tube?", "1 1/8")
	s.answer("How many of these rollers do you have?", "6")
	s.answer("Does the tube telescope?", "yes")
	s.answer("How short can you set the tube?", "20")
	s.answer("How long can you set the tube?", "44")
	s.answer("What do you call the slat?", "flat")
	s.answer("Is the slat flat or round?", "")
	s.answer("How wide is the slat?", "1")
	s.answer("How thick is the slat?", "3/32")
}

// measureFirst measures the first shade with several wrong answers: nonsense, an
// impossible unit, a negative length. Then it goes back a question.
func (s *seat) measureFirst() {
	s.t.Helper()
	s.answer("Where does the shade hang?", "over the sink")
	s.answer("What is the shade's short name?", "sink")
	s.answer("Did you measure the finished shade or the opening?", "")
	s.slip("Finished width?", "about a yard", "is missing a number; write for example 31-5/8")
	s.keys("31 5/8 mm\r")
	s.wait("is a fraction of a metric unit; write a decimal, for example 803.5 mm, or add in if it means inches")
	s.keys(strings.Repeat("\x7f", 9) + "-31\r")
	s.wait("is negative; write a length above zero")
	s.keys(strings.Repeat("\x7f", 3) + "31 5/8\r")
	s.wait("31-5/8 in ≈ 803.3 mm")
	s.wait("Finished length?")
	s.keys(escape)
	s.answer("Finished width?", "33 3/4")
	s.wait("33-3/4 in ≈ 857.3 mm")
	s.answer("Finished length?", "40")
	s.finish()
	s.wait("sink is complete. Cut the panel 33-3/4 in wide and 48-3/4 in long, the tube 33-7/8 in, the slat 33-1/2 in.")
	s.wait("note: the pocket is snug") // the finding appears at once
	s.answer("Is there another shade?", "")
	for _, part := range []string{"goods", "roller", "slat"} {
		s.answer("Which "+part+"?", "")
	}
}

// measureOpening measures the second shade as an opening, with widths in two units, as read
// off two rules.
func (s *seat) measureOpening() {
	s.t.Helper()
	s.answer("Did you measure the finished shade or the opening?", "opening")
	s.answer("What are the brackets fixed to?", "inside")
	s.answer("Width of the opening at the top?", "34 7/16")
	s.answer("Width of the opening in the middle?", "874 mm")
	s.wait("874 mm")
	s.answer("Width of the opening at the bottom?", "34.5")
	s.answer("Height of the opening at the left?", "52")
	s.answer("Height of the opening in the middle?", "")
	s.answer("Height of the opening at the right?", "")
	s.answer("Diagonal of the opening from the top left?", "")
	s.answer("How deep is the recess?", "")
	s.finish()
	s.wait("stairs is complete. Cut the panel")
}

// measureTooWide measures a shade that is wider than the roller reaches, sees the stop at
// once, and goes back to a width that fits.
func (s *seat) measureTooWide() {
	s.t.Helper()
	s.another("wide")
	s.answer("Did you measure the finished shade or the opening?", "")
	s.answer("Finished width?", "48")
	s.answer("Finished length?", "40")
	s.finish()
	s.wait("stop: the tube has to be 48-1/8 in, and roller donor reaches only 44 in; use another roller, or make the finished")
	s.wait("width") // the terminal is too narrow for the whole line
	s.wait("This shade cannot be made. Go back to change it")
	for _, question := range []string{"Is there another shade?", "Is there anything the bench should know?", "On which side of the tube does the cloth fall?", "How many shades like this?", "Finished length?"} {
		s.wait(question)
		s.keys(escape)
	}
	s.answer("Finished width?", "28")
	s.answer("Finished length?", "40")
	s.finish()
	s.wait("wide is complete. Cut the panel 28 in wide")
}

// another starts one more shade with the same parts.
func (s *seat) another(id string) {
	s.t.Helper()
	s.answer("Is there another shade?", "")
	for _, part := range []string{"goods", "roller", "slat"} {
		s.answer("Which "+part+"?", "")
	}
	s.answer("Where does the shade hang?", "")
	s.answer("What is the shade's short name?", id)
}

// finish accepts the defaults for the rest of a shade.
func (s *seat) finish() {
	s.t.Helper()
	for _, question := range []string{"How many shades like this?", "On which side of the tube does the cloth fall?", "Is there anything the bench should know?"} {
		s.answer(question, "")
	}
}

// sixOpenings checks the files that the sitting left on disk.
func sixOpenings(t *testing.T, dir string) {
	t.Helper()
	f, err := jobfile.ReadPath(filepath.Join(dir, "gull.yaml"), jobfile.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, sh := range f.Job.Shades {
		got = append(got, sh.ID)
	}
	if ids := strings.Join(got, " "); ids != "sink stairs wide porch loft berth" || f.Job.Shades[0].Finished.Width != measure.Inch*135/4 || f.Job.Shades[2].Finished.Width != 28*measure.Inch {
		t.Errorf("the job has %s; the first is %v wide, the third %v", ids, f.Job.Shades[0].Finished.Width, f.Job.Shades[2].Finished.Width)
	}
	pages := func(name string) int {
		data, err := os.ReadFile(filepath.Join(dir, "gull", name))
		if err != nil {
			t.Fatal(err)
		}
		return bytes.Count(data, []byte("/Type /Page\n"))
	}
	if n := pages("tickets.pdf"); n != 6 {
		t.Errorf("tickets.pdf has %d pages; want 6, one for each opening", n)
	}
	for _, name := range []string{"template.pdf", "tags.pdf", "cutplan.pdf"} {
		if pages(name) < 1 {
			t.Errorf("%s has no page", name)
		}
	}
	if _, err := os.Stat(filepath.Join(dir, "gull.yaml.unfinished")); err == nil {
		t.Error("the file of answers is still there")
	}
}

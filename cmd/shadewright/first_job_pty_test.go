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
	s.send(command + "; echo left with $?\r")
	s.wait("echo left with $?") // the shell's echo of the command
}

// left waits for the exit code of the running command.
func (s *seat) left(code int) {
	s.t.Helper()
	s.wait(fmt.Sprintf("left with %d", code))
}

// slip gives a wrong answer, waits for the reply, and empties the line.
func (s *seat) slip(question, text, says string) {
	s.t.Helper()
	s.answer(question, text)
	s.wait(says)
	s.keys(emptyLine)
}

// answers gives several answers, each a question and a text.
func (s *seat) answers(pairs ...[2]string) {
	s.t.Helper()
	for _, p := range pairs {
		s.answer(p[0], p[1])
	}
}

// A person measures six openings, prints and checks, in one sitting at one shell: inside
// and outside, one with a crank, one out of square, two cloths, four donor rollers of
// which one exists three times. Eight answers are wrong, and there is a break for lunch.
// Nothing is unchecked in the end.
func TestFirstJobInTerminal(t *testing.T) {
	if testing.Short() {
		t.Skip("a whole sitting in a terminal takes some seconds")
	}
	dir := t.TempDir()
	s := sit(t, dir, exec.Command("sh"))
	s.run("shadewright new gull.yaml")
	s.pressed = 0
	s.measureJob()
	s.measureSink()
	s.measureStairs()

	// Lunch: ctrl-c in the middle of the third shade, then continue.
	s.answer("Where does the shade hang?", "crank")
	s.wait("What is the shade's short name?")
	s.keys(ctrlC)
	s.wait("stopped; to continue, run shadewright new gull.yaml")
	s.left(exitPart)
	s.run("shadewright new gull.yaml")
	s.wait("Continuing after")

	s.measureCrank()
	s.measureLoft()
	s.measurePorch()
	s.measureBerth()
	s.correctDepth()
	s.answer("Is there another shade?", "no")
	s.wait("6 shades; next: shadewright check gull.yaml")
	s.left(exitDone)
	t.Logf("%d keys for six openings with eight wrong answers", s.pressed)

	s.run("shadewright print gull.yaml")
	s.wait("tickets of 6 shades")
	s.wait("6 new tickets registered")
	s.left(exitDone)
	s.run("shadewright check gull.yaml")
	s.wait("berth")
	s.left(exitDone)
	s.wait(ready)
	s.send("exit\r")
	s.exit()

	sixOpenings(t, dir)
}

func (s *seat) measureJob() {
	s.t.Helper()
	s.answers([2]string{"What is the job called?", "Gull Point"}, [2]string{"Who is it for?", ""})
	s.slip("When is it due?", "6/5/2027", "could be Saturday, 5 June 2027 or Thursday, 6 May 2027") // the first slip
	s.keys("june 5 2027\r")
	s.wait("Saturday, 5 June 2027")
	s.answers([2]string{"Which unit do you measure in?", ""}, [2]string{"What paper is in the printer?", ""})
}

// measureSink measures the first opening, with everything that it is made of.
func (s *seat) measureSink() {
	s.t.Helper()
	s.answers([2]string{"Where does the shade hang?", "sink"}, [2]string{"What is the shade's short name?", ""},
		[2]string{"Did you measure the opening or the finished shade?", ""}, [2]string{"Where do the brackets go?", ""})
	s.slip("Widths of the opening: top, middle, bottom?", "30 30 12 30", "has 4 lengths; write 1 to 3: top, middle, bottom") // the second slip
	s.keys("30 30 30 1/16\r")
	s.wait("30, 30, 30-1/16 (in)")
	s.answers([2]string{"Heights of the opening: left, middle, right?", "40 40 40"})
	s.slip("Diagonals of the opening: from top left, from top right?", "75 75", "cannot be a diagonal") // the third slip
	s.keys("50 50\r")
	s.answers([2]string{"How deep is the recess?", "44"}, // the fourth slip, put right at the end
		[2]string{"What stands out from the glass or the wall?", "none"},
		[2]string{"What do you call the bracket?", "jamb"}, [2]string{"How wide and high is the plate of bracket jamb?", "3/4 1 1/2"},
		[2]string{"Where does the roller's tip bear on the plate", "3/8 3/4"}, [2]string{"How far does the bracket hold the roller off its surface?", "1/16"},
		[2]string{"Where is a screw hole", "3/8 1/4 5/32"})
	s.lastHole("3/8 1 1/4 5/32")
	s.answers([2]string{"What are the brackets screwed into?", "wood"},
		[2]string{"What do you call the roller?", "donor"}, [2]string{"What is the outside diameter of the tube of donor?", "1 1/8"}, [2]string{"Does the tube telescope?", ""},
		[2]string{"How short can you set the tube?", "20"})
	s.slip("How long can you set the tube?", "18", "is not shorter than the longest, 18 in") // the fifth slip
	s.keys("36\r")
	s.answers([2]string{"What is the tube made of?", ""}, [2]string{"How far do the pins stick out: flat pin, round pin?", "1/4 1/4"},
		[2]string{"What is the rate of its spring?", "t"}, [2]string{"How many of these rollers do you have?", "3"},
		[2]string{"What do you call the cloth?", "mesh"})
	s.answer("What kind of cloth is it?", "velvet") // the sixth slip: typed, although a list is shown
	s.wait("is not one of the words allowed here; write coated-mesh")
	s.keys("coated-m\r")
	s.wait("What kind of cloth is it: coated-mesh")
	s.answers([2]string{"How wide is the roll of cloth?", "60"}, [2]string{"How wide is the selvage at each side?", "3/4"}, [2]string{"How thick is the cloth?", ".6mm"},
		[2]string{"How heavy is the cloth?", "440 g/m2"}, [2]string{"May a panel be laid sideways on the cloth?", "y"},
		[2]string{"What do you call the slat?", "flat"}, [2]string{"Is the slat flat or round?", ""}, [2]string{"How wide is the slat?", "1"}, [2]string{"How thick is the slat?", "3/32"},
		[2]string{"What is the slat made of?", "a"}, [2]string{"On which side of the roller does the cloth come down?", ""}, [2]string{"How deep is the slat's pocket, laid flat?", ""})
	s.finish("sink is complete. Cut the panel 28-7/8 in wide") // 30 in less 1-1/8 in (two measuring guides)
}

// measureStairs measures an outside mount, goes back a question, and sees the old answer.
func (s *seat) measureStairs() {
	s.t.Helper()
	s.opening("stairs", "o")
	s.answer("Widths of the opening: top, middle, bottom?", "82 82 82") // the seventh slip
	s.wait("Heights of the opening: left, middle, right?")
	s.keys(escape)
	s.wait("Widths of the opening: top, middle, bottom?")
	s.keys(emptyLine + "28 28 28\r")
	s.answers([2]string{"Heights of the opening: left, middle, right?", "44 44 44"},
		[2]string{"How far does the cloth cover the wall: left, right, above, below?", ""}, [2]string{"What stands out from the glass or the wall?", "none"},
		[2]string{"Which bracket?", "another"}, [2]string{"What do you call the bracket?", "wall"}, [2]string{"How wide and high is the plate of bracket wall?", "1 2"},
		[2]string{"Where does the roller's tip bear on the plate", "1 1 1/4"}, [2]string{"How far does the bracket hold the roller off its surface?", "1 5/8"},
		[2]string{"Where is a screw hole", "3/8 3/8 3/16"})
	s.lastHole("3/8 1 5/8 3/16")
	s.answer("What are the brackets screwed into?", "d")
	s.parts("")
	s.finish("stairs is complete. Cut the panel 31 in wide") // 28 + 1-1/2 + 1-1/2 in
}

// measureCrank measures an opening with a crank, whose cloth comes down on the room side.
func (s *seat) measureCrank() {
	s.t.Helper()
	s.answers([2]string{"What is the shade's short name?", ""}, [2]string{"Did you measure the opening or the finished shade?", ""}, [2]string{"Where do the brackets go?", "i"})
	s.answers([2]string{"Widths of the opening: top, middle, bottom?", "30 30 30"}, [2]string{"Heights of the opening: left, middle, right?", "46 46 46"},
		[2]string{"Diagonals of the opening: from top left, from top right?", "54 15/16 54 15/16"}, [2]string{"How deep is the recess?", "4"},
		[2]string{"What stands out from the glass or the wall?", "c"}) // the eighth slip: a crank or a casing
	s.wait("could mean crank or casing")
	s.keys("cr\r")
	s.answers([2]string{"How far does the crank stand out?", "1 1/4"}, [2]string{"How far below the roller is the crank?", "30"}, [2]string{"What else stands out?", ""},
		[2]string{"Which bracket?", ""}, [2]string{"What are the brackets screwed into?", ""})
	s.parts("r")
	s.finish("crank is complete. Cut the panel 28-7/8 in wide")
}

// measureLoft measures an opening that is out of square, with a roller that is sawn.
func (s *seat) measureLoft() {
	s.t.Helper()
	s.opening("loft", "")
	s.answers([2]string{"Widths of the opening: top, middle, bottom?", "34 34 34"}, [2]string{"Heights of the opening: left, middle, right?", "36 36 36"},
		[2]string{"Diagonals of the opening: from top left, from top right?", "49 3/8 49 5/8"}, [2]string{"How deep is the recess?", "4"}, [2]string{"What stands out from the glass or the wall?", "n"},
		[2]string{"Which bracket?", ""}, [2]string{"What are the brackets screwed into?", ""},
		[2]string{"Which roller?", ""}, [2]string{"What do you call the roller?", "fixed"}, [2]string{"What is the outside diameter of the tube of fixed?", "1 1/4"},
		[2]string{"Does the tube telescope?", "n"}, [2]string{"How long is the tube?", "40"})
	s.donor()
	s.answers([2]string{"Which cloth?", ""}, [2]string{"Which slat?", ""}, [2]string{"On which side of the roller does the cloth come down?", "g"})
	s.finish("caution: the opening is out of square: its diagonals differ by 1/4 in") // 49-5/8 less 49-3/8 in
}

// measurePorch measures a wide outside mount with another cloth.
func (s *seat) measurePorch() {
	s.t.Helper()
	s.opening("porch", "o")
	s.answers([2]string{"Widths of the opening: top, middle, bottom?", "44 44 44"}, [2]string{"Heights of the opening: left, middle, right?", "50 50 50"},
		[2]string{"How far does the cloth cover the wall: left, right, above, below?", ""}, [2]string{"What stands out from the glass or the wall?", "n"},
		[2]string{"Which bracket?", ""}, [2]string{"What are the brackets screwed into?", ""},
		[2]string{"Which roller?", ""}, [2]string{"What do you call the roller?", "long"}, [2]string{"What is the outside diameter of the tube of long?", "1 1/2"},
		[2]string{"Does the tube telescope?", ""}, [2]string{"How short can you set the tube?", "34"}, [2]string{"How long can you set the tube?", "60"})
	s.donor()
	s.answers([2]string{"Which cloth?", "a"}, [2]string{"What do you call the cloth?", "canvas"}, [2]string{"What kind of cloth is it?", "a"},
		[2]string{"How wide is the roll of cloth?", "60"}, [2]string{"How wide is the selvage at each side?", "3/4"}, [2]string{"How thick is the cloth?", ".55mm"},
		[2]string{"How heavy is the cloth?", "9.25 oz/yd2"}, [2]string{"May a panel be laid sideways on the cloth?", ""},
		[2]string{"Which slat?", ""}, [2]string{"On which side of the roller does the cloth come down?", ""}, [2]string{"How deep is the slat's pocket, laid flat?", ""})
	s.finish("porch is complete. Cut the panel 47 in wide") // 44 + 1-1/2 + 1-1/2 in
}

// measureBerth measures a small opening on the thinnest roller.
func (s *seat) measureBerth() {
	s.t.Helper()
	s.opening("berth", "i")
	s.answers([2]string{"Widths of the opening: top, middle, bottom?", "26 26 26"}, [2]string{"Heights of the opening: left, middle, right?", "30 30 30"},
		[2]string{"Diagonals of the opening: from top left, from top right?", "39 11/16 39 11/16"}, [2]string{"How deep is the recess?", "4"}, [2]string{"What stands out from the glass or the wall?", "n"},
		[2]string{"Which bracket?", ""}, [2]string{"What are the brackets screwed into?", ""},
		[2]string{"Which roller?", ""}, [2]string{"What do you call the roller?", "thin"}, [2]string{"What is the outside diameter of the tube of thin?", "1"},
		[2]string{"Does the tube telescope?", ""}, [2]string{"How short can you set the tube?", "20"}, [2]string{"How long can you set the tube?", "30"})
	s.donor()
	s.answers([2]string{"Which cloth?", "m"}, [2]string{"Which slat?", ""}, [2]string{"On which side of the roller does the cloth come down?", ""})
	s.finish("berth is complete. Cut the panel 24-7/8 in wide") // 26 less 1-1/8 in
}

// correctDepth puts right a depth that was typed five shades ago, with one answer out of
// the list of all answers.
func (s *seat) correctDepth() {
	s.t.Helper()
	s.answer("Is there another shade?", "")
	s.wait("Where does the shade hang?")
	s.keys(listAnswers)
	s.wait("Which answer do you want to change?")
	s.keys("13\r") // the number of the row
	s.wait("How deep is the recess?")
	s.keys(emptyLine + "4\r")
	s.wait("How deep is the recess: 4 in = 101.6 mm")
	s.wait("Where does the shade hang?") // nothing after it is asked again
	s.keys(escape)
}

// lastHole gives the second hole of a bracket, and says that there is no other.
func (s *seat) lastHole(text string) {
	s.t.Helper()
	s.answer("Where is the next screw hole?", text)
	s.wait("Where is the next screw hole: across")
	s.answer("Where is the next screw hole?", "")
}

// opening starts one more shade, with its place and its mount.
func (s *seat) opening(place, mount string) {
	s.t.Helper()
	s.answers([2]string{"Where does the shade hang?", place}, [2]string{"What is the shade's short name?", ""},
		[2]string{"Did you measure the opening or the finished shade?", ""}, [2]string{"Where do the brackets go?", mount})
}

// parts takes the parts that are offered first, and says where the cloth comes down.
func (s *seat) parts(side string) {
	s.t.Helper()
	s.answers([2]string{"Which roller?", ""}, [2]string{"Which cloth?", ""}, [2]string{"Which slat?", ""}, [2]string{"On which side of the roller does the cloth come down?", side})
}

// donor answers what is alike for every donor roller.
func (s *seat) donor() {
	s.t.Helper()
	s.answers([2]string{"What is the tube made of?", ""}, [2]string{"How far do the pins stick out: flat pin, round pin?", "1/4 1/4"},
		[2]string{"What is the rate of its spring?", "t"}, [2]string{"How many of these rollers do you have?", ""})
}

// finish ends a shade, waits for what it says, and starts the next one unless it is the
// last.
func (s *seat) finish(says string) {
	s.t.Helper()
	s.answers([2]string{"How many shades like this?", ""}, [2]string{"Is there anything the bench should know?", ""})
	s.wait(says)
	if !strings.HasPrefix(says, "berth") {
		s.answer("Is there another shade?", "")
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
		got = append(got, sh.ID+" on "+sh.Roller.Name)
	}
	const want = "sink on donor, stairs on donor, crank on donor, loft on fixed, porch on long, berth on thin"
	if all := strings.Join(got, ", "); all != want || f.Job.DueText() != "2027-06-05" {
		t.Errorf("the job has %s, due %s; want %s", all, f.Job.DueText(), want)
	}
	if d := f.Job.Shades[0].Opening.Depth; d == nil || *d != 4*measure.Inch {
		t.Errorf("the first recess is %v deep; want 4 in, as corrected", d)
	}
	if w := f.Job.Shades[1].Opening.Widths; w[0] != 28*measure.Inch {
		t.Errorf("the second opening is %v wide; want 28 in, as corrected", w)
	}
	pages := func(name string) int {
		data, err := os.ReadFile(filepath.Join(dir, "gull", name))
		if err != nil {
			t.Fatal(err)
		}
		return bytes.Count(data, []byte("/Type /Page\n"))
	}
	for name, least := range map[string]int{"tickets.pdf": 6, "mounting.pdf": 6, "template.pdf": 1, "tags.pdf": 1, "cutplan.pdf": 1} {
		if n := pages(name); n < least {
			t.Errorf("%s has %d pages; want at least %d", name, n, least)
		}
	}
	if _, err := os.Stat(filepath.Join(dir, "gull.yaml.unfinished")); err == nil {
		t.Error("the file of answers is still there")
	}
}

package main

import (
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// Every example exits with 0 except those in exitOf. Those in asIs run until somebody
// stops them, so the tests only read them.
var (
	exitOf = map[string]int{"new": exitPart} // nobody answers its questions
	asIs   = map[string]bool{"serve": true, "scan": true}
)

// workshop makes a folder with the repository's samples and the program, for a person who
// pastes examples.
func workshop(t *testing.T) string {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("the examples need a POSIX shell")
	}
	dir := t.TempDir()
	if err := os.CopyFS(filepath.Join(dir, "testdata"), os.DirFS("../../testdata")); err != nil {
		t.Fatal(err)
	}
	return dir
}

// paste runs one line in a shell, unchanged.
func paste(t *testing.T, dir, line string) {
	t.Helper()
	name := strings.Fields(line)[1]
	if asIs[name] || strings.Contains(line, "--watch") {
		return
	}
	c := exec.Command("sh", "-c", line)
	c.Dir = dir
	c.Env = append(os.Environ(), "HOME="+dir, "XDG_CONFIG_HOME="+dir, "XDG_DATA_HOME="+dir)
	out, err := c.CombinedOutput()
	want := exitOf[name]
	if strings.Contains(line, "--sheet") { // asks nothing, so it needs no answers
		want = 0
	}
	if !strings.Contains(line, "testdata/") && (name == "check" || name == "print") {
		want = c.ProcessState.ExitCode()
		if want != exitDone && want != exitPart { // a job that an example made may lack measures
			want = exitDone
		}
	}
	if c.ProcessState == nil || c.ProcessState.ExitCode() != want {
		t.Errorf("%s\n%v\n%s", line, err, out)
	}
}

// The example of every command's --help works as pasted.
func TestHelpExamples(t *testing.T) {
	for _, c := range newRoot(environment{}).Commands() {
		t.Run(c.Name(), func(t *testing.T) {
			if c.Example == "" {
				t.Fatal("has no example")
			}
			dir := workshop(t)
			for line := range strings.SplitSeq(c.Example, "\n") {
				paste(t, dir, strings.TrimSpace(line))
			}
		})
	}
}

// commands returns the lines of a guide that run the program. Such lines are indented by at
// least four spaces.
func commands(t *testing.T, fsys fs.FS, path string) []string {
	t.Helper()
	data, err := fs.ReadFile(fsys, path)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for line := range strings.SplitSeq(string(data), "\n") {
		code, ok := strings.CutPrefix(line, "    ")
		code = strings.TrimSpace(strings.Replace(code, "go run ./cmd/shadewright", "shadewright", 1))
		if ok && strings.HasPrefix(code, "shadewright ") {
			out = append(out, code)
		}
	}
	return out
}

// Every command in the guides and in the README works as pasted, one after another.
func TestGuides(t *testing.T) {
	list, err := topics()
	if err != nil || len(list) < 4 {
		t.Fatalf("%d topics, %v", len(list), err)
	}
	run := func(name string, lines []string) {
		t.Run(name, func(t *testing.T) {
			if len(lines) == 0 {
				t.Error("shows no command")
			}
			dir := workshop(t)
			for _, line := range lines {
				paste(t, dir, line)
			}
		})
	}
	for _, topic := range list {
		run(topic[0], commands(t, guides, "help/"+topic[0]+".md"))
	}
	run("README", commands(t, os.DirFS("../.."), "README.md"))
}

// A command refuses arguments that it does not take.
func TestExamplesAreOurs(t *testing.T) {
	for _, c := range newRoot(environment{}).Commands() {
		for line := range strings.SplitSeq(c.Example, "\n") {
			if want := "  shadewright " + c.Name(); !strings.HasPrefix(line, want) {
				t.Errorf("an example of %s is %q; want it to begin %q", c.Name(), line, want)
			}
		}
		if c.RunE == nil && !c.HasSubCommands() {
			t.Errorf("%s does nothing", c.Name())
		}
	}
}

package main

import (
	"fmt"
	"os"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"

	"shadewright/render/sheet"
	"shadewright/ticket/jobfile"
)

func doc(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile("../../" + name)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// README.md names every command, and every module that go.mod asks for by itself.
func TestReadme(t *testing.T) {
	readme := doc(t, "README.md")
	for _, c := range newRoot(environment{}).Commands() {
		if !c.Hidden && !strings.Contains(readme, "`shadewright "+c.Name()) {
			t.Errorf("README.md does not name the command %s", c.Name())
		}
	}
	for line := range strings.Lines(doc(t, "go.mod")) {
		if m := direct.FindStringSubmatch(line); m != nil && !strings.Contains(readme, m[1]) {
			t.Errorf("README.md does not say what %s is for", m[1])
		}
	}
}

var direct = regexp.MustCompile(`^\t(\S+) v\S+\n$`)

// A job file names the papers that are printed on, no more and no fewer: its
// schema lists what check takes.
func TestPapers(t *testing.T) {
	if !slices.Equal(jobfile.Papers, sheet.Names()) {
		t.Errorf("a job file takes the papers %q and sheets are made of %q", jobfile.Papers, sheet.Names())
	}
}

// DEVELOPERS.md has every package on its map, and the program's exit codes.
func TestDevelopers(t *testing.T) {
	developers := doc(t, "DEVELOPERS.md")
	_, plan, _ := strings.Cut(developers, "## The map")
	plan, _, _ = strings.Cut(plan, "\n## ")
	for pkg := range packages(t, "Imports", self+"...") {
		if name := path.Base(pkg) + "/"; !strings.Contains(plan, name) {
			t.Errorf("the map in DEVELOPERS.md has no %s for %s", name, pkg)
		}
	}
	_, table, _ := strings.Cut(developers, "## Exit codes")
	table, _, _ = strings.Cut(table, "\n## ")
	var want strings.Builder
	for _, e := range exitCodes {
		fmt.Fprintf(&want, "| %d | %s |\n", e.code, e.meaning)
	}
	if _, rows, _ := strings.Cut(table, "| --- | --- |\n"); strings.TrimSpace(rows) != strings.TrimSpace(want.String()) {
		t.Errorf("the exit codes in DEVELOPERS.md are\n%swant\n%s", rows, want.String())
	}
}

package main

import (
	"fmt"
	"os"
	"path"
	"regexp"
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

// README.md names every command, and every module that go.mod requires directly.
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

// The schema in the repository matches the table of keys.
func TestSchemaFile(t *testing.T) {
	const path = "../../testdata/job.schema.json"
	want, err := jobfile.Schema(jobfile.Options{Papers: sheet.Names()})
	if err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != string(want) {
		t.Errorf("%s does not match the table; renew it with: go run ./cmd/shadewright schema > testdata/job.schema.json", path)
	}
}

// DEVELOPERS.md has every package on its map. It and the guide for programs list the
// program's exit codes.
func TestDevelopers(t *testing.T) {
	developers := doc(t, "DEVELOPERS.md")
	_, plan, _ := strings.Cut(developers, "## The map")
	plan, _, _ = strings.Cut(plan, "\n## ")
	for pkg := range packages(t, "Imports", self+"...") {
		if name := path.Base(pkg) + "/"; !strings.Contains(plan, name) {
			t.Errorf("the map in DEVELOPERS.md has no %s for %s", name, pkg)
		}
	}
	var want strings.Builder
	for _, e := range exitCodes {
		fmt.Fprintf(&want, "| %d | %s |\n", e.code, e.meaning)
	}
	for _, name := range []string{"DEVELOPERS.md", "cmd/shadewright/help/programs.md"} {
		_, table, _ := strings.Cut(doc(t, name), "## Exit codes")
		_, rows, _ := strings.Cut(table, "| --- | --- |\n")
		if rows, _, _ = strings.Cut(rows, "\n\n"); strings.TrimSpace(rows) != strings.TrimSpace(want.String()) {
			t.Errorf("the exit codes in %s are\n%s\nwant\n%s", name, rows, want.String())
		}
	}
}

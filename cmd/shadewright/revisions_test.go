package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"shadewright/ticket"
)

// revisionsFile has the revisions of the sample jobs, and one ticket's values.
const revisionsFile = "testdata/revisions.golden"

// Printed paper stays valid until a value on it changes. This test keeps the revisions of
// the sample jobs: a change of the program that changes them would call good paper
// superseded. If you add a value or change its meaning, raise [ticket.PrintedFormat], which
// keeps earlier paper valid.
func TestRevisions(t *testing.T) {
	var b strings.Builder
	var values *ticket.Ticket
	for _, name := range []string{"bunkhouse", "leanto", "narrowboat"} {
		path := filepath.Join("../../testdata/jobs", name+".yaml")
		var errs strings.Builder
		l, err := loadJob(t.Context(), environment{err: &errs}, &settingFlags{}, path)
		if err != nil {
			t.Fatal(err)
		}
		for _, k := range l.tickets {
			fmt.Fprintf(&b, "%s\t%s\t%s\t%s\n", name, k.Name(), k.Code.Grouped(), k.Revision)
			if k.Wind != nil && k.Drilling != nil && values == nil {
				values = k
			}
		}
	}
	fmt.Fprintf(&b, "\nThe values of %s:\n%s", values.Name(), values.Printed())
	if *update {
		if err := os.WriteFile(revisionsFile, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	kept, err := os.ReadFile(revisionsFile)
	if err != nil {
		t.Fatal(err)
	}
	got, want := strings.Split(b.String(), "\n"), strings.Split(string(kept), "\n")
	for i := range max(len(got), len(want)) {
		var a, b string
		if i < len(got) {
			a = got[i]
		}
		if i < len(want) {
			b = want[i]
		}
		if a != b {
			t.Errorf("%s:%d: now %q, kept %q; if the sample jobs changed, keep the new ones: go test ./cmd/shadewright -run Revisions -update", revisionsFile, i+1, a, b)
		}
	}
}

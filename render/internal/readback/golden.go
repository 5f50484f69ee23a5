package readback

import (
	"flag"
	"os"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "replace the golden files with the current drawings; look at the pages first")

// Golden compares a drawing, one mark on each line, with the golden file. With
// the flag -update it writes the drawing to the file instead. A missing file
// fails the test.
func Golden(t *testing.T, name, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(name, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	kept, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if got == string(kept) {
		return
	}
	a, b := strings.Split(got, "\n"), strings.Split(string(kept), "\n")
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			t.Fatalf("%s:%d: drawn %q; the file has %q; to accept the new drawing, run: go test -run Golden -update", name, i+1, a[i], b[i])
		}
	}
	t.Fatalf("%s: %d marks drawn, %d in the file", name, len(a), len(b))
}

package readback

import (
	"flag"
	"os"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "keep drawings as they are now; look at the pages first")

// Golden holds a drawing, one mark a line, against the one that is kept in a
// file; with the flag -update it keeps the drawing there instead. A missing file
// fails.
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
			t.Fatalf("%s:%d: drawn %q; kept %q; to keep the new drawing: go test -run Golden -update", name, i+1, a[i], b[i])
		}
	}
	t.Fatalf("%s: %d marks drawn, %d kept", name, len(a), len(b))
}

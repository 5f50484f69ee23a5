package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"shadewright/ticket/nest"
)

// An interrupted search gives the best plan so far and says so, even if the interrupt came
// before the search began.
func TestInterruptedNest(t *testing.T) {
	var b strings.Builder
	b.WriteString("label,width,length,turn\n")
	for i := range 60 {
		fmt.Fprintf(&b, "p%d,%d mm,%d mm,yes\n", i, 300+i*i%457, 400+i*37%613)
	}
	path := filepath.Join(t.TempDir(), "pieces.csv")
	if err := os.WriteFile(path, []byte(b.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	var out, talk bytes.Buffer
	code := run(ctx, []string{"nest", "--width", "54in", "--seconds", "3600", "--json", path}, environment{out: &out, err: &talk})
	var r nest.Report
	if err := json.Unmarshal(out.Bytes(), &r); err != nil || code != exitDone || len(r.Pieces) != 60 || r.Proven || r.Used < r.Bound {
		t.Errorf("exit %d, %v, %d pieces, used %v, bound %v", code, err, len(r.Pieces), r.Used, r.Bound)
	}
	if want := "shadewright: interrupted: this is the best plan so far\n"; talk.String() != want {
		t.Errorf("says %q; want %q", talk.String(), want)
	}
}

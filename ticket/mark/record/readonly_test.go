package record

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"shadewright/ticket/mark"
)

// TestReadOnlyFile removes the right to write from the file, then from its folder.
func TestReadOnlyFile(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("root may write to everything; a read-only disk is tried instead where one can be mounted")
	}
	at := newFile(t)
	l := open(t, at)
	a := aTicket("bunk-left", 1, 0)
	register(t, l, a)
	shut(t, l)
	change := func(path string, mode os.FileMode) {
		if err := os.Chmod(path, mode); err != nil {
			t.Fatal(err)
		}
	}
	change(at, 0o400)
	if _, err := Open(background, at, Options{}); !errors.Is(err, &Error{Fault: ReadOnly}) {
		t.Errorf("a read-only file: %v", err)
	}
	change(at, 0o600)
	if runtime.GOOS != "windows" { // folders have no such mode there
		change(filepath.Dir(at), 0o500)
		if _, err := Open(background, at, Options{}); !errors.Is(err, &Error{Fault: ReadOnly}) {
			t.Errorf("a read-only folder: %v", err)
		}
		change(filepath.Dir(at), 0o700)
	}
	send(t, open(t, at), of(a, mark.Done, ""), mark.Taken)
}

package record

import (
	"bytes"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"shadewright/ticket/message"
)

func TestDamaged(t *testing.T) {
	good := newFile(t)
	l := open(t, good)
	for i := range 40 {
		register(t, l, aTicket(fmt.Sprintf("bunk-%d", i), 1, 0))
	}
	shut(t, l)
	content, err := os.ReadFile(good)
	if err != nil {
		t.Fatal(err)
	}
	noise := func(from, to int) []byte {
		b := bytes.Clone(content)
		for i := from; i < to; i++ {
			b[i] ^= 0x5a
		}
		return b
	}
	tests := []struct {
		name    string
		content []byte
		fault   Fault
	}{
		{"a text file", []byte("six shades to re-cover\n"), Foreign},
		{"a picture", append([]byte("\x89PNG\r\n\x1a\n"), make([]byte, 4096)...), Foreign},
		{"the beginning overwritten", noise(0, 16), Foreign},
		{"a page overwritten", noise(2*4096, 3*4096), Damaged},
		{"cut short", content[:len(content)-4096-100], Damaged},
		{"another program's database", otherDatabase(t), Foreign},
	}
	for _, tt := range tests {
		at := newFile(t)
		if err := os.WriteFile(at, tt.content, 0o600); err != nil {
			t.Fatal(err)
		}
		_, err := Open(background, at, Options{})
		if !errors.Is(err, &Error{Fault: tt.fault}) || !strings.HasPrefix(err.Error(), message.Of(advice[tt.fault], at).String()) {
			t.Errorf("%s: %v; want fault %d", tt.name, err, tt.fault)
		}
		after, err := os.ReadFile(at)
		if err != nil || !bytes.Equal(after, tt.content) {
			t.Errorf("%s was changed, %v", tt.name, err)
		}
	}
	empty := newFile(t)
	if err := os.WriteFile(empty, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	open(t, empty) // an empty file is a new record
}

func otherDatabase(t *testing.T) []byte {
	t.Helper()
	at := filepath.Join(t.TempDir(), "other.db")
	db, err := sql.Open("sqlite", at)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := db.Exec("CREATE TABLE recipes (name TEXT)"); err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	content, err := os.ReadFile(at)
	if err != nil {
		t.Fatal(err)
	}
	return content
}

// A path may have characters that mean something in an address.
func TestOddPaths(t *testing.T) {
	for _, name := range []string{"a b.db", "50%25.db", "what?mode=memory.db", "#1.db", "Полка.db"} {
		at := filepath.Join(t.TempDir(), "new folder", name)
		if strings.ContainsAny(name, "?") && os.PathSeparator == '\\' {
			continue // not a valid name there
		}
		l := open(t, at)
		register(t, l, aTicket("bunk-left", 1, 0))
		shut(t, l)
		if _, err := os.Stat(at); err != nil {
			t.Errorf("%q: %v", name, err)
		}
	}
}

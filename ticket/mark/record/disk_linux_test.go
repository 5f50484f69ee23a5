package record

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"shadewright/ticket/mark"
)

// smallDisk mounts a file system of 1 MiB in memory.
func smallDisk(t *testing.T) string {
	t.Helper()
	disk := t.TempDir()
	if err := syscall.Mount("shadewright-test", disk, "tmpfs", 0, "size=1m"); err != nil {
		t.Skipf("no small disk to fill: mounting one needs root (%v)", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(disk, 0); err != nil {
			t.Error(err)
		}
	})
	return disk
}

// TestFullDisk fills a real disk around the record, and makes room again.
func TestFullDisk(t *testing.T) {
	disk := smallDisk(t)
	at := filepath.Join(disk, "marks.db")
	l := open(t, at)
	a := aTicket("bunk-left", 1, 0)
	register(t, l, a)
	kind := func(i int) mark.Kind { return []mark.Kind{mark.Held, mark.Released}[i%2] }
	filler := filepath.Join(disk, "filler")
	if err := os.WriteFile(filler, bytes.Repeat([]byte("x"), 600<<10), 0o600); err != nil {
		t.Fatal(err)
	}
	var kept []mark.Mark
	var last mark.Mark
	for i := 0; ; i++ {
		last = of(a, kind(i), "")
		if _, err := l.Mark(background, last); err == nil {
			if kept = append(kept, last); len(kept) > 5000 {
				t.Fatal("the disk never got full")
			}
			continue
		} else if !errors.Is(err, &Error{Fault: Full}) || !strings.Contains(err.Error(), "make room and try again") {
			t.Fatal(err)
		}
		break
	}
	if _, err := l.Mark(background, last); !errors.Is(err, &Error{Fault: Full}) {
		t.Errorf("still full, but: %v", err)
	}
	if _, err := l.Board(background); err != nil {
		t.Errorf("reading the board on a full disk: %v", err)
	}
	if err := os.Remove(filler); err != nil {
		t.Fatal(err)
	}
	send(t, l, last, mark.Taken) // service resumes by itself
	for _, m := range kept {
		send(t, l, m, mark.Again)
	}
	shut(t, l)
	ids := map[string]bool{last.ID.String(): true}
	for _, m := range kept {
		ids[m.ID.String()] = true
	}
	checkAll(t, at, ids)
	t.Logf("%d marks until the disk was full", len(kept))
}

// TestReadOnlyDisk makes the disk of a record read-only.
func TestReadOnlyDisk(t *testing.T) {
	disk := smallDisk(t)
	at := filepath.Join(disk, "marks.db")
	l := open(t, at)
	a := aTicket("bunk-left", 1, 0)
	register(t, l, a)
	m := of(a, mark.Done, "")
	send(t, l, m, mark.Taken)
	shut(t, l)
	remount := func(flags uintptr) {
		if err := syscall.Mount("", disk, "", syscall.MS_REMOUNT|flags, ""); err != nil {
			t.Fatal(err)
		}
	}
	remount(syscall.MS_RDONLY)
	_, err := Open(background, at, Options{})
	if !errors.Is(err, &Error{Fault: ReadOnly}) || !strings.Contains(err.Error(), "let this user write to the file and its folder") {
		t.Errorf("on a read-only disk: %v", err)
	}
	remount(0)
	send(t, open(t, at), m, mark.Again)
}

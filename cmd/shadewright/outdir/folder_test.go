package outdir

import (
	"context"
	"errors"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
)

// listed returns the names and contents of a folder's files.
func listed(t *testing.T, dir string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	files := map[string]string{}
	for _, e := range entries {
		if !e.IsDir() {
			data, e2 := os.ReadFile(filepath.Join(dir, e.Name()))
			files[e.Name()], err = string(data), errors.Join(err, e2)
		}
	}
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// After a run that was cut off between two renames, the next run knows every file as its
// own.
func TestCutOffRun(t *testing.T) {
	dir := t.TempDir()
	old := []Document{{Name: "a.pdf", Data: []byte("old a")}, {Name: "b.pdf", Data: []byte("old b")}}
	if _, err := (Folder{Dir: dir}).Write(t.Context(), old); err != nil {
		t.Fatal(err)
	}
	next := []Document{{Name: "a.pdf", Data: []byte("new a")}, {Name: "b.pdf", Data: []byte("new b")}}
	before, err := readManifest(dir)
	if err != nil {
		t.Fatal(err)
	}
	// What write does up to the first rename.
	files := []written{{name: "a.pdf", sum: sum(next[0].Data)}, {name: "b.pdf", sum: sum(next[1].Data)}}
	if err := replaceManifest(dir, sums(files, before, cutOffNote)); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "a.pdf"), next[0].Data, 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := (Folder{Dir: dir}).Write(t.Context(), next); err != nil {
		t.Errorf("after a run that was cut off: %v", err)
	}
	all := listed(t, dir)
	if all["a.pdf"] != "new a" || all["b.pdf"] != "new b" || len(all) != 3 {
		t.Errorf("files are %q", all)
	}
}

// If a file cannot be replaced, the error names the new and the old files. On some
// systems a viewer that keeps a file open causes this; here a folder takes the file's
// place after the checks. The manifest says so too, and the next run mends it.
func TestHalfReplaced(t *testing.T) {
	docs := func(what string) []Document {
		return []Document{{Name: "a.pdf", Data: []byte(what + " a")}, {Name: "b.pdf", Data: []byte(what + " b")}, {Name: "c.pdf", Data: []byte(what + " c")}}
	}
	for _, tt := range []struct {
		blocked string
		want    string // after the cause
		note    string
	}{
		{"a.pdf", "; the earlier files are unchanged", manifestNote},
		{"b.pdf", "; already new: a.pdf; still from an earlier run, if there: b.pdf and c.pdf; do not work by this mix: close the file if it is open, then print again", cutOffNote},
	} {
		dir := t.TempDir()
		if _, err := (Folder{Dir: dir}).Write(t.Context(), docs("old")); err != nil {
			t.Fatal(err)
		}
		name := filepath.Join(dir, tt.blocked)
		block := sync.OnceFunc(func() {
			if err := errors.Join(os.Remove(name), os.Mkdir(name, 0o755), os.WriteFile(filepath.Join(name, "x"), nil, 0o644)); err != nil {
				t.Error(err)
			}
		})
		_, err := (Folder{Dir: dir, Wrote: block}).Write(t.Context(), docs("new"))
		if err == nil || !strings.HasPrefix(err.Error(), name+": cannot be replaced: ") || !strings.HasSuffix(err.Error(), tt.want) || strings.Contains(err.Error(), ".pdf.") {
			t.Errorf("%s blocked: %v; want it to end in %q", tt.blocked, err, tt.want)
		}
		if m, err := readManifest(dir); err != nil || m.Note != tt.note {
			t.Errorf("%s blocked: the list says %q, %v", tt.blocked, m.Note, err)
		}
		if err := os.RemoveAll(name); err != nil {
			t.Fatal(err)
		}
		if _, err := (Folder{Dir: dir}).Write(t.Context(), docs("new")); err != nil {
			t.Errorf("the next run: %v", err)
		}
		all := listed(t, dir)
		if m, err := readManifest(dir); err != nil || m.Note != manifestNote || len(all) != 4 || all["a.pdf"] != "new a" || all["b.pdf"] != "new b" || all["c.pdf"] != "new c" {
			t.Errorf("after the next run: %q, the list says %q, %v", all, m.Note, err)
		}
	}
}

// A later run removes the files aside of a killed run. It leaves files that may belong to
// a running one, and files with other names.
func TestLeftAside(t *testing.T) {
	dir := t.TempDir()
	long := time.Date(2001, 1, 1, 0, 0, 0, 0, time.UTC)
	for _, name := range []string{".a.pdf.123", ".printed.json.7", ".a.pdf.x1", ".mine.pdf.123", "a.pdf.123"} {
		path := filepath.Join(dir, name)
		if err := errors.Join(os.WriteFile(path, nil, 0o644), os.Chtimes(path, long, long)); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(filepath.Join(dir, ".a.pdf.124"), nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := (Folder{Dir: dir}).Write(t.Context(), []Document{{Name: "a.pdf"}}); err != nil {
		t.Fatal(err)
	}
	got := slices.Sorted(maps.Keys(listed(t, dir)))
	if want := []string{".a.pdf.124", ".a.pdf.x1", ".mine.pdf.123", "a.pdf", "a.pdf.123", "printed.json"}; !slices.Equal(got, want) {
		t.Errorf("the folder has %q; want %q", got, want)
	}
}

// A folder in place of a file is an error before anything is replaced, even by force.
func TestFolderInTheWay(t *testing.T) {
	dir := t.TempDir()
	if err := os.MkdirAll(filepath.Join(dir, "b.pdf", "x"), 0o755); err != nil {
		t.Fatal(err)
	}
	for _, force := range []bool{false, true} {
		_, err := (Folder{Dir: dir, Force: force}).Write(t.Context(), []Document{{Name: "a.pdf"}, {Name: "b.pdf"}})
		if err == nil || !strings.Contains(err.Error(), "b.pdf: is a folder in place of a file; move it away") || len(listed(t, dir)) != 0 {
			t.Errorf("force %t: %v, and the folder has %q", force, err, listed(t, dir))
		}
	}
}

// A run that is interrupted while it writes leaves the earlier files, and no file aside.
func TestInterruptedWriting(t *testing.T) {
	dir := t.TempDir()
	if _, err := (Folder{Dir: dir}).Write(t.Context(), []Document{{Name: "a.pdf", Data: []byte("old")}}); err != nil {
		t.Fatal(err)
	}
	before := listed(t, dir)
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	made := 0
	docs := []Document{{Name: "a.pdf", Data: []byte("new")}, {Name: "preview-a-01.png", Make: func() ([]byte, error) { stop(); made++; return []byte("dots"), nil }}}
	for range 100 {
		docs = append(docs, Document{Name: "preview-a-02.png", Make: func() ([]byte, error) {
			<-ctx.Done()
			return []byte("more"), nil
		}})
	}
	_, err := (Folder{Dir: dir}).Write(ctx, docs)
	if !errors.Is(err, context.Canceled) || made != 1 || err.Error() != "interrupted: nothing was written to "+dir+"; earlier files are unchanged" {
		t.Errorf("interrupted: %v, %d pictures made", err, made)
	}
	if after := listed(t, dir); !maps.Equal(before, after) {
		t.Errorf("the folder has %q; want %q", after, before)
	}
}

// A picture that cannot be made stops the run, and the error names it.
func TestPictureFails(t *testing.T) {
	dir := t.TempDir()
	_, err := (Folder{Dir: dir}).Write(t.Context(), []Document{{Name: "a.pdf", Data: []byte("a")}, {Name: "preview-a-01.png", Make: func() ([]byte, error) { return nil, errors.New("torn") }}})
	if err == nil || err.Error() != "preview-a-01.png: torn" || len(listed(t, dir)) != 0 {
		t.Errorf("%v, and the folder has %q", err, listed(t, dir))
	}
}

// A manifest with a name that leads out of the folder removes nothing outside.
func TestManifestOfAnother(t *testing.T) {
	dir := t.TempDir()
	inner := filepath.Join(dir, "paper")
	if err := os.MkdirAll(filepath.Join(inner, "preview-"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "mine"), []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	m := manifest{Files: map[string][]string{"preview-/../../mine": {sum([]byte("mine"))}}}
	if err := replaceManifest(inner, m); err != nil {
		t.Fatal(err)
	}
	if _, err := (Folder{Dir: inner, Outdated: func(name string) bool { return strings.HasPrefix(name, "preview-") }}).Write(t.Context(), []Document{{Name: "a.pdf"}}); err != nil {
		t.Fatal(err)
	}
	if data, err := os.ReadFile(filepath.Join(dir, "mine")); err != nil || string(data) != "mine" {
		t.Errorf("the file outside is %q, %v", data, err)
	}
}

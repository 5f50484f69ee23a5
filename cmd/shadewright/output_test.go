package main

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

const sampleJob = "../../testdata/jobs/bunkhouse.yaml"

// shadewright runs a command line in this process.
func shadewright(t *testing.T, args ...string) (code int, out, errs string) {
	t.Helper()
	var o, e bytes.Buffer
	s := environment{in: strings.NewReader(""), out: &o, err: &e, dataDir: t.TempDir()}
	code = run(context.Background(), args, s)
	return code, o.String(), e.String()
}

// listed returns the names and contents of a folder's files.
func listed(t *testing.T, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		files[filepath.Base(path)] = string(data)
		return err
	})
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		t.Fatal(err)
	}
	return files
}

func TestFolderIsAFile(t *testing.T) {
	name := filepath.Join(t.TempDir(), "paper")
	if err := os.WriteFile(name, []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	code, out, errs := shadewright(t, "print", "--out", name, sampleJob)
	if code != exitFailed || out != "" || !strings.Contains(errs, "name another with --out") {
		t.Errorf("print into a file: exit %d, %q, %q", code, out, errs)
	}
	if data, err := os.ReadFile(name); err != nil || string(data) != "mine" {
		t.Errorf("the file became %q, %v", data, err)
	}
}

// An outdated preview that cannot be removed is told, and keeps nothing from being
// done.
func TestPreviewStays(t *testing.T) {
	if runtime.GOOS != "linux" || os.Getuid() != 0 {
		t.Skip("a file that cannot be removed can be made only on Linux, by root")
	}
	dir := filepath.Join(t.TempDir(), "out")
	job := "../../testdata/jobs/narrowboat.yaml"
	if code, _, errs := shadewright(t, "print", "--no-record", "--preview", "svg", "--out", dir, job); code != exitDone {
		t.Fatalf("exit %d, %s", code, errs)
	}
	const name = "preview-tickets-01.svg"
	path := filepath.Join(dir, name)
	if out, err := exec.Command("mount", "--bind", path, path).CombinedOutput(); err != nil {
		t.Skipf("no file can be held here: %v: %s", err, out)
	}
	t.Cleanup(func() {
		if out, err := exec.Command("umount", path).CombinedOutput(); err != nil {
			t.Errorf("umount: %v: %s", err, out)
		}
	})
	code, _, errs := shadewright(t, "print", "--no-record", "--out", dir, job)
	if code != exitDone || !strings.Contains(errs, name) {
		t.Errorf("exit %d, %q; want 0 and %s told", code, errs, name)
	}
	if _, err := os.Stat(filepath.Join(dir, "preview-tickets-02.svg")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("another preview is still there: %v", err)
	}
	if m, err := readManifest(dir); err != nil || m.Files[name] == nil || m.Note != manifestNote {
		t.Errorf("the list says %q of %q, %v; want it kept as the program's own, and nothing cut off", m.Note, m.Files[name], err)
	}
}

// A disk that fills leaves the earlier paper whole and nothing half-written.
func TestDiskFills(t *testing.T) {
	dir := t.TempDir()
	if runtime.GOOS != "linux" || os.Getuid() != 0 {
		t.Skip("a small disk can be mounted only on Linux, by root")
	}
	if out, err := exec.Command("mount", "-t", "tmpfs", "-o", "size=512k", "tmpfs", dir).CombinedOutput(); err != nil {
		t.Skipf("no small disk can be mounted here: %v: %s", err, out)
	}
	t.Cleanup(func() {
		if out, err := exec.Command("umount", dir).CombinedOutput(); err != nil {
			t.Errorf("umount: %v: %s", err, out)
		}
	})
	out := filepath.Join(dir, "bunkhouse")
	small := filepath.Join(t.TempDir(), "job.yaml")
	job := `{job: x, id: 5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31, units: in, goods: {m: {kind: coated-mesh, width: 54, thickness: 0.6 mm}},
rollers: {d: {tube: 1-1/8, shortest: 20, longest: 36}}, slats: {f: {width: 1, thickness: 3/32}},
shades: [{id: a, goods: m, roller: d, slat: f, finished: {width: 25, length: 35}}]}`
	if err := os.WriteFile(small, []byte(job), 0o644); err != nil {
		t.Fatal(err)
	}
	if code, _, errs := shadewright(t, "print", "--out", out, small); code != exitDone {
		t.Fatalf("the small job does not fit the small disk: exit %d, %s", code, errs)
	}
	before := listed(t, out)
	filler, err := os.Create(filepath.Join(dir, "filler"))
	if err != nil {
		t.Fatal(err)
	}
	for err == nil {
		_, err = filler.Write(make([]byte, 4096))
	}
	if err := filler.Close(); err != nil {
		t.Fatal(err)
	}
	code, said, errs := shadewright(t, "print", "--out", out, sampleJob)
	if code != exitFailed || said != "" || !strings.Contains(errs, "no space") || !strings.Contains(errs, "untouched") {
		t.Errorf("print on a full disk: exit %d, %q, %q", code, said, errs)
	}
	after := listed(t, out)
	if len(after) != len(before) {
		t.Errorf("a full disk leaves %d files of %d", len(after), len(before))
	}
	for name, data := range before {
		if after[name] != data {
			t.Errorf("%s was destroyed by a full disk", name)
		}
	}
}

// A run that is cut off between two renames leaves files that the next run
// knows as its own.
func TestCutOffRun(t *testing.T) {
	dir := t.TempDir()
	old := []document{{name: "a.pdf", data: []byte("old a")}, {name: "b.pdf", data: []byte("old b")}}
	if _, err := (folder{dir: dir}).write(t.Context(), old); err != nil {
		t.Fatal(err)
	}
	next := []document{{name: "a.pdf", data: []byte("new a")}, {name: "b.pdf", data: []byte("new b")}}
	before, err := readManifest(dir)
	if err != nil {
		t.Fatal(err)
	}
	// What write does up to the first rename.
	files := []written{{name: "a.pdf", sum: sum(next[0].data)}, {name: "b.pdf", sum: sum(next[1].data)}}
	if err := replaceManifest(dir, sums(files, before, cutOffNote)); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "a.pdf"), next[0].data, 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := (folder{dir: dir}).write(t.Context(), next); err != nil {
		t.Errorf("after a run that was cut off: %v", err)
	}
	all := listed(t, dir)
	if all["a.pdf"] != "new a" || all["b.pdf"] != "new b" || len(all) != 3 {
		t.Errorf("files are %q", all)
	}
}

// A file that cannot be replaced, as one that a viewer keeps open cannot on some
// systems, leaves a mix that is told: here a folder takes its place once all is
// checked. The list of the folder says so too, and the next run mends it.
func TestHalfReplaced(t *testing.T) {
	docs := func(what string) []document {
		return []document{{name: "a.pdf", data: []byte(what + " a")}, {name: "b.pdf", data: []byte(what + " b")}, {name: "c.pdf", data: []byte(what + " c")}}
	}
	for _, tt := range []struct {
		blocked string
		want    string // after the cause
		note    string
	}{
		{"a.pdf", "; what was there before is untouched", manifestNote},
		{"b.pdf", "; a.pdf in this folder: new already; b.pdf and c.pdf: still as before, if there; do not work by such a mix: close the file if it is open, and print again", cutOffNote},
	} {
		dir := t.TempDir()
		if _, err := (folder{dir: dir}).write(t.Context(), docs("old")); err != nil {
			t.Fatal(err)
		}
		name := filepath.Join(dir, tt.blocked)
		block := sync.OnceFunc(func() {
			if err := errors.Join(os.Remove(name), os.Mkdir(name, 0o755), os.WriteFile(filepath.Join(name, "x"), nil, 0o644)); err != nil {
				t.Error(err)
			}
		})
		_, err := (folder{dir: dir, wrote: block}).write(t.Context(), docs("new"))
		if err == nil || !strings.HasPrefix(err.Error(), name+": cannot be replaced: ") || !strings.HasSuffix(err.Error(), tt.want) || strings.Contains(err.Error(), ".pdf.") {
			t.Errorf("%s blocked: %v; want it to end in %q", tt.blocked, err, tt.want)
		}
		if m, err := readManifest(dir); err != nil || m.Note != tt.note {
			t.Errorf("%s blocked: the list says %q, %v", tt.blocked, m.Note, err)
		}
		if err := os.RemoveAll(name); err != nil {
			t.Fatal(err)
		}
		if _, err := (folder{dir: dir}).write(t.Context(), docs("new")); err != nil {
			t.Errorf("the next run: %v", err)
		}
		all := listed(t, dir)
		if m, err := readManifest(dir); err != nil || m.Note != manifestNote || len(all) != 4 || all["a.pdf"] != "new a" || all["b.pdf"] != "new b" || all["c.pdf"] != "new c" {
			t.Errorf("after the next run: %q, the list says %q, %v", all, m.Note, err)
		}
	}
}

// What a run that was killed left aside goes with a later run. What may be another
// run's, or is nobody's name, stays.
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
	if _, err := (folder{dir: dir}).write(t.Context(), []document{{name: "a.pdf"}}); err != nil {
		t.Fatal(err)
	}
	got := slices.Sorted(maps.Keys(listed(t, dir)))
	if want := []string{".a.pdf.124", ".a.pdf.x1", ".mine.pdf.123", "a.pdf", "a.pdf.123", "printed.json"}; !slices.Equal(got, want) {
		t.Errorf("the folder has %q; want %q", got, want)
	}
}

// A folder where a file is to be is told before anything is replaced, even by force.
func TestFolderInTheWay(t *testing.T) {
	dir := t.TempDir()
	if err := os.MkdirAll(filepath.Join(dir, "b.pdf", "x"), 0o755); err != nil {
		t.Fatal(err)
	}
	for _, force := range []bool{false, true} {
		_, err := (folder{dir: dir, force: force}).write(t.Context(), []document{{name: "a.pdf"}, {name: "b.pdf"}})
		if err == nil || !strings.Contains(err.Error(), "b.pdf: is a folder, where a file is to be written; move it away") || len(listed(t, dir)) != 0 {
			t.Errorf("force %t: %v, and the folder has %q", force, err, listed(t, dir))
		}
	}
}

// A run that is interrupted while it writes leaves what was there, and nothing aside.
func TestInterruptedWriting(t *testing.T) {
	dir := t.TempDir()
	if _, err := (folder{dir: dir}).write(t.Context(), []document{{name: "a.pdf", data: []byte("old")}}); err != nil {
		t.Fatal(err)
	}
	before := listed(t, dir)
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	made := 0
	docs := []document{{name: "a.pdf", data: []byte("new")}, {name: "preview-a-01.png", make: func() ([]byte, error) { stop(); made++; return []byte("dots"), nil }}}
	for range 100 {
		docs = append(docs, document{name: "preview-a-02.png", make: func() ([]byte, error) {
			<-ctx.Done()
			return []byte("more"), nil
		}})
	}
	_, err := (folder{dir: dir}).write(ctx, docs)
	if exitCode(err) != exitInterrupted || made != 1 || err.Error() != "interrupted: nothing was written to "+dir+", and what was there is untouched" {
		t.Errorf("interrupted: %v, %d pictures made", err, made)
	}
	if after := listed(t, dir); !maps.Equal(before, after) {
		t.Errorf("the folder has %q; want %q", after, before)
	}
}

// A picture that cannot be made stops the run, and is named.
func TestPictureFails(t *testing.T) {
	dir := t.TempDir()
	_, err := (folder{dir: dir}).write(t.Context(), []document{{name: "a.pdf", data: []byte("a")}, {name: "preview-a-01.png", make: func() ([]byte, error) { return nil, errors.New("torn") }}})
	if err == nil || err.Error() != "preview-a-01.png: torn" || len(listed(t, dir)) != 0 {
		t.Errorf("%v, and the folder has %q", err, listed(t, dir))
	}
}

// Previews of a document sort in the order of its pages, and one line tells of all.
func TestPreviewNames(t *testing.T) {
	for _, tt := range []struct {
		pages       int
		first, last string
		says        string
	}{
		{1, "preview-tags-01.svg", "preview-tags-01.svg", "1 picture of tags.pdf to look at"},
		{99, "preview-tags-01.svg", "preview-tags-99.svg", "99 pictures of tags.pdf to look at"},
		{100, "preview-tags-001.svg", "preview-tags-100.svg", "100 pictures of tags.pdf to look at"},
	} {
		d := page.New(page.Info{})
		for range tt.pages {
			d.Add(measure.Size{Width: 3 * measure.Inch, Length: 3 * measure.Inch})
		}
		docs, err := (&previewFlags{kind: "svg"}).previews("tags.pdf", d)
		if err != nil {
			t.Fatal(err)
		}
		if n := len(docs); n != tt.pages || docs[0].name != tt.first || docs[n-1].name != tt.last || docs[0].says != tt.says || docs[0].listed != "preview-tags-*.svg" || n > 1 && docs[1].says != "" {
			t.Errorf("%d pages: %d previews, from %+v to %s", tt.pages, n, docs[0], docs[n-1].name)
		}
	}
}

// A list of what was written that leads out of its folder removes nothing there.
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
	if _, err := (folder{dir: inner, outdated: "preview-"}).write(t.Context(), []document{{name: "a.pdf"}}); err != nil {
		t.Fatal(err)
	}
	if data, err := os.ReadFile(filepath.Join(dir, "mine")); err != nil || string(data) != "mine" {
		t.Errorf("the file outside is %q, %v", data, err)
	}
}

// Command lines that are refused: exit code, the whole message, nothing on
// standard output, no file.
func TestRefused(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	write := func(name, text string) {
		t.Helper()
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("empty.yaml", "")
	write("up.yaml", strings.Replace(minimal, "id: a,", "id: ../a,", 1))
	write("big.yaml", strings.Repeat("# ....................................................\n", 1_000_000))
	write("bad-shop.yaml", "allow: {hem: 1/2}\n")
	write("shop-typo.yaml", "margn: {left: 1 in}\n")
	write("good.yaml", minimal)
	tests := []struct {
		args []string
		code int
		want string
	}{
		{[]string{"print", "nowhere.yaml"}, exitFailed, "nowhere.yaml: is not there"},
		{[]string{"print", "empty.yaml"}, exitRefused, "empty.yaml: is empty"},
		{[]string{"print", "up.yaml"}, exitRefused, "up.yaml:4: shades[1].id:"},
		{[]string{"print", "big.yaml"}, exitRefused, "big.yaml: has 52.5 MiB; at most 1 MiB is read"},
		{[]string{"print", "."}, exitRefused, ".: is a folder; name the file in it"},
		{[]string{"print", "--shop", "bad-shop.yaml", "good.yaml"}, exitUsage, "bad-shop.yaml:1: allow.hem:"},
		{[]string{"print", "--shop", "shop-typo.yaml", "good.yaml"}, exitUsage, "margn"},
		{[]string{"print", "--shop", "none.yaml", "good.yaml"}, exitUsage, "none.yaml: is not there"},
		{[]string{"print", "--set", "paper=a44", "good.yaml"}, exitUsage, "a44"},
		{[]string{"print", "--set", "paper=60 mm x 60 mm", "good.yaml"}, exitUsage, "is too small"},
		{[]string{"print", "--set", "paper=5 in x 5 in", "good.yaml"}, exitUsage, "use larger paper"},
		{[]string{"check", "--set", "code.address=ftp://x", "good.yaml"}, exitUsage, "code.address"},
		{[]string{"check", "a", "b"}, exitUsage, "takes one job file, not 2"},
		{[]string{"chekc", "good.yaml"}, exitUsage, "did you mean check?"},
	}
	for _, tt := range tests {
		code, out, errs := shadewright(t, tt.args...)
		if code != tt.code || out != "" || !strings.Contains(errs, tt.want) || !strings.HasPrefix(errs, "shadewright: ") {
			t.Errorf("shadewright %s: exit %d, out %q, err %q; want exit %d, %q", strings.Join(tt.args, " "), code, out, errs, tt.code, tt.want)
		}
	}
	for name := range listed(t, dir) {
		if strings.HasSuffix(name, ".pdf") || strings.HasPrefix(name, ".") {
			t.Errorf("a refused command left %s", name)
		}
	}
}

const minimal = `{job: x, id: 5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31, units: in,
goods: {m: {kind: coated-mesh, width: 54, thickness: 0.6 mm}},
rollers: {d: {tube: 1-1/8, shortest: 20, longest: 36}}, slats: {f: {width: 1, thickness: 3/32}},
shades: [{id: a, goods: m, roller: d, slat: f, finished: {width: 25, length: 35}}]}
`

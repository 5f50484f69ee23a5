package main

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

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
	if code != exitFailed || out != "" || !strings.Contains(errs, "is a file, not a folder; name another folder with --out") {
		t.Errorf("print into a file: exit %d, %q, %q", code, out, errs)
	}
	if data, err := os.ReadFile(name); err != nil || string(data) != "mine" {
		t.Errorf("the file became %q, %v", data, err)
	}
}

// If print cannot remove an outdated preview, it names the preview and does everything
// else.
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
		t.Errorf("exit %d, %q; want 0 and %s named", code, errs, name)
	}
	if _, err := os.Stat(filepath.Join(dir, "preview-tickets-02.svg")); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("another preview is still there: %v", err)
	}
	list, err := os.ReadFile(filepath.Join(dir, "printed.json"))
	if text := string(list); err != nil || !strings.Contains(text, `"`+name+`"`) || strings.Contains(text, "cut off") {
		t.Errorf("the list is %s, %v; want the preview kept as the program's own, and nothing cut off", list, err)
	}
}

// A full disk leaves the earlier paper whole, and no half-written file.
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
	job := `{job: x, id: 5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31, units: in, goods: {m: {kind: coated-mesh, width: 58, thickness: 0.6 mm, mass: 440 g/m2}},
rollers: {d: {tube: 1-1/8, shortest: 20, longest: 36, spring: trial}}, slats: {f: {width: 1, thickness: 3/32, material: aluminium}},
shades: [{id: a, goods: m, roller: d, slat: f, finished: {width: 26, length: 37}, as_before: true}]}`
	if err := os.WriteFile(small, []byte(job), 0o644); err != nil {
		t.Fatal(err)
	}
	if code, _, errs := shadewright(t, "print", "--out", out, small); code != exitDone {
		t.Fatalf("the small job does not fit on the small disk: exit %d, %s", code, errs)
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
	if code != exitFailed || said != "" || !strings.Contains(errs, "no space") || !strings.Contains(errs, "unchanged") {
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

// The names of previews sort in the order of the pages, and one line of the summary stands
// for all previews of a document.
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
		if n := len(docs); n != tt.pages || docs[0].Name != tt.first || docs[n-1].Name != tt.last || docs[0].Says != tt.says || docs[0].Listed != "preview-tags-*.svg" || n > 1 && docs[1].Says != "" {
			t.Errorf("%d pages: %d previews, from %+v to %s", tt.pages, n, docs[0], docs[n-1].Name)
		}
	}
}

// A refused command line gives its exit code and its message, nothing on standard output
// and no file.
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
		{[]string{"print", "nowhere.yaml"}, exitFailed, "nowhere.yaml: there is no such file"},
		{[]string{"print", "empty.yaml"}, exitRefused, "empty.yaml: is empty"},
		{[]string{"print", "up.yaml"}, exitRefused, "up.yaml:4: shades[1].id:"},
		{[]string{"print", "big.yaml"}, exitRefused, "big.yaml: has 52.5 MiB, which is over the limit of 1 MiB"},
		{[]string{"print", "."}, exitRefused, ".: is a folder; give the name of a file in it"},
		{[]string{"print", "--shop", "bad-shop.yaml", "good.yaml"}, exitUsage, "bad-shop.yaml:1: allow.hem:"},
		{[]string{"print", "--shop", "shop-typo.yaml", "good.yaml"}, exitUsage, "margn"},
		{[]string{"print", "--shop", "none.yaml", "good.yaml"}, exitUsage, "none.yaml: there is no such file"},
		{[]string{"print", "--set", "paper=a44", "good.yaml"}, exitUsage, "a44"},
		{[]string{"print", "--set", "paper=60 mm x 60 mm", "good.yaml"}, exitUsage, "is too small"},
		{[]string{"print", "--set", "paper=5 in x 5 in", "good.yaml"}, exitUsage, "paper 5 in × 5 in is too small for the template, the tickets and the cut plan; use a5, letter, a4 or larger\n"},
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
goods: {m: {kind: coated-mesh, width: 58, thickness: 0.6 mm, mass: 440 g/m2}},
rollers: {d: {tube: 1-1/8, shortest: 20, longest: 36, spring: trial}}, slats: {f: {width: 1, thickness: 3/32, material: aluminium}},
shades: [{id: a, goods: m, roller: d, slat: f, finished: {width: 26, length: 37}, as_before: true}]}
`

package outdir

import (
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"testing"
)

// Replace keeps the permissions of the earlier file, and follows a link to it.
func TestReplaceKeeps(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("permissions and links are different")
	}
	dir := t.TempDir()
	path, link := filepath.Join(dir, "hut.yaml"), filepath.Join(dir, "link.yaml")
	if err := os.WriteFile(path, []byte("old"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("hut.yaml", link); err != nil {
		t.Fatal(err)
	}
	if err := Replace(link, []byte("new")); err != nil {
		t.Fatal(err)
	}
	info, err := os.Lstat(path)
	if err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil || string(data) != "new" || info.Mode() != 0o600 {
		t.Errorf("%v: %q with %v; want new with 0600", err, data, info.Mode())
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		t.Errorf("%v: the link is gone", err)
	}
	if all, err := os.ReadDir(dir); err != nil || len(all) != 2 {
		t.Errorf("%v: the folder has %v", err, all)
	}
}

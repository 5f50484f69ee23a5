package outdir

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// manifestName is the file that remembers what was written to a folder, so that
// only the program's own, unchanged files are ever replaced.
const manifestName = "printed.json"

// A manifest lists the SHA-256 sums that each file may have.
type manifest struct {
	Note  string              `json:"note"`
	Files map[string][]string `json:"files"`
}

const manifestNote = "What Shadewright wrote to this folder. A file that differs from its sum here is not replaced."

// cutOffNote stands in the list only while files are being replaced.
const cutOffNote = "Files are being replaced here. If no Shadewright is running, it was cut off: the files may be of two runs; print again before working by them."

func readManifest(dir string) (manifest, error) {
	var m manifest
	name := filepath.Join(dir, manifestName)
	data, err := os.ReadFile(name)
	if errors.Is(err, fs.ErrNotExist) {
		return m, nil
	}
	if err != nil {
		return m, err
	}
	if err := json.Unmarshal(data, &m); err != nil {
		return m, fmt.Errorf("%s: %w; move it away, or name another folder with --out", name, err)
	}
	return m, nil
}

// bytes returns the list as it stands in its file.
func (m manifest) bytes() ([]byte, error) {
	data, err := json.MarshalIndent(m, "", "  ")
	return append(data, '\n'), err
}

func replaceManifest(dir string, m manifest) error {
	data, err := m.bytes()
	if err != nil {
		return err
	}
	return Replace(filepath.Join(dir, manifestName), data)
}

// sums returns a manifest of the files, with the sums of an earlier one.
func sums(files []written, before manifest, note string) manifest {
	m := manifest{Note: note, Files: map[string][]string{}}
	for name, known := range before.Files {
		m.Files[name] = slices.Clone(known)
	}
	for _, w := range files {
		m.Files[w.name] = append(m.Files[w.name], w.sum)
	}
	return m
}

func sum(data []byte) string {
	s := sha256.Sum256(data)
	return hex.EncodeToString(s[:])
}

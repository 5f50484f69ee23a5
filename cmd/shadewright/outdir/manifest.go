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

// manifestName is the file that lists what the program wrote to a folder, so that it only
// replaces its own, unchanged files.
const manifestName = "printed.json"

// A manifest lists the SHA-256 sums that each file may have. A file has two while it is
// being replaced.
type manifest struct {
	Note  string              `json:"note"`
	Files map[string][]string `json:"files"`
}

const manifestNote = "The files that Shadewright wrote to this folder. It does not replace a file that differs from its sum here."

// cutOffNote is the note while files are being replaced.
const cutOffNote = "Shadewright is replacing files here. If it is no longer running, it was cut off and the files may be from two runs: print again before you work by them."

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

// bytes returns the contents of the manifest's file.
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

// sums returns a manifest with the sums of the files added to those of an earlier one.
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

package main

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

// A document is one file that a command writes.
type document struct {
	name string // in the folder
	data []byte
	says string // what is in it, for the summary
}

// manifestName is the file that remembers what was written to a folder, so that
// only the program's own, unchanged files are ever replaced.
const manifestName = "printed.json"

// A manifest lists the SHA-256 sums that each file may have.
type manifest struct {
	Note  string              `json:"note"`
	Files map[string][]string `json:"files"`
}

const manifestNote = "What Shadewright wrote to this folder. A file that differs from its sum here is not replaced."

// writeAll writes the documents to a folder: each whole, or none. The files are
// written aside and synced first, then renamed over the earlier ones. A file
// that is there and was not written by an earlier run, or was changed since, is
// an error unless force is set.
func writeAll(dir string, docs []document, force bool) (err error) {
	if info, err := os.Stat(dir); err == nil && !info.IsDir() {
		return fmt.Errorf("%s: is a file and no folder to write to; name another with --out", dir)
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return fmt.Errorf("output folder: %w; name another with --out", err)
	}
	before, err := readManifest(dir)
	if err != nil {
		return err
	}
	if !force {
		if err := ours(dir, docs, before); err != nil {
			return err
		}
	}
	var aside []string
	defer func() {
		for _, name := range aside {
			if e := os.Remove(name); e != nil && !errors.Is(e, fs.ErrNotExist) {
				err = errors.Join(err, e)
			}
		}
	}()
	for _, d := range docs {
		name, err := writeAside(dir, d)
		if name != "" {
			aside = append(aside, name)
		}
		if err != nil {
			return err
		}
	}
	// Both old and new sums stand while the files are renamed, so that a run that
	// is cut off here leaves only files that the next one knows.
	both, after := sums(docs, before), sums(docs, manifest{})
	if err := replaceManifest(dir, both); err != nil {
		return err
	}
	for i, d := range docs {
		if err := os.Rename(aside[i], filepath.Join(dir, d.name)); err != nil {
			return err
		}
	}
	aside = nil
	return replaceManifest(dir, after)
}

// writeAside writes a document to a temporary file of the folder and syncs it.
func writeAside(dir string, d document) (name string, err error) {
	f, err := os.CreateTemp(dir, "."+d.name+".*")
	if err != nil {
		return "", fmt.Errorf("output folder: %w; name another with --out", err)
	}
	_, err = f.Write(d.data)
	if err == nil {
		err = f.Chmod(0o644)
	}
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return f.Name(), fmt.Errorf("%s: %w; what was there before is untouched", filepath.Join(dir, d.name), err)
	}
	return f.Name(), nil
}

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

func replaceManifest(dir string, m manifest) error {
	data, err := json.MarshalIndent(m, "", "  ")
	if err != nil {
		return err
	}
	name, err := writeAside(dir, document{name: manifestName, data: append(data, '\n')})
	if err == nil {
		err = os.Rename(name, filepath.Join(dir, manifestName))
	}
	if err != nil && name != "" {
		return errors.Join(err, os.Remove(name))
	}
	return err
}

// sums returns a manifest of the documents, with the sums of an earlier one.
func sums(docs []document, before manifest) manifest {
	m := manifest{Note: manifestNote, Files: map[string][]string{}}
	for name, known := range before.Files {
		m.Files[name] = slices.Clone(known)
	}
	for _, d := range docs {
		m.Files[d.name] = append(m.Files[d.name], sum(d.data))
	}
	return m
}

func sum(data []byte) string {
	s := sha256.Sum256(data)
	return hex.EncodeToString(s[:])
}

// ours reports every file that is in the way and is not the program's own.
func ours(dir string, docs []document, m manifest) error {
	var errs []error
	for _, d := range docs {
		name := filepath.Join(dir, d.name)
		data, err := os.ReadFile(name)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			errs = append(errs, err)
		case !slices.Contains(m.Files[d.name], sum(data)):
			errs = append(errs, fmt.Errorf("%s: is not as an earlier run wrote it; move it away, name another folder with --out, or replace it with --force", name))
		}
	}
	return errors.Join(errs...)
}

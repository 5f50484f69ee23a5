package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
)

// A document is one file that a command writes. What is in it is known, or is made
// when it is written and let go at once.
type document struct {
	name   string // in the folder
	data   []byte
	make   func() ([]byte, error) // if data is nil
	listed string                 // the name that the summary shows; empty: its own
	says   string                 // what is in it, for the summary; empty: another speaks for it
}

// content returns what is in the document.
func (d document) content() ([]byte, error) {
	if d.make == nil {
		return d.data, nil
	}
	data, err := d.make()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", d.name, err)
	}
	return data, nil
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

// A folder is where a command writes its documents.
type folder struct {
	dir   string
	force bool // replace what is not the program's own, too
	// outdated begins the names of files that show what other files hold: an earlier
	// one that is not written again is removed, since it shows what was. Empty: none.
	outdated string
	wrote    func() // is told of every file; nil: nobody asks
}

// An interruptedError says that a run was stopped before anything was replaced.
type interruptedError struct{ dir string }

func (e interruptedError) Error() string {
	return "interrupted: nothing was written to " + e.dir + ", and what was there is untouched"
}

func (interruptedError) Unwrap() error { return context.Canceled }

// A written file lies aside until all are.
type written struct{ name, aside, sum string }

// write writes the documents to the folder: each whole, or none. The files are
// written aside and synced first, then renamed over the earlier ones. A file that
// is there and was not written by an earlier run, or was changed since, is an error
// unless force is set. It stops when ctx ends, and leaves what was there.
func (f folder) write(ctx context.Context, docs []document) (err error) {
	if info, err := os.Stat(f.dir); err == nil && !info.IsDir() {
		return fmt.Errorf("%s: is a file and no folder to write to; name another with --out", f.dir)
	}
	if err := os.MkdirAll(f.dir, 0o777); err != nil {
		return noFolder(f.dir, err)
	}
	before, err := readManifest(f.dir)
	if err != nil {
		return err
	}
	if !f.force {
		if err := ours(f.dir, docs, before); err != nil {
			return err
		}
	}
	files, err := f.aside(ctx, docs)
	defer func() {
		for _, w := range files {
			if e := os.Remove(w.aside); w.aside != "" && e != nil && !errors.Is(e, fs.ErrNotExist) {
				err = errors.Join(err, e)
			}
		}
	}()
	if err != nil {
		return err
	}
	kept, outdated, err := f.earlier(before, files)
	if err != nil {
		return err
	}
	// Both old and new sums stand while the files are renamed, so that a run that
	// is cut off here leaves only files that the next one knows.
	if err := replaceManifest(f.dir, sums(files, before)); err != nil {
		return err
	}
	for _, w := range files {
		if err := os.Rename(w.aside, filepath.Join(f.dir, w.name)); err != nil {
			return err
		}
	}
	after := sums(files, kept)
	files = nil
	for _, name := range outdated {
		if err := os.Remove(filepath.Join(f.dir, name)); err != nil {
			return err
		}
	}
	return replaceManifest(f.dir, after)
}

// aside writes the documents to temporary files, as many at once as there are
// processors, so that few are in memory. On an error it returns what it has written.
func (f folder) aside(ctx context.Context, docs []document) ([]written, error) {
	files := make([]written, len(docs))
	errs := make([]error, len(docs))
	var next atomic.Int64
	var failed atomic.Bool
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(docs)) {
		wg.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(docs) && !failed.Load(); i = int(next.Add(1)) - 1 {
				if ctx.Err() != nil {
					errs[i] = interruptedError{f.dir}
				} else {
					files[i], errs[i] = f.one(docs[i])
				}
				if errs[i] != nil {
					failed.Store(true)
				} else if f.wrote != nil {
					f.wrote()
				}
			}
		})
	}
	wg.Wait()
	for _, err := range errs { // the first says enough: a full disk fails them all
		if err != nil {
			return files, err
		}
	}
	return files, nil
}

// earlier returns what an earlier run wrote, is still as it was, and is not
// written again: what stays the program's own, and what is outdated.
func (f folder) earlier(before manifest, files []written) (kept manifest, outdated []string, err error) {
	kept.Files = map[string][]string{}
	for name, known := range before.Files {
		again := slices.ContainsFunc(files, func(w written) bool { return w.name == name })
		if again || filepath.Base(name) != name { // no name of ours leads out of the folder
			continue
		}
		data, err := os.ReadFile(filepath.Join(f.dir, name))
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			return kept, nil, err
		case !slices.Contains(known, sum(data)):
		case f.outdated != "" && strings.HasPrefix(name, f.outdated):
			outdated = append(outdated, name)
		default:
			kept.Files[name] = []string{sum(data)}
		}
	}
	return kept, outdated, nil
}

// one writes one document aside. What it returns may have to be removed after an
// error, too.
func (f folder) one(d document) (w written, err error) {
	if d.data, err = d.content(); err != nil {
		return w, err
	}
	w = written{name: d.name, sum: sum(d.data)}
	w.aside, err = writeAside(f.dir, d)
	return w, err
}

// noFolder names the folder that cannot be written to, not the file aside that was
// tried there and that nobody asked for.
func noFolder(dir string, err error) error {
	var system *fs.PathError
	if errors.As(err, &system) {
		err = system.Err
	}
	return fmt.Errorf("folder %s: %w; name another with --out", dir, err)
}

// writeAside writes a document's data to a temporary file of the folder and syncs it.
func writeAside(dir string, d document) (name string, err error) {
	f, err := os.CreateTemp(dir, "."+d.name+".*")
	if err != nil {
		return "", noFolder(dir, err)
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

// sums returns a manifest of the files, with the sums of an earlier one.
func sums(files []written, before manifest) manifest {
	m := manifest{Note: manifestNote, Files: map[string][]string{}}
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

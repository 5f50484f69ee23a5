package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"time"
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

// cutOffNote stands in the list only while files are being replaced.
const cutOffNote = "Files are being replaced here. If no Shadewright is running, it was cut off: the files may be of two runs; print again before working by them."

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
// unless force is set. It stops when ctx ends, and leaves what was there. It returns
// the names of an earlier run's files that stay, since they were not written again.
func (f folder) write(ctx context.Context, docs []document) (stay []string, err error) {
	before, err := f.open(docs)
	if err != nil {
		return nil, err
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
		return nil, err
	}
	kept, outdated, err := f.earlier(before, files)
	if err != nil {
		return nil, err
	}
	// The last list is aside, too, before anything is replaced: nothing of what
	// follows needs room on the disk.
	list, err := manifestAside(f.dir, sums(files, kept, manifestNote))
	defer func() {
		if e := os.Remove(list); list != "" && e != nil && !errors.Is(e, fs.ErrNotExist) {
			err = errors.Join(err, e)
		}
	}()
	if err != nil {
		return nil, err
	}
	// Both old and new sums stand while the files are renamed, so that a run that
	// is cut off here leaves only files that the next one knows.
	if err := replaceManifest(f.dir, sums(files, before, cutOffNote)); err != nil {
		return nil, err
	}
	if done, err := f.replace(files); err != nil {
		if done == 0 {
			err = errors.Join(err, replaceManifest(f.dir, sums(nil, before, manifestNote)))
		}
		return nil, err
	}
	if err := os.Rename(list, filepath.Join(f.dir, manifestName)); err != nil {
		return nil, err
	}
	for _, name := range outdated {
		// What cannot be removed, since it is open perhaps, is told as what stays:
		// the paper is there, and its tickets must be registered.
		if os.Remove(filepath.Join(f.dir, name)) == nil {
			delete(kept.Files, name)
		}
	}
	f.sweep(files)
	return slices.Sorted(maps.Keys(kept.Files)), nil
}

// open makes the folder, unless it is there, and sees that nothing is in the way.
func (f folder) open(docs []document) (before manifest, err error) {
	if info, err := os.Stat(f.dir); err == nil && !info.IsDir() {
		return before, fmt.Errorf("%s: is a file and no folder to write to; name another with --out", f.dir)
	}
	if err := os.MkdirAll(f.dir, 0o777); err != nil {
		return before, noFolder(f.dir, err)
	}
	if before, err = readManifest(f.dir); err != nil {
		return before, err
	}
	return before, f.clear(docs, before)
}

// replace renames the files over the earlier ones. Where that fails it says which
// files are of which run; done is how many are of this one.
func (f folder) replace(files []written) (done int, err error) {
	for i, w := range files {
		name := filepath.Join(f.dir, w.name)
		err := os.Rename(w.aside, name)
		var link *os.LinkError
		if errors.As(err, &link) {
			err = link.Err // the name aside says nothing to anybody
		}
		switch {
		case err == nil:
		case i == 0:
			return i, fmt.Errorf("%s: cannot be replaced: %w; what was there before is untouched", name, err)
		default:
			return i, fmt.Errorf("%s: cannot be replaced: %w; %s in this folder: new already; %s: still as before, if there; do not work by such a mix: close the file if it is open, and print again",
				name, err, some(files[:i]), some(files[i:]))
		}
	}
	return len(files), nil
}

// stale is how much older than a run's own files are those that a run must have left
// that was cut off. A younger one may be another's that is still at work.
const stale = time.Hour

// sweep removes what earlier runs left aside when they were killed, or the power went.
// What cannot be removed is in nobody's way: the paper is there, which is what counts.
func (f folder) sweep(files []written) {
	now, err := os.Stat(filepath.Join(f.dir, manifestName)) // the folder's own clock
	if err != nil {
		return
	}
	entries, err := os.ReadDir(f.dir)
	if err != nil {
		return
	}
	ours := map[string]bool{manifestName: true}
	for _, w := range files {
		ours[w.name] = true
	}
	for _, e := range entries {
		m := asideName.FindStringSubmatch(e.Name())
		if m == nil || !ours[m[1]] {
			continue
		}
		if info, err := e.Info(); err == nil && now.ModTime().Sub(info.ModTime()) >= stale {
			_ = os.Remove(filepath.Join(f.dir, e.Name())) // as above
		}
	}
}

// mostNamed bounds how many files an error names.
const mostNamed = 8

func some(files []written) string {
	var names []string
	for _, w := range files[:min(len(files), mostNamed)] {
		names = append(names, w.name)
	}
	if n := len(files) - mostNamed; n > 0 {
		names = append(names, fmt.Sprintf("%d more", n))
	}
	return and(names)
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
// written again: all of it, and which of it is outdated.
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
		default:
			kept.Files[name] = []string{sum(data)}
			if f.outdated != "" && strings.HasPrefix(name, f.outdated) {
				outdated = append(outdated, name)
			}
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

// asideName is what writeAside calls a file: its name between a dot, and a dot and
// digits.
var asideName = regexp.MustCompile(`^\.(.+)\.[0-9]+$`)

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

// manifestAside writes a list of files to a temporary file. What it returns may
// have to be removed after an error, too.
func manifestAside(dir string, m manifest) (name string, err error) {
	data, err := json.MarshalIndent(m, "", "  ")
	if err != nil {
		return "", err
	}
	return writeAside(dir, document{name: manifestName, data: append(data, '\n')})
}

func replaceManifest(dir string, m manifest) error {
	name, err := manifestAside(dir, m)
	if err == nil {
		err = os.Rename(name, filepath.Join(dir, manifestName))
	}
	if err != nil && name != "" {
		return errors.Join(err, os.Remove(name))
	}
	return err
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

// clear reports everything that is in the way: a folder, and unless force is set
// a file that is not the program's own.
func (f folder) clear(docs []document, m manifest) error {
	var errs []error
	for _, d := range docs {
		name := filepath.Join(f.dir, d.name)
		if info, err := os.Stat(name); err == nil && info.IsDir() {
			errs = append(errs, fmt.Errorf("%s: is a folder, where a file is to be written; move it away, or name another folder with --out", name))
			continue
		}
		if f.force {
			continue
		}
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

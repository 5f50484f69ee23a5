// Package outdir writes files so that each appears whole or not at all: one by one,
// or a folder of them that remembers what the program wrote there.
package outdir

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"shadewright/ticket/message"
)

// A Document is one file that a command writes. What is in it is known, or is made
// when it is written and let go at once.
type Document struct {
	Name   string // in the folder
	Data   []byte
	Make   func() ([]byte, error) // if Data is nil
	Listed string                 // the name that the summary shows; empty: its own
	Says   string                 // what is in it, for the summary; empty: another speaks for it
}

// content returns what is in the document.
func (d Document) content() ([]byte, error) {
	if d.Make == nil {
		return d.Data, nil
	}
	data, err := d.Make()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", d.Name, err)
	}
	return data, nil
}

// A Folder is where a command writes its documents.
type Folder struct {
	Dir   string
	Force bool // replace what is not the program's own, too
	// Outdated picks files of which an earlier one that is not written again is
	// removed, since it shows what was. Nil: none.
	Outdated func(name string) bool
	Wrote    func() // is told of every file; nil: nobody asks
}

// An interruptedError says that a run was stopped before anything was replaced.
type interruptedError struct{ dir string }

func (e interruptedError) Error() string {
	return "interrupted: nothing was written to " + e.dir + ", and what was there is untouched"
}

func (interruptedError) Unwrap() error { return context.Canceled }

// A written file lies aside until all are.
type written struct{ name, aside, sum string }

// Write writes the documents to the folder: each whole, or none. The files are
// written aside and synced first, then renamed over the earlier ones. A file that
// is there and was not written by an earlier run, or was changed since, is an error
// unless Force is set. It stops when ctx ends, and leaves what was there. It returns
// the names of an earlier run's files that stay, since they were not written again.
func (f Folder) Write(ctx context.Context, docs []Document) (stay []string, err error) {
	before, err := f.open(docs)
	if err != nil {
		return nil, err
	}
	files, err := f.aside(ctx, docs)
	defer func() {
		var aside []string
		for _, w := range files {
			aside = append(aside, w.aside)
		}
		err = errors.Join(err, discard(aside))
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
	data, err := sums(files, kept, manifestNote).bytes()
	if err != nil {
		return nil, err
	}
	list, err := writeAside(f.Dir, manifestName, data)
	defer func() { err = errors.Join(err, discard([]string{list})) }()
	if err != nil {
		return nil, err
	}
	// Both old and new sums stand while the files are renamed, so that a run that
	// is cut off here leaves only files that the next one knows.
	if err := replaceManifest(f.Dir, sums(files, before, cutOffNote)); err != nil {
		return nil, err
	}
	if done, err := f.replace(files); err != nil {
		if done == 0 {
			err = errors.Join(err, replaceManifest(f.Dir, sums(nil, before, manifestNote)))
		}
		return nil, err
	}
	if err := os.Rename(list, filepath.Join(f.Dir, manifestName)); err != nil {
		return nil, err
	}
	for _, name := range outdated {
		// What cannot be removed, since it is open perhaps, is told as what stays:
		// the paper is there, and its tickets must be registered.
		if os.Remove(filepath.Join(f.Dir, name)) == nil {
			delete(kept.Files, name)
		}
	}
	f.sweep(files)
	return slices.Sorted(maps.Keys(kept.Files)), nil
}

// open makes the folder, unless it is there, and sees that nothing is in the way.
func (f Folder) open(docs []Document) (before manifest, err error) {
	if info, err := os.Stat(f.Dir); err == nil && !info.IsDir() {
		return before, fmt.Errorf("%s: is a file and no folder to write to; name another with --out", f.Dir)
	}
	if err := os.MkdirAll(f.Dir, 0o777); err != nil {
		return before, noFolder(f.Dir, err)
	}
	if before, err = readManifest(f.Dir); err != nil {
		return before, err
	}
	return before, f.clear(docs, before)
}

// replace renames the files over the earlier ones. Where that fails it says which
// files are of which run; done is how many are of this one.
func (f Folder) replace(files []written) (done int, err error) {
	for i, w := range files {
		name := filepath.Join(f.Dir, w.name)
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
func (f Folder) sweep(files []written) {
	now, err := os.Stat(filepath.Join(f.Dir, manifestName)) // the folder's own clock
	if err != nil {
		return
	}
	entries, err := os.ReadDir(f.Dir)
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
			_ = os.Remove(filepath.Join(f.Dir, e.Name())) // as above
		}
	}
}

// mostNamed bounds how many files an error names.
const mostNamed = 8

func some(files []written) string {
	var names []message.Message
	for _, w := range files[:min(len(files), mostNamed)] {
		names = append(names, message.Verbatim(w.name))
	}
	if n := len(files) - mostNamed; n > 0 {
		names = append(names, message.Verbatim(fmt.Sprintf("%d more", n)))
	}
	return message.List(names...).String()
}

// aside writes the documents to temporary files, as many at once as there are
// processors, so that few are in memory. On an error it returns what it has written.
func (f Folder) aside(ctx context.Context, docs []Document) ([]written, error) {
	files := make([]written, len(docs))
	errs := make([]error, len(docs))
	var next atomic.Int64
	var failed atomic.Bool
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(docs)) {
		wg.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(docs) && !failed.Load(); i = int(next.Add(1)) - 1 {
				if ctx.Err() != nil {
					errs[i] = interruptedError{f.Dir}
				} else {
					files[i], errs[i] = f.one(docs[i])
				}
				if errs[i] != nil {
					failed.Store(true)
				} else if f.Wrote != nil {
					f.Wrote()
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
func (f Folder) earlier(before manifest, files []written) (kept manifest, outdated []string, err error) {
	kept.Files = map[string][]string{}
	for name, known := range before.Files {
		again := slices.ContainsFunc(files, func(w written) bool { return w.name == name })
		if again || filepath.Base(name) != name { // no name of ours leads out of the folder
			continue
		}
		data, err := os.ReadFile(filepath.Join(f.Dir, name))
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			return kept, nil, err
		case !slices.Contains(known, sum(data)):
		default:
			kept.Files[name] = []string{sum(data)}
			if f.Outdated != nil && f.Outdated(name) {
				outdated = append(outdated, name)
			}
		}
	}
	return kept, outdated, nil
}

// one writes one document aside. What it returns may have to be removed after an
// error, too.
func (f Folder) one(d Document) (w written, err error) {
	if d.Data, err = d.content(); err != nil {
		return w, err
	}
	w = written{name: d.Name, sum: sum(d.Data)}
	w.aside, err = writeAside(f.Dir, d.Name, d.Data)
	return w, err
}

// clear reports everything that is in the way: a folder, and unless Force is set
// a file that is not the program's own.
func (f Folder) clear(docs []Document, m manifest) error {
	var errs []error
	for _, d := range docs {
		name := filepath.Join(f.Dir, d.Name)
		if info, err := os.Stat(name); err == nil && info.IsDir() {
			errs = append(errs, fmt.Errorf("%s: is a folder, where a file is to be written; move it away, or name another folder with --out", name))
			continue
		}
		if f.Force {
			continue
		}
		data, err := os.ReadFile(name)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			errs = append(errs, err)
		case !slices.Contains(m.Files[d.Name], sum(data)):
			errs = append(errs, fmt.Errorf("%s: is not as an earlier run wrote it; move it away, name another folder with --out, or replace it with --force", name))
		}
	}
	return errors.Join(errs...)
}

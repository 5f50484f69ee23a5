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

	"shadewright/ticket/measure"
)

// A Document is one file that a command writes. It has its data, or makes them only when
// the file is written, so that few are in memory.
type Document struct {
	Name   string // in the folder
	Data   []byte
	Make   func() ([]byte, error) // makes the data, if Data is nil
	Listed string                 // the name in the summary; empty stands for Name
	Says   string                 // what the summary says of it; empty leaves it out
}

// content returns the document's data.
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
	Force bool // also replace files that the program did not write
	// Outdated picks files of an earlier run that Write removes if it does not write them
	// again, because they show what other files held then. Nil picks none.
	Outdated func(name string) bool
	Wrote    func() // called after each file; may be nil
}

// An interruptedError ends a run that was interrupted before it replaced anything.
type interruptedError struct{ dir string }

func (e interruptedError) Error() string {
	return "interrupted: nothing was written to " + e.dir + "; earlier files are unchanged"
}

func (interruptedError) Unwrap() error { return context.Canceled }

// A written file stays aside until all files are written.
type written struct{ name, aside, sum string }

// Write writes all the documents to the folder, or none. It writes and syncs the files
// aside, then renames them over the earlier ones. An existing file that an earlier run
// did not write, or that was changed since, is an error unless Force is set. If ctx ends,
// Write stops and leaves the earlier files. It returns the names of the files of an
// earlier run that it did not replace.
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
	// Write the final list aside, too, before replacing anything: a full disk then cannot
	// stop the rest.
	data, err := sums(files, kept, manifestNote).bytes()
	if err != nil {
		return nil, err
	}
	list, err := writeAside(f.Dir, manifestName, data, usualMode)
	defer func() { err = errors.Join(err, discard([]string{list})) }()
	if err != nil {
		return nil, err
	}
	// While files are renamed the list has both the old and the new sums. If the run is
	// cut off here, the next run still knows every file as its own.
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
		// A file that cannot be removed, perhaps because it is open, is returned with those
		// that stay. It must not fail the run: the tickets still have to be registered.
		if os.Remove(filepath.Join(f.Dir, name)) == nil {
			delete(kept.Files, name)
		}
	}
	f.sweep(files)
	return slices.Sorted(maps.Keys(kept.Files)), nil
}

// open makes the folder if needed and checks that nothing is in the way.
func (f Folder) open(docs []Document) (before manifest, err error) {
	if info, err := os.Stat(f.Dir); err == nil && !info.IsDir() {
		return before, fmt.Errorf("%s: is a file, not a folder; name another folder with --out", f.Dir)
	}
	if err := os.MkdirAll(f.Dir, 0o777); err != nil {
		return before, noFolder(f.Dir, err)
	}
	if before, err = readManifest(f.Dir); err != nil {
		return before, err
	}
	return before, f.clear(docs, before)
}

// replace renames the files over the earlier ones and returns how many it renamed. If one
// fails, the error says which files are new and which are old.
func (f Folder) replace(files []written) (done int, err error) {
	for i, w := range files {
		name := filepath.Join(f.Dir, w.name)
		err := os.Rename(w.aside, name)
		var link *os.LinkError
		if errors.As(err, &link) {
			err = link.Err // without the name aside, of which the user knows nothing
		}
		switch {
		case err == nil:
		case i == 0:
			return i, fmt.Errorf("%s: cannot be replaced: %w; the earlier files are unchanged", name, err)
		default:
			return i, fmt.Errorf("%s: cannot be replaced: %w; already new: %s; still from an earlier run, if there: %s; do not work by this mix: close the file if it is open, then print again",
				name, err, some(files[:i]), some(files[i:]))
		}
	}
	return len(files), nil
}

// stale is the age after which a file aside must be from a run that was cut off. A younger
// one may belong to another run that is still at work.
const stale = time.Hour

// sweep removes files aside of earlier runs that were killed or lost power. It ignores a
// file that it cannot remove: such a file harms nothing, and the paper is written.
func (f Folder) sweep(files []written) {
	now, err := os.Stat(filepath.Join(f.Dir, manifestName)) // by the folder's own clock, which may be a server's
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

// mostNamed is how many files an error names at most.
const mostNamed = 8

func some(files []written) string {
	var names []string
	for _, w := range files[:min(len(files), mostNamed)] {
		names = append(names, w.name)
	}
	if n := len(files) - mostNamed; n > 0 {
		names = append(names, fmt.Sprintf("%d more", n))
	}
	return measure.And(names)
}

// aside writes the documents to temporary files. It writes as many at once as there are
// processors, so that few are in memory. After an error it returns the files it wrote.
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
	for _, err := range errs { // one is enough: a full disk fails every file
		if err != nil {
			return files, err
		}
	}
	return files, nil
}

// earlier returns the unchanged files of an earlier run that this run does not replace,
// and which of them are outdated.
func (f Folder) earlier(before manifest, files []written) (kept manifest, outdated []string, err error) {
	kept.Files = map[string][]string{}
	for name, known := range before.Files {
		again := slices.ContainsFunc(files, func(w written) bool { return w.name == name })
		if again || filepath.Base(name) != name { // the program writes no name that leads out of the folder
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

// one writes one document aside. After an error the caller must remove the file that it
// returns, too.
func (f Folder) one(d Document) (w written, err error) {
	if d.Data, err = d.content(); err != nil {
		return w, err
	}
	w = written{name: d.Name, sum: sum(d.Data)}
	w.aside, err = writeAside(f.Dir, d.Name, d.Data, usualMode)
	return w, err
}

// clear reports everything that is in the way: a folder and, unless Force is set, a file
// that the program did not write.
func (f Folder) clear(docs []Document, m manifest) error {
	var errs []error
	for _, d := range docs {
		name := filepath.Join(f.Dir, d.Name)
		if info, err := os.Stat(name); err == nil && info.IsDir() {
			errs = append(errs, fmt.Errorf("%s: is a folder in place of a file; move it away, or name another folder with --out", name))
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
			errs = append(errs, fmt.Errorf("%s: was not written by Shadewright, or was changed since; move it away, name another folder with --out, or replace it with --force", name))
		}
	}
	return errors.Join(errs...)
}

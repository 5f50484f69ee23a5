package outdir

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
)

// A File is written whole or not at all.
type File struct {
	Path string
	Data []byte
}

// Replace writes a file, over an earlier one if there is one, whose permissions it keeps.
// If the path is a link, Replace writes the file that it leads to.
func Replace(path string, data []byte) error { return Write([]File{{path, data}}, true) }

// Write writes files aside and renames them once all are written. An existing file is an
// error unless force is set.
func Write(files []File, force bool) (err error) {
	files = slices.Clone(files)
	for _, f := range files {
		if _, e := os.Stat(f.Path); e == nil && !force {
			return fmt.Errorf("%s: already exists; use another name, or replace it with --force", f.Path)
		} else if e != nil && !errors.Is(e, fs.ErrNotExist) {
			return e
		}
	}
	modes := make([]fs.FileMode, len(files))
	for i, f := range files {
		modes[i] = usualMode
		if info, e := os.Stat(f.Path); e == nil {
			modes[i] = info.Mode().Perm()
		}
		if to, e := filepath.EvalSymlinks(f.Path); e == nil {
			files[i].Path = to
		}
	}
	var aside []string
	defer func() { err = errors.Join(err, discard(aside)) }()
	for i, f := range files {
		name, err := writeAside(filepath.Dir(f.Path), filepath.Base(f.Path), f.Data, modes[i])
		aside = append(aside, name)
		if err != nil {
			return err
		}
	}
	for i, f := range files {
		if err := os.Rename(aside[i], f.Path); err != nil {
			return err
		}
	}
	return nil
}

// discard removes the files aside that were not renamed. It skips empty names.
func discard(aside []string) error {
	var errs []error
	for _, name := range aside {
		if err := os.Remove(name); name != "" && err != nil && !errors.Is(err, fs.ErrNotExist) {
			errs = append(errs, err)
		}
	}
	return errors.Join(errs...)
}

// asideName matches the names that writeAside gives: a dot, the file's name, a dot and
// digits.
var asideName = regexp.MustCompile(`^\.(.+)\.[0-9]+$`)

// usualMode holds the permissions of a new file.
const usualMode = 0o644

// writeAside writes a file's data to a temporary file in the same folder and syncs it.
// After an error the caller must remove the file that it returns, too.
func writeAside(dir, name string, data []byte, mode fs.FileMode) (aside string, err error) {
	f, err := os.CreateTemp(dir, "."+name+".*")
	if err != nil {
		return "", noFolder(dir, err)
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Chmod(mode)
	}
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return f.Name(), fmt.Errorf("%s: %w; the earlier file, if any, is unchanged", filepath.Join(dir, name), err)
	}
	return f.Name(), nil
}

// noFolder names the folder in the error, not the file aside, of which the user knows
// nothing.
func noFolder(dir string, err error) error {
	var system *fs.PathError
	if errors.As(err, &system) {
		err = system.Err
	}
	return fmt.Errorf("folder %s: %w; name another with --out", dir, err)
}

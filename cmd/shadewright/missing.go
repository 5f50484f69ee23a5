package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"shadewright/ticket/form"
)

// A fileError says in plain words why a file cannot be read.
type fileError struct {
	words string
	cause error
}

func (e *fileError) Error() string { return e.words }
func (e *fileError) Unwrap() error { return e.cause }

// unread puts the system's message on a file that was to be read into plain words,
// with the file that may have been meant. The path is what was typed, and may be
// empty: settings are read from files that nobody names. Any other error is returned as it is.
func unread(path string, err error) error {
	var system *fs.PathError
	if !errors.As(err, &system) {
		return err
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return &fileError{fmt.Sprintf("%s: is not there; %s", form.Shorten(path), meant(path)), err}
	case errors.Is(err, fs.ErrPermission):
		return &fileError{fmt.Sprintf("%s: may not be read by this user; change what its owner allows, or copy it", system.Path), err}
	}
	return err
}

// mostMeant bounds the files that are named.
const mostMeant = 4

// meant names the file in the same folder that may have been meant, or says what
// there is.
func meant(path string) string {
	dir, base := filepath.Split(path)
	entries, err := os.ReadDir(filepath.Clean(filepath.Join(".", dir)))
	if filepath.IsAbs(dir) {
		entries, err = os.ReadDir(dir)
	}
	if err != nil {
		return fmt.Sprintf("there is no folder %s", form.Shorten(strings.TrimSuffix(dir, string(filepath.Separator))))
	}
	ending := strings.ToLower(filepath.Ext(base))
	if ending == "" {
		ending = ".yaml"
	}
	var stems, like []string
	byStem := map[string]string{}
	for _, e := range entries {
		if e.IsDir() || strings.HasPrefix(e.Name(), ".") {
			continue
		}
		if baseName(e.Name()) == base {
			return "did you mean " + dir + e.Name() + "?"
		}
		stem := baseName(e.Name())
		stems, byStem[stem] = append(stems, stem), e.Name()
		if strings.ToLower(filepath.Ext(e.Name())) == ending {
			like = append(like, e.Name())
		}
	}
	if near := form.Nearest(baseName(base), stems); near != "" && base != "" {
		return "did you mean " + dir + byStem[near] + "?"
	}
	slices.Sort(like)
	if len(like) == 0 || len(like) > mostMeant {
		return "check its name and its folder"
	}
	return "its folder has " + and(like)
}

// A word at the place of a command that is a file: what is done with such a file.
func fileNotCommand(word string) string {
	info, err := os.Stat(word)
	if err != nil || info.IsDir() {
		return ""
	}
	switch kindOfFile(word) {
	case jobKind:
		return "shadewright print " + word
	case sheetKind:
		return "shadewright import " + word
	}
	return ""
}

// What a file is by the ending of its name.
const (
	otherKind = iota
	jobKind
	sheetKind
)

func kindOfFile(path string) int {
	switch strings.ToLower(filepath.Ext(path)) {
	case ".yaml", ".yml":
		return jobKind
	case ".csv", ".tsv", ".xlsx":
		return sheetKind
	}
	return otherKind
}

// notJob explains a spreadsheet that was given where a job belongs: what is wrong
// with it as a job helps nobody. Any other error is returned as it is.
func notJob(path string, err error) error {
	var problems form.Problems
	if kindOfFile(path) != sheetKind || !errors.As(err, &problems) {
		return err
	}
	return form.Problems{{File: path, Fault: form.Fault{Problem: "is a spreadsheet and no job", Fix: "make a job of it with shadewright import " + path}}}
}

// flagError puts the library's message on a flag into plain words, with the flag
// that may have been meant.
func flagError(c *cobra.Command, err error) error {
	words, fix := err.Error(), "see "+c.CommandPath()+" --help"
	var unknown *pflag.NotExistError
	var wrong *pflag.InvalidValueError
	switch {
	case errors.As(err, &unknown) && unknown.GetSpecifiedShortnames() == "":
		var known []string
		c.Flags().VisitAll(func(f *pflag.Flag) {
			if !f.Hidden {
				known = append(known, f.Name)
			}
		})
		if near := form.Nearest(unknown.GetSpecifiedName(), known); near != "" {
			fix = "did you mean --" + near + "?"
		}
	case errors.As(err, &wrong): // only switches are read by the library
		name := "--" + wrong.GetFlag().Name
		words, fix = fmt.Sprintf("%s takes no %q", name, wrong.GetValue()), "write "+name+" alone"
	}
	return usageError{fmt.Errorf("%s; %s", words, fix)}
}

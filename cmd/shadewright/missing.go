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
	"shadewright/ticket/measure"
)

// A fileError says in plain words why the program cannot read a file.
type fileError struct {
	words string
	cause error
}

func (e *fileError) Error() string { return e.words }
func (e *fileError) Unwrap() error { return e.cause }

// unread turns the system's error about a file into plain words and suggests the nearest
// file. The path is as typed. It is empty for settings files that nobody named. unread
// returns any other error as it is.
func unread(path string, err error) error {
	var system *fs.PathError
	if !errors.As(err, &system) {
		return err
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return &fileError{fmt.Sprintf("%s: there is no such file; %s", form.Shorten(path), meant(path)), err}
	case errors.Is(err, fs.ErrPermission):
		return &fileError{fmt.Sprintf("%s: you do not have permission to read it; change its permissions, or copy it", system.Path), err}
	}
	return err
}

// mostMeant is how many files an error names at most.
const mostMeant = 4

// meant suggests the file in the same folder with the nearest name, or lists the files
// that the folder has.
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
	return "its folder has " + measure.And(like)
}

// fileNotCommand returns the command for a file that was given in place of a command, or
// nothing if the word is not such a file.
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

// The kinds of files, by the endings of their names.
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

// notJob says that a file is a spreadsheet, not a job, in place of all its faults as a
// job. It returns any other error as it is.
func notJob(path string, err error) error {
	var problems form.Problems
	if kindOfFile(path) != sheetKind || !errors.As(err, &problems) {
		return err
	}
	return form.Problems{{File: path, Fault: form.Fault{Problem: "is a spreadsheet, not a job", Fix: "turn it into a job with shadewright import " + path}}}
}

// flagError turns the flag library's error into plain words and suggests the nearest
// flag.
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
	case errors.As(err, &wrong): // a switch: the library reads no other values
		name := "--" + wrong.GetFlag().Name
		words, fix = fmt.Sprintf("%s takes no value, but was given %q", name, wrong.GetValue()), "write "+name+" alone"
	}
	return usageError{fmt.Errorf("%s; %s", words, fix)}
}

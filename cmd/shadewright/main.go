// Shadewright reads one job of roller shades to re-cover and prints the paper to make
// them by. See README.md.
package main

import (
	"context"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"runtime"
	"syscall"
	"time"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], system()))
}

// An environment is everything outside the program that a run touches. A test gives its
// own.
type environment struct {
	in       io.Reader
	out, err io.Writer
	environ  []string // NAME=value
	userDir  string   // the program's folder in the user's settings; empty if there is none
	dataDir  string   // the program's folder in the user's data; empty if there is none
	hears    bool     // err is a terminal, so it has a bell
	quiet    *bool    // the flag --quiet; nil stands for no

	// seconds starts the ticks at which progress is shown; nil stands for everySecond.
	seconds func() (ticks <-chan time.Time, stop func())

	// pause waits between two rings of the bell; nil stands for time.Sleep.
	pause func(time.Duration)
}

// talk returns where a command says what it did. Results, errors and whatever could not be
// checked go elsewhere: --quiet silences neither.
func (s environment) talk() io.Writer {
	if s.quiet != nil && *s.quiet {
		return io.Discard
	}
	return s.out
}

// hints returns where a command says what the user may want to know besides.
func (s environment) hints() io.Writer {
	if s.quiet != nil && *s.quiet {
		return io.Discard
	}
	return s.err
}

func system() environment {
	s := environment{in: os.Stdin, out: os.Stdout, err: os.Stderr, environ: withZone(os.Environ())}
	// A user without a home folder has no settings and no data of their own.
	if dir, err := os.UserConfigDir(); err == nil {
		s.userDir = filepath.Join(dir, "shadewright")
	}
	if dir := userDataDir(runtime.GOOS, os.Getenv); dir != "" {
		s.dataDir = filepath.Join(dir, "shadewright")
	}
	s.hears = isTerminal(os.Stderr)
	return s
}

// userDataDir returns the folder for a user's data, or nothing if the environment names
// none. The places are those of the XDG Base Directory Specification, Apple's File System
// Programming Guide, and the known folder LocalAppData of Windows.
func userDataDir(system string, env func(string) string) string {
	under := func(name string, more ...string) string {
		if home := env(name); home != "" {
			return filepath.Join(append([]string{home}, more...)...)
		}
		return ""
	}
	switch system {
	case "windows":
		return env("LocalAppData")
	case "darwin", "ios":
		return under("HOME", "Library", "Application Support")
	}
	if dir := env("XDG_DATA_HOME"); filepath.IsAbs(dir) { // the specification says to ignore a relative path
		return dir
	}
	return under("HOME", ".local", "share")
}

// run runs one command line and returns the exit code.
func run(ctx context.Context, args []string, s environment) int {
	root := newRoot(s)
	root.SetArgs(args)
	root.SetIn(s.in)
	root.SetOut(s.out)
	root.SetErr(s.err)
	err := root.ExecuteContext(ctx)
	return report(s, err, wantsJSON(args))
}

func wantsJSON(args []string) bool {
	for _, a := range args {
		if a == "--json" || a == "--json=true" {
			return true
		}
	}
	return false
}

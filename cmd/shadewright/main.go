// Shadewright takes one job of roller shades to be re-covered and gives the paper
// to make them by. See README.md.
package main

import (
	"context"
	"io"
	"os"
	"os/signal"
	"path/filepath"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], system()))
}

// A surround is everything a run touches of the outside, so that a test can give
// its own.
type surround struct {
	in       io.Reader
	out, err io.Writer
	environ  []string // NAME=value
	userDir  string   // the program's folder among the user's settings; empty if there is none
}

func system() surround {
	s := surround{in: os.Stdin, out: os.Stdout, err: os.Stderr, environ: os.Environ()}
	// A machine without a home has no settings of its own.
	if dir, err := os.UserConfigDir(); err == nil {
		s.userDir = filepath.Join(dir, "shadewright")
	}
	return s
}

// run carries out one command line and returns the exit code.
func run(ctx context.Context, args []string, s surround) int {
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

package main

import (
	"os"

	"github.com/mattn/go-isatty"
)

// canDraw reports whether there is a terminal to draw prompts in, and the user did not ask
// for plain lines.
func (s environment) canDraw() bool {
	return !s.plainly() && isTerminal(s.in) && isTerminal(s.out)
}

// plainly reports whether to write plain lines only: the terminal cannot draw, or a screen
// reader reads it aloud.
func (s environment) plainly() bool {
	return local(s.environ, "ACCESSIBLE") != "" || local(s.environ, "TERM") == "dumb"
}

// isTerminal reports whether a stream is a terminal.
func isTerminal(stream any) bool {
	f, ok := stream.(*os.File)
	return ok && isatty.IsTerminal(f.Fd())
}

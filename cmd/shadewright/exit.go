package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"shadewright/render/terminal"
	"shadewright/ticket"
	"shadewright/ticket/cutplan"
	"shadewright/ticket/jobfile"
	"shadewright/ticket/measure"
)

// Exit codes. Go itself ends with 2 when it panics.
const (
	exitDone        = 0
	exitFailed      = 1
	exitUsage       = 3
	exitRefused     = 4
	exitPart        = 5
	exitInterrupted = 130
)

// exitCodes is the one table of exit codes. --help prints it; tests hold DEVELOPERS.md
// and the guide for programs to it.
var exitCodes = []struct {
	code    int
	meaning string
}{
	{exitDone, "done"},
	{exitFailed, "failed: disk, network, or a fault in the program"},
	{exitUsage, "wrong command line or settings"},
	{exitRefused, "the job has problems, or a shade cannot be made as ordered"},
	{exitPart, "partly done, or something could not be checked; the output says what"},
	{exitInterrupted, "interrupted"},
}

// A usageError is a wrong command line or wrong settings.
type usageError struct{ error }

func (e usageError) Unwrap() error { return e.error }

// errStopped ends a run that found a shade with a stop.
var errStopped = errors.New("cannot be made as ordered")

// errPart ends a run that did what it could and named the rest.
var errPart = errors.New("partly done")

// uncheckedError ends a run for a job that lacks measures. It is nil if the job lacks
// none.
func uncheckedError(list []ticket.JobFinding) error {
	if len(list) == 0 {
		return nil
	}
	return fmt.Errorf("%s could not be checked: measure what is missing before you cut; %w", measure.Count(len(list), "thing"), errUnchecked)
}

// sayUnchecked lists what could not be checked, where the user reads it last, and ends the
// run with that.
func sayUnchecked(errs io.Writer, tickets []*ticket.Ticket) error {
	list := ticket.UncheckedOf(tickets)
	if err := terminal.Unchecked(errs, list); err != nil {
		return err
	}
	return uncheckedError(list)
}

// errUnchecked ends a run for a job that lacks measures.
var errUnchecked = errors.New("see the lines above that begin with unchecked")

// exitCode returns the exit code of a run that ended with err.
func exitCode(err error) int {
	var usage usageError
	var problems jobfile.Problems
	var unplanned *cutplan.Refusal
	switch {
	case errors.Is(err, errPart):
		return exitPart
	case err == nil:
		return exitDone
	case errors.Is(err, context.Canceled):
		return exitInterrupted
	case errors.As(err, &usage):
		return exitUsage
	case errors.As(err, &problems), errors.As(err, &unplanned), errors.Is(err, errShortRoll), errors.Is(err, errStopped):
		return exitRefused
	case errors.Is(err, errUnchecked):
		return exitPart
	}
	return exitFailed
}

// bare reports whether an error says nothing but that a context was cancelled, once or
// several times. Only a programmer understands those words.
func bare(err error) bool {
	for line := range strings.SplitSeq(err.Error(), "\n") {
		if line != context.Canceled.Error() {
			return false
		}
	}
	return true
}

// report writes the error, if any, to standard error and returns the exit code.
func report(s environment, err error, asJSON bool) int {
	code := exitCode(err)
	if err == nil {
		return code
	}
	if bare(err) {
		err = errors.New("interrupted")
	}
	if asJSON {
		line, e := json.Marshal(struct {
			Code    int    `json:"code"`
			Message string `json:"message"`
		}{code, err.Error()})
		if e == nil {
			fmt.Fprintf(s.err, "%s\n", line)
			return code
		}
	}
	for line := range strings.SplitSeq(strings.TrimRight(err.Error(), "\n"), "\n") {
		fmt.Fprintf(s.err, "shadewright: %s\n", line)
	}
	return code
}

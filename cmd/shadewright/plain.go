package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"shadewright/ticket/interview"
)

// plain asks line by line: for a screen reader, a pipe, or a terminal that cannot
// draw. Nothing that was said is ever drawn over.
type plain struct {
	environment
	lines *bufio.Reader
}

func newPlain(s environment) plain { return plain{s, bufio.NewReader(s.in)} }

func (p plain) say(line string) error {
	_, err := fmt.Fprintln(p.out, line)
	return err
}

func (p plain) ask(ctx context.Context, q interview.Question, check func(string) error) (string, error) {
	for {
		if err := p.say(questionLine(q)); err != nil {
			return "", err
		}
		text, err := p.line(ctx)
		switch {
		case errors.Is(err, io.EOF) && strings.TrimSpace(text) == "":
			return sayStop, nil
		case err != nil && !errors.Is(err, io.EOF):
			return "", err
		}
		text = strings.TrimSpace(text)
		if command(text) {
			return text, nil
		}
		if err := check(text); err == nil {
			return text, nil
		} else if err := p.say(err.Error()); err != nil {
			return "", err
		}
	}
}

// line reads a line. An interrupt does not wait for it.
func (p plain) line(ctx context.Context) (string, error) {
	type read struct {
		text string
		err  error
	}
	done := make(chan read, 1)
	go func() {
		text, err := p.lines.ReadString('\n')
		done <- read{text, err}
	}()
	select {
	case r := <-done:
		return r.text, r.err
	case <-ctx.Done():
		return "", ctx.Err()
	}
}

func command(text string) bool { return text == sayBack || text == sayStop || text == sayHelp }

// questionLine is the question with what can be answered: Which roller? donor,
// another [donor]
func questionLine(q interview.Question) string {
	line := q.Ask + "?"
	if q.Choices != nil {
		line += " " + strings.Join(q.Choices, ", ")
	}
	switch {
	case q.Default != "":
		line += " [" + q.Default + "]"
	case q.Optional:
		line += " (empty for none)"
	}
	return line
}

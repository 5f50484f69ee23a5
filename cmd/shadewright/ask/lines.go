package ask

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"shadewright/ticket/interview"
)

// Lines asks line by line: for a screen reader, a pipe, or a terminal that cannot draw. It
// never overwrites a line.
type Lines struct {
	in  *bufio.Reader
	out io.Writer
}

// NewLines asks on out and reads answers from in.
func NewLines(in io.Reader, out io.Writer) Lines { return Lines{bufio.NewReader(in), out} }

// Say writes a line.
func (p Lines) Say(line string) error {
	_, err := fmt.Fprintln(p.out, line)
	return err
}

// Ask asks a question until check accepts the answer or the user types a word such as
// [Back], and returns the answer or the word.
func (p Lines) Ask(ctx context.Context, q interview.Question, check func(string) error) (string, error) {
	for {
		if err := p.Say(questionLine(q)); err != nil {
			return "", err
		}
		text, err := p.line(ctx)
		switch {
		case errors.Is(err, io.EOF) && strings.TrimSpace(text) == "":
			return Stop, nil
		case err != nil && !errors.Is(err, io.EOF):
			return "", err
		}
		text = strings.TrimSpace(text)
		if command(text) {
			return text, nil
		}
		if err := check(text); err == nil {
			return text, nil
		} else if err := p.Say(err.Error()); err != nil {
			return "", err
		}
	}
}

// line reads a line. It returns at once if ctx ends.
func (p Lines) line(ctx context.Context) (string, error) {
	type read struct {
		text string
		err  error
	}
	done := make(chan read, 1)
	go func() {
		text, err := p.in.ReadString('\n')
		done <- read{text, err}
	}()
	select {
	case r := <-done:
		return r.text, r.err
	case <-ctx.Done():
		return "", ctx.Err()
	}
}

// questionLine is the question with its choices and its default: "Which roller? donor,
// another [donor]". An earlier answer stands in place of the default.
func questionLine(q interview.Question) string {
	line := q.Ask + "?"
	switch {
	case q.Rows:
		line = strings.Join(q.Choices, "\n") + "\n" + line
	case q.Choices != nil:
		line += " " + strings.Join(q.Choices, " | ")
	}
	switch {
	case q.Was == interview.Pass:
		line += " [passed over]"
	case q.Was != "":
		line += " [" + q.Was + "]"
	case q.Default != "":
		line += " [" + q.Default + "]"
	case q.Optional:
		line += " (Enter passes over)"
	}
	return line
}

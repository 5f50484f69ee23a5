package main

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"shadewright/cmd/shadewright/ask"
	"shadewright/ticket/form"
	"shadewright/ticket/interview"
)

// pick asks for one row of a list and returns its position, or -1 if the user goes back.
// The first row is the default.
func (e *editing) pick(ctx context.Context, question string, rows []string) (int, error) {
	numbered := make([]string, len(rows))
	for i, row := range rows {
		numbered[i] = fmt.Sprintf("%d  %s", i, row)
	}
	find := func(text string) (int, error) {
		text = strings.TrimSpace(text)
		if text == "" {
			return 0, nil
		}
		if n, err := strconv.Atoi(text); err == nil && 0 <= n && n < len(rows) {
			return n, nil
		}
		if i := slices.Index(numbered, text); i >= 0 {
			return i, nil
		}
		return byWord(rows, text)
	}
	q := interview.Question{Ask: question, Help: "Type its number, or how it begins.", Choices: numbered, Rows: true, Default: numbered[0]}
	for {
		text, err := e.Ask(ctx, q, func(text string) error { _, err := find(text); return err })
		switch {
		case err != nil:
			return 0, err
		case text == ask.Stop:
			return 0, errLeft
		case text == ask.Back, text == ask.List:
			return -1, nil
		case text != ask.Help:
			return find(text)
		}
		if err := e.Say("Type the number of a line, or how it begins. " + ask.Back + " goes back, " + ask.Stop + " leaves the job as it is."); err != nil {
			return 0, err
		}
	}
}

// byWord returns the one row that begins with a text.
func byWord(rows []string, text string) (int, error) {
	found := -1
	for i, row := range rows {
		if !strings.HasPrefix(strings.ToLower(row), strings.ToLower(text)) {
			continue
		}
		if found >= 0 {
			return 0, fmt.Errorf("%q begins more than one line; write the number, 0 to %d", form.Shorten(text), len(rows)-1)
		}
		found = i
	}
	if found < 0 {
		return 0, fmt.Errorf("%q begins no line of the list; write a number, 0 to %d", form.Shorten(text), len(rows)-1)
	}
	return found, nil
}

// one asks the next question of an interview. It returns [ask.Back] or [ask.List] if the
// user leaves the question, and then or after an unchanged answer leaves the interview as
// it was.
func (e *editing) one(ctx context.Context, v *interview.Interview) (left string, err error) {
	q, _ := v.Next()
	text, err := e.Ask(ctx, q, v.Check)
	switch {
	case err != nil:
		return "", err
	case text == ask.Stop:
		return "", errLeft
	case text == ask.Back, text == ask.List:
		return text, nil
	case text == ask.Help:
		help := q.More
		if help == "" {
			help = q.Help
		}
		return "", e.Say(help + " " + ask.Back + " goes back, " + ask.Stop + " leaves the job as it is.")
	case q.Was != "" && q.Why == "" && (strings.TrimSpace(text) == "" || text == q.Was):
		v.Stay() // the file keeps what it has, even a value that is left out
		return "", nil
	}
	said, err := v.Answer(text)
	if err != nil {
		said = []string{err.Error()}
	}
	for _, line := range said {
		if err := e.Say(line); err != nil {
			return "", err
		}
	}
	return "", nil
}

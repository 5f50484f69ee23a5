package ask

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"unicode/utf8"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"charm.land/huh/v2"

	"shadewright/ticket/interview"
)

// A Prompt draws a question in a terminal, as a field to type in or a list to pick from.
// Earlier lines stay above it.
type Prompt struct {
	out     io.Writer
	environ []string // NAME=value
	keys    *keyboard
	width   int // of the window; 0 until the terminal reports it
}

// NewPrompt starts to read the keys of a terminal, and draws on out.
func NewPrompt(terminal *os.File, out io.Writer, environ []string) *Prompt {
	return &Prompt{out: out, environ: environ, keys: newKeyboard(terminal)}
}

// Say writes a line above the next question.
func (p *Prompt) Say(line string) error {
	_, err := fmt.Fprintln(p.out, fold(line, p.width))
	return err
}

// fold breaks a text at spaces into lines no wider than the window. Otherwise the terminal
// breaks a word anywhere, and the prompt library breaks after every point and hyphen,
// which splits a number such as 31-5/8.
func fold(text string, width int) string {
	if width <= 0 {
		return text
	}
	var b strings.Builder
	for i, line := range strings.Split(text, "\n") {
		if i > 0 {
			b.WriteByte('\n')
		}
		used := 0
		for j, word := range strings.Split(line, " ") {
			n := utf8.RuneCountInString(word)
			switch {
			case j > 0 && used+1+n > width:
				b.WriteByte('\n')
				used = 0
			case j > 0:
				b.WriteByte(' ')
				used++
			}
			b.WriteString(word)
			used += n
		}
	}
	return b.String()
}

// besides is the width that the prompt library uses beside a text: for a bar, or for the
// sign of an error.
const besides = 4

// Ask draws a question until check accepts the answer, and returns it. It returns [Back],
// [List] or [Stop] if the user leaves the question.
func (p *Prompt) Ask(ctx context.Context, q interview.Question, check func(string) error) (string, error) {
	var text string
	left := "" // the word of the key that left the question
	judge := func(s string) error {
		if left != "" || command(given(q, s)) {
			return nil
		}
		if err := check(given(q, s)); err != nil {
			return errors.New(fold(err.Error(), p.width-besides))
		}
		return nil
	}
	var field huh.Field
	var list *chooser
	var fit func() // fits the field to the window
	if q.Choices != nil {
		list = newChooser(q, &text, judge)
		field = list.field
		fit = func() { list.fit(p.width - besides) }
	} else {
		if q.Was != interview.Pass {
			text = q.Was
		}
		input := huh.NewInput().Title(q.Ask + "?").Placeholder(placeholder(q)).Value(&text).Validate(judge)
		field = input
		fit = func() { input.Description(fold(hint(q, keys), p.width-besides)) }
	}
	fit()
	in := p.keys.lend()
	defer in.giveBack()
	bound := huh.NewDefaultKeyMap()
	bound.Quit = key.NewBinding(key.WithDisabled()) // see leaving
	listKeys(bound)
	form := huh.NewForm(huh.NewGroup(field)).WithKeyMap(bound).WithShowHelp(false).
		WithProgramOptions(tea.WithInput(in), tea.WithOutput(p.out), tea.WithEnvironment(p.environ), tea.WithFilter(func(_ tea.Model, m tea.Msg) tea.Msg {
			switch m := m.(type) {
			case tea.KeyPressMsg:
				if left = leaving[m.String()]; left != "" {
					return tea.KeyPressMsg{Code: tea.KeyEnter}
				}
				if list != nil {
					list.press(m)
				}
			case tea.WindowSizeMsg:
				p.width = m.Width
				fit()
			}
			return m
		}))
	err := form.RunWithContext(ctx)
	switch {
	case err == nil && left != "":
		return left, nil
	case errors.Is(err, huh.ErrUserAborted):
		return Stop, nil
	case list != nil && list.typed != "":
		return list.typed, err
	}
	return given(q, text), err
}

// leaving holds the keys that leave a question. They end it like an answer: the library
// leaves a question that is broken off on the screen.
var leaving = map[string]string{"esc": Back, "ctrl+l": List, "ctrl+c": Stop}

// given turns a field that the user emptied into passing the question over, and a
// question mark behind an old answer into a call for help.
func given(q interview.Question, text string) string {
	if q.Was != "" && strings.HasSuffix(text, Help) {
		return Help // typed behind the old answer
	}
	if q.Choices == nil && q.Optional && q.Was != "" && strings.TrimSpace(text) == "" {
		return interview.Pass
	}
	return text
}

const keys = "esc goes back, ctrl-l lists the answers, ctrl-c stops"

// hint is the help under a question. What is longer is shown for a question mark.
func hint(q interview.Question, keys string) string {
	if q.More != "" {
		keys = "? explains, " + keys
	}
	if q.Was != "" && q.Choices == nil {
		keys = "ctrl-u empties the line, " + keys
	}
	why := ""
	if q.Why != "" {
		why = "\n" + q.Why
	}
	return q.Help + why + "\n" + keys
}

func placeholder(q interview.Question) string {
	if q.Default == "" && q.Optional {
		return "pass over"
	}
	return q.Default
}

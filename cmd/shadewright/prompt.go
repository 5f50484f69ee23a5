package main

import (
	"context"
	"errors"
	"fmt"
	"os"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"charm.land/huh/v2"
	"github.com/mattn/go-isatty"

	"shadewright/ticket/interview"
)

// canDraw reports whether there is a terminal to draw prompts in, and nobody who
// asked for plain lines.
func canDraw(s surround) bool {
	return !s.plainly() && terminal(s.in) && terminal(s.out)
}

// plainly reports whether a terminal takes lines alone: it can do no more, or somebody
// has them read aloud.
func (s surround) plainly() bool {
	return local(s.environ, "ACCESSIBLE") != "" || local(s.environ, "TERM") == "dumb"
}

// terminal reports whether a stream is a terminal.
func terminal(stream any) bool {
	f, ok := stream.(*os.File)
	return ok && isatty.IsTerminal(f.Fd())
}

// prompt draws a question in a terminal, as a field to type in or a list to pick
// from. What was understood stays above it.
type prompt struct {
	surround
	keys *keyboard
}

func (p prompt) say(line string) error {
	_, err := fmt.Fprintln(p.out, line)
	return err
}

func (p prompt) ask(ctx context.Context, q interview.Question, check func(string) error) (string, error) {
	var text string
	var field huh.Field
	var list *chooser
	if q.Choices != nil {
		list = newChooser(q, &text, check)
		field = list.field
	} else {
		field = huh.NewInput().Title(q.Ask + "?").Description(q.Help + "\nesc goes back, ctrl-c stops").Placeholder(placeholder(q)).Value(&text).
			Validate(func(s string) error {
				if command(s) {
					return nil
				}
				return check(s)
			})
	}
	in := p.keys.lend()
	defer in.giveBack()
	bound := huh.NewDefaultKeyMap()
	bound.Quit = key.NewBinding(key.WithKeys("ctrl+c", "esc"))
	listKeys(bound)
	back := false
	form := huh.NewForm(huh.NewGroup(field)).WithKeyMap(bound).WithShowHelp(false).
		WithProgramOptions(tea.WithInput(in), tea.WithOutput(p.out), tea.WithEnvironment(p.environ), tea.WithFilter(func(_ tea.Model, m tea.Msg) tea.Msg {
			if k, ok := m.(tea.KeyPressMsg); ok {
				back = k.String() == "esc"
				if list != nil {
					list.press(k)
				}
			}
			return m
		}))
	err := form.RunWithContext(ctx)
	switch {
	case errors.Is(err, huh.ErrUserAborted) && back:
		return sayBack, nil
	case errors.Is(err, huh.ErrUserAborted):
		return sayStop, nil
	case list != nil && list.typed != "":
		return list.typed, err
	}
	return text, err
}

func placeholder(q interview.Question) string {
	if q.Default == "" && q.Optional {
		return "none"
	}
	return q.Default
}

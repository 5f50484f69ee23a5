package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"strings"
	"unicode/utf8"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"charm.land/huh/v2"
	"github.com/mattn/go-isatty"

	"shadewright/ticket/interview"
)

// canDraw reports whether there is a terminal to draw prompts in, and nobody who
// asked for plain lines.
func canDraw(s environment) bool {
	return !s.plainly() && isTerminal(s.in) && isTerminal(s.out)
}

// plainly reports whether a terminal takes lines alone: it can do no more, or somebody
// has them read aloud.
func (s environment) plainly() bool {
	return local(s.environ, "ACCESSIBLE") != "" || local(s.environ, "TERM") == "dumb"
}

// terminal reports whether a stream is a terminal.
func isTerminal(stream any) bool {
	f, ok := stream.(*os.File)
	return ok && isatty.IsTerminal(f.Fd())
}

// prompt draws a question in a terminal, as a field to type in or a list to pick
// from. What was understood stays above it.
type prompt struct {
	environment
	keys  *keyboard
	width int // of the window; 0 until it is known
}

func (p *prompt) say(line string) error {
	_, err := fmt.Fprintln(p.out, fold(line, p.width))
	return err
}

// fold breaks a text at blanks into lines no wider than the window. Left to itself
// the terminal breaks a word anywhere, and the prompt library after every point and
// hyphen: a number must not end in the middle and go on in the next line.
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

// besides is what the prompt library draws beside a text: a bar, or the mark of an
// error.
const besides = 4

func (p *prompt) ask(ctx context.Context, q interview.Question, check func(string) error) (string, error) {
	var text string
	judge := func(s string) error {
		if command(s) {
			return nil
		}
		if err := check(s); err != nil {
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
		input := huh.NewInput().Title(q.Ask + "?").Placeholder(placeholder(q)).Value(&text).Validate(judge)
		field = input
		fit = func() { input.Description(fold(q.Help+"\nesc goes back, ctrl-c stops", p.width-besides)) }
	}
	fit()
	in := p.keys.lend()
	defer in.giveBack()
	bound := huh.NewDefaultKeyMap()
	bound.Quit = key.NewBinding(key.WithKeys("ctrl+c", "esc"))
	listKeys(bound)
	back := false
	form := huh.NewForm(huh.NewGroup(field)).WithKeyMap(bound).WithShowHelp(false).
		WithProgramOptions(tea.WithInput(in), tea.WithOutput(p.out), tea.WithEnvironment(p.environ), tea.WithFilter(func(_ tea.Model, m tea.Msg) tea.Msg {
			switch m := m.(type) {
			case tea.KeyPressMsg:
				back = m.String() == "esc"
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

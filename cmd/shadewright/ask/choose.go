package ask

import (
	"cmp"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"charm.land/huh/v2"

	"shadewright/ticket/interview"
)

// A chooser is a list to pick from, with the arrow keys or by typing a word. Typed text
// beats the highlighted row; a word that is not on the list is an error.
type chooser struct {
	field *huh.Select[string]
	help  string
	hint  string // the help, fitted to the window
	typed string
}

// newChooser makes the list for a question. Check judges a typed word.
func newChooser(q interview.Question, into *string, check func(string) error) *chooser {
	c := &chooser{help: hint(q, "choose with the arrows, or type the word; "+keys)}
	*into = cmp.Or(q.Was, q.Default)
	options := huh.NewOptions(q.Choices...)
	if q.Optional {
		pass := huh.NewOption("pass over", interview.Pass)
		if *into == "" {
			options, *into = append([]huh.Option[string]{pass}, options...), interview.Pass
		} else {
			options = append(options, pass)
		}
	}
	c.field = huh.NewSelect[string]().Title(q.Ask + "?").Options(options...).Value(into).
		Validate(func(string) error {
			if c.typed == "" {
				return nil
			}
			err := check(c.typed)
			if err != nil {
				c.show("")
			}
			return err
		})
	if q.Rows {
		c.field.Height(mostRows)
	}
	return c
}

// mostRows is how many rows a long list shows at once, the question included.
const mostRows = 16

// fit folds the help to a width. A width below 1 means that it is not known yet.
func (c *chooser) fit(width int) {
	c.hint = fold(c.help, width)
	c.show(c.typed)
}

// show shows the typed text below the question. The line is there even when empty, so that
// the list does not jump.
func (c *chooser) show(typed string) {
	c.typed = typed
	c.field.Description(c.hint + "\n> " + typed)
}

// press adds a key to the typed word. It runs before the list sees the key.
func (c *chooser) press(k tea.KeyPressMsg) {
	switch text := k.Key().Text; {
	case k.String() == "backspace" && c.typed != "":
		r := []rune(c.typed)
		c.show(string(r[:len(r)-1]))
	case text != "":
		c.show(c.typed + text)
	case k.String() == "up" || k.String() == "down" || k.String() == "home" || k.String() == "end":
		c.show("")
	}
}

// listKeys sets the keys that move in a list. The library also moves on some letters; here
// letters type a word.
func listKeys(m *huh.KeyMap) {
	only := func(keys ...string) key.Binding { return key.NewBinding(key.WithKeys(keys...)) }
	m.Select.Up, m.Select.Down = only("up", "ctrl+p"), only("down", "ctrl+n")
	m.Select.GotoTop, m.Select.GotoBottom = only("home"), only("end")
	m.Select.Filter = key.NewBinding(key.WithDisabled())
}

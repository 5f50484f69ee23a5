package grid

import "testing"

// A quote without a closing one swallows the text that follows. Read must report
// the quote, not the cells that are then missing. A quote used as an inch mark,
// inside or at the end of a cell, is not a fault.
func TestUnclosedQuote(t *testing.T) {
	for text, want := range map[string]string{
		"Shade,Width\n\"left,27\n":                      `s.csv:2: opens a quote that is never closed; close the quote, or remove it`,
		"Shade,Width\nleft,27\nright,\"28\nmid,29\n":    `s.csv:3: opens a quote that is never closed; close the quote, or remove it`,
		"Shade,Width\nleft,27 1/2\"\n":                  "",
		"Shade,Width\n\"left, upper\",\"27 1/2\"\"\"\n": "",
		"Shade,Width\n\"left\nupper\",\"27\"\n":         "",
		"Shade,Width\nleft,27":                          "",
	} {
		_, err := Read("s.csv", []byte(text))
		if got := ""; err != nil {
			got = err.Error()
			if got != want {
				t.Errorf("Read(%q): %s; want %s", text, got, want)
			}
		} else if want != "" {
			t.Errorf("Read(%q) is accepted; want %s", text, want)
		}
	}
}

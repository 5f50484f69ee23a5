package grid

import "testing"

// A quote that is opened and never closed swallows what follows it: that is told,
// and not what is lacking then. A quote for inches, in a cell or at its end, is none.
func TestUnclosedQuote(t *testing.T) {
	for text, want := range map[string]string{
		"Shade,Width\n\"left,27\n":                      `s.csv:2: opens a quote that is never closed; close it, or take it out`,
		"Shade,Width\nleft,27\nright,\"28\nmid,29\n":    `s.csv:3: opens a quote that is never closed; close it, or take it out`,
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
			t.Errorf("Read(%q) is taken; want %s", text, want)
		}
	}
}

package measure

import (
	"fmt"
	"strings"
)

// Count puts a number of things into words: "1 sheet", "3 sheets". The plural of
// thing must be thing with an s.
func Count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// And lists things as a person says them: "a", "a and b", "a, b and c".
func And(things []string) string {
	last := len(things) - 1
	if last < 1 {
		return strings.Join(things, "")
	}
	return strings.Join(things[:last], ", ") + " and " + things[last]
}

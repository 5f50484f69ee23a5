package measure

import "fmt"

// Count puts a number of things into words: "1 sheet", "3 sheets". The plural of
// thing must be thing with an s.
func Count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

package measure

import "fmt"

// Count puts a number of things into words: "1 sheet", "3 sheets". The thing must
// be one whose plural takes an s.
func Count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

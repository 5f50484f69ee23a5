package form

import (
	"strconv"
	"strings"
)

// These limit the work on a hostile file, and the length of a message about it.
const (
	mostCompared = 500
	mostListed   = 20
)

// Nearest returns the word in from that a misspelt word most likely means, or "" if
// none is near. It ignores case and treats dashes and spaces as underscores.
// Otherwise a third of the letters may differ, so cm never counts as mm. Of two
// words equally near, the first wins.
func Nearest(word string, from []string) string {
	if len(word) > longestShown {
		return ""
	}
	w := plain(word)
	best, least := "", 1+len(w)/3
	for _, f := range from[:min(len(from), mostCompared)] {
		if d := distance(w, plain(f)); d < least {
			best, least = f, d
		}
	}
	return best
}

var dashes = strings.NewReplacer("-", "_", " ", "_")

func plain(s string) string { return dashes.Replace(strings.ToLower(s)) }

// distance counts the letters to insert, delete, replace or swap with a neighbour
// to turn a into b (optimal string alignment, a restricted form of Damerau's
// distance).
func distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	before, last, row := make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := range x {
		row[0] = i + 1
		for j := range y {
			change := last[j]
			if x[i] != y[j] {
				change++
			}
			row[j+1] = min(last[j+1]+1, row[j]+1, change)
			if i > 0 && j > 0 && x[i] == y[j-1] && x[i-1] == y[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(y)]
}

// Suggest returns the end of a message about an unknown word: the known word that
// it most likely means, or a list of all known words.
func Suggest(word, what string, known []string) string {
	if n := Nearest(word, known); n != "" {
		return "did you mean " + n + "?"
	}
	if len(known) == 0 {
		return "there are no " + what
	}
	list := strings.Join(known[:min(len(known), mostListed)], ", ")
	if more := len(known) - mostListed; more > 0 {
		list += " and " + strconv.Itoa(more) + " more"
	}
	return "the " + what + " are " + list
}

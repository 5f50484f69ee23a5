//go:build !race

package nest_test

// underRace says whether the race detector is on, which slows the search about
// fifteen times.
const underRace = false

//go:build !race

package nest_test

// underRace says that the race detector slows the search some fifteen times.
const underRace = false

//go:build race

package readback

// UnderRace says that the race detector is on: reading a page takes fifteen
// times as long then.
const UnderRace = true

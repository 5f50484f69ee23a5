package readback

// Few returns the cases of a long test, and only the first n where the race
// detector slows it: the others would try no other goroutine.
func Few[T any](cases []T, n int) []T {
	if UnderRace {
		return cases[:min(n, len(cases))]
	}
	return cases
}

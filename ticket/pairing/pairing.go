// Package pairing gives each of some things one of others, so that as many as possible
// have one and the total cost is least. It proves its answer: see [Result.Proof].
package pairing

import "math"

// Never is the cost of a pair that does not go together.
const Never = math.MaxInt64

// most bounds costs, so that no sum overflows.
const most = int64(1) << 40

// A Result says which column each row got.
type Result struct {
	Of    []int // the column of each row; −1 if it got none
	Cost  int64 // of all pairs
	Proof Proof
}

// A Proof holds a price for each row and each column. No pair costs less than the prices
// of its two sides together, so no other pairing of as many rows can cost less in total
// than the prices of the sides that this one uses. Anyone can check that: [Proof.Holds].
type Proof struct {
	Row, Column []int64
	unserved    int64 // what it costs to leave a row without a column
}

// Least pairs rows with columns. cost[i][j] is at least zero and at most 2⁴⁰, or [Never];
// rows may be fewer or more than columns. Most rows served comes first, least cost second.
// The time grows with the cube of their number (the Hungarian method: Kuhn 1955, Munkres
// 1957, in the form with shortest augmenting paths).
func Least(cost [][]int64) Result {
	rows := len(cost)
	if rows == 0 {
		return Result{}
	}
	columns := len(cost[0])
	unserved := most * int64(rows+1)
	// Each row also has a column of its own that stands for going without.
	width := columns + rows
	at := func(i, j int) int64 {
		switch {
		case j < columns && cost[i][j] != Never:
			return cost[i][j]
		case j == columns+i:
			return unserved
		}
		return 4 * unserved // dearer than two rows that go without
	}
	row, column := make([]int64, rows+1), make([]int64, width+1)
	has := make([]int, width+1) // the row of each column, from 1; 0 for none
	from := make([]int, width+1)
	for i := 1; i <= rows; i++ {
		has[0] = i
		j0 := 0
		least := make([]int64, width+1)
		used := make([]bool, width+1)
		for j := range least {
			least[j] = math.MaxInt64
		}
		for {
			used[j0] = true
			i0, delta, j1 := has[j0], int64(math.MaxInt64), 0
			for j := 1; j <= width; j++ {
				if used[j] {
					continue
				}
				if c := at(i0-1, j-1) - row[i0] - column[j]; c < least[j] {
					least[j], from[j] = c, j0
				}
				if least[j] < delta {
					delta, j1 = least[j], j
				}
			}
			for j := 0; j <= width; j++ {
				if used[j] {
					row[has[j]] += delta
					column[j] -= delta
				} else {
					least[j] -= delta
				}
			}
			if j0 = j1; has[j0] == 0 {
				break
			}
		}
		for j0 != 0 {
			has[j0] = has[from[j0]]
			j0 = from[j0]
		}
	}
	r := Result{Of: make([]int, rows), Proof: Proof{row[1:], column[1 : columns+1], unserved}}
	for i := range r.Of {
		r.Of[i] = -1
	}
	for j := 1; j <= columns; j++ {
		if i := has[j]; i > 0 {
			r.Of[i-1] = j - 1
			r.Cost += cost[i-1][j-1]
		}
	}
	return r
}

// Holds reports whether the proof shows that a result for these costs is best: every pair
// that goes together costs at least the prices of its sides, no column has a price above
// zero and an unused one has none, no row's price exceeds what it costs to go without, and
// the prices add up to what the result costs.
func (p Proof) Holds(cost [][]int64, r Result) bool {
	var prices, paid int64
	used := make([]bool, len(p.Column))
	for i, j := range r.Of {
		prices += p.Row[i]
		if j < 0 {
			paid += p.unserved
			continue
		}
		if cost[i][j] == Never || used[j] {
			return false
		}
		used[j] = true
		paid += cost[i][j]
	}
	for j, price := range p.Column {
		prices += price
		if price > 0 || !used[j] && price != 0 {
			return false
		}
	}
	for i := range cost {
		if p.Row[i] > p.unserved {
			return false
		}
		for j, c := range cost[i] {
			if c != Never && p.Row[i]+p.Column[j] > c {
				return false
			}
		}
	}
	return prices == paid
}

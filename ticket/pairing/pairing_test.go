package pairing

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// By hand. In the second, the first row must take the dearer column, or the second row
// would get none.
func TestLeast(t *testing.T) {
	for _, tt := range []struct {
		cost [][]int64
		of   []int
		sum  int64
	}{
		{[][]int64{{4, 1, 3}, {2, 0, 5}, {3, 2, 2}}, []int{1, 0, 2}, 5}, // 1 + 2 + 2
		{[][]int64{{1, 9}, {2, Never}}, []int{1, 0}, 11},
		{[][]int64{{Never, Never}, {3, 1}}, []int{-1, 1}, 1},
		{[][]int64{{5}, {2}, {7}}, []int{-1, 0, -1}, 2}, // one column: the cheapest row has it
		{nil, nil, 0},
	} {
		r := Least(tt.cost)
		if !slices.Equal(r.Of, tt.of) || r.Cost != tt.sum || !r.Proof.Holds(tt.cost, r) {
			t.Errorf("Least(%v) = %v for %d, proven %v; want %v for %d", tt.cost, r.Of, r.Cost, r.Proof.Holds(tt.cost, r), tt.of, tt.sum)
		}
	}
}

func draw(t *rapid.T, side int) [][]int64 {
	rows, columns := rapid.IntRange(1, side).Draw(t, "rows"), rapid.IntRange(1, side).Draw(t, "columns")
	cost := make([][]int64, rows)
	for i := range cost {
		cost[i] = make([]int64, columns)
		for j := range cost[i] {
			cost[i][j] = rapid.Int64Range(0, 9).Draw(t, "cost")
			if rapid.IntRange(0, 3).Draw(t, "goes") == 0 {
				cost[i][j] = Never
			}
		}
	}
	return cost
}

// Every pairing tried one after another finds none that serves more rows, or as many for
// less.
func TestAgainstEveryPairing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cost := draw(t, 6)
		best, least := -1, int64(0)
		taken := make([]bool, len(cost[0]))
		var try func(i, served int, sum int64)
		try = func(i, served int, sum int64) {
			if i == len(cost) {
				if served > best || served == best && sum < least {
					best, least = served, sum
				}
				return
			}
			try(i+1, served, sum)
			for j, c := range cost[i] {
				if !taken[j] && c != Never {
					taken[j] = true
					try(i+1, served+1, sum+c)
					taken[j] = false
				}
			}
		}
		try(0, 0, 0)
		r := Least(cost)
		served := 0
		for _, j := range r.Of {
			if j >= 0 {
				served++
			}
		}
		if served != best || r.Cost != least {
			t.Fatalf("Least(%v) serves %d for %d; the best serves %d for %d", cost, served, r.Cost, best, least)
		}
	})
}

// With twenty of each, the proof holds; and it does not hold for a worse pairing.
func TestProof(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cost := draw(t, 20)
		r := Least(cost)
		if !r.Proof.Holds(cost, r) {
			t.Fatalf("no proof for %v", cost)
		}
		if i := slices.IndexFunc(r.Of, func(j int) bool { return j >= 0 }); i >= 0 {
			worse := r
			worse.Of = slices.Clone(r.Of)
			worse.Of[i] = -1
			if r.Proof.Holds(cost, worse) {
				t.Fatalf("the proof holds for a row left out of %v", cost)
			}
		}
	})
}

func BenchmarkTwenty(b *testing.B) {
	cost := make([][]int64, 20)
	for i := range cost {
		cost[i] = make([]int64, 20)
		for j := range cost[i] {
			cost[i][j] = int64((i*7 + j*13) % 31)
		}
	}
	for b.Loop() {
		Least(cost)
	}
}

package measure

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

func TestRound(t *testing.T) {
	const (
		s16, s32, s64 = Inch / 16, Inch / 32, Inch / 64
		limits        = "ASME A112.18.1, annex A, A.2 e: limits are rounded inside, never across"
	)
	tests := []struct {
		l, step Length
		r       Rounding
		want    Length
		src     string
	}{
		// Exact ties go up, away from zero: common practice, no source.
		{1 * s32, s16, Nearest, 1 * s16, "1/32 half up is 1/16"},
		{3 * s32, s16, Nearest, 2 * s16, "3/32 half up is 1/8"},
		{5 * s32, s16, Nearest, 3 * s16, "5/32 half up is 3/16"},
		{7 * s32, s16, Nearest, 4 * s16, "7/32 half up is 1/4"},
		{-1 * s32, s16, Nearest, -1 * s16, "halves go away from zero"},
		{-3 * s32, s16, Nearest, -2 * s16, "the same"},
		{5 * s32, s16, Down, 2 * s16, limits + ": a longest is never made longer"},
		{5 * s32, s16, Up, 3 * s16, limits + ": a shortest is never made shorter"},
		{-5 * s32, s16, Down, -3 * s16, limits + ": never longer, below zero"},
		{-5 * s32, s16, Up, -2 * s16, limits + ": never shorter, below zero"},
		{4 * s32, s16, Up, 2 * s16, "a whole step stays"},
		{4 * s32, s16, Down, 2 * s16, "a whole step stays"},
		{0, s16, Up, 0, "zero stays"},
		{400 * Inch / 1000, s64, Nearest, 26 * s64, "homemadetools.net, topic 81577: 0.400 in to 1/64 is 26/64"},
		{803_249 * Micrometre, 500 * Micrometre, Nearest, 803 * Millimetre, "803.249 mm, by hand"},
		{803_250 * Micrometre, 500 * Micrometre, Nearest, 803_500 * Micrometre, "a tie, by hand"},
	}
	for _, tt := range tests {
		if got := tt.l.Round(tt.step, tt.r); got != tt.want {
			t.Errorf("(%s).Round(%s, %d) = %s; want %s (%s)", tt.l, tt.step, tt.r, got, tt.want, tt.src)
		}
	}
}

func TestRoundIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := lengths().Draw(t, "a"), lengths().Draw(t, "b")
		step := Length(rapid.Int64Range(1, int64(Inch)).Draw(t, "step"))
		r := Rounding(rapid.IntRange(int(Nearest), int(Up)).Draw(t, "r"))
		if a > b {
			a, b = b, a
		}
		ra, rb := a.Round(step, r), b.Round(step, r)
		if ra > rb {
			t.Fatalf("%s ≤ %s but rounded %s > %s", a, b, ra, rb)
		}
		off := ra - a
		switch {
		case ra%step != 0:
			t.Fatalf("%s rounded to %s, which is not a multiple of %s", a, ra, step)
		case r == Down && (off > 0 || off <= -step), r == Up && (off < 0 || off >= step), r == Nearest && 2*off.Abs() > step:
			t.Fatalf("%s rounded (%d) to %s by steps of %s", a, r, ra, step)
		}
	})
}

// The worst errors of rounding to the nearest 1/8, 1/16 and 1/32 in are half of
// these steps, by hand: 3.175, 1.5875 and 0.79375 mm, halved.
func TestWorstRounding(t *testing.T) {
	for _, tt := range []struct {
		den  Length
		most Length
	}{{8, 1_587_500}, {16, 793_750}, {32, 396_875}} {
		step := Inch / tt.den
		worst := Length(0)
		for l := Length(0); l <= Inch; l += Inch / 64 { // 64ths include every tie
			worst = max(worst, (l.Round(step, Nearest) - l).Abs())
		}
		if worst != tt.most {
			t.Errorf("worst error at 1/%d is %s; want %s", tt.den, worst, tt.most)
		}
	}
}

func TestDiagonal(t *testing.T) {
	tests := []struct {
		w, l, want Length
		src        string
	}{
		{3 * Metre, 4 * Metre, 5 * Metre, "Pythagoras"},
		{3 * Foot, 4 * Foot, 5 * Foot, "diy-woodworking-guide.com 1548, is it square: 3-4-5"},
		{6 * Foot, 8 * Foot, 10 * Foot, "diy-woodworking-guide.com 1548, is it square: 6-8-10"},
		{9 * Foot, 12 * Foot, 15 * Foot, "diy-woodworking-guide.com 1548, is it square: 9-12-15"},
		{0, 4 * Metre, 4 * Metre, "a line"},
		{-3 * Inch, 4 * Inch, 5 * Inch, "signs do not matter"},
		{0, 0, 0, "nothing"},
		{1, 1, 1, "√2 = 1.414 nm goes down"},
		{1, 2, 2, "√5 = 2.236 nm goes down"},
		{2, 3, 4, "√13 = 3.606 nm goes up"},
		{25 * Inch, 43*Inch + 3*Inch/4, 1_279_883_418, "common practice, no source: 25 × 43-3/4 reads 50-3/8; √(625 + 1914.0625) = 50.3891109 in × 25.4, worked in 40 decimals"},
		{Longest, Longest, 1_414_213_562_373, "1 km · √2"},
	}
	for _, tt := range tests {
		if got := Diagonal(tt.w, tt.l); got != tt.want {
			t.Errorf("Diagonal(%s, %s) = %d nm; want %d (%s)", tt.w, tt.l, got, tt.want, tt.src)
		}
	}
}

// The reference is math/big: half the root of four times the sum of squares,
// rounded, is exact at any size.
func TestDiagonalAgainstBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, l := lengths().Draw(t, "w"), lengths().Draw(t, "l")
		sum := new(big.Int).Add(square(w), square(l))
		twice := sum.Sqrt(sum.Lsh(sum, 2)) // ⌊2d⌋
		want := twice.Rsh(twice.Add(twice, big.NewInt(1)), 1)
		if got := Diagonal(w, l); big.NewInt(int64(got)).Cmp(want) != 0 {
			t.Fatalf("Diagonal(%d, %d) = %d; math/big says %s", w, l, got, want)
		}
	})
}

func square(l Length) *big.Int {
	b := big.NewInt(int64(l))
	return b.Mul(b, b)
}

func TestFromMillimetres(t *testing.T) {
	for _, tt := range []struct {
		mm   float64
		want Length
	}{{0.396875, 396_875}, {-25.4, -Inch}, {0.0000005, 1}, {1e6, Longest}} {
		if got := FromMillimetres(tt.mm); got != tt.want {
			t.Errorf("FromMillimetres(%g) = %d nm; want %d", tt.mm, got, tt.want)
		}
	}
	zero := 0.0
	for _, bad := range []float64{zero / zero, 1 / zero, -1 / zero, 1e6 + 1} {
		if !panics(func() { FromMillimetres(bad) }) {
			t.Errorf("FromMillimetres(%g) does not panic", bad)
		}
	}
	if !panics(func() { Inch.Round(0, Up) }) {
		t.Error("Round with a step of zero does not panic")
	}
}

func panics(f func()) (yes bool) {
	defer func() { yes = recover() != nil }()
	f()
	return false
}

func TestUnits(t *testing.T) {
	for _, tt := range []struct {
		got, want float64
		src       string
	}{
		{(Inch / 64).Millimetres(), 0.396875, "25.4 / 64"},
		{(297 * Millimetre).Inches(), 297 / 25.4, "A4 height in inches"},
		{(841 * Millimetre).Metres(), 0.841, "ISO 216, A0 width"},
	} {
		if tt.got != tt.want {
			t.Errorf("got %g; want %g (%s)", tt.got, tt.want, tt.src)
		}
	}
}

func BenchmarkDiagonal(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		Diagonal(26*Inch+3*Inch/8, 48*Inch)
	}
}

package nest

import (
	"context"

	"shadewright/ticket/measure"
)

// A Roll is the goods that the pieces are cut from, and the limits of cutting it.
type Roll struct {
	Width  measure.Length // usable width, between the selvages
	Length measure.Length // length on the roll; zero means as long as needed
	// Table is the longest section that fits the cutting table; zero means no
	// limit. With a table, the first cuts run across the whole roll and divide it
	// into sections.
	Table     measure.Length
	Allowance measure.Length // cloth left on each side of every piece
	// Repeat is the length of the pattern along the roll; zero means plain goods.
	// Every piece starts at the same place of the pattern.
	Repeat measure.Length
}

// A Piece is a size to cut, Quantity times.
type Piece struct {
	Label    string
	Width    measure.Length // across the roll
	Length   measure.Length // along it
	Quantity int
	Turn     bool   // it may turn a quarter
	Match    string // pieces with the same word here all turn, or none does; empty: no match
}

// A Stock is a piece of the same goods on hand, measured as it lay on its roll.
// With a repeat, it must begin where the pattern begins.
type Stock struct {
	Label  string
	Width  measure.Length // across the roll
	Length measure.Length // along it
}

// An Order lists the pieces to lay and the goods to lay them on.
type Order struct {
	Roll   Roll
	Pieces []Piece
	OnHand []Stock        // used where it saves length of roll
	Units  measure.System // units that errors are written in
}

// Limits of an order, which bound time and memory.
const (
	MostPieces = 10_000 // copies counted: enough for all panels of a job from one kind of goods
	MostOnHand = 100
	MostMatch  = 40 // different values of Piece.Match
)

// An Effort says how hard to search for a shorter plan.
type Effort struct {
	// Work is the most steps that each of two searches takes; see [Seconds]. Zero
	// returns the first plan found, without a search.
	Work int64
	Seed uint64 // a different seed gives a different search that is as good
	// Progress, if not nil, is called from time to time on the goroutine that
	// called [Make].
	Progress func(Progress)
}

// Progress is how far a search has come.
type Progress struct {
	Used, Bound measure.Length // of the best plan so far
	Done        float64        // share of the work that is done, 0 to 1
}

// workPerSecond was measured on a 2.6 GHz core of a shared server, with 60 to 200
// pieces. A faster machine does this work in less than a second; a slower or busier
// one takes longer. To stop on time on any machine, end the context.
const workPerSecond = 50_000_000

// MostSeconds is the longest search that [Seconds] allows.
const MostSeconds = 3600

// Seconds returns the effort that keeps two modest cores busy for about s seconds.
// It counts steps, not time, so the plan does not depend on the machine. Values
// below 0 or above [MostSeconds] become those limits, and NaN becomes 0.
func Seconds(s float64) Effort {
	if !(s > 0) {
		s = 0
	}
	return Effort{Work: int64(min(s, MostSeconds) * workPerSecond)}
}

// Make lays the order's pieces on its roll and stock. It reports all errors of the
// order at once, as joined [*OrderError] values. When ctx ends, Make returns the
// best plan so far with Interrupted set, and no error.
func Make(ctx context.Context, o Order, e Effort) (Plan, error) {
	if err := o.check(); err != nil {
		return Plan{}, err
	}
	return search(ctx, o, e), nil
}

package nest

import (
	"context"

	"shadewright/ticket/measure"
)

// A Roll is the goods to lay pieces on, and how they are cut there.
type Roll struct {
	Width  measure.Length // usable, between the selvages
	Length measure.Length // on the roll; zero: as long as needed
	// Table is the longest section the cutting table takes; zero: no limit. With
	// a table the first cuts run across the whole roll and part it into sections.
	Table     measure.Length
	Allowance measure.Length // cloth left around every piece, on each side of it
	// Repeat is the length along the roll after which the pattern comes again;
	// zero: plain goods. Every piece then starts at the same place of it.
	Repeat measure.Length
}

// A Piece is one size to be cut, Quantity times.
type Piece struct {
	Label    string
	Width    measure.Length // across the roll
	Length   measure.Length // along it
	Quantity int
	Turn     bool   // a quarter turn is allowed
	Match    string // pieces with the same non-empty word are all turned or all not
}

// A Stock is a piece of the same goods on hand, lying as on the roll. On goods
// with a repeat it begins where the pattern begins.
type Stock struct {
	Label  string
	Width  measure.Length // across the roll
	Length measure.Length // along it
}

// An Order is what to lay on what.
type Order struct {
	Roll   Roll
	Pieces []Piece
	OnHand []Stock        // used where it saves length of roll
	Units  measure.System // of the lengths in errors
}

// Limits of an order, which bound time and memory.
const (
	MostPieces = 10_000 // quantities counted: a whole job of one goods
	MostOnHand = 100
	MostMatch  = 40 // different words of Piece.Match
)

// An Effort says how hard to look for a shorter plan.
type Effort struct {
	// Work is how many steps each of two searches takes at most; see [Seconds].
	// Zero gives the first plan found, without a search.
	Work int64
	Seed uint64 // another seed gives another, equally good search
	// Progress, if not nil, is called now and then from the goroutine that
	// called [Make].
	Progress func(Progress)
}

// Progress is how far a search has come.
type Progress struct {
	Used, Bound measure.Length // of the best plan so far
	Done        float64        // share of the work, 0 to 1
}

// workPerSecond was measured on a 2.6 GHz core of a shared server, with 60 to
// 200 pieces. A faster machine does a second's work in less than a second, a
// slower or a busy one takes longer: to end on time whatever the machine, end
// the context.
const workPerSecond = 50_000_000

// MostSeconds is the longest search that [Seconds] allows.
const MostSeconds = 3600

// Seconds returns the effort that keeps two modest cores busy for about s
// seconds. It counts steps, not time, so that the plan does not depend on the
// machine. Values outside 0 to [MostSeconds] are moved inside; not-a-number is 0.
func Seconds(s float64) Effort {
	if !(s > 0) {
		s = 0
	}
	return Effort{Work: int64(min(s, MostSeconds) * workPerSecond)}
}

// Make lays the order's pieces on its roll and stock. All errors of the order
// are reported at once, as a joined list of [*OrderError]. When ctx ends, Make
// returns the best plan so far with Interrupted set, and no error.
func Make(ctx context.Context, o Order, e Effort) (Plan, error) {
	if err := o.check(); err != nil {
		return Plan{}, err
	}
	return search(ctx, o, e), nil
}

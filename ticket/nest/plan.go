package nest

import "shadewright/ticket/measure"

// OnRoll is the value of On for what lies on the roll; other values are indices
// of Order.OnHand.
const OnRoll = -1

// A Plan says where every piece is cut and in which order.
type Plan struct {
	Used        measure.Length // of the roll
	Bound       measure.Length // no plan uses less
	Proven      bool           // Used is the shortest there is
	Interrupted bool           // the context ended before the work was done
	Short       measure.Length // what the roll lacks, if its length was given

	Pieces  []Placed // in the order of Order.Pieces, copies together
	OnHand  []int    // indices of the stock that is used
	Cuts    []Cut    // in the order they are made
	Parts   []Part   // every part of the goods there is at some time
	Offcuts []Part   // what is left, the largest first; not the rest of the roll
}

// Gap returns by what share the plan may be longer than the shortest: 0.018 is
// "within 1.8 % of what is possible". It is zero if the plan is proven.
func (p Plan) Gap() float64 {
	if p.Proven || p.Used == p.Bound {
		return 0
	}
	if p.Bound == 0 {
		return 1
	}
	return float64(p.Used-p.Bound) / float64(p.Bound)
}

// A Placed is one copy of a piece in its place, its allowance not included.
type Placed struct {
	Piece         int // index in Order.Pieces
	Copy          int // 0 to Quantity-1
	On            int // OnRoll, or the index in Order.OnHand
	X, Y          measure.Length
	Width, Length measure.Length // across and along, after turning
	Turned        bool
	Part          int // index in Plan.Parts: the part that is this piece with its allowance
}

// A Part is a rectangle of the goods at some stage of cutting.
type Part struct {
	On            int // OnRoll, or the index in Order.OnHand
	X, Y          measure.Length
	Width, Length measure.Length // Length is zero for the roll, whose end is not seen
	Kind          Kind
	Piece         int // index in Plan.Pieces if Kind is Ready, else -1
}

// A Kind says what becomes of a part.
type Kind uint8

const (
	ToCut  Kind = iota // it is cut further
	Ready              // it is a piece, with its allowance around it
	Offcut             // it is left over
	Rest               // it stays on the roll
)

// A Way is the direction of a cut.
type Way uint8

const (
	Across Way = iota // across the roll, at a distance from the part's cut end
	Along             // along the roll, at a distance from the part's left edge
)

// Edge names the edge from which a cut's distance is measured: the cut end is
// the one first off the roll (least y); left is seen from it (least x).
func (w Way) Edge() string { return [...]string{"cut end", "left edge"}[w] }

// String returns "across" or "along".
func (w Way) String() string { return [...]string{"across", "along"}[w] }

// A Cut parts one part in two. Near lies at the edge from which At is measured.
type Cut struct {
	From      int // index in Plan.Parts
	Way       Way
	At        measure.Length // from the edge of From that [Way.Edge] names
	Near, Far int            // indices in Plan.Parts
}

package nest

import "shadewright/ticket/measure"

// OnRoll is the value of On for anything on the roll; other values are indices of
// Order.OnHand.
const OnRoll = -1

// A Plan says where every piece lies and in which order to cut.
type Plan struct {
	Used        measure.Length // length of roll used
	Bound       measure.Length // no plan uses less
	Proven      bool           // no plan can use less than Used
	Interrupted bool           // the context ended before the search did
	Short       measure.Length // length missing on the roll, if its length was given

	Pieces  []Placed // in the order of Order.Pieces, copies together
	OnHand  []int    // indices of the stock used
	Cuts    []Cut    // in the order they are made
	Parts   []Part   // every part of the goods, at every stage of cutting
	Offcuts []Part   // what is left, largest first, without the rest of the roll
}

// Gap returns the share by which the plan may exceed the shortest plan: 0.018 is
// "within 1.8 % of what is possible". A proven plan has a gap of zero.
func (p Plan) Gap() float64 {
	if p.Proven || p.Used == p.Bound {
		return 0
	}
	if p.Bound == 0 {
		return 1
	}
	return float64(p.Used-p.Bound) / float64(p.Bound)
}

// A Placed is one copy of a piece in its place, without its allowance.
type Placed struct {
	Piece         int // index in Order.Pieces
	Copy          int // from 0 to Quantity-1
	On            int // OnRoll, or an index in Order.OnHand
	X, Y          measure.Length
	Width, Length measure.Length // across and along, after turning
	Turned        bool
	Part          int // index in Plan.Parts of the part that holds this piece and its allowance
}

// A Part is a rectangle of the goods at some stage of cutting.
type Part struct {
	On            int // OnRoll, or an index in Order.OnHand
	X, Y          measure.Length
	Width, Length measure.Length // Length is zero for the roll, whose end is unknown
	Kind          Kind
	Piece         int // index in Plan.Pieces if Kind is Ready, else -1
}

// A Kind says what becomes of a part.
type Kind uint8

const (
	ToCut  Kind = iota // will be cut again
	Ready              // a piece with its allowance
	Offcut             // left over
	Rest               // stays on the roll
)

// A Way is the direction of a cut.
type Way uint8

const (
	Across Way = iota // across the roll, at a distance from the part's cut end
	Along             // along the roll, at a distance from the part's left edge
)

// Edge names the edge from which a cut's distance is measured. The cut end is the
// edge that comes off the roll first (least y); the left edge is on the left as
// seen from the cut end (least x).
func (w Way) Edge() string { return [...]string{"cut end", "left edge"}[w] }

// String returns "across" or "along".
func (w Way) String() string { return [...]string{"across", "along"}[w] }

// A Cut divides a part in two. Near lies at the edge from which At is measured.
type Cut struct {
	From      int // index in Plan.Parts
	Way       Way
	At        measure.Length // distance from the edge of From that [Way.Edge] names
	Near, Far int            // indices in Plan.Parts
}

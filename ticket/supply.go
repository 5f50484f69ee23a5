package ticket

import "shadewright/ticket/measure"

// Supply is the job's information for buying: how things are sold, what they cost
// and how much of them is on hand. The maps are by the name of the part. None of it
// is printed on a ticket.
type Supply struct {
	Goods   map[string]GoodsSupply
	Slats   map[string]SlatSupply
	Rollers map[string]RollerSupply
	OnHand  OnHand
}

// A GoodsSupply says how goods are sold and which pieces of them are on hand.
type GoodsSupply struct {
	SoldBy   measure.Length // step of the length sold; zero: the shop's usual step
	Price    measure.Money  // for PricePer of the roll's length; zero if not given
	PricePer measure.Length // zero: a yard, or a metre in a metric job
	OnHand   []Piece
}

// A Piece is goods on hand: its usable size, as it lies on the roll.
type Piece struct {
	Label         string
	Width, Length measure.Length
}

// A SlatSupply says how a slat is sold.
type SlatSupply struct {
	Stock  measure.Length // length in which it is sold; zero: the shop's usual length
	Price  measure.Money  // for one stock length; zero if not given
	OnHand int            // in stock lengths
}

// A RollerSupply is the price and stock of a roller that is bought. A donor has no
// price.
type RollerSupply struct {
	Price  measure.Money // zero: it is a donor and not bought
	OnHand int
}

// OnHand lists the small parts on hand for a job.
type OnHand struct {
	Tape                                measure.Length
	Thread                              []ThreadOnHand
	Brackets, EndParts, Needles, Blades int
}

// ThreadOnHand is thread of one commercial size.
type ThreadOnHand struct {
	Size   int
	Length measure.Length
}

package square

import "shadewright/ticket/measure"

// A Limit is the greatest difference between two diagonals that still
// counts as square; it depends on the size.
type Limit struct {
	Small measure.Length // up to Area
	Large measure.Length // above Area
	Area  measure.Area
}

// For returns the limit for a size.
func (s Limit) For(size measure.Size) measure.Length {
	if size.Width.Times(size.Length) > s.Area {
		return s.Large
	}
	return s.Small
}

// twentySquareFeet in exact square micrometres: 20 × 0.09290304 m².
const twentySquareFeet measure.Area = 1_858_060_800_000

// Usual returns the limit of trade guides. In inches it is as printed; in
// millimetres it is rounded down to whole millimetres.
func Usual(s measure.System) Limit {
	if s == measure.Millimetres {
		return Limit{Small: 3 * measure.Millimetre, Large: 6 * measure.Millimetre, Area: twentySquareFeet}
	}
	return Limit{Small: measure.Inch / 8, Large: measure.Inch / 4, Area: twentySquareFeet}
}

package square

import "shadewright/ticket/measure"

// A Limit is the greatest difference between two diagonals that still counts as
// square. It depends on the size.
type Limit struct {
	Small measure.Length // up to 20 square feet
	Large measure.Length // above that
	Area  measure.Area
}

// For returns the limit for a size.
func (s Limit) For(size measure.Size) measure.Length {
	if size.Width.Times(size.Length) > s.Area {
		return s.Large
	}
	return s.Small
}

// twentySquareFeet is exact in square micrometres: 20 × 0.09290304 m².
const twentySquareFeet measure.Area = 1_858_060_800_000

// Usual returns the limit of trade guides. In inches it is as printed; in
// millimetres it is rounded down to whole millimetres.
func Usual(s measure.System) Limit {
	if s == measure.Millimetres {
		return Limit{Small: 3 * measure.Millimetre, Large: 6 * measure.Millimetre, Area: twentySquareFeet}
	}
	return Limit{Small: measure.Inch / 8, Large: measure.Inch / 4, Area: twentySquareFeet}
}

package sheet

import (
	"fmt"

	"shadewright/ticket/measure"
)

// A Span is a part of a length, measured from the length's origin.
type Span struct{ From, To measure.Length }

// Extent returns the span's length.
func (s Span) Extent() measure.Length { return s.To - s.From }

// Spans cuts a length into the fewest tiles of at most usable, each sharing
// overlap with the next. Tile i begins at i × (usable − overlap) from the
// origin, and the last tile ends at total. There is 1 tile if total ≤ usable,
// else 1 + ⌈(total − usable) / (usable − overlap)⌉.
func Spans(total, usable, overlap measure.Length) ([]Span, error) {
	switch {
	case total <= 0:
		return nil, fmt.Errorf("nothing to print: the length is %q", total)
	case overlap < 0:
		return nil, fmt.Errorf("overlap %q is negative; use zero or more", overlap)
	case usable <= 2*overlap:
		return nil, fmt.Errorf("tiles of %q are too short for an overlap of %q on both sides; use larger paper, smaller margins or less overlap", usable, overlap)
	}
	step, n := usable-overlap, measure.Length(1)
	if total > usable {
		n += (total - usable + step - 1) / step
	}
	if n > mostTiles {
		return nil, fmt.Errorf("%v would take %d tiles of %v; use larger paper", total, n, usable)
	}
	spans := make([]Span, n)
	for i := range spans {
		from := measure.Length(i) * step
		spans[i] = Span{from, min(from+usable, total)}
	}
	return spans, nil
}

// EvenSpans is [Spans] with tiles of equal length, because a narrow tile at the
// end is hard to join. Only the last tile may be a little shorter.
func EvenSpans(total, usable, overlap measure.Length) ([]Span, error) {
	spans, err := Spans(total, usable, overlap)
	if err != nil {
		return nil, err
	}
	n := measure.Length(len(spans))
	even := (total + (n-1)*overlap + n - 1) / n
	return Spans(total, max(even, 2*overlap+1), overlap)
}

// narrowestTile is the width of a tile that still has room for its caption and is easy to
// join: common practice, no source.
const narrowestTile = 90 * mm

// fullSpans is [Spans] with all tiles as long as the paper allows but the last, which
// leaves room beside it for another. The last is no shorter than narrowestTile.
func fullSpans(total, usable, overlap measure.Length) ([]Span, error) {
	spans, err := Spans(total, usable, overlap)
	if err != nil || len(spans) == 1 {
		return spans, err
	}
	n := len(spans) - 1
	least := min(max(narrowestTile, 2*overlap+1), usable)
	if spans[n].Extent() < least {
		spans[n].From = total - least
		spans[n-1].To = spans[n].From + overlap
	}
	return spans, nil
}

// mostTiles limits the tiles of one band; the longest panel needs far fewer.
const mostTiles = 10_000

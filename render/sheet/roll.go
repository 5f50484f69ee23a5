package sheet

import (
	"errors"
	"fmt"

	"shadewright/ticket/measure"
)

// narrowest is the narrowest roll of paper that is taken for one; common
// practice, no source.
const narrowest = 100 * mm

// OnRoll returns roll paper of a width. Its Width is the roll's, its Length the
// most that a sheet of it may have.
func OnRoll(width measure.Length) (Paper, error) {
	if width < narrowest || width > Largest {
		return Paper{}, fmt.Errorf("roll paper %q wide is out of range; use %v to %v", width, narrowest, Largest)
	}
	return Paper{Size: measure.Size{Width: width, Length: Largest}, Roll: true}, nil
}

// PackRoll lays strips, which run along a roll of paper, into the room that a
// sheet may have at most, its Width along the roll. It takes the fewest sheets it
// finds, then the shortest: first fit is tried at ever shorter lengths, as in
// multifit scheduling (Coffman, Garey and Johnson 1978, from memory), which comes
// within a fifth of the shortest for strips of one height. Only a strip that is
// longer than the room is cut into tiles. Fields are counted from the room's corner.
func PackRoll(strips []Strip, gap measure.Length, room measure.Size) (Layout, error) {
	f := Field{Size: room}
	var tiles []Tile
	var errs []error
	longest := measure.Length(0)
	for i, s := range strips {
		cut, err := s.cut(i, f)
		errs = append(errs, err)
		for _, t := range cut {
			longest = max(longest, t.Field.Width)
		}
		tiles = append(tiles, cut...)
	}
	if err := errors.Join(errs...); err != nil {
		return Layout{}, err
	}
	best := arrange(tiles, gap, f)
	for low, high := longest, best.used(-1); low < high; {
		f.Width = low + (high-low)/2
		if l := arrange(tiles, gap, f); l.Sheets <= best.Sheets {
			best, high = l, min(l.used(-1), f.Width)
		} else {
			low = f.Width + mm // no finer: paper is not cut to it
		}
	}
	return best, nil
}

// Used returns how much of the length of a sheet, from 0, its tiles take.
func (l Layout) Used(sheet int) measure.Length { return l.used(sheet) }

// used returns the same; of any sheet if it is negative.
func (l Layout) used(sheet int) measure.Length {
	var end measure.Length
	for _, t := range l.Tiles {
		if sheet < 0 || t.Sheet == sheet {
			end = max(end, t.Field.X+t.Field.Width)
		}
	}
	return end
}

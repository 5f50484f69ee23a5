package sheet

import (
	"fmt"

	"shadewright/ticket/measure"
)

// narrowest is the narrowest paper roll accepted; common practice, no source.
const narrowest = 100 * mm

// OnRoll returns roll paper. Its Width is the roll's width; its Length is the
// longest sheet allowed.
func OnRoll(width measure.Length) (Paper, error) {
	if width < narrowest || width > Largest {
		return Paper{}, fmt.Errorf("roll paper %q wide is out of range; use %v to %v", width, narrowest, Largest)
	}
	return Paper{Size: measure.Size{Width: width, Length: Largest}, Roll: true}, nil
}

// PackRoll lays strips along a roll of paper. The room is the largest sheet
// allowed, its Width along the roll. PackRoll uses the fewest sheets it finds
// and then the shortest. It tries first fit at shorter and shorter lengths, as
// in multifit scheduling (Coffman, Garey and Johnson 1978, from memory); the
// result is within a fifth of the shortest for strips of one height. It cuts a
// strip into tiles only if the strip is longer than the room. Fields are
// measured from the room's corner.
func PackRoll(strips []Strip, gap measure.Length, room measure.Size) (Layout, error) {
	f := Field{Size: room}
	tiles, err := cut(strips, f, EvenSpans)
	if err != nil {
		return Layout{}, err
	}
	longest := measure.Length(0)
	for _, t := range tiles {
		longest = max(longest, t.Field.Width)
	}
	best := arrange(tiles, gap, f)
	for low, high := longest, best.used(-1); low < high; {
		f.Width = low + (high-low)/2
		if l := arrange(tiles, gap, f); l.Sheets <= best.Sheets {
			best, high = l, min(l.used(-1), f.Width)
		} else {
			low = f.Width + mm // a finer step is pointless: nobody cuts paper to less than 1 mm
		}
	}
	return best, nil
}

// Used returns how much of a sheet's length its tiles take; sheets count from
// 0.
func (l Layout) Used(sheet int) measure.Length { return l.used(sheet) }

// used is Used for one sheet, or for the fullest sheet if the number is
// negative.
func (l Layout) used(sheet int) measure.Length {
	var end measure.Length
	for _, t := range l.Tiles {
		if sheet < 0 || t.Sheet == sheet {
			end = max(end, t.Field.X+t.Field.Width)
		}
	}
	return end
}

package hang

import (
	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// Pins says how far the end pins of a roller stick out of its tube.
type Pins struct{ Flat, Round measure.Length }

// shortBite is by how much pins may miss the room that the rules leave them before one
// can leave its bracket. Common practice, no source.
const shortBite = measure.Inch / 8

// PinRoom returns the least and the most that both pins together may stick out, if the
// rules leave them room and the roller may move by play.
func PinRoom(room, play measure.Length) (least, most measure.Length) {
	return max(0, room-shortBite), room + play
}

// Judge compares the pins with the room that the rules leave for both of them together.
// tips is the length of the roller from tip to tip, and play is how far the roller may
// move between its brackets.
func (p Pins) Judge(found *finding.List, room, tips, play measure.Length, st measure.Style) {
	sum := p.Flat + p.Round
	says, limit := st.Apart(sum, room)
	f := finding.Finding{
		Level: finding.Stop, Field: "roller.pins", Value: says, Limit: limit,
		Source: "the roller from tip to tip less its tube; limit: common practice, no source",
		Remedy: message.Of("hang.set-tube-for-pins", st.AtMost(tips-sum)),
	}
	switch least, most := PinRoom(room, play); {
	case sum > most:
		f.Text = message.Of("hang.pins-too-long", says, limit)
	case sum < least:
		f.Text = message.Of("hang.pins-too-short", says, limit)
	default:
		return
	}
	found.Add(f)
}

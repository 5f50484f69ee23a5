package hang

import (
	"math"

	"shadewright/ticket/measure"
)

// A Begin says how to try a spring of unknown rate: how far to wind it first, and what a
// scale on the slat may show. Its limits hold for a spring of any rate.
type Begin struct {
	Pull   measure.Length // pull down once from slack, lift out, roll up by hand, hang again
	Turns  float64        // that this winds, with the shade up
	Most   float64        // turns, with the shade up, that the spring takes; zero if unknown
	Scales [2]Scale       // at the two heights of a trial
}

// A Scale is the range in which a scale may read while it pulls the shade down slowly.
type Scale struct {
	Below       measure.Length // cloth off the tube
	Least, Most measure.Mass
}

// Grams returns the range in whole grams, rounded to its inside. A millionth of a gram is
// a rounding error.
func (s Scale) Grams() (least, most int) {
	return int(math.Ceil(s.Least.Grams() - 1e-6)), int(math.Floor(s.Most.Grams() + 1e-6))
}

// Begin works out how to begin with a spring of unknown rate. most is the turns in all
// before it binds, or zero if that is unknown.
//
// A spring that just holds the shade at both ends of its travel of U turns gives T up and
// T' down, so its rate is (T' − T)/U and it has T·U/(T' − T) turns with the shade up. This
// is the only number of turns that needs no rate. One pull of the whole drop winds U turns
// and is the most to begin with.
//
// At a height where the weight W hangs, the spring gives (W + scale)·radius. It must give
// between [Limits.Lift] and [Limits.Fly] times W·radius, so the scale reads between
// (Lift − 1)·W and (Fly − 1)·W, whatever the rate and the radius.
func (l Lift) Begin(most float64, at [2]measure.Length, lim Limits) Begin {
	travel := l.Winding.Unrolled(l.Load.Drop)
	up, down := l.Torque(0), l.Torque(l.Load.Drop)
	turns := travel
	if down > up {
		turns = min(turns, up*travel/(down-up))
	}
	b := Begin{}
	if free := most - travel; most > 0 && free > 0 {
		b.Most = free
		turns = min(turns, free)
	}
	b.Pull = min(max(l.Winding.Pull(turns).Round(lim.PullStep, measure.Down), lim.PullStep), l.Load.Drop)
	b.Turns = l.Winding.Unrolled(b.Pull)
	for i, y := range at {
		w := l.Load.At(y).Total.Grams()
		b.Scales[i] = Scale{y, massOf((lim.Lift - 1) * w), massOf((lim.Fly - 1) * w)}
	}
	return b
}

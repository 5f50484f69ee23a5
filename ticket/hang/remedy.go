package hang

import (
	"math"

	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// helps says what would make a spring lift at every height without throwing the
// slat: another slat or another spring, with its figure if there is one.
func (l Lift) helps(s Spring, lim Limits, st measure.Style) message.Message {
	var ways []message.Message
	if m, ok := l.otherSlat(s, lim); ok {
		kind := message.ID("hang.lighter-slat")
		if m > l.Load.Slat {
			kind = "hang.heavier-slat"
		}
		ways = append(ways, message.Of(kind, grams(st, m)))
	}
	if k, ok := l.otherRate(s, lim); ok {
		kind := message.ID("hang.softer-spring")
		if k > s.Rate {
			kind = "hang.stiffer-spring"
		}
		ways = append(ways, message.Of(kind, st.Decimal(k, 2)))
	}
	switch len(ways) {
	case 0:
		return message.Of("hang.check-spring")
	case 1:
		return ways[0]
	}
	return message.Of("hang.or", ways[0], ways[1])
}

// helpsBound says what would help a spring that holds too few turns.
func (l Lift) helpsBound(s Spring, lim Limits, st measure.Style) message.Message {
	if k, ok := l.otherRate(s, lim); ok && k > s.Rate {
		return message.Of("hang.fix-spring-over-limit-stiffer", st.Decimal(k, 2))
	}
	return message.Of("hang.fix-spring-over-limit")
}

// nearest returns the feasible factor closest to one, tried in steps of 2 % from
// 1/50 to 50.
func nearest(feasible func(factor float64) bool) (float64, bool) {
	for i := 1; i <= 200; i++ {
		up := math.Pow(1.02, float64(i))
		for _, f := range [2]float64{up, 1 / up} {
			if feasible(f) {
				return f, true
			}
		}
	}
	return 0, false
}

// heaviestSlat limits the slats that are proposed, in g per mm of width: a steel
// bar of 25 × 10 mm.
const heaviestSlat = 2.0

// otherSlat returns the mass nearest to the present slat's with which the spring
// works. For a shade without a slat, it starts at 100 g.
func (l Lift) otherSlat(s Spring, lim Limits) (measure.Mass, bool) {
	start := l.Load.Slat
	if start == 0 {
		start = 100 * measure.Gram
	}
	try := l
	f, ok := nearest(func(f float64) bool {
		try.Load.Slat = massOf(start.Grams() * f)
		if try.Load.Slat.Grams() > heaviestSlat*l.Load.Width.Millimetres() {
			return false
		}
		return try.works(s, lim)
	})
	return massOf(start.Grams() * f), ok
}

// otherRate returns the spring rate nearest to the present one that works.
func (l Lift) otherRate(s Spring, lim Limits) (float64, bool) {
	f, ok := nearest(func(f float64) bool { return l.works(Spring{s.Rate * f, s.Most}, lim) })
	return s.Rate * f, ok
}

// works reports whether some number of turns lifts at every height, does not throw
// the slat, and does not bind the spring.
func (l Lift) works(s Spring, lim Limits) bool {
	w := l.Wind(s, lim)
	return w.OK && !w.binds(s)
}

package fullscale

import "shadewright/ticket/measure"

// A Graduation describes the marks of a rule.
type Graduation struct {
	Step   measure.Length // between the finest marks
	Number measure.Length // the unit of the numbers
	Unit   string
	every  []int            // in steps, coarsest mark first
	ticks  []measure.Length // the lengths of those marks, then of the finest
}

// An inch rule is divided by halves (NIST Handbook 44, 5.52 S.1).
var (
	inches = Graduation{measure.Inch / 8, measure.Inch, "in", []int{8, 4, 2}, []measure.Length{5 * mm, 7 * mm / 2, 5 * mm / 2, 3 * mm / 2}}
	metric = Graduation{mm, measure.Centimetre, "cm", []int{10, 5}, []measure.Length{5 * mm, 3 * mm, 3 * mm / 2}}
)

// GraduationOf returns the marks of a rule in inches or in millimetres.
func GraduationOf(s measure.System) Graduation {
	if s == measure.Millimetres {
		return metric
	}
	return inches
}

// Tick returns the length of the mark at step n, and whether it has a number.
func (g Graduation) Tick(n int) (length measure.Length, numbered bool) {
	for i, every := range g.every {
		if n%every == 0 {
			return g.ticks[i], i == 0
		}
	}
	return g.ticks[len(g.ticks)-1], false
}

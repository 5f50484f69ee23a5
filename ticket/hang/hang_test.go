package hang

import (
	"math"

	"pgregory.net/rapid"

	"shadewright/ticket/finding/findingtest"
	"shadewright/ticket/measure"
)

const (
	in = measure.Inch
	mm = measure.Millimetre
	um = measure.Micrometre
)

var (
	inches = measure.Usual(measure.Inches)
	metric = measure.Usual(measure.Millimetres)
)

// millimetres turns a literal of a table into a length.
func millimetres(v float64) measure.Length { return measure.FromMillimetres(v) }

// within reports whether got is within tol of want.
func within(got, want, tol float64) bool { return math.Abs(got-want) <= tol }

// lengths draws a length between two bounds.
func lengths(t *rapid.T, name string, low, high measure.Length) measure.Length {
	return measure.Length(rapid.Int64Range(int64(low), int64(high)).Draw(t, name))
}

var (
	levels         = findingtest.Levels
	texts          = findingtest.Texts
	complete       = findingtest.Complete
	wantInputError = findingtest.WantInputError
)

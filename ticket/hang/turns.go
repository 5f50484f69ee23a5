package hang

import (
	"math"

	"shadewright/ticket/measure"
)

// TurnsText puts turns of the tube into words: to the tenth, and finer where a
// tenth would hide what is there, as with a stiff spring that takes a part of one.
func TurnsText(st measure.Style, turns float64) string {
	places := 1
	for least := 1.0; places < 4 && turns != 0 && math.Abs(turns) < least; least /= 10 {
		places++
	}
	return st.Decimal(turns, places)
}

package hang

import (
	"math"

	"shadewright/ticket/measure"
)

// TurnsText writes turns of the tube in tenths. It adds decimals where a tenth
// would hide them, as for a stiff spring that needs only part of a turn.
func TurnsText(st measure.Style, turns float64) string {
	places := 1
	for least := 1.0; places < 4 && turns != 0 && math.Abs(turns) < least; least /= 10 {
		places++
	}
	return st.Decimal(turns, places)
}

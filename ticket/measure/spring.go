package measure

import "math/big"

// A SpringRate is the torque that a spring gains per turn, in thousandths of a
// newton millimetre.
type SpringRate int64

// NewtonMillimetre is one newton millimetre per turn.
const NewtonMillimetre SpringRate = 1000

// NewtonMillimetres returns r in N·mm per turn.
func (r SpringRate) NewtonMillimetres() float64 { return float64(r) / float64(NewtonMillimetre) }

// rateUnits gives the value in N·mm per turn of each way to write a spring rate. A
// pound-force is 0.45359237 kg × 9.80665 m/s² exactly, so 1 in·lb is 112.984829…
// N·mm.
var rateUnits = perTurn(map[string]*big.Rat{
	"nmm": big.NewRat(1, 1), "n·mm": big.NewRat(1, 1), "n*mm": big.NewRat(1, 1),
	"inlb": inchPound, "in·lb": inchPound, "in-lb": inchPound, "in*lb": inchPound,
	"inoz": inchOunce, "in·oz": inchOunce, "in-oz": inchOunce, "in*oz": inchOunce,
})

var (
	inchPound = new(big.Rat).Mul(new(big.Rat).Mul(big.NewRat(45_359_237, 100_000_000), big.NewRat(980_665, 100_000)), big.NewRat(254, 10))
	inchOunce = new(big.Rat).Mul(inchPound, big.NewRat(1, 16))
)

// perTurn adds each unit followed by "/turn" or "per turn".
func perTurn(units map[string]*big.Rat) map[string]*big.Rat {
	all := make(map[string]*big.Rat, 3*len(units))
	for u, v := range units {
		all[u], all[u+"/turn"], all[u+"perturn"] = v, v, v
	}
	return all
}

var rateWriting = writing{
	of: "spring rate", units: rateUnits, most: 1_000_000, large: "is stiffer than any shade's spring",
	fix: "write for example 6.5 Nmm/turn or 0.06 in-lb/turn",
}

// ParseSpringRate reads a spring's torque per turn, such as 6.5 Nmm/turn or 0.06
// in-lb/turn, to the nearest thousandth of a newton millimetre. A bare number is an
// error. Every error is a [*ParseError].
func ParseSpringRate(text string) (SpringRate, error) {
	v, err := rateWriting.read(text)
	if err != nil {
		return 0, err
	}
	return SpringRate(times(v, int64(NewtonMillimetre))), nil
}

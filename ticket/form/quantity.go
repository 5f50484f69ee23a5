package form

import (
	"cmp"
	"fmt"

	"shadewright/ticket/measure"
)

// A Quantity is a number with a unit, or a plain factor. It fills a *V. Parse, a
// function of package measure, reads its text.
type Quantity[V ~int64] struct {
	Parse       func(string) (V, error)
	Show        func(V) string // writes a limit: "10 g/m2"
	Least, Most V
	Fix         string // what to check if it is out of range; empty for the usual advice
	Bare        bool   // it has no unit
}

func (q Quantity[V]) read(r *Reader, n *Node, k Key, field string, into any) {
	r.scalar(q, n, k, field, into)
}

// Set implements [Scalar].
func (q Quantity[V]) Set(text string, _ measure.System, into any) *Fault {
	v, err := q.Parse(text)
	switch {
	case err != nil:
		return parseFault(err)
	case v < q.Least:
		return &Fault{"is less than " + q.Show(q.Least), q.fix()}
	case v > q.Most:
		return &Fault{"is more than " + q.Show(q.Most), q.fix()}
	}
	*into.(*V) = v
	return nil
}

func (q Quantity[V]) fix() string {
	if q.Bare {
		return cmp.Or(q.Fix, fmt.Sprintf("write a number from %s to %s", q.Show(q.Least), q.Show(q.Most)))
	}
	return cmp.Or(q.Fix, checkUnit)
}

func (q Quantity[V]) schema() map[string]any {
	if q.Bare {
		return map[string]any{"type": "number", "minimum": float64(q.Least) / float64(measure.One), "maximum": float64(q.Most) / float64(measure.One)}
	}
	return map[string]any{"type": "string", "pattern": `^\s*[0-9]`}
}

// Factor returns the kind of a plain number from least to most. It fills a
// *measure.Factor.
func Factor(least, most measure.Factor, fix string) Quantity[measure.Factor] {
	return Quantity[measure.Factor]{Parse: measure.ParseFactor, Show: showFactor, Least: least, Most: most, Fix: fix, Bare: true}
}

func showFactor(f measure.Factor) string { return Decimal(f.Float()) }

// A Number is a plain number, rounded to a millionth. It fills a *float64.
type Number struct {
	Least, Most measure.Factor
	Fix         string // what to check if it is out of range
}

func (m Number) read(r *Reader, n *Node, k Key, field string, into any) {
	r.scalar(m, n, k, field, into)
}

// Set implements [Scalar].
func (m Number) Set(text string, units measure.System, into any) *Fault {
	var v measure.Factor
	if f := Factor(m.Least, m.Most, m.Fix).Set(text, units, &v); f != nil {
		return f
	}
	*into.(*float64) = v.Float()
	return nil
}

func (m Number) schema() map[string]any { return Factor(m.Least, m.Most, m.Fix).schema() }

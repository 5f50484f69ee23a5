package form

import (
	"fmt"

	"shadewright/ticket/measure"
)

// A Factor is written as [measure.ParseFactor] takes it and fills a
// *measure.Factor.
type Factor struct {
	Least, Most measure.Factor
	Fix         string // what to check if it is out of range
}

func (m Factor) read(r *Reader, n *Node, k Key, field string, into any) {
	scalar(m, r, n, k, field, into)
}

// Set implements [Scalar].
func (m Factor) Set(text string, _ measure.System, into any) *Fault {
	v, err := measure.ParseFactor(text)
	switch {
	case err != nil:
		return parseFault(err)
	case v < m.Least:
		return &Fault{fmt.Sprintf("is less than %g", m.Least.Float()), m.Fix}
	case v > m.Most:
		return &Fault{fmt.Sprintf("is more than %g", m.Most.Float()), m.Fix}
	}
	*into.(*measure.Factor) = v
	return nil
}

func (m Factor) schema() map[string]any {
	return map[string]any{"type": "number", "minimum": m.Least.Float(), "maximum": m.Most.Float()}
}

package form

import "shadewright/ticket/measure"

// Money is a price, written as [measure.ParseMoney] accepts it. It fills a
// *measure.Money.
type Money struct{}

func (m Money) read(r *Reader, n *Node, k Key, field string, into any) {
	r.scalar(m, n, k, field, into)
}

// Set implements [Scalar].
func (Money) Set(text string, _ measure.System, into any) *Fault {
	v, err := measure.ParseMoney(text)
	if err != nil {
		return parseFault(err)
	}
	*into.(*measure.Money) = v
	return nil
}

func (Money) schema() map[string]any {
	return map[string]any{"anyOf": []any{
		map[string]any{"type": "number", "minimum": 0},
		map[string]any{"type": "string", "pattern": `^\s*[0-9]+([.,][0-9]{1,4})?\s*$`},
	}}
}

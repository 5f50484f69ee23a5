package form

import (
	"fmt"
	"strings"

	"shadewright/ticket/measure"
)

// Lengths is a list of lengths. It fills a *[]measure.Length.
type Lengths struct {
	Each        Length
	Least, Most int // how many lengths
}

func (l Lengths) read(r *Reader, n *Node, k Key, field string, into any) {
	if n.Shape != List {
		r.shape(n, k, field)
		return
	}
	if c := len(n.Items); c < l.Least || c > l.Most {
		r.Add(n.Line, field, "", Fault{fmt.Sprintf("has %s", count(c)), "write for example " + k.Name + ": " + k.Example})
		return
	}
	out := make([]measure.Length, len(n.Items))
	for i, item := range n.Items {
		at := fmt.Sprintf("%s[%d]", field, i+1)
		if item.Shape == Blank {
			r.Add(item.Line, at, "", Fault{"has no value", "write for example " + k.Name + ": " + k.Example})
			continue
		}
		l.Each.read(r, item, k, at, &out[i])
	}
	*into.(*[]measure.Length) = out
}

func count(n int) string {
	switch n {
	case 0:
		return "no reading"
	case 1:
		return "only one reading"
	}
	return fmt.Sprintf("%d readings", n)
}

func (l Lengths) schema() map[string]any {
	return map[string]any{"type": "array", "minItems": l.Least, "maxItems": l.Most, "items": l.Each.schema()}
}

// A Pair is a length for jobs in inches and one for jobs in millimetres. It fills a
// *[BySystem]. It is written as two lengths with "or" between them, or as one
// length for both.
type Pair struct{ Length }

// A BySystem holds pointers to the two lengths of a [Pair].
type BySystem struct{ Inches, Millimetres *measure.Length }

// Set implements [Scalar].
func (p Pair) Set(text string, units measure.System, into any) *Fault {
	both := into.(*BySystem)
	first, second, two := strings.Cut(text, " or ")
	if f := p.Length.Set(first, units, both.Inches); f != nil {
		return f
	}
	if !two {
		*both.Millimetres = *both.Inches
		return nil
	}
	return p.Length.Set(second, units, both.Millimetres)
}

func (p Pair) read(r *Reader, n *Node, k Key, field string, into any) {
	r.scalar(p, n, k, field, into)
}

func (p Pair) schema() map[string]any {
	return map[string]any{"type": "string", "pattern": `^\s*[0-9]`}
}

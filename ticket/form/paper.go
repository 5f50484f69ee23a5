package form

import (
	"slices"
	"strings"

	"shadewright/ticket/measure"
)

// A Sheet is paper as a person asks for it: by a name whose size the renderer
// knows, or by a width and a height.
type Sheet struct {
	Name          string
	Width, Height measure.Length
}

// Side is the kind of one side of a sheet. The most is 200 in: the largest page
// of a PDF (ISO 32000-1, Annex C). The least is common practice, no source.
var Side = Length{Least: 50 * measure.Millimetre, Most: 200 * measure.Inch, FixMost: "a sheet has at most 200 in a side"}

// A Paper is written as a name or as width x height, and fills a *[Sheet].
type Paper struct{ Names []string }

func (p Paper) read(r *Reader, n *Node, k Key, field string, into any) {
	scalar(p, r, n, k, field, into)
}

// Set implements [Scalar].
func (p Paper) Set(text string, units measure.System, into any) *Fault {
	if slices.Contains(p.Names, text) {
		*into.(*Sheet) = Sheet{Name: text}
		return nil
	}
	w, h, cross := strings.Cut(strings.NewReplacer("×", "x", "X", "x").Replace(text), "x")
	if !cross || w == "" || w[0] < '0' || w[0] > '9' {
		if near := Nearest(text, p.Names); near != "" {
			return &Fault{"is no paper known here", "did you mean " + near + "?"}
		}
		return &Fault{"is no paper known here", "write " + strings.Join(p.Names, ", ") + ", or width x height such as 36 in x 48 in"}
	}
	var s Sheet
	if f := Side.Set(w, units, &s.Width); f != nil {
		return &Fault{"has a width that " + f.Problem, f.Fix}
	}
	if f := Side.Set(h, units, &s.Height); f != nil {
		return &Fault{"has a height that " + f.Problem, f.Fix}
	}
	*into.(*Sheet) = s
	return nil
}

func (p Paper) schema() map[string]any {
	return map[string]any{"anyOf": []any{
		map[string]any{"enum": p.Names},
		map[string]any{"type": "string", "pattern": `^[0-9].*[xX×]`},
	}}
}

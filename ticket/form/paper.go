package form

import (
	"slices"
	"strings"

	"shadewright/ticket/measure"
)

// A PaperChoice is paper as a person asks for it: by a name whose size the renderer
// knows, by a width and a height, or by the width of roll paper. Roll paper is cut
// as long as the drawing needs.
type PaperChoice struct {
	Name          string
	Width, Height measure.Length
	Roll          measure.Length // width of roll paper; all other fields are then empty
}

// side is the kind of one side of a sheet. The most is 200 in, the largest page of
// a PDF (ISO 32000-1, Annex C). The least is common practice, no source.
var side = Length{Least: 50 * measure.Millimetre, Most: 200 * measure.Inch, FixMost: "write a size that a PDF page can have"}

// rollWidth is the kind of the width of roll paper. The least is below the
// narrowest roll for plotters; common practice, no source.
var rollWidth = Length{Least: 100 * measure.Millimetre, Most: 200 * measure.Inch, FixMost: "write a size that a PDF page can have"}

// A Paper is written as a name or as width x height, and roll paper as roll-36in.
// It fills a *[PaperChoice].
type Paper struct {
	Names []string // the known names; nil accepts any name, which the renderer checks
	Rolls bool     // roll paper is allowed
}

// rolls are the widths that copy shops have (common practice, no source). They only
// serve to guess what a misspelt word means: any other width is allowed too.
var rolls = []string{"roll-24in", "roll-30in", "roll-36in", "roll-610mm", "roll-914mm"}

func (p Paper) read(r *Reader, n *Node, k Key, field string, into any) {
	r.scalar(p, n, k, field, into)
}

// Set implements [Scalar].
func (p Paper) Set(text string, units measure.System, into any) *Fault {
	if slices.Contains(p.Names, text) {
		*into.(*PaperChoice) = PaperChoice{Name: text}
		return nil
	}
	if width, ok := cutRoll(text); ok {
		return p.roll(width, units, into.(*PaperChoice))
	}
	if p.Names == nil && isName(text) {
		*into.(*PaperChoice) = PaperChoice{Name: text}
		return nil
	}
	w, h, cross := strings.Cut(strings.NewReplacer("×", "x", "X", "x").Replace(text), "x")
	if !cross || w == "" || w[0] < '0' || w[0] > '9' {
		return p.unknown(text)
	}
	var s PaperChoice
	if f := side.Set(w, units, &s.Width); f != nil {
		return &Fault{"has a width that " + f.Problem, f.Fix}
	}
	if f := side.Set(h, units, &s.Height); f != nil {
		return &Fault{"has a height that " + f.Problem, f.Fix}
	}
	*into.(*PaperChoice) = s
	return nil
}

// isName reports whether a text has the form of a paper's name: letter, a4,
// label-4x6.
func isName(text string) bool {
	return text != "" && text[0] >= 'a' && text[0] <= 'z' && strings.Trim(text, "abcdefghijklmnopqrstuvwxyz0123456789-") == ""
}

// PaperSide returns the kind of one side of a sheet.
func PaperSide() Length { return side }

// cutRoll returns the width in a name of roll paper: roll-36in, roll 36 in, 36 in
// roll.
func cutRoll(text string) (width string, ok bool) {
	text = strings.ToLower(strings.TrimSpace(text))
	if width, ok = strings.CutPrefix(text, "roll"); !ok {
		width, ok = strings.CutSuffix(text, " roll")
	}
	return strings.TrimLeft(width, "- "), ok
}

func (p Paper) roll(width string, units measure.System, into *PaperChoice) *Fault {
	if !p.Rolls {
		return &Fault{"is roll paper, which only the template can use", "write roll paper as template_paper, and the paper of the office printer here"}
	}
	if width == "" {
		return &Fault{"does not give the width of the roll", "write for example roll-36in or roll-914mm"}
	}
	var s PaperChoice
	if f := rollWidth.Set(width, units, &s.Roll); f != nil {
		return &Fault{"has a roll width that " + f.Problem, f.Fix}
	}
	*into = s
	return nil
}

func (p Paper) unknown(text string) *Fault {
	known, or := p.Names, ""
	if p.Rolls {
		known, or = slices.Concat(p.Names, rolls), ", or roll-36in for roll paper"
	}
	if near := Nearest(text, known); near != "" {
		return &Fault{"is not a known paper", "did you mean " + near + "?"}
	}
	return &Fault{"is not a known paper", "write " + strings.Join(p.Names, ", ") + ", or width x height such as 36 in x 48 in" + or}
}

func (p Paper) schema() map[string]any {
	name := map[string]any{"enum": p.Names}
	if p.Names == nil {
		name = map[string]any{"type": "string", "pattern": `^[a-z][a-z0-9-]*$`}
	}
	list := []any{name, map[string]any{"type": "string", "pattern": `^[0-9].*[xX×]`}}
	if p.Rolls {
		list = append(list, map[string]any{"type": "string", "pattern": `^[Rr][Oo][Ll][Ll][- ]*[0-9]|^[0-9].* [Rr][Oo][Ll][Ll]$`})
	}
	return map[string]any{"anyOf": list}
}

package template

import (
	"strings"

	"shadewright/render/language"

	"shadewright/ticket"
	"shadewright/ticket/code"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// past is how far the lines continue past the sides of the cloth, so that they
// stay visible when the cloth covers the template.
const past = 20 * measure.Millimetre

// A shape is everything that makes one band differ from another. Its origin is
// the bottom left corner of the panel; x runs along the raw edge and y up the
// panel.
type shape struct {
	width   measure.Length // of the panel
	folds   ticket.Folds
	sideHem measure.Length
	slat    [2]measure.Length // ends of the slat along x
}

// A band is one shape and the shades to mark with it.
type band struct {
	shape
	name   string          // A, B, …
	shades []*ticket.Shade // in the job's order
	units  []int           // of each shade
}

// bands returns the bands for a job's tickets, one for each shape.
func bands(tickets []*ticket.Ticket) []*band {
	var list []*band
	known := map[shape]*band{}
	for _, t := range tickets {
		s := shapeOf(t)
		b := known[s]
		if b == nil {
			b = &band{shape: s, name: code.Letters(len(list))}
			known[s] = b
			list = append(list, b)
		}
		if n := len(b.shades); n == 0 || b.shades[n-1] != t.Shade {
			b.shades, b.units = append(b.shades, t.Shade), append(b.units, 0)
		}
		b.units[len(b.units)-1]++
	}
	return list
}

func shapeOf(t *ticket.Ticket) shape {
	hem := t.Shade.Allow.SideHem
	return shape{
		width: t.Panel.Width, folds: t.Folds, sideHem: hem,
		slat: [2]measure.Length{hem + t.Slat.EndGap, t.Panel.Width - hem - t.Slat.EndGap},
	}
}

// owners lists the names of the band's shades, with the number of units if there are
// several.
func (b *band) owners(l language.Language) string {
	names := make([]string, len(b.shades))
	for i, s := range b.shades {
		names[i] = l.Put(s.Called())
		if b.units[i] > 1 {
			names[i] = l.Say("template.units", names[i], b.units[i])
		}
	}
	return strings.Join(names, ", ")
}

// A kind says what happens to the cloth at a line.
type kind uint8

const (
	rawEdge kind = iota
	foldLine
	markLine
	stitchRow
)

// A rule is one line across the band, with its texts.
type rule struct {
	y     measure.Length
	kind  kind
	step  int        // 1, 2, 3 in the order of work; 0 for a line without its own instruction
	name  message.ID // short, for the ends beside the cloth
	words message.ID
}

// rules returns the lines for the folds, from the raw edge up.
func rules(f ticket.Folds) []rule {
	return []rule{
		{0, rawEdge, 0, "common.raw-edge", "template.lay-raw-edge"},
		{f.HemFold, foldLine, 0, "template.hem-fold-short", "template.line-hem-fold"},
		{f.HemMark, markLine, 1, "template.hem-mark-short", "template.line-hem-mark"},
		{f.PocketFold, foldLine, 0, "template.pocket-fold-short", "template.line-pocket-fold"},
		{f.Stitch, stitchRow, 3, "template.stitch-row-short", "template.line-stitch"},
		{f.PocketMark, markLine, 2, "template.pocket-mark-short", "template.line-pocket-mark"},
	}
}

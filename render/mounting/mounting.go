package mounting

import (
	"fmt"

	"shadewright/render/fullscale"
	"shadewright/render/page"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

const mm = measure.Millimetre

// Options describes the paper of the sheets, the job and the printer.
type Options = fullscale.Options

// A Sheet is everything to say and draw about the brackets of one shade, or of
// several identical ones.
type Sheet struct {
	Shade    string // its id
	Place    string // place of the shade; may be empty
	Codes    []message.Message
	Mount    hang.Mount
	Roll     hang.Roll
	Drilling hang.Drilling
	Advice   []hang.Advice     // about the material behind the brackets; all advice if the material is unknown
	Cautions []message.Message // other cautions
	Stop     message.Message   // why the shade cannot be made as ordered, if it is printed all the same
}

const (
	title message.ID = "mounting.mounting-sheet"
	check message.ID = "mounting.check-first"
	care  message.ID = "mounting.take-care"
)

// Document returns the mounting sheets for shades, in the order of the list. It
// fails with a [*sheet.SmallError] if the paper is too small for any end.
func Document(list []Sheet, opt Options) (*page.Document, error) {
	doc := opt.Document(title)
	if err := draw(list, opt, func(size measure.Size) fullscale.Canvas { return doc.Add(size) }); err != nil {
		return nil, err
	}
	return doc, nil
}

// Draw draws the same sheets for a cutting machine or a projector. It draws
// each on a canvas in layers, which add makes from the sheet's title and size.
// The layers are named after their content: edges, outlines, hidden, centre,
// holes and rules.
func Draw(list []Sheet, opt Options, add func(title string, size measure.Size) fullscale.Layered) error {
	n := 0
	return draw(list, opt, func(size measure.Size) fullscale.Canvas {
		n++
		return &fullscale.ByPen{Layered: add(opt.Say("mounting.mounting-sheet-of-job", n, opt.Job), size), Heavy: "edges", Solid: "outlines", Dashed: "hidden", Broken: "hidden", Centred: "centre", Fine: "rules", Circles: "holes"}
	})
}

func draw(list []Sheet, opt Options, add func(size measure.Size) fullscale.Canvas) error {
	leaves, err := lay(list, opt)
	if err != nil {
		return fmt.Errorf("mounting sheet: %w", err)
	}
	for i, l := range leaves {
		d := drawing{fullscale.Drawing{Canvas: add(l.Size), Options: opt}}
		d.leaf(l, i+1, len(leaves))
	}
	return nil
}

// A drawing is one sheet while it is drawn.
type drawing struct{ fullscale.Drawing }

// leaf draws one sheet of paper.
func (d drawing) leaf(l *leaf, number, in int) {
	d.Head(l.Sheet, fullscale.Heading{
		Title: title, Of: d.Job + ", " + d.Language.Put(l.shade.name()), Check: check, How: message.Of(care), Number: number, In: in,
	})
	d.stop(l)
	d.subject(l)
	d.titles(l)
	if l.end != nil {
		d.piece(l)
	}
	d.columns(l)
}

// name returns the shade's id and its place.
func (s *Sheet) name() message.Message {
	if s.Place == "" {
		return message.Of("mounting.shade", s.Shade)
	}
	return message.Of("mounting.shade-place", s.Shade, s.Place)
}

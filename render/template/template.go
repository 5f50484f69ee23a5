package template

import (
	"fmt"

	"shadewright/render/fullscale"
	"shadewright/render/page"
	"shadewright/ticket"
	"shadewright/ticket/message"
)

// Options describes the paper of the template, the job and the printer.
type Options = fullscale.Options

// Document returns the template for a job's tickets: first the gauges, then the
// bands. The first sheet says what the gauge alone would save. Document fails if the
// paper is too small for a band.
func Document(tickets []*ticket.Ticket, parts Parts, opt Options) (*page.Document, error) {
	sheets, err := lay(parts.of(bands(tickets)), opt)
	if err != nil {
		return nil, fmt.Errorf("template: %w", err)
	}
	saving, err := GaugeAlone(tickets, parts, opt)
	if err != nil {
		return nil, fmt.Errorf("template: %w", err)
	}
	sheets[0].note = saving.Message()
	doc := opt.Document(title)
	for i, s := range sheets {
		d := &drawing{fullscale.Drawing{Canvas: doc.Add(s.Size), Options: opt}}
		d.sheet(s, i+1, len(sheets))
	}
	return doc, nil
}

// A drawing is one sheet while it is drawn.
type drawing struct{ fullscale.Drawing }

const (
	title  message.ID = "template.marking-template"
	check  message.ID = "template.check-first"
	taping message.ID = "template.tape-strips"
	apart  message.ID = "template.cut-bands-apart"
)

// how returns the instructions for using the sheet.
func (s *leaf) how(opt Options) message.Message {
	if !opt.Paper.Roll {
		for _, it := range s.items {
			if it.strip != nil {
				return message.Join(" ", message.Of(taping), s.note)
			}
		}
		return s.note
	}
	for _, it := range s.items {
		if it.strip != nil && len(it.strip.spans) > 1 {
			return message.Join(" ", message.Of(apart), message.Of(taping))
		}
	}
	return message.Of(apart)
}

// sheet draws one sheet.
func (d *drawing) sheet(s *leaf, number, of int) {
	d.Head(s.Sheet, fullscale.Heading{
		Title: title, Of: d.Job, Check: check, How: s.how(d.Options), Number: number, In: of,
	})
	for _, it := range s.items {
		if it.gauge != nil {
			d.gauge(it.gauge, it.at, s.Body.Width())
		} else {
			d.strip(it.strip, it.at)
		}
	}
	for _, c := range s.cuts {
		d.markCut(c)
	}
}

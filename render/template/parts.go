package template

import (
	"shadewright/ticket"
	"shadewright/ticket/message"
)

// Parts says which parts of the template to print.
type Parts uint8

const (
	Both  Parts = iota // gauges and bands
	Bands              // bands alone
	Gauge              // gauges, and a band only where its gauge would not do
)

// pieces are the gauges and bands to lay on sheets.
type pieces struct {
	gauges []*gauge
	bands  []*band
}

// of returns the pieces to print of a job's bands.
func (p Parts) of(list []*band) pieces {
	switch p {
	case Bands:
		return pieces{bands: list}
	case Gauge:
		var needed []*band
		for _, b := range list {
			if !b.gaugeDoes() {
				needed = append(needed, b)
			}
		}
		return pieces{gauges(list), needed}
	}
	return pieces{gauges(list), list}
}

// shapes returns the shape of every piece.
func (p pieces) shapes() []shape {
	var all []shape
	for _, g := range p.gauges {
		all = append(all, g.shape)
	}
	for _, b := range p.bands {
		all = append(all, b.shape)
	}
	return all
}

// gaugeDoes reports whether a panel can be marked with the gauge alone. The gauge has no
// lines for side hems, which run up the panel.
func (b *band) gaugeDoes() bool { return b.sideHem == 0 }

// A Saving is what printing only the gauge would save.
type Saving struct {
	Bands  []string // that the gauge would replace
	Sheets int      // fewer
}

// GaugeAlone returns what printing only the gauge would save of the parts. It saves
// nothing on roll paper, which is cut to the length of the bands.
func GaugeAlone(tickets []*ticket.Ticket, parts Parts, opt Options) (Saving, error) {
	var s Saving
	if parts == Gauge || opt.Paper.Roll {
		return s, nil
	}
	list := bands(tickets)
	for _, b := range list {
		if b.gaugeDoes() {
			s.Bands = append(s.Bands, b.name)
		}
	}
	more, err := lay(parts.of(list), opt)
	if err != nil {
		return Saving{}, err
	}
	less, err := lay(Gauge.of(list), opt)
	if err != nil {
		return Saving{}, err
	}
	s.Sheets = len(more) - len(less)
	if len(s.Bands) == 0 || s.Sheets <= 0 {
		return Saving{}, nil
	}
	return s, nil
}

// Message says what the gauge would save. It is empty if that is nothing.
func (s Saving) Message() message.Message {
	if s.Sheets == 0 {
		return message.Message{}
	}
	names := make([]message.Message, len(s.Bands))
	for i, b := range s.Bands {
		names[i] = message.Verbatim(b)
	}
	which := message.Of("template.band-named", s.Bands[0])
	if len(names) > 1 {
		which = message.Of("template.bands-named", message.List(names...))
	}
	return message.Of("template.gauge-alone", which,
		message.Count(s.Sheets, "template.count-sheet", "template.count-sheets"))
}

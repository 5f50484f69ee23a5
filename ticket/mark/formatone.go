package mark

import (
	"bytes"
	"encoding/json"
	"strings"

	"shadewright/ticket"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// Complete returns t with the values of its paper. A registration from before there
// was a list of them gets a list of format 1, with the values that it kept
// elsewhere: what a screen shows, the size of the panel, the turns of the spring.
func (t *Ticket) Complete() *Ticket {
	if t.Printed != "" {
		return t
	}
	n := *t
	n.Printed = t.formatOne().String()
	return &n
}

// Reworded returns a summary that keeps its texts as ids. An earlier version kept
// English. A summary that cannot be read is returned as it is.
func Reworded(summary json.RawMessage) json.RawMessage {
	if !bytes.Contains(summary, []byte(`"en":`)) {
		return summary
	}
	sum, ok := (&Ticket{Summary: summary}).Summarized()
	if !ok {
		return summary
	}
	again, err := json.Marshal(sum)
	if err != nil {
		return summary
	}
	return again
}

// formatOne lists what a registration from before the list kept of its paper, under
// the keys and in the forms of the list. It leaves out values that were kept
// rounded, because the printed value is unknown.
func (t *Ticket) formatOne() ticket.Printed {
	l := &ticket.List{}
	l.Text("shade.id", t.Shade)
	sum, ok := t.Summarized()
	if ok {
		l.Text("shade.place", sum.Place)
		l.Text("shade.note", sum.Note)
	}
	l.Text("job.name", t.JobName)
	if ok {
		l.Text("job.client", sum.Client)
	}
	l.Plain("job.due", dateText(t.Due))
	l.Count("unit", t.Unit)
	l.Count("unit.of", t.Of)
	l.Count("unit.remake", t.Remake)
	l.Plain("rule.unit", sum.Units)
	l.Length("cut.width", t.Panel.Width)
	l.Length("cut.length", t.Panel.Length)
	if ok {
		sum.formatOne(l)
	}
	if turns := t.Turns.Best; turns >= 100 { // below that, the ticket shows more decimals
		l.Plain("spring.turns", hang.TurnsText(measure.Style{}, float64(turns)/100))
	}
	for _, g := range t.Route.Groups() {
		for _, s := range g.Steps {
			l.Messages("step", message.Verbatim(s.Key), s.Message(), g.Message())
		}
	}
	return ticket.Printed{Format: 1, Values: l.Values}
}

// formatOne adds what a summary keeps.
func (s Summary) formatOne(l *ticket.List) {
	if args := s.Goods.Args; len(args) > 0 {
		name, _ := args[0].(string)
		l.Text("goods.name", name)
		if kind, ok := args[len(args)-1].(message.Message); ok {
			l.Message("goods.kind", kind)
		}
	}
	spoken(l, "cut.diagonal", s.Diagonal.Own)
	l.Length("panel.width", s.Panel.Width)
	l.Length("panel.length", s.Panel.Length)
	for _, line := range s.Lines {
		if key := lineKeys[line.Name.ID]; key != "" {
			l.Length(key, line.At)
		}
	}
	for _, r := range []hang.Roll{hang.Standard, hang.Reverse} {
		if s.Roll.ID == r.Message().ID {
			l.Plain("roll", r.String())
		}
	}
	for _, f := range s.Facts {
		switch f.Name.ID {
		case tubeFact:
			spoken(l, "tube.trim", f.Value.Own)
			l.Text("roller.name", f.More.String())
		case slatFact:
			spoken(l, "slat.trim", f.Value.Own)
			l.Text("slat.name", f.More.String())
		case tapeFact:
			spoken(l, "tape.total", f.Value.Own)
		case stitchFact:
			if args := f.More.Args; len(args) == 2 {
				thread, _ := args[0].(int)
				needle, _ := args[1].(int)
				l.Count("thread.size", thread)
				l.Count("needle.number", needle)
			}
		}
	}
}

// lineKeys are the keys of the lines of a panel.
var lineKeys = map[message.ID]string{
	"common.hem-fold": "line.hem_fold", "common.hem-mark": "line.hem_mark", "common.pocket-fold": "line.pocket_fold",
	"common.stitch-row": "line.stitch", "common.pocket-mark": "line.pocket_mark",
}

// spoken adds a length that is kept as words, unless it was rounded.
func spoken(l *ticket.List, key, words string) {
	if strings.HasPrefix(words, "≈") {
		return
	}
	if v, err := measure.Parse(words, measure.Undeclared); err == nil {
		l.Length(key, v)
	}
}

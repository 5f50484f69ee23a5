package card

import (
	"fmt"
	"strings"

	"shadewright/ticket"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
)

// hanging draws what was measured at the opening, the roll and the spring. A
// shade of which no more than its cloth is known has none of it.
func (m maker) hanging() []block {
	if m.Opening == nil && m.Weight == nil {
		return nil
	}
	var list []fact
	if m.Opening != nil {
		list = append(list, m.opening())
	}
	if m.Roll != nil {
		list = append(list, m.roll())
	}
	switch {
	case m.Wind != nil:
		list = append(list, m.spring())
	case m.TrialAt != nil:
		list = append(list, m.trial())
	}
	return []block{m.row(list)}
}

// opening says what was measured and what was taken off or added.
func (m maker) opening() fact {
	o, fit := m.Shade.Opening, m.Hanging.Opening
	f := fact{
		head: "Opening, " + o.Mount.String() + " mount", shares: 3,
		value:  by(m.first, fit.Opening.Width, fit.Opening.Length, measure.Nearest, measure.Nearest),
		second: "tip to tip " + m.near(fit.TipToTip),
	}
	measured := "measured " + m.readings(o.Widths) + " wide, " + m.readings(o.Heights) + " high"
	if d := o.Diagonals; d[0] > 0 && d[1] > 0 {
		measured += ", diagonals " + m.readings(d[:])
	}
	var off, added []string
	for _, s := range fit.Steps {
		name, ok := stepNames[s.Key]
		if !ok || s.Value == 0 {
			continue
		}
		switch s.Kind {
		case hang.TakenOff:
			off = append(off, m.near(s.Value)+" "+name)
		case hang.Added:
			added = append(added, m.near(s.Value)+" "+name)
		}
	}
	if off != nil {
		measured += "; taken off " + strings.Join(off, ", ")
	}
	if added != nil {
		measured += "; added " + strings.Join(added, ", ")
	}
	f.remarks = []string{measured}
	return f
}

// stepNames names what is taken off an opening or added to it. The rest of the
// record is for programs.
var stepNames = map[string]string{
	"tip_off": "to the tips", "barrel_off": "to the barrel", "cloth_off": "to the cloth", "height_off": "of height",
	"overlap_left": "left", "overlap_right": "right", "overlap_above": "above", "overlap_below": "below",
}

// readings lists lengths with their unit once.
func (m maker) readings(list []measure.Length) string {
	words := make([]string, len(list))
	for i, l := range list {
		words[i] = m.near(l)
		if i < len(list)-1 {
			words[i] = strings.TrimSuffix(words[i], "\u00a0"+m.first.System.String())
		}
	}
	return strings.Join(words, ", ")
}

// roll says how thick the shade is when up, what it clears, and how far the tube
// sags.
func (m maker) roll() fact {
	r := m.Roll
	f := fact{
		head: "Rolled up", shares: 2, value: "Ø " + m.own(r.DiameterUp, measure.Up),
		second: fmt.Sprintf("%s, %s turns, %s wraps left", m.other(r.DiameterUp, measure.Up), m.turns(r.Turns), m.turns(r.WrapsLeft)),
	}
	if c := m.Clearance(); c != nil {
		word := "clears the "
		if c.Gap < 0 {
			word = "runs into the "
		}
		f.remarks = []string{word + c.To + " by " + m.near(c.Gap.Abs()) + "; pin " + m.near(m.Axle) + " from the " + m.plane()}
	}
	if g := m.Sag; g != nil {
		f.remarks = append(f.remarks, "the tube sags "+m.first.Decimal(g.Sag.Millimetres(), 2)+"\u00a0mm in the middle; limit "+m.near(g.Limit))
	}
	return f
}

// plane is what lies behind the roll.
func (m maker) plane() string {
	if m.Shade.Opening.Mount == hang.Inside {
		return "glass"
	}
	return "wall"
}

func (m maker) turns(n float64) string { return ticket.TurnsText(m.first, n) }

// spring says how far it is wound, and how that is done.
func (m maker) spring() fact {
	w := m.Wind
	f := fact{head: "Spring", shares: 2, value: "no turns do", second: m.first.Decimal(w.Rate, 2) + " N·mm per turn"}
	if w.OK {
		f.value = m.turns(w.Turns) + " turns"
		f.second += fmt.Sprintf(", %s to %s do", hang.TurnsText(m.first, w.Least), hang.TurnsText(m.first, w.Most))
	}
	how := m.first.Decimal(m.Weight.Total.Grams(), 0) + " g hang"
	if len(w.Pulls) > 0 {
		how = fmt.Sprintf("from slack, %s: pull %s down, lift out with the flat pin held, roll up by hand, hang again; %s",
			ticket.TimesText(len(w.Pulls)), m.near(w.Pulls[0]), how)
	}
	f.remarks = []string{how}
	return f
}

// trial leaves room for the two readings that give the rate of a spring.
func (m maker) trial() fact {
	f := fact{
		head: "Spring, rate not known", shares: 2, second: "hanging scale on the slat, pulled slowly down",
		blanks: []string{m.near(m.TrialAt[0]) + " down", m.near(m.TrialAt[1]) + " down"},
	}
	if m.text > smallest {
		f.remarks = []string{"the spring command makes turns of both readings"}
	}
	return f
}

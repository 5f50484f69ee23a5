package card

import (
	"strings"

	"shadewright/ticket"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
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

// openingHeads say where the shade is mounted.
var openingHeads = [...]message.English{
	hang.Inside: "Opening, inside mount", hang.Outside: "Opening, outside mount", hang.Ceiling: "Opening, ceiling mount",
}

// opening says what was measured and what was taken off or added.
func (m maker) opening() fact {
	o, fit := m.Shade.Opening, m.Hanging.Opening
	f := fact{
		head: m.say(openingHeads[o.Mount]), shares: 3,
		value:  by(m.first, fit.Opening.Width, fit.Opening.Length, measure.Nearest, measure.Nearest),
		second: m.say("tip to tip %s", m.near(fit.TipToTip)),
	}
	measured := m.say("measured %s wide, %s high", m.readings(o.Widths), m.readings(o.Heights))
	if d := o.Diagonals; d[0] > 0 && d[1] > 0 {
		measured = m.say("measured %s wide, %s high, diagonals %s", m.readings(o.Widths), m.readings(o.Heights), m.readings(d[:]))
	}
	if off := m.steps(hang.TakenOff); off != "" {
		measured += "; " + m.say("taken off %s", off)
	}
	if added := m.steps(hang.Added); added != "" {
		measured += "; " + m.say("added %s", added)
	}
	f.remarks = []string{measured}
	return f
}

// stepWords say what is taken off an opening or added to it. The rest of the
// record is for programs.
var stepWords = map[string]message.English{
	"tip_off": "%s to the tips", "barrel_off": "%s to the barrel", "cloth_off": "%s to the cloth", "height_off": "%s of height",
	"overlap_left": "%s left|side", "overlap_right": "%s right|side", "overlap_above": "%s above", "overlap_below": "%s below",
}

// steps lists what was taken off or added.
func (m maker) steps(kind hang.StepKind) string {
	var list []string
	for _, s := range m.Hanging.Opening.Steps {
		if words, ok := stepWords[s.Key]; ok && s.Kind == kind && s.Value != 0 {
			list = append(list, m.say(words, m.near(s.Value)))
		}
	}
	return strings.Join(list, ", ")
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
	return strings.Join(words, m.first.Between())
}

// roll says how thick the shade is when up, what it clears, and how far the tube
// sags.
func (m maker) roll() fact {
	r := m.Roll
	f := fact{
		head: m.say("Rolled up"), shares: 2, value: "Ø " + m.own(r.DiameterUp, measure.Up),
		second: m.say("%s, %s turns, %s wraps left", m.other(r.DiameterUp, measure.Up), m.turns(r.Turns), m.turns(r.WrapsLeft)),
	}
	if c := m.Clearance(); c != nil {
		f.remarks = []string{m.clears(c) + "; " + m.pin()}
	}
	if g := m.Sag; g != nil {
		sag := m.first.Decimal(g.Sag.Millimetres(), 2) + "\u00a0mm"
		f.remarks = append(f.remarks, m.say("the tube sags %s in the middle; limit %s", sag, m.near(g.Limit)))
	}
	return f
}

// clears says what the roll clears or does not.
func (m maker) clears(c *hang.Clearance) string {
	if c.Gap < 0 {
		return m.say("runs into %s by %s", c.The(), m.near(-c.Gap))
	}
	return m.say("clears %s by %s", c.The(), m.near(c.Gap))
}

// pin says how far the roll's pin is from what lies behind it.
func (m maker) pin() string {
	if m.Shade.Opening.Mount == hang.Inside {
		return m.say("pin %s from the glass", m.near(m.Axle))
	}
	return m.say("pin %s from the wall", m.near(m.Axle))
}

func (m maker) turns(n float64) string { return ticket.TurnsText(m.first, n) }

// spring says how far it is wound, and how that is done.
func (m maker) spring() fact {
	w := m.Wind
	rate := m.first.Decimal(w.Rate, 2)
	f := fact{head: m.say("Spring"), shares: 2, value: m.say("no turns do"), second: m.say("%s N·mm per turn", rate)}
	if w.OK {
		f.value = m.say("%s turns", m.turns(w.Turns))
		f.second = m.say("%s N·mm per turn, %s to %s do", rate, hang.TurnsText(m.first, w.Least), hang.TurnsText(m.first, w.Most))
	}
	how := m.say("%s\u00a0g hang with the shade down", m.first.Decimal(m.Weight.Total.Grams(), 0))
	if n := len(w.Pulls); n > 0 {
		how = m.pull(n, m.near(w.Pulls[0])) + "; " + how
	}
	f.remarks = []string{how}
	return f
}

// pull says how a spring is wound by hand.
func (m maker) pull(times int, length string) string {
	if times == 1 {
		return m.say("from slack, once: pull %s down, lift out with the flat pin held, roll up by hand, hang again", length)
	}
	return m.say("from slack, %d times: pull %s down, lift out with the flat pin held, roll up by hand, hang again", times, length)
}

// trial leaves room for the two readings that give the rate of a spring.
func (m maker) trial() fact {
	f := fact{
		head: m.say("Spring, rate not known"), shares: 2, second: m.say("hanging scale on the slat, pulled slowly down"),
		blanks: []string{m.say("%s down", m.near(m.TrialAt[0])), m.say("%s down", m.near(m.TrialAt[1]))},
	}
	if m.text > smallest {
		f.remarks = []string{m.say("the spring command makes turns of both readings")}
	}
	return f
}

package card

import (
	"strings"

	"shadewright/ticket"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// hung returns the measured opening and the roll, as far as they are known.
func (m maker) hung() (list []fact) {
	if m.Fit != nil {
		list = append(list, m.opening())
	}
	if m.Roll != nil && (m.Fit != nil || m.Weight != nil) {
		list = append(list, m.roll())
	}
	return list
}

// springs returns how to wind the spring, or how to try it.
func (m maker) springs() fact {
	if m.Wind != nil {
		return m.spring()
	}
	return m.trial()
}

// openingHeads are the titles that say where the shade is mounted.
var openingHeads = [...]message.ID{
	hang.Inside: "card.opening-inside-mount", hang.Outside: "card.opening-outside-mount", hang.Ceiling: "card.opening-ceiling-mount",
}

// opening states the readings at the opening, and the deductions and additions.
func (m maker) opening() fact {
	o, fit := m.Shade.Opening, m.Hanging.Fit
	f := fact{
		head: m.say(openingHeads[o.Mount]), shares: 3,
		value:  by(m.units.first, fit.Opening.Width, fit.Opening.Length, measure.Nearest, measure.Nearest),
		second: m.say("card.tip-to-tip", m.units.near(fit.TipToTip)),
	}
	measured := m.say("card.measured", m.readings(o.Widths), m.readings(o.Heights))
	if d := o.Diagonals; d[0] > 0 && d[1] > 0 {
		measured = m.say("card.measured-with-diagonals", m.readings(o.Widths), m.readings(o.Heights), m.readings(d[:]))
	}
	if off := m.steps(hang.TakenOff); off != "" {
		measured += "; " + m.say("card.taken-off", off)
	}
	if added := m.steps(hang.Added); added != "" {
		measured += "; " + m.say("card.added", added)
	}
	if !m.narrow() || m.look.text > smallest { // crowded small paper leaves the readings to the job file
		f.remarks = []string{measured}
	}
	return f
}

// stepWords are the texts for deductions and additions. The other steps are
// only for programs.
var stepWords = map[string]message.ID{
	"tip_off": "card.to-the-tips", "barrel_off": "card.to-the-barrel", "cloth_off": "card.to-the-cloth", "height_off": "card.of-height",
	"overlap_left": "card.left-side", "overlap_right": "card.right-side", "overlap_above": "card.above", "overlap_below": "card.below",
}

// steps lists the deductions or the additions.
func (m maker) steps(kind hang.StepKind) string {
	var list []string
	for _, s := range m.Hanging.Fit.Steps {
		if words, ok := stepWords[s.Key]; ok && s.Kind == kind && s.Value != 0 {
			list = append(list, m.say(words, m.units.near(s.Value)))
		}
	}
	return strings.Join(list, ", ")
}

// readings lists lengths, with the unit after the last.
func (m maker) readings(list []measure.Length) string {
	words := make([]string, len(list))
	for i, l := range list {
		words[i] = m.units.near(l)
		if i < len(list)-1 {
			words[i] = strings.TrimSuffix(words[i], "\u00a0"+m.units.first.System.String())
		}
	}
	return strings.Join(words, m.units.first.Between())
}

// roll states the diameter of the rolled-up shade, what it clears, and the sag
// of the tube.
func (m maker) roll() fact {
	r := m.Roll
	f := fact{
		head: m.say("card.rolled-up"), shares: 2, value: "Ø " + m.units.own(r.DiameterUp, measure.Up),
		second: m.say("card.roll", m.units.other(r.DiameterUp, measure.Up), m.turns(r.Turns), m.turns(r.WrapsLeft)),
	}
	if c := m.Clearance(); c != nil {
		f.remarks = []string{m.clears(c) + "; " + m.pin()}
	}
	if g := m.Sag; g != nil {
		sag := m.units.first.Decimal(g.Sag.Millimetres(), 2) + "\u00a0mm"
		f.remarks = append(f.remarks, m.say("card.sag", sag, m.units.near(g.Limit)))
	}
	return f
}

// clears states by how much the roll clears an object or hits it.
func (m maker) clears(c *hang.Clearance) string {
	if c.Gap < 0 {
		return m.say("card.runs-into-by", c.What(), m.units.near(-c.Gap))
	}
	return m.say("card.clears-by", c.What(), m.units.near(c.Gap))
}

// pin states the distance of the roller's pin from the glass or wall behind it.
func (m maker) pin() string {
	if m.Shade.Opening.Mount == hang.Inside {
		return m.say("card.pin-from-glass", m.units.near(m.Axle))
	}
	return m.say("card.pin-from-wall", m.units.near(m.Axle))
}

func (m maker) turns(n float64) string { return ticket.TurnsText(m.units.first, n) }

// spring states how far to wind the spring, and how.
func (m maker) spring() fact {
	w := m.Wind
	rate := m.units.first.Decimal(w.Rate, 2)
	f := fact{head: m.say("card.spring"), shares: 2, value: m.say("card.no-turns-work")}
	told := m.say("card.rate", rate)
	if w.OK {
		f.value = m.say("common.turns", m.turns(w.Turns))
		told = m.say("card.rate-with-range", rate, hang.TurnsText(m.units.first, w.Least), hang.TurnsText(m.units.first, w.Most))
	}
	how := m.say("card.weight", m.units.first.Decimal(m.Weight.Total.Grams(), 0))
	if n := len(w.Pulls); n > 0 {
		how = m.pull(n, m.units.near(w.Pulls[0])) + "; " + how
	}
	f.remarks = []string{told, how}
	return f
}

// pull states how to wind a spring by hand.
func (m maker) pull(times int, length string) string {
	if times == 1 {
		return m.say("card.pull-once", length)
	}
	return m.say("card.pull-times", times, length)
}

// trial states how far to wind a spring of unknown rate first, and how to go on by a
// scale, with room for its readings.
func (m maker) trial() fact {
	f := fact{head: m.say("card.try-spring"), shares: 2}
	b := m.Begin
	if b == nil || m.Weight == nil {
		pull := m.units.near(m.FirstPull())
		f.value = m.say("card.begin-pull", pull)
		f.remarks = []string{"1 " + m.say("card.try-1", pull), "2 " + m.say("card.try-blind-2"), "3 " + m.say("card.try-blind-3")}
		return f
	}
	f.value = m.say("card.begin-turns", hang.TurnsText(m.units.first, b.Turns))
	f.remarks = []string{"1 " + m.say("card.try-1", m.units.near(b.Pull)), "2 " + m.say("card.try-2")}
	for _, s := range b.Scales {
		least, most := s.Grams()
		f.blanks = append(f.blanks, m.say("card.try-range", m.units.near(s.Below), m.units.first.Decimal(float64(least), 0), m.units.first.Decimal(float64(most), 0)))
	}
	f.after = []string{"3 " + m.say("card.try-3")}
	if b.Most > 0 {
		f.after = append(f.after, m.say("card.try-most", hang.TurnsText(m.units.first, b.Most)))
	}
	if m.look.text > smallest {
		f.after = append(f.after, m.say("card.spring-command"))
	}
	return f
}

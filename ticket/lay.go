package ticket

import (
	"fmt"
	"strconv"

	"shadewright/ticket/finding"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A PlanPlace says where a ticket's panel lies on the cut plan of its goods. The
// zero PlanPlace belongs to a ticket without a place.
type PlanPlace struct {
	Goods   string
	On      string       // the label of the piece on hand; empty for the roll
	Section int          // of the roll, from 1; 0 on a piece on hand
	Cuts    []int        // numbers of the cuts that free the panel, in order
	Turned  bool         // a quarter, so that its length runs across the roll
	Rough   measure.Size // size of the piece as it is cut free, with its allowance: across the roll, along it
}

// Planned reports whether there is a place.
func (p PlanPlace) Planned() bool { return p.Goods != "" }

// String returns the place in English.
func (p PlanPlace) String() string { return p.Message().String() }

// Message returns the place in words: "section 2, cuts 1–4, 7 and 8".
func (p PlanPlace) Message() message.Message {
	where := message.Of("ticket.section", p.Section)
	if p.On != "" {
		where = message.Of("ticket.piece-on-hand", p.On)
	}
	switch len(p.Cuts) {
	case 0:
		return where
	case 1:
		return message.Of("ticket.cut", where, p.Cuts[0])
	}
	return message.Of("ticket.cuts", where, message.List(runs(p.Cuts)...))
}

// runs writes rising numbers, and runs of three or more as 4–6.
func runs(n []int) []message.Message {
	var words []message.Message
	for i := 0; i < len(n); {
		j := i
		for j+1 < len(n) && n[j+1] == n[j]+1 {
			j++
		}
		if j-i < 2 {
			j = i
			words = append(words, message.Verbatim(strconv.Itoa(n[i])))
		} else {
			words = append(words, message.Verbatim(fmt.Sprintf("%d–%d", n[i], n[j])))
		}
		i = j + 1
	}
	return words
}

// goods checks whether the panel, in its cut size, comes out of the roll straight
// or turned.
func (j *judgement) goods() {
	g, table := j.t.Shade.Goods, j.lim.Table
	w, l := j.t.Cut.Width+2*g.Allowance, j.t.Cut.Length+2*g.Allowance
	fits := func(across, along measure.Length) bool {
		return across <= g.Usable() && (table == 0 || along <= table)
	}
	switch {
	case fits(w, l):
	case g.Turns() && fits(l, w):
		f := j.lies(finding.Note, w)
		f.Text = message.Of("ticket.turned-for-width", j.say(g.Usable()), g.Name)
		if w <= g.Usable() {
			f.Value, f.Limit, f.Source = j.say(l), j.say(table), "length of the cutting table"
			f.Text = message.Of("ticket.turned-for-table", j.say(table))
		}
		f.Remedy = message.Of("ticket.check-turned-alike")
		j.Add(f)
	default:
		j.fitsNowhere(w, l)
	}
	if table > 0 && g.Repeat > table {
		j.Add(finding.Finding{Level: finding.Stop, Field: "goods.repeat",
			Text:  message.Of("ticket.repeat-over-table", g.Name, j.say(g.Repeat), j.say(table)),
			Value: j.say(g.Repeat), Limit: j.say(table), Source: "length of the cutting table", Remedy: message.Of("ticket.fix-repeat")})
	}
}

// lies starts a finding about a panel that is w wide with its allowance.
func (j *judgement) lies(level finding.Level, w measure.Length) finding.Finding {
	return finding.Finding{Level: level, Field: "goods", Value: j.say(w), Limit: j.say(j.t.Shade.Goods.Usable()), Source: "roll width less both selvages"}
}

// fitsNowhere says which goods would hold a panel of w by l, allowances included.
func (j *judgement) fitsNowhere(w, l measure.Length) {
	g, table := j.t.Shade.Goods, j.lim.Table
	size := message.Verbatim(fmt.Sprintf("%s × %s", j.say(j.t.Cut.Width), j.say(j.t.Cut.Length)))
	if g.Allowance > 0 {
		size = message.Of("ticket.panel-with-allowance", size, j.say(g.Allowance))
	}
	f := j.lies(finding.Stop, w)
	need := w
	if g.Turns() {
		need = min(w, l)
	}
	switch {
	case table > 0 && w+l-need > table:
		f.Value, f.Limit, f.Source = j.say(w+l-need), j.say(table), "length of the cutting table"
		f.Text = message.Of("ticket.panel-over-table", size, j.say(w+l-need), j.say(table))
		f.Remedy = message.Of("ticket.fix-table")
		if g.Turns() {
			f.Remedy = message.Of("ticket.fix-table-or-goods", j.style.AtLeast(max(w, l)))
		}
	case g.Turns():
		f.Text = message.Of("ticket.panel-too-big", size, g.Name, j.say(g.Usable()))
		f.Remedy = message.Of("ticket.fix-goods-width", j.style.AtLeast(need))
	default:
		f.Text = message.Of("ticket.panel-too-wide", j.say(w), g.Name, j.say(g.Usable()))
		f.Remedy = message.Of("ticket.fix-goods-width", j.style.AtLeast(w))
	}
	j.Add(f)
}

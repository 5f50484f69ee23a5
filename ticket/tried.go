package ticket

import (
	"fmt"
	"reflect"
	"slices"

	"shadewright/ticket/finding"
	"shadewright/ticket/message"
)

// mostTries is the most combinations of values at which a shade is tried. With more, the
// middle values are left out, and then the last gaps keep their first value only.
const mostTries = 256

// A try is a shade with a value in each of its gaps that has a likely range.
type try struct {
	shade *Shade
	with  []message.Message // the values, in the order of the gaps
	at    []int             // which values they are
}

// tries returns the combinations of all values of the gaps, the least values first.
func tries(s *Shade, gaps []gap) []try {
	list := []try{{shade: s}}
	for _, values := range chosen(gaps) {
		var more []try
		for _, t := range list {
			for i, v := range values {
				filled := *t.shade
				v.set(&filled)
				more = append(more, try{&filled, append(slices.Clip(t.with), v.with), append(slices.Clip(t.at), i)})
			}
		}
		list = more
	}
	return list
}

// chosen returns the values of each gap, so few that their combinations stay below
// [mostTries].
func chosen(gaps []gap) (all [][]value) {
	n := 1
	for _, g := range gaps {
		if len(g.values) > 0 {
			all, n = append(all, g.values), n*len(g.values)
		}
	}
	for i := range all {
		if n > mostTries && len(all[i]) == 3 {
			n = n / 3 * 2
			all[i] = []value{all[i][0], all[i][2]}
		}
	}
	for i := len(all) - 1; i >= 0 && n > mostTries; i-- {
		n /= len(all[i])
		all[i] = all[i][:1]
	}
	return all
}

// merge makes the ticket of a shade with gaps from its tickets at every try. A result that
// is the same for all of them does not hang on the gaps, so it holds. One that differs is
// unknown. All findings keep their level if every try has them.
func merge(s *Shade, gaps []gap, list []try, tickets []*Ticket) *Ticket {
	t := *tickets[0]
	t.Shade = ordered(s, t.Shade)
	for _, o := range tickets[1:] {
		if o.Pocket.Spare < t.Pocket.Spare {
			t.Pocket = o.Pocket
		}
		t.Stitch.Thread = max(t.Stitch.Thread, o.Stitch.Thread)
		keepCommon(&t.Hanging, &o.Hanging)
		keepCommon(&t.Fitting.Place, &o.Fitting.Place)
	}
	if t.Weight == nil {
		t.Wind = nil // its weight stands beside it on the ticket
	}
	var found finding.List
	fails := sift(&found, list, tickets)
	ranged := 0 // counts the gaps with a likely range
	for _, g := range gaps {
		f, ok := g.finding(len(g.values) > 0 && fails[ranged])
		if ok {
			found.Add(f)
		}
		if len(g.values) > 0 {
			ranged++
		}
	}
	t.Findings = found
	finding.Sort(t.Findings)
	return &t
}

// ordered returns the shade as ordered, with the finished size that a try worked out from
// its opening, which does not hang on the gaps.
func ordered(s, tried *Shade) *Shade {
	o := *s
	o.Finished = tried.Finished
	return &o
}

// keepCommon drops every result that differs from another's.
func keepCommon[T any](h, o *T) {
	a, b := reflect.ValueOf(h).Elem(), reflect.ValueOf(o).Elem()
	for i := range a.NumField() {
		if !reflect.DeepEqual(a.Field(i).Interface(), b.Field(i).Interface()) {
			a.Field(i).SetZero()
		}
	}
}

// sift adds the findings of all tries: those that every try has as they are; one for each
// field that some try stops or cautions at, with the values at which it does. It returns
// the positions of the gaps that such a finding hangs on.
func sift(found *finding.List, list []try, tickets []*Ticket) map[int]bool {
	common := func(f finding.Finding) bool {
		return !slices.ContainsFunc(tickets, func(t *Ticket) bool { return !slices.ContainsFunc(t.Findings, f.Equal) })
	}
	for _, f := range tickets[0].Findings {
		if common(f) {
			found.Add(f)
		}
	}
	fails := map[int]bool{}
	done := map[string]bool{}
	for _, t := range tickets {
		for _, f := range t.Findings {
			if f.Level < finding.Caution || done[f.Field] || common(f) {
				continue
			}
			done[f.Field] = true
			c := conditionalOn(f.Field, list, tickets)
			found.Add(c.finding())
			for _, gap := range c.gaps {
				fails[gap] = true
			}
		}
	}
	return fails
}

// A conditional is what the tries have for one field.
type conditional struct {
	list  []try
	worst []*finding.Finding // of each try; nil if it has neither stop nor caution
	gaps  []int              // positions of the gaps that it hangs on
}

func conditionalOn(field string, list []try, tickets []*Ticket) conditional {
	c := conditional{list: list, worst: make([]*finding.Finding, len(list))}
	for i, t := range tickets {
		j := slices.IndexFunc(t.Findings, func(f finding.Finding) bool { return f.Field == field && f.Level >= finding.Caution })
		if j >= 0 {
			c.worst[i] = &t.Findings[j]
		}
	}
	for gap := range list[0].at {
		if c.hangsOn(gap) {
			c.gaps = append(c.gaps, gap)
		}
	}
	return c
}

// hangsOn reports whether two tries that differ in one gap only differ in the finding.
func (c conditional) hangsOn(gap int) bool {
	says := map[string]string{}
	for i, t := range c.list {
		var said string
		if f := c.worst[i]; f != nil {
			said = f.Level.String() + " " + f.Text.String()
		}
		rest := fmt.Sprint(t.at[:gap], t.at[gap+1:])
		if before, ok := says[rest]; ok && before != said {
			return true
		}
		says[rest] = said
	}
	return false
}

// finding makes one finding. If every try has a stop, it is a stop, in the words of the
// first. Otherwise it is a caution, in the words of the first among the worst. The remedy
// is that of the last, which has the largest values, so it holds for the others too.
func (c conditional) finding() finding.Finding {
	stops, first, last := 0, -1, -1
	for i, f := range c.worst {
		if f == nil {
			continue
		}
		if f.Level == finding.Stop {
			stops++
		}
		if first < 0 || f.Level > c.worst[first].Level {
			first, last = i, i
		}
		if f.Level == c.worst[first].Level {
			last = i
		}
	}
	f, says := *c.worst[first], message.ID("gap.even-with")
	if stops < len(c.list) {
		f.Level, says = finding.Caution, "gap.if-with"
	}
	var with []message.Message
	for _, gap := range c.gaps {
		with = append(with, c.list[first].with[gap])
	}
	f.Text = message.Of(says, message.Join(", ", with...), f.Text)
	f.Remedy = message.Of("gap.or-measure", c.worst[last].Remedy)
	return f
}

// finding says that something could not be checked, or not with one value.
func (g gap) finding(fails bool) (f finding.Finding, ok bool) {
	f = finding.Finding{Level: finding.Unchecked, Field: g.field, Source: g.source, Remedy: message.Of(g.remedy), Missing: g.what}
	rests := message.Of(g.rests)
	switch {
	case len(g.values) == 0:
		f.Text = message.Of("gap.unchecked", g.what, rests)
	case fails:
		f.Text = message.Of("gap.fails", g.what, rests, g.from, g.to)
	case g.bounded:
		return finding.Finding{}, false
	default:
		f.Text = message.Of("gap.works", g.what, rests, g.from, g.to)
	}
	return f, true
}

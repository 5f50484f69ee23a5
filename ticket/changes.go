package ticket

import "slices"

// A Change is a value that differs from an earlier paper. Old is empty for a new
// value, and New for one that is gone.
type Change struct{ Key, Old, New string }

// Changes lists the values of a later paper that differ from p, in the order of the
// later paper. If the two lists have different formats, only the keys that both
// formats keep are compared. ok is false if there is nothing to compare.
func (p Printed) Changes(later Printed) (changes []Change, ok bool) {
	return spans.changes(p, later)
}

// A span is the formats that have a key, both ends included. to is zero for a key
// that is still in use.
type span struct{ from, to int }

// A spanTable holds the keys that some format lacks, format 1 excepted.
type spanTable map[string]span

// spans lists every key that a later format adds or drops, so that papers of an
// earlier format do not count as changed because of it. Format 3 says apart what could
// not be checked; format 2 had it among the findings.
//
// The steps are "work" in format 3, because a step of the program's own says there whether
// a tube is set or sawn: paper with the old name stays good.
var spans = spanTable{
	"step":          {to: 2},
	"work":          {from: 3},
	"finding":       {from: 2, to: 2},
	"notice":        {from: 3},
	"unchecked":     {from: 3},
	"tube.kind":     {from: 3},
	"tube.off":      {from: 3},
	"attach.free":   {from: 3},
	"face.mark":     {from: 3},
	"face.tube":     {from: 3},
	"pins.flat":     {from: 3},
	"pins.round":    {from: 3},
	"pins.least":    {from: 3},
	"pins.most":     {from: 3},
	"place.sheet":   {from: 3},
	"place.apart":   {from: 3},
	"place.below":   {from: 3},
	"place.above":   {from: 3},
	"place.left":    {from: 3},
	"place.deep":    {from: 3},
	"place.over":    {from: 3},
	"begin.turns":   {from: 3},
	"begin.pull":    {from: 3},
	"begin.most":    {from: 3},
	"begin.least_g": {from: 3},
	"begin.most_g":  {from: 3},
	"pull":          {from: 3},
}

// A part says how much of a value the registrations of format 1 kept.
type part uint8

const (
	sometimes part = iota + 1 // a missing value may have been printed
	always                    // a missing value was not printed
)

// ofFormatOne holds the keys under which package mark reads registrations from
// before there was a list.
var ofFormatOne = map[string]part{
	"shade.id": always, "shade.place": always, "shade.note": always, "job.name": always, "job.client": always, "job.due": always,
	"unit": always, "unit.of": always, "unit.remake": always, "rule.unit": always, "goods.name": always, "goods.kind": sometimes,
	"cut.width": sometimes, "cut.length": sometimes, "cut.diagonal": sometimes, "panel.width": sometimes, "panel.length": sometimes,
	"line.hem_fold": sometimes, "line.hem_mark": sometimes, "line.pocket_fold": sometimes, "line.stitch": sometimes, "line.pocket_mark": sometimes,
	"roll": sometimes, "tube.trim": sometimes, "roller.name": sometimes, "slat.trim": sometimes, "slat.name": sometimes, "tape.total": sometimes,
	"thread.size": sometimes, "needle.number": sometimes, "spring.turns": sometimes, "step": always,
}

// keeps reports whether a list has every value of a key.
func (s spanTable) keeps(p Printed, key string) bool {
	switch p.Format {
	case 0: // nothing is known
		return false
	case 1:
		kept := ofFormatOne[key]
		return kept == always || kept == sometimes && slices.ContainsFunc(p.Values, func(v Value) bool { return v.Key == key })
	}
	in, ok := s[key]
	return !ok || in.from <= p.Format && (in.to == 0 || p.Format <= in.to)
}

func (s spanTable) changes(old, later Printed) (changes []Change, ok bool) {
	compared := func(v Value) bool { return s.keeps(old, v.Key) && s.keeps(later, v.Key) }
	was, now := byKey(old.Values), byKey(later.Values)
	seen := map[string]bool{}
	for _, v := range slices.Concat(later.Values, old.Values) {
		if seen[v.Key] || !compared(v) {
			continue
		}
		seen[v.Key], ok = true, true
		changes = append(changes, paired(v.Key, was[v.Key], now[v.Key])...)
	}
	return changes, ok
}

// byKey groups the values by key, in their order.
func byKey(list []Value) map[string][]string {
	all := map[string][]string{}
	for _, v := range list {
		all[v.Key] = append(all[v.Key], v.Text)
	}
	return all
}

// paired pairs the values of one key and leaves out equal ones. In a list such as
// the steps, a new entry counts as one change: the entries after it do not.
func paired(key string, was, now []string) []Change {
	var start, end int
	for start < len(was) && start < len(now) && was[start] == now[start] {
		start++
	}
	for end < len(was)-start && end < len(now)-start && was[len(was)-1-end] == now[len(now)-1-end] {
		end++
	}
	was, now = was[start:len(was)-end], now[start:len(now)-end]
	changes := make([]Change, max(len(was), len(now)))
	for i := range changes {
		changes[i].Key = key
		if i < len(was) {
			changes[i].Old = was[i]
		}
		if i < len(now) {
			changes[i].New = now[i]
		}
	}
	return changes
}

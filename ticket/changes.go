package ticket

import "slices"

// A Change is a value that is not what it was. Old or New is empty where there was
// none, or is none any more.
type Change struct{ Key, Old, New string }

// Changes lists what is not on a later paper as it is on p, in the order of the
// later one. Where the two lists are of different formats, only what both formats
// keep is compared. ok is false if there is nothing to compare.
func (p Printed) Changes(later Printed) (changes []Change, ok bool) {
	return spans.changes(p, later)
}

// A span is the formats that have a key, both ends included; to is zero for a key
// that is still in use.
type span struct{ from, to int }

// spanTable has the keys that some format lacks, but for format 1.
type spanTable map[string]span

// spans is where a key goes that a later format adds or gives up: a paper of an
// earlier format is then not called changed for its sake. All keys of format 2 are
// in use.
var spans = spanTable{}

// A part says how much of a value the registrations of format 1 kept.
type part uint8

const (
	sometimes part = iota + 1 // it was kept if it is there
	always                    // it was kept: where it is not there, it was not printed
)

// ofFormatOne has the keys under which package mark reads registrations that were
// made before there was a list.
var ofFormatOne = map[string]part{
	"shade.id": always, "shade.place": always, "shade.note": always, "job.name": always, "job.client": always, "job.due": always,
	"unit": always, "unit.of": always, "unit.remake": always, "rule.unit": always, "goods.name": always, "goods.kind": sometimes,
	"cut.width": sometimes, "cut.length": sometimes, "cut.diagonal": sometimes, "panel.width": sometimes, "panel.length": sometimes,
	"line.hem_fold": sometimes, "line.hem_mark": sometimes, "line.pocket_fold": sometimes, "line.stitch": sometimes, "line.pocket_mark": sometimes,
	"roll": sometimes, "tube.trim": sometimes, "roller.name": sometimes, "slat.trim": sometimes, "slat.name": sometimes, "tape.total": sometimes,
	"thread.size": sometimes, "needle.number": sometimes, "spring.turns": sometimes, "step": always,
}

// keeps reports whether a list has all there is to a key.
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

// byKey gathers the values of each key in their order.
func byKey(list []Value) map[string][]string {
	all := map[string][]string{}
	for _, v := range list {
		all[v.Key] = append(all[v.Key], v.Text)
	}
	return all
}

// paired puts the values of one key side by side, those that are alike left out.
// A list such as the steps changes where it changes: a new step does not make all
// after it another.
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

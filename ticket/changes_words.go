package ticket

import (
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// A naming says how to describe a change of a value.
type naming struct {
	name message.ID
	bare bool // give only the name: there are too many values, or a reader cannot use them
}

// names has every key of a list except those of lengths taken off an opening or
// added.
var names = map[string]naming{
	"shade.id": {name: "change.shade"}, "shade.place": {name: "change.place"}, "shade.note": {name: "change.note"},
	"job.name": {name: "change.job"}, "job.client": {name: "change.client"}, "job.due": {name: "change.due"},
	"unit": {name: "change.unit"}, "unit.of": {name: "change.units"}, "unit.remake": {name: "change.remake"}, "unit.code": {name: "change.code"},
	"rule.unit": {name: "change.system"}, "rule.step": {name: "change.step"},

	"plan.piece": {"change.plan", true}, "plan.section": {"change.plan", true}, "plan.cuts": {"change.plan", true},
	"goods.name": {name: "change.goods"}, "goods.kind": {name: "change.goods"},
	"cut.width": {name: "change.panel-width"}, "cut.length": {name: "change.panel-length"},
	"cut.diagonal": {name: "change.diagonal"}, "cut.square": {name: "change.square"},
	"panel.width": {name: "change.exact-width"}, "panel.length": {name: "change.exact-length"},
	"finished.width": {name: "change.finished-width"}, "finished.length": {name: "change.finished-length"},
	"allow.wrap": {name: "change.wrap"}, "allow.hem": {name: "change.hem"}, "allow.pocket": {name: "change.pocket"},
	"allow.stitch_inset": {name: "change.stitch-inset"}, "allow.side_hem": {name: "change.side-hem"},
	"line.hem_fold": {name: "common.hem-fold"}, "line.hem_mark": {name: "common.hem-mark"}, "line.pocket_fold": {name: "common.pocket-fold"},
	"line.stitch": {name: "common.stitch-row"}, "line.pocket_mark": {name: "common.pocket-mark"}, "roll": {name: "change.roll"},

	"tube.trim": {name: "change.tube"}, "roller.name": {name: "change.roller"}, "roller.tube": {name: "change.tube-diameter"},
	"roller.shortest": {name: "change.roller-shortest"}, "roller.longest": {name: "change.roller-longest"},
	"slat.trim": {name: "change.slat"}, "slat.end_gap": {name: "change.slat-gap"}, "slat.name": {name: "change.slat-kind"},
	"slat.width": {name: "change.slat-width"}, "slat.thickness": {name: "change.slat-thickness"}, "slat.diameter": {name: "change.slat-diameter"},
	"tape.total": {name: "change.tape"}, "tape.runs": {name: "change.tape-run"}, "tape.run": {name: "change.tape-run"},

	"stitch.length": {name: "change.stitch"}, "stitch.per_inch": {name: "change.per-inch"}, "stitch.type": {name: "change.stitch-type"},
	"stitch.plies": {name: "change.plies"}, "stitch.seam": {name: "change.seam"}, "stitch.backtack": {name: "change.back-tack"},
	"thread.size": {name: "change.thread"}, "thread.tex": {name: "change.thread"}, "thread.metres": {name: "change.thread-metres"},
	"needle.number": {name: "change.needle"}, "needle.metric": {name: "change.needle"}, "needle.note": {name: "change.needle"},
	"edge.method": {name: "change.sides"}, "edge.note": {name: "change.sides"}, "edge.length": {name: "change.edge"},

	"opening.mount": {name: "change.mount"}, "opening.width": {name: "change.opening-width"}, "opening.length": {name: "change.opening-length"},
	"opening.tip_to_tip": {name: "change.tip-to-tip"}, "opening.measured_width": {name: "change.measured"},
	"opening.measured_height": {name: "change.measured"}, "opening.measured_diagonal": {name: "change.measured"},
	"rolled.diameter": {name: "change.rolled-up"}, "rolled.turns": {name: "change.roll-turns"}, "rolled.wraps_left": {name: "change.wraps-left"},
	"clear.of": {name: "change.clears"}, "clear.gap": {name: "change.clearance"}, "clear.axle": {name: "change.axle"},
	"sag": {name: "change.sag"}, "sag.limit": {name: "change.sag-limit"}, "trial.at": {name: "change.trial"},
	"spring.rate": {name: "change.spring-rate"}, "spring.turns": {name: "change.spring-turns"}, "spring.least": {name: "change.spring-least"},
	"spring.most": {name: "change.spring-most"}, "spring.pulls": {name: "change.pulls"}, "spring.pull": {name: "change.pull"}, "weight": {name: "change.weight"},

	"finding": {name: "change.finding"}, "notice": {name: "change.finding"}, "unchecked": {name: "change.unchecked"}, "step": {name: "change.step-of-work"}, "caution": {name: "change.caution"},
	"mount.bearings": {"change.mounting-sheet", true}, "mount.between": {"change.mounting-sheet", true}, "mount.shim": {"change.mounting-sheet", true},
	"mount.behind": {"change.mounting-sheet", true}, "mount.plate": {"change.mounting-sheet", true}, "mount.hole": {"change.mounting-sheet", true},
	"mount.line": {"change.mounting-sheet", true},

	"tube.kind":     {"change.tube-kind", true},
	"tube.off":      {name: "change.saw-off"},
	"attach.free":   {name: "change.free"},
	"face.mark":     {"change.faces", true},
	"face.tube":     {"change.faces", true},
	"pins.flat":     {name: "change.pins"},
	"pins.round":    {name: "change.pins"},
	"pins.least":    {"change.pins", true},
	"pins.most":     {"change.pins", true},
	"begin.turns":   {name: "change.begin"},
	"begin.pull":    {"change.begin", true},
	"begin.most":    {"change.begin", true},
	"begin.least_g": {"change.scale-range", true},
	"begin.most_g":  {"change.scale-range", true},
	"pull":          {name: "change.pull-kind"},
	"work":          {name: "change.step-of-work"},
	"place.sheet":   {"change.place-pins", true},
	"place.apart":   {"change.place-pins", true},
	"place.below":   {"change.place-pins", true},
	"place.above":   {"change.place-pins", true},
	"place.left":    {"change.place-pins", true},
	"place.deep":    {"change.place-pins", true},
	"place.over":    {"change.place-pins", true},
}

// ofJobFile holds the words for values that are words of the job file.
var ofJobFile = map[Value]message.ID{
	{"roll", "standard"}: "change.standard-roll", {"roll", "reverse"}: "change.reverse-roll",
	{"opening.mount", "inside"}: "change.inside-mount", {"opening.mount", "outside"}: "change.outside-mount", {"opening.mount", "ceiling"}: "change.ceiling-mount",
}

// nameOf returns the name of a key. It returns an unknown key, which a later
// program made, as it is.
func nameOf(key string) (message.Message, bool) {
	switch n, ok := names[key]; {
	case ok:
		return message.Of(n.name), n.bare
	case strings.HasSuffix(key, "_off"):
		return message.Of("change.taken-off"), false
	case strings.HasPrefix(key, "opening."):
		return message.Of("change.added-on"), false
	}
	return message.Verbatim(key), false
}

// Message describes a change: "slat 43-1/2 → 43-3/8 in". Lengths that round to the
// same words are given exactly.
func (c Change) Message(st measure.Style) message.Message {
	name, bare := nameOf(c.Key)
	old, now := Value{c.Key, c.Old}, Value{c.Key, c.New}
	switch {
	case bare:
		return name
	case c.Old == "":
		return message.Of("change.added", name, now.words(st))
	case c.New == "":
		return message.Of("change.gone", name, old.words(st))
	}
	a, aLength := old.Length()
	b, bLength := now.Length()
	if !aLength || !bLength {
		was, is := old.words(st), now.words(st)
		if utf8.RuneCountInString(is.String()) > longestName || utf8.RuneCountInString(was.String()) > longestName {
			return message.Of("change.now", name, is)
		}
		return message.Of("change.from-to", name, was, is)
	}
	before, after := st.Format(a), st.Format(b)
	if before == after {
		before, after = st.Exact(a), st.Exact(b)
	}
	unit := after[strings.LastIndex(after, " "):] // the unit appears once
	return message.Of("change.from-to", name, strings.TrimSuffix(before, unit), after)
}

// longestName is the most characters of old words that are shown beside the new
// ones. Of longer words, such as a note, only the new ones are shown.
const longestName = 24

// decimal matches a number that a list keeps with a decimal point.
var decimal = regexp.MustCompile(`^-?[0-9]+\.[0-9]+$`)

// words returns the words for a value: the text of a finding, the name of a step.
func (v Value) words(st measure.Style) message.Message {
	if l, ok := v.Length(); ok {
		return message.Verbatim(st.Format(l))
	}
	if id, ok := ofJobFile[v]; ok {
		return message.Of(id)
	}
	if st.Comma && decimal.MatchString(v.Text) {
		return message.Verbatim(strings.Replace(v.Text, ".", ",", 1))
	}
	list := v.Messages()
	if v.Key == "caution" || len(list) == 1 {
		return list[0]
	}
	return list[1]
}

// Style returns the style in which the list was printed, to describe changes. comma
// sets the decimal mark, which depends on the language.
func (p Printed) Style(comma bool) measure.Style {
	st := measure.Usual(measure.Inches)
	for _, v := range p.Values {
		switch l, _ := v.Length(); {
		case v.Key == "rule.unit" && v.Text == measure.Millimetres.String():
			st = measure.Usual(measure.Millimetres)
		case v.Key == "rule.step" && l > 0 && st.System == measure.Millimetres:
			st.Metric = l
		case v.Key == "rule.step" && l > 0 && measure.Inch%l == 0:
			st.Denominator = int(measure.Inch / l)
		}
	}
	st.Comma = comma
	return st
}

// mostDescribed is the most changes that are described one by one.
const mostDescribed = 6

// Key prefixes that matter most to a person with the old paper, in order: where to
// cut, then where to fold. Changes that only follow from others come last. The rest
// is in the order of the page.
var (
	toldFirst = []string{"cut.width", "cut.length", "tube.trim", "slat.trim", "line.", "allow."}
	toldLast  = []string{"panel.", "tape.", "stitch.seam", "edge.length", "thread.metres"}
)

// Describe describes changes on one line, each once. Of many changes, it describes the
// first ones and counts the rest.
func Describe(changes []Change, st measure.Style) message.Message {
	rank := func(c Change) int {
		begins := func(key string) bool { return strings.HasPrefix(c.Key, key) }
		switch i := slices.IndexFunc(toldFirst, begins); {
		case i >= 0:
			return i
		case slices.ContainsFunc(toldLast, begins):
			return len(toldFirst) + 1
		}
		return len(toldFirst)
	}
	changes = slices.Clone(changes)
	slices.SortStableFunc(changes, func(a, b Change) int { return rank(a) - rank(b) })
	var list []message.Message
	said := map[string]bool{}
	for _, c := range changes {
		m := c.Message(st)
		if key := m.String(); !said[key] {
			said[key] = true
			list = append(list, m)
		}
	}
	if n := len(list) - mostDescribed; n > 1 {
		list = append(list[:mostDescribed], message.Of("change.more", n))
	}
	return message.Join(", ", list...)
}

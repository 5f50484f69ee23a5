// Package route holds the steps of the work: in which order to make a shade, at
// which bench, what to measure at a step, and what to take care of.
//
// A shop may use [Usual] or write its own route. Only [Route.Check] checks a route;
// all other code trusts that it has run. A route is data: it draws nothing and
// reads nothing.
package route

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"shadewright/ticket/message"
)

// A Reading says what to measure or count at a step.
type Reading string

// The readings. The zero value means none.
const (
	None      Reading = ""
	Diagonals Reading = "diagonals" // two lengths, corner to corner
	Width     Reading = "width"     // one length, across
	Turns     Reading = "turns"     // turns that the spring is wound
)

// Readings lists the readings that a step may ask for.
func Readings() []Reading { return []Reading{Diagonals, Width, Turns} }

// A Caution names a danger or a duty. Whoever prints it chooses the words.
type Caution string

// The cautions.
const (
	RotaryBlade   Caution = "rotary-blade"   // cuts fingers; a guard and a straightedge
	HotKnife      Caution = "hot-knife"      // burns and fumes; some goods must never meet it
	WoundSpring   Caution = "wound-spring"   // a donor's spring and its spinning end pin
	Saw           Caution = "saw"            // cutting tube and slat: chips, burrs, dust
	SetTube       Caution = "set-tube"       // a telescoping tube: never sawn, it slips and pinches
	SawnTube      Caution = "sawn-tube"      // a fixed tube: the spring is in one end
	Needle        Caution = "needle"         // a sewing machine's needle and moving parts
	Drilling      Caution = "drilling"       // wires, gas or water behind a wall or vehicle skin
	Ladder        Caution = "ladder"         // falls
	EmergencyExit Caution = "emergency-exit" // a way out must stay free
	ChildrenCords Caution = "children-cords" // cords and loops strangle
	Flammability  Caution = "flammability"   // vehicles and public buildings have rules
)

// Cautions lists all cautions.
func Cautions() []Caution {
	return []Caution{
		RotaryBlade, HotKnife, WoundSpring, Saw, SetTube, SawnTube, Needle, Drilling, Ladder,
		EmergencyExit, ChildrenCords, Flammability,
	}
}

// A Step is one stage of the work.
type Step struct {
	Key      string       `json:"key"`                // unique in its route: a–z, 0–9 and dash; kept with every mark
	Name     message.Term `json:"name"`               // what to do, as it is printed
	Bench    message.Term `json:"bench,omitzero"`     // where to do it; steps in a row at one bench form a group
	Reading  Reading      `json:"reading,omitempty"`  // the reading that it asks for
	Cautions []Caution    `json:"cautions,omitempty"` // what to take care of
}

// A Route is the steps of a shade in the order of work.
type Route []Step

// Usual returns the order that most shops can start with: common practice, no
// source. The donor is stripped first, because its old cloth shows which way it
// rolled. The cloth is squared before any line is marked on it.
func Usual() Route {
	r := make(Route, len(usual))
	for i, u := range usual {
		r[i] = Step{u.key, message.Term{ID: u.name}, message.Term{ID: u.bench}, u.reading, slices.Clone(u.cautions)}
	}
	return r
}

// usual is [Usual] with the ids of the program's own texts.
var usual = []struct {
	key         string
	name, bench message.ID
	reading     Reading
	cautions    []Caution
}{
	{"strip", "step.strip", "bench.donor", None, []Caution{WoundSpring}},
	{"cut", "step.cut", "bench.cutting", Width, []Caution{RotaryBlade}},
	{"square", "step.square", "bench.cutting", Diagonals, []Caution{RotaryBlade}},
	{"lines", "step.lines", "bench.cutting", None, nil},
	{"hem", "step.hem", "bench.sewing", None, nil},
	{"pocket", "step.pocket", "bench.sewing", None, nil},
	{"slat-fit", "step.slat-fit", "bench.sewing", None, nil},
	{"sew", "step.sew", "bench.sewing", None, []Caution{Needle}},
	{TubeStep, tubeTerm, "bench.fitting", None, []Caution{SetTube, Saw, SawnTube, WoundSpring}},
	{"attach", "step.attach", "bench.fitting", None, nil},
	{"trim-slat", "step.trim-slat", "bench.fitting", None, []Caution{Saw}},
	{SlatStep, "step.insert-slat", "bench.fitting", None, nil},
	{"seal", "step.seal", "bench.fitting", None, []Caution{HotKnife}},
	{"mount", "step.mount", "bench.site", None, []Caution{Drilling, Ladder, EmergencyExit, Flammability}},
	{"hang", "step.hang", "bench.site", None, []Caution{Ladder}},
	{"tension", "step.tension", "bench.site", Turns, []Caution{WoundSpring, ChildrenCords}},
	{"inspect", "step.inspect", "bench.site", None, nil},
}

// Cut is the key of the usual step at which the panel is cut.
const Cut = "cut"

// Outlives reports whether a usual step is about the donor roller, the slat or the
// brackets, and not about the panel: it stays done if the panel is cut again.
func Outlives(key string) bool {
	switch key {
	case "strip", "trim-tube", "trim-slat", "mount":
		return true
	}
	return false
}

// Message returns the step's name.
func (s Step) Message() message.Message { return s.Name.Message() }

// Message returns the name of the group's bench.
func (g Group) Message() message.Message { return g.Bench.Message() }

// Equal reports whether two routes are the same.
func (r Route) Equal(o Route) bool {
	return slices.EqualFunc(r, o, func(a, b Step) bool {
		return a.Key == b.Key && a.Name == b.Name && a.Bench == b.Bench && a.Reading == b.Reading && slices.Equal(a.Cautions, b.Cautions)
	})
}

// Index returns the position of a step, from 0, or -1.
func (r Route) Index(key string) int {
	return slices.IndexFunc(r, func(s Step) bool { return s.Key == key })
}

// Step returns the step with the given key.
func (r Route) Step(key string) (Step, bool) {
	if i := r.Index(key); i >= 0 {
		return r[i], true
	}
	return Step{}, false
}

// Keys returns the keys in order.
func (r Route) Keys() []string {
	keys := make([]string, len(r))
	for i, s := range r {
		keys[i] = s.Key
	}
	return keys
}

// Next returns the first step that is not done. It returns false if all are done.
func (r Route) Next(done func(key string) bool) (Step, bool) {
	for _, s := range r {
		if !done(s.Key) {
			return s, true
		}
	}
	return Step{}, false
}

// Skipped returns the steps before key that are not done. If there are none, key is
// in order or not in the route.
func (r Route) Skipped(key string, done func(key string) bool) []Step {
	var skipped []Step
	for _, s := range r[:max(r.Index(key), 0)] {
		if !done(s.Key) {
			skipped = append(skipped, s)
		}
	}
	return skipped
}

// A Group is a run of steps at one bench.
type Group struct {
	Bench message.Term
	Steps []Step
}

// Groups returns the route by benches. If the work returns to a bench, that is
// another group.
func (r Route) Groups() []Group {
	var groups []Group
	for _, s := range r {
		if n := len(groups); n > 0 && groups[n-1].Bench == s.Bench {
			groups[n-1].Steps = append(groups[n-1].Steps, s)
			continue
		}
		groups = append(groups, Group{Bench: s.Bench, Steps: []Step{s}})
	}
	return groups
}

const (
	longestKey  = 24
	longestName = 80
	mostSteps   = 60 // more do not fit on a ticket
)

// Check returns everything that is wrong with a shop's own route, in order, or nil.
// It counts steps from 1.
func (r Route) Check() error {
	if len(r) == 0 {
		return errors.New("the route has no steps; write at least one, or leave the route out to use the usual one")
	}
	var errs []error
	if len(r) > mostSteps {
		errs = append(errs, fmt.Errorf("the route has %d steps; a ticket has room for %d", len(r), mostSteps))
	}
	for i, s := range r {
		wrong := func(format string, args ...any) {
			errs = append(errs, fmt.Errorf("step %d: "+format, append([]any{i + 1}, args...)...))
		}
		if p := keyProblem(s.Key); p != "" {
			wrong("key %q %s; use letters a to z, digits and dashes, for example trim-tube", s.Key, p)
		} else if first := r.Index(s.Key); first != i {
			wrong("key %q is also the key of step %d; give each step its own key", s.Key, first+1)
		}
		if p := nameProblem(s.Name.String()); p != "" {
			wrong("name %q %s", s.Name, p)
		}
		if p := nameProblem(s.Bench.String()); p != "" && !s.Bench.IsZero() {
			wrong("bench %q %s", s.Bench, p)
		}
		if s.Reading != None && !slices.Contains(Readings(), s.Reading) {
			wrong("unknown reading %q; the readings are %s", s.Reading, list(Readings()))
		}
		for _, c := range s.Cautions {
			if !slices.Contains(Cautions(), c) {
				wrong("unknown caution %q; the cautions are %s", c, list(Cautions()))
			}
		}
	}
	return errors.Join(errs...)
}

func keyProblem(key string) string {
	switch {
	case key == "":
		return "is empty"
	case len(key) > longestKey:
		return fmt.Sprintf("is longer than %d characters", longestKey)
	case key[0] == '-' || key[len(key)-1] == '-':
		return "starts or ends with a dash"
	}
	for _, c := range key {
		if (c < 'a' || c > 'z') && (c < '0' || c > '9') && c != '-' {
			return fmt.Sprintf("has %q", c)
		}
	}
	return ""
}

func nameProblem(name string) string {
	switch {
	case strings.TrimSpace(name) == "":
		return "is empty; write what to do"
	case !utf8.ValidString(name):
		return "is not UTF-8 text; write it again"
	case utf8.RuneCountInString(name) > longestName:
		return fmt.Sprintf("is longer than %d characters; shorten it to fit the ticket", longestName)
	case strings.ContainsFunc(name, func(r rune) bool { return r < ' ' || r == 0x7f }):
		return "has a control character; write it on one line"
	}
	return ""
}

func list[T ~string](of []T) string {
	words := make([]string, len(of))
	for i, w := range of {
		words[i] = string(w)
	}
	return strings.Join(words, ", ")
}

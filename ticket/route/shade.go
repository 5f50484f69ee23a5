package route

import (
	"slices"

	"shadewright/ticket/message"
)

// The keys of the steps that a shade changes: see [Route.For].
const (
	TubeStep  = "trim-tube"
	PullStep  = "pull"
	SlatStep  = "insert-slat" // a pull is fitted after it
	tubeTerm  = "step.tube"
	tubeTerm1 = "step.trim-tube" // of records and settings from before tubes were told apart
)

// A Tube says how a tube is brought to its length.
type Tube uint8

// The kinds of tubes.
const (
	AnyTube         Tube = iota // it is not known whether it telescopes
	TelescopingTube             // it is set
	FixedTube                   // it is sawn
)

// String returns "any", "telescoping" or "fixed".
func (t Tube) String() string { return [...]string{"any", "telescoping", "fixed"}[t] }

// A Shade is what a route depends on.
type Shade struct {
	Tube Tube
	Pull bool // a pull or a handle is fitted
}

// For returns the route of one shade: its tube is set or sawn, and a pull is fitted after
// the slat. The keys of steps stay the same, so that marks and codes of any age hold. A
// step that the shop named in its own words keeps them.
func (r Route) For(s Shade) Route {
	out := slices.Clone(r)
	if i := out.Index(TubeStep); i >= 0 && s.Tube != AnyTube {
		st := &out[i]
		name, other := message.ID("step.set-tube"), []Caution{Saw, SawnTube}
		if s.Tube == FixedTube {
			name, other = "step.saw-tube", []Caution{SetTube}
		}
		if st.Name.ID == tubeTerm || st.Name.ID == tubeTerm1 {
			st.Name = message.Term{ID: name}
		}
		st.Cautions = slices.DeleteFunc(slices.Clone(st.Cautions), func(c Caution) bool { return slices.Contains(other, c) })
	}
	if i := out.Index(SlatStep); s.Pull && out.Index(PullStep) < 0 {
		pull := Step{Key: PullStep, Name: message.Term{ID: "step.pull"}, Bench: message.Term{ID: "bench.fitting"}}
		at := len(out)
		if i >= 0 {
			at, pull.Bench = i+1, out[i].Bench
		}
		out = slices.Insert(out, at, pull)
	}
	return out
}

package hang

import (
	"slices"

	"shadewright/ticket/message"
)

// A Behind is what a bracket is screwed into.
type Behind uint8

// The kinds of wall.
const (
	Wood Behind = iota
	Drywall
	AluminiumSkin
	SteelSkin
)

// String returns the word a job file uses.
func (b Behind) String() string {
	return [...]string{"wood", "drywall", "aluminium skin", "steel skin"}[b]
}

// Message returns the same for a person, as it stands after "in".
func (b Behind) Message() message.Message {
	return message.Of([...]message.English{"wood", "drywall", "aluminium skin", "steel skin"}[b])
}

// An Advice is what holds a bracket, and what to mind. It is common practice;
// no source was found that sets it for shades.
type Advice struct {
	Behind   Behind
	Fastener message.English
	Hole     message.English
	Cautions []message.English
}

const (
	lookBehind message.English = "find out what runs behind before drilling: wires, pipes, gas lines, tanks"
	trades     message.English = "electrical, gas and structural work belongs to the licensed trades"
	exits      message.English = "never cover or fasten across an emergency exit: a shade over one must lift away without tools and leave its handles and its label in sight"
	onlySkin   message.English = "the skin may be the only thing between the screw and the outside: set a stop on the drill, and seal the hole"
)

var advice = []Advice{
	{Wood, "wood screws that reach at least 1 in (25 mm) into solid wood", "drill a pilot hole as thick as the screw's core",
		[]message.English{"keep screws away from the edge of a jamb, where wood splits", lookBehind, trades}},
	{Drywall, "screws into a stud where there is one; else anchors made for hollow walls, one for each screw", "as the anchor's maker says",
		[]message.English{"a spring shade is jerked: plain screws in drywall work loose", lookBehind, trades}},
	{AluminiumSkin, "self-drilling screws of stainless steel, or rivet nuts", "none for self-drilling screws; drive them slowly, thin skin strips",
		[]message.English{"steel against aluminium corrodes where it is wet: stainless screws, and a washer or sealant between", onlySkin, lookBehind, exits, trades}},
	{SteelSkin, "self-drilling screws", "none for self-drilling screws; touch up the bare edge so that it does not rust",
		[]message.English{onlySkin, lookBehind, exits, trades}},
}

// Fasteners returns the advice for each thing a bracket is screwed into.
func Fasteners() []Advice {
	all := make([]Advice, len(advice))
	for i, a := range advice {
		a.Cautions = slices.Clone(a.Cautions)
		all[i] = a
	}
	return all
}

// Fasten returns the advice for b; ok is false if there is none.
func Fasten(b Behind) (a Advice, ok bool) {
	for _, a := range Fasteners() {
		if a.Behind == b {
			return a, true
		}
	}
	return Advice{}, false
}

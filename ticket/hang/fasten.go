package hang

import (
	"slices"

	"shadewright/ticket/message"
)

// A Behind is the material that a bracket is screwed into.
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

// Message returns the word for a person, as it stands after "in".
func (b Behind) Message() message.Message {
	return message.Of([...]message.ID{"hang.wood", "hang.drywall", "hang.aluminium-skin", "hang.steel-skin"}[b])
}

// An Advice says what holds a bracket, and what to take care of. It is common
// practice; no source was found that sets it for shades.
type Advice struct {
	Behind   Behind
	Fastener message.ID
	Hole     message.ID
	Cautions []message.ID
}

const (
	lookBehind message.ID = "hang.look-behind"
	trades     message.ID = "hang.licensed-trades"
	exits      message.ID = "hang.exits"
	onlySkin   message.ID = "hang.only-skin"
)

var advice = []Advice{
	{Wood, "hang.wood-screws", "hang.pilot-hole",
		[]message.ID{"hang.jamb-edge", lookBehind, trades}},
	{Drywall, "hang.stud-or-anchor", "hang.anchor-hole",
		[]message.ID{"hang.drywall-screws", lookBehind, trades}},
	{AluminiumSkin, "hang.stainless-screws", "hang.no-hole-aluminium",
		[]message.ID{"hang.corrosion", onlySkin, lookBehind, exits, trades}},
	{SteelSkin, "hang.self-drilling-screws", "hang.no-hole-steel",
		[]message.ID{onlySkin, lookBehind, exits, trades}},
}

// Fasteners returns the advice for each material behind a bracket.
func Fasteners() []Advice {
	all := make([]Advice, len(advice))
	for i, a := range advice {
		a.Cautions = slices.Clone(a.Cautions)
		all[i] = a
	}
	return all
}

// Fasten returns the advice for b. ok is false if there is none.
func Fasten(b Behind) (a Advice, ok bool) {
	for _, a := range Fasteners() {
		if a.Behind == b {
			return a, true
		}
	}
	return Advice{}, false
}

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
	return message.Of([...]message.ID{"hang.wood", "hang.drywall", "hang.aluminium-skin", "hang.steel-skin"}[b])
}

// An Advice is what holds a bracket, and what to mind. It is common practice;
// no source was found that sets it for shades.
type Advice struct {
	Behind   Behind
	Fastener message.ID
	Hole     message.ID
	Cautions []message.ID
}

const (
	lookBehind message.ID = "hang.find-out-what-runs-behind"
	trades     message.ID = "hang.electrical-gas-structural-work-belongs"
	exits      message.ID = "hang.never-cover-fasten-across-emergency"
	onlySkin   message.ID = "hang.skin-may-only-thing-between"
)

var advice = []Advice{
	{Wood, "hang.wood-screws-reach-least-1", "hang.drill-pilot-hole-thick-screws",
		[]message.ID{"hang.keep-screws-away-from-edge", lookBehind, trades}},
	{Drywall, "hang.screws-into-stud-where-there", "hang.anchors-maker-says",
		[]message.ID{"hang.spring-shade-jerked-plain-screws", lookBehind, trades}},
	{AluminiumSkin, "hang.self-drilling-screws-stainless-steel", "hang.none-self-drilling-screws-drive",
		[]message.ID{"hang.steel-against-aluminium-corrodes-where", onlySkin, lookBehind, exits, trades}},
	{SteelSkin, "hang.self-drilling-screws", "hang.none-self-drilling-screws-touch",
		[]message.ID{onlySkin, lookBehind, exits, trades}},
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

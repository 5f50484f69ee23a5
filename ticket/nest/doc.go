// Package nest lays rectangles on a roll of goods so that the least length is
// used, and says in which order to cut them. Every cut is straight and runs
// from edge to edge of the part being cut, as a rotary cutter along a
// straightedge makes it.
//
// x runs across the roll from the left edge of the usable width, y along it
// from the cut end. Every length is a [measure.Length]: sizes of a plan add up
// to the nanometre. Floating point is used to choose between plans and never
// for a size.
//
// [Make] alone judges an [Order]; everything else trusts that it has. A [Plan]
// states the shortest length that its author could not rule out ([Plan.Bound])
// and whether it is proven to be shortest.
//
// The same order and effort give the same plan on any machine: work is counted
// in steps of the search, never in seconds. Only an ended context cuts a search
// short, and the plan then says so.
package nest

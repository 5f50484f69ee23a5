// Package nest lays rectangles on a roll of goods so that they use the least
// length, and says in which order to cut them. Every cut is straight and runs from
// edge to edge of the part being cut, as a rotary cutter runs along a straightedge.
//
// x runs across the roll from the left edge of the usable width, and y along it
// from the cut end. Every length is a [measure.Length], so the sizes of a plan add
// up to the nanometre. Floating point only chooses between plans; it never makes a
// size.
//
// [Make] alone checks an [Order]; all other code trusts that it did. A [Plan]
// states a length that no plan can go below ([Plan.Bound]), and whether its own
// length is proven to be the shortest.
//
// The same order and effort give the same plan on any machine: the search counts
// steps, never seconds. Only a context that ends cuts a search short, and the plan
// then says so.
package nest

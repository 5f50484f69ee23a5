// Package mounting draws the mounting sheets: drilling templates at full scale
// for the brackets at both ends of a roller. Each end is laid on its jamb, wall
// or ceiling by the edges that are drawn on it, and its holes are pricked
// through the paper.
//
// Every place comes from a [hang.Drilling]; this package decides only where on
// the paper it lies and what is said about it. All that is drawn is placed from
// the origin of its view, on the axle, and never from a neighbour, so the two
// ends of a wide shade are as far apart as the arithmetic says, whatever paper
// they are on.
package mounting

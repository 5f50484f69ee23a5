// Package mounting draws the mounting sheets: full-scale drilling templates for
// the brackets at both ends of a roller. The fitter lays each end on its jamb,
// wall or ceiling by the edges drawn on it, and pricks the holes through the
// paper.
//
// Every place comes from a [hang.Drilling]; this package decides only where it
// lies on the paper and what the text says. It places everything from the
// origin of its view, on the axle, never from a neighbour. So the two ends of a
// wide shade are as far apart as the arithmetic says, on any paper.
package mounting

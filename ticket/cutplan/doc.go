// Package cutplan lays the panels of a job on their goods. A plan says from which
// section of the roll each panel is cut, every cut in order with the parts that
// result, and which leftovers are worth keeping.
//
// Places are measured as at the cutting table, where you stand at the cut end of
// the roll, face up: x from the roll's own left edge, selvage included, and y from
// the cut end. A panel that is not turned has its top towards the roll; a turned
// panel has its top towards the left edge (common practice, no source). Every
// length is a [measure.Length], and the sizes of a plan add up to the nanometre.
//
// Package nest lays the rectangles, and package ticket has checked each panel. This
// package judges what no single ticket shows, such as panels that must turn alike
// but cannot.
package cutplan

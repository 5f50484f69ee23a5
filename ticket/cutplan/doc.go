// Package cutplan lays the panels of a job on their goods: which section of the
// roll each is cut from, every cut in the order it is made with the parts that
// come of it, and what is left that is worth keeping.
//
// Places are counted as at the cutting table, where one stands at the cut end of
// the roll, face up: x from the roll's own left edge, selvage included, y from
// the cut end. A panel that is not turned has its top towards the roll, a turned
// one towards the left edge (common practice, no source). Every length is a
// [measure.Length], and the sizes of a plan add up to the nanometre.
//
// Package nest does the laying; package ticket has judged each panel. What no
// single ticket shows, such as panels to be turned alike that cannot be, is
// judged here.
package cutplan

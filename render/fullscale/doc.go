// Package fullscale draws the parts that every sheet needs to prove that it
// printed true to scale: the heading that asks for 100 %, the check square,
// check rulers on both axes, and the line that names a printer's correction. It
// also draws the marks for joining the pieces of a drawing larger than the
// paper. A [Window] maps a drawing's own coordinates to the paper, exactly.
//
// Lengths are exact. The caller draws the content of the window; this package
// decides none of its dimensions.
package fullscale

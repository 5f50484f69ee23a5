// Package fullscale draws what a sheet carries that must come out of the printer
// true to scale: the heading that asks for 100 %, the check square, check rulers
// on both axes, the words of a printer's correction, and the marks by which
// pieces of a drawing larger than the paper are joined. A [Window] maps a
// drawing's own coordinates to the paper, exactly.
//
// Lengths are exact. What is drawn in the window is the caller's; this package
// decides no dimension of it.
package fullscale

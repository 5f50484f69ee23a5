// Package preview turns the pages of a document into pictures to look at: PNG in
// shades of grey, and SVG. A preview is drawn from the content that went into the
// PDF ([page.Document.Replay]), so it shows what will be printed and nothing else;
// no renderer knows of it, and a page is in memory only while it is being made.
//
// It is no template: a picture is to be seen on a screen, and nothing is cut from
// it. What a cutter takes is made by package vector.
//
// Geometry is in exact lengths up to the picture's own grid, and what a dot is
// covered by is counted in whole numbers, so that a page has the same dots on
// every machine. The few square roots are of IEEE 754 doubles, and no product is
// left to be fused with a sum (the Go specification, Floating-point operators).
package preview

// Package preview turns the pages of a document into pictures for the screen:
// PNG in shades of grey, and SVG. It draws a preview from the content written
// to the PDF ([page.Document.Replay]), so a preview shows exactly what prints.
// The packages that draw pages need no code for previews, and only the page
// being drawn is in memory.
//
// Do not cut from a preview. Package vector makes the files for cutting
// machines.
//
// Geometry uses exact lengths up to the picture's own grid, and a dot's
// coverage is counted in whole numbers, so a page has the same dots on every
// machine. The few square roots use IEEE 754 doubles, and every product is
// converted explicitly so that no compiler fuses it with a sum (the Go
// specification, Floating-point operators).
package preview

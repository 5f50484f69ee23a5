// Package page is the drawing surface of everything that is printed: pages of
// an exact size, strokes, fills and text, and the PDF they end up in. It alone
// knows the PDF library.
//
// Every coordinate is a [measure.Length] from the page's top left corner, x to
// the right and y down; angles are in degrees, counter-clockwise as the reader
// sees them. A length becomes points once, on the last line before the library
// is called, rounded to 0.01 pt (0.0035 mm) from the page's corner, so rounding
// never adds up.
//
// Drawing never fails in the middle of a page: what went wrong is kept and
// returned by [Document.WriteTo]. A rune without a glyph is drawn as a box with
// its code point in it and is listed by [Document.Missing].
package page

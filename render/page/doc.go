// Package page is the drawing surface for everything printed: pages of an exact
// size, strokes, fills and text, and the PDF that holds them. No other package
// uses the PDF library.
//
// Every coordinate is a [measure.Length] from the page's top left corner, with
// x to the right and y down. Angles are in degrees, counter-clockwise as the
// reader sees them. Each coordinate is converted to PDF units once, when it is
// written, and rounded to 1/72,000 in (0.35 µm) from the page's corner, so
// rounding errors never add up.
//
// [Page.Text] sets fractions, kerns, and measures with the fonts' own tables.
// [Wrap] and [Fit] make text fit a width. A [Recorder] writes a drawing as text
// for tests. Callers draw through a small interface of their own, which both
// [Page] and Recorder satisfy.
//
// [Document.Replay] draws a finished page again on another [Surface]. It reads
// the content written to the PDF, so it costs nothing until it is called.
//
// Drawing methods return no error: the document keeps the first one and
// [Document.WriteTo] returns it. A rune without a glyph is drawn as a box
// around its code point, and [Document.Missing] lists it.
package page

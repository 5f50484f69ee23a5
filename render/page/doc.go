// Package page is the drawing surface of everything that is printed: pages of
// an exact size, strokes, fills and text, and the PDF they end up in. It alone
// knows the PDF library.
//
// Every coordinate is a [measure.Length] from the page's top left corner, x to
// the right and y down; angles are in degrees, counter-clockwise as the reader
// sees them. A length becomes a PDF coordinate once, where it is written, rounded
// to 1/72,000 in (0.35 µm) from the page's corner, so rounding never adds up.
//
// [Page.Text] sets fractions, kerns, and measures by the fonts' own tables; [Wrap] and
// [Fit] make text fit. A [Recorder] writes a drawing down for tests. Callers draw
// through a small interface of their own, which a [Page] and a Recorder satisfy.
//
// A finished page can be drawn again on another [Surface]: [Document.Replay] reads
// what goes into the PDF, so it costs nothing until it is asked for.
//
// Drawing never fails in the middle of a page: what went wrong is kept and
// returned by [Document.WriteTo]. A rune without a glyph is drawn as a box with
// its code point in it and is listed by [Document.Missing].
package page

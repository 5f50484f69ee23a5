package page

import (
	"bytes"
	"compress/zlib"
	"errors"
	"fmt"
	"io"
	"slices"
	"sync"

	"github.com/signintech/gopdf"

	"shadewright/fonts"
	"shadewright/ticket/measure"
)

// Info is the document information, and the printer correction to apply.
type Info struct {
	Title   string
	Subject string
	Author  string
	Creator string // the program
	Lang    string // of the text, for example "en"; empty to leave it out

	// Correction is applied about the middle of each page, for sheets that must
	// print true to scale.
	Correction Correction
}

// A Document is a PDF being drawn. It is not safe for concurrent use.
//
// The library writes the document's frame: the page tree, the faces and their
// subsets. This package keeps the drawing, compresses each page once it is
// full, and replaces the library's empty page with it at the end. The library
// cannot do this itself: it rounds to 0.01 pt and holds 60 KB of marks in
// memory for each page until it writes.
type Document struct {
	info    Info
	pdf     gopdf.GoPdf
	pages   int
	content content
	runs    []run // reused for every line of text
	done    []body
	zip     *zlib.Writer
	used    [fonts.Count]map[rune]bool // runes whose glyphs the library embeds
	missing map[rune]bool
	written bool
	err     error
}

// A body is one page: its size, its content once finished, and the number of
// the object that the content replaces.
type body struct {
	size   measure.Size
	object int
	stream []byte
}

// A page side may be 3 to 14,400 units (200 in): Adobe PDF Reference 1.7,
// Appendix C.
const (
	smallestPage = 3 * measure.Inch / 72
	largestPage  = 200 * measure.Inch
)

// parsed holds the faces as the library reads them, parsed once for all
// documents.
var parsed = sync.OnceValue(func() *gopdf.FontContainer {
	c := new(gopdf.FontContainer)
	for _, w := range fonts.Weights() {
		if err := c.AddTTFFontData(w.String(), w.Data()); err != nil {
			panic("page: embedded face: " + err.Error())
		}
	}
	return c
})

// effort is the zlib level for page content: higher levels take half as long
// again and save 1 %.
const effort = 3

// New returns an empty document.
func New(info Info) *Document {
	d := &Document{info: info, missing: map[rune]bool{}}
	// This size is never used: each page sets its own.
	d.pdf.Start(gopdf.Config{Unit: gopdf.UnitPT, PageSize: gopdf.Rect{W: 612, H: 792}})
	d.pdf.SetNoCompression() // the library's own pages are empty
	var err error
	d.zip, err = zlib.NewWriterLevel(io.Discard, effort)
	d.keep(err)
	// Add faces before pages: the library searches its objects from the first.
	for _, w := range fonts.Weights() {
		d.keep(d.pdf.AddTTFFontFromFontContainer(w.String(), parsed()))
		d.used[w] = map[rune]bool{}
		d.embed(" ", w) // for a face without glyphs the library writes a broken character map
	}
	return d
}

// keep remembers the first error.
func (d *Document) keep(err error) {
	if d.err == nil && err != nil {
		d.err = fmt.Errorf("page %d: %w", d.pages, err)
	}
}

// Add begins a new page and finishes the one before it, which then accepts no
// more marks. Size.Length is the page's height.
func (d *Document) Add(size measure.Size) *Page {
	d.finishPage()
	d.pages++
	if min(size.Width, size.Length) < smallestPage || max(size.Width, size.Length) > largestPage {
		d.keep(fmt.Errorf("paper of %v × %v cannot be a page; the sides must be from %v to %v",
			size.Width, size.Length, smallestPage, largestPage))
		size = measure.Size{Width: 8 * measure.Inch, Length: 8 * measure.Inch}
	}
	w, h := boxMils(size.Width), boxMils(size.Length)
	d.pdf.AddPageWithOption(gopdf.PageOption{PageSize: &gopdf.Rect{W: float64(w) / 1000, H: float64(h) / 1000}})
	d.done = append(d.done, body{size: size, object: d.pdf.GetNextObjectID()})
	d.pdf.SetGrayFill(0) // makes the library write the empty content that tail replaces
	return &Page{doc: d, number: d.pages, size: size, height: h}
}

// boxMils returns a page side as the library writes it, to 0.01 pt.
func boxMils(l measure.Length) mil { return (mils(l) + 5) / 10 * 10 }

// finishPage compresses the content of the last page.
func (d *Document) finishPage() {
	if d.pages == 0 {
		return
	}
	d.content.finish()
	var b bytes.Buffer
	d.zip.Reset(&b)
	_, err := d.zip.Write(d.content.b)
	d.keep(err)
	d.keep(d.zip.Close())
	d.done[len(d.done)-1].stream = bytes.Clone(b.Bytes())
	d.content.reset()
}

// embed makes the library embed the glyphs for text.
func (d *Document) embed(text string, w fonts.Weight) {
	used := d.used[w]
	for _, r := range text {
		if used[r] {
			continue
		}
		used[r] = true
		d.keep(d.pdf.SetFont(w.String(), "", 10))
		_, err := d.pdf.MeasureTextWidth(string(r)) // the only call that registers a glyph without drawing it
		d.keep(err)
	}
}

// Pages returns how many pages have been added.
func (d *Document) Pages() int { return d.pages }

// Info returns the document information.
func (d *Document) Info() Info { return d.info }

// Sizes returns the sizes of the pages that have been added.
func (d *Document) Sizes() []measure.Size {
	sizes := make([]measure.Size, len(d.done))
	for i, b := range d.done {
		sizes[i] = b.size
	}
	return sizes
}

// Missing returns, in order, the runes that no face has a glyph for.
func (d *Document) Missing() []rune {
	var rs []rune
	for r := range d.missing {
		rs = append(rs, r)
	}
	slices.Sort(rs)
	return rs
}

// WriteTo writes the document and returns the first error from drawing or from
// w. Call it only once.
func (d *Document) WriteTo(w io.Writer) (int64, error) {
	switch {
	case d.err != nil:
		return 0, d.err
	case d.written:
		return 0, errors.New("the document was already written; write it once")
	case d.pages == 0:
		return 0, errors.New("the document has no page")
	}
	d.written = true
	d.finishPage()
	t := newTail(w)
	if _, err := d.pdf.WriteTo(t); err != nil {
		t.keep(err)
	}
	t.finish(d.info, d.done)
	return t.n, t.err
}

// Bytes returns the document. Like WriteTo, it may be called only once.
func (d *Document) Bytes() ([]byte, error) {
	var b bytes.Buffer
	if _, err := d.WriteTo(&b); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

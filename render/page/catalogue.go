package page

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"hash"
	"io"
	"strings"
	"unicode/utf16"
)

// A tail copies a document to its writer and appends an incremental update (ISO
// 32000-1, 7.5.6). The update replaces the library's empty pages with their
// content, adds a catalogue that asks for printing without scaling, and adds
// the document information. The library drops write errors; the tail keeps the
// first one.
type tail struct {
	w    io.Writer
	n    int64
	err  error
	hash hash.Hash
	last []byte // the last bytes written, which hold the trailer
}

// trailerRoom is enough bytes for the library's trailer and the lines around
// it.
const trailerRoom = 512

func newTail(w io.Writer) *tail { return &tail{w: w, hash: sha256.New()} }

func (t *tail) keep(err error) {
	if t.err == nil {
		t.err = err
	}
}

func (t *tail) Write(b []byte) (int, error) {
	if t.err != nil {
		return 0, t.err
	}
	n, err := t.w.Write(b)
	if err == nil && n < len(b) {
		err = io.ErrShortWrite
	}
	t.n += int64(n)
	t.keep(err)
	t.hash.Write(b[:n]) // a hash.Hash never returns an error
	t.last = append(t.last, b[:n]...)
	if len(t.last) > 8*trailerRoom {
		t.last = append(t.last[:0], t.last[len(t.last)-trailerRoom:]...)
	}
	return n, err
}

var errTrailer = errors.New("the PDF library wrote a trailer in an unknown form; this is a fault of the program")

// trailer reads the library's trailer. It returns the number of objects and the
// offset of the cross-reference table.
func (t *tail) trailer() (size int, xref int64, err error) {
	i := bytes.LastIndex(t.last, []byte("trailer"))
	if i < 0 {
		return 0, 0, errTrailer
	}
	var root int
	_, err = fmt.Sscanf(string(t.last[i:]), "trailer\n<<\n/Size %d\n/Root %d 0 R\n>>\nstartxref\n%d\n", &size, &root, &xref)
	if err != nil || root != catalogueID {
		return 0, 0, errTrailer
	}
	return size, xref, nil
}

// catalogueID is the object number of the library's catalogue, which the update
// replaces.
const catalogueID = 1

// finish appends the update.
func (t *tail) finish(info Info, pages []body) {
	if t.err != nil {
		return
	}
	size, prev, err := t.trailer()
	if err != nil {
		t.keep(err)
		return
	}
	var xref bytes.Buffer
	xref.WriteString("xref\n")
	object := func(id int, parts ...[]byte) {
		fmt.Fprintf(&xref, "%d 1\n%010d 00000 n \n", id, t.n)
		fmt.Fprintf(t, "%d 0 obj\n", id)
		for _, p := range parts {
			t.put(p)
		}
		t.put([]byte("\nendobj\n"))
	}
	object(catalogueID, catalogue(info))
	for _, p := range pages {
		object(p.object, fmt.Appendf(nil, "<</Filter/FlateDecode/Length %d>>\nstream\n", len(p.stream)), p.stream, []byte("\nendstream"))
	}
	object(size, dictionary(info))
	id := t.hash.Sum(nil)[:16] // equal documents get equal identifiers
	start := t.n
	t.put(xref.Bytes())
	fmt.Fprintf(t, "trailer\n<</Size %d/Root %d 0 R/Info %d 0 R/Prev %d/ID[<%x><%x>]>>\nstartxref\n%d\n%%%%EOF\n",
		size+1, catalogueID, size, prev, id, id, start)
}

// put writes b and keeps any error.
func (t *tail) put(b []byte) {
	if _, err := t.Write(b); err != nil {
		t.keep(err)
	}
}

// catalogue returns the document catalogue.
func catalogue(info Info) []byte {
	// DisplayDocTitle makes the viewer show the title instead of the file name.
	b := []byte("<</Type/Catalog/Pages 2 0 R/ViewerPreferences<</PrintScaling/None/DisplayDocTitle true>>")
	if info.Lang != "" {
		b = append(b, "/Lang"+pdfText(info.Lang)...)
	}
	return append(b, ">>"...)
}

// dictionary returns the document information dictionary.
func dictionary(info Info) []byte {
	b := []byte("<<")
	for _, f := range []struct{ key, value string }{
		{"Title", info.Title}, {"Subject", info.Subject}, {"Author", info.Author}, {"Creator", info.Creator},
	} {
		if f.value != "" {
			b = append(b, "/"+f.key+pdfText(f.value)...)
		}
	}
	return append(b, ">>"...)
}

// pdfText returns s as a PDF text string: plain ASCII unchanged, anything else
// as UTF-16 in hexadecimal (ISO 32000-1, 7.9.2.2).
func pdfText(s string) string {
	special := func(r rune) bool { return r < ' ' || r > '~' || strings.ContainsRune(`()\`, r) }
	if !strings.ContainsFunc(s, special) {
		return "(" + s + ")"
	}
	b := []byte("<FEFF")
	for _, u := range utf16.Encode([]rune(s)) {
		b = fmt.Appendf(b, "%04X", u)
	}
	return string(append(b, '>'))
}

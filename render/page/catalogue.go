package page

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"hash"
	"io"
	"strconv"
	"unicode/utf16"
)

// A tail passes a document through to its writer and appends an incremental
// update (ISO 32000-1, 7.5.6): a catalogue that asks for printing without
// scaling, and the document's information, neither of which the library can
// write. The library drops write errors; the tail keeps the first.
type tail struct {
	w    io.Writer
	n    int64
	err  error
	hash hash.Hash
	last []byte // the end of what was written, where the trailer is
}

// trailerRoom holds the library's trailer and the lines around it.
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
	t.hash.Write(b[:n]) // never fails, says package hash
	t.last = append(t.last, b[:n]...)
	if len(t.last) > 8*trailerRoom {
		t.last = append(t.last[:0], t.last[len(t.last)-trailerRoom:]...)
	}
	return n, err
}

var errTrailer = errors.New("the PDF library wrote an unknown trailer")

// trailer returns what the library's trailer says: the number of objects and
// where its cross-reference table begins.
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

// catalogueID is the number of the library's catalogue, which is replaced.
const catalogueID = 1

// finish appends the update.
func (t *tail) finish(info Info) {
	if t.err != nil {
		return
	}
	size, prev, err := t.trailer()
	if err != nil {
		t.keep(err)
		return
	}
	var b bytes.Buffer
	start := t.n
	at := func() int64 { return start + int64(b.Len()) }

	catalogue := at()
	// DisplayDocTitle shows the title, not the file's name.
	fmt.Fprintf(&b, "%d 0 obj\n<</Type/Catalog/Pages 2 0 R", catalogueID)
	b.WriteString("/ViewerPreferences<</PrintScaling/None/DisplayDocTitle true>>")
	if info.Lang != "" {
		b.WriteString("/Lang" + pdfText(info.Lang))
	}
	b.WriteString(">>\nendobj\n")

	infoID, infoAt := size, at()
	fmt.Fprintf(&b, "%d 0 obj\n<<", infoID)
	for _, f := range []struct{ key, value string }{
		{"Title", info.Title}, {"Subject", info.Subject}, {"Author", info.Author}, {"Creator", info.Creator},
	} {
		if f.value != "" {
			b.WriteString("/" + f.key + pdfText(f.value))
		}
	}
	b.WriteString(">>\nendobj\n")

	t.hash.Write(b.Bytes())
	id := t.hash.Sum(nil)[:16] // equal documents have equal names
	xref := at()
	fmt.Fprintf(&b, "xref\n%d 1\n%010d 00000 n \n%d 1\n%010d 00000 n \n", catalogueID, catalogue, infoID, infoAt)
	fmt.Fprintf(&b, "trailer\n<</Size %d/Root %d 0 R/Info %d 0 R/Prev %d/ID[<%x><%x>]>>\nstartxref\n%s\n%%%%EOF\n",
		size+1, catalogueID, infoID, prev, id, id, strconv.FormatInt(xref, 10))
	if _, err := t.Write(b.Bytes()); err != nil {
		t.keep(err)
	}
}

// pdfText returns s as a PDF text string, UTF-16 in hexadecimal.
func pdfText(s string) string {
	b := []byte("<FEFF")
	for _, u := range utf16.Encode([]rune(s)) {
		b = fmt.Appendf(b, "%04X", u)
	}
	return string(append(b, '>'))
}

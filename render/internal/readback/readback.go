// Package readback reads a PDF with programs that did not write it, so that
// tests can check where a line really is and whether a code scans: PDFium, run
// as WebAssembly, and the decoders of gozxing. Only tests import it.
//
// Results are in millimetres from the page's top left corner, y down, as
// floating point. Pages count from 0. A function that cannot do its work fails
// the test it was given.
package readback

import (
	"context"
	"image"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/klippa-app/go-pdfium"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
	"github.com/klippa-app/go-pdfium/webassembly"
	"github.com/tetratelabs/wazero"
	"github.com/tetratelabs/wazero/api"
	"github.com/tetratelabs/wazero/experimental"
)

// start starts PDFium once for the whole test binary. Compiling it takes three
// seconds, so start caches the machine code for the next test binary, which
// then starts in a twentieth of a second. PDFium handles one call at a time.
var start = sync.OnceValues(func() (pdfium.Pdfium, error) {
	dir, err := os.UserCacheDir()
	if err != nil {
		dir = os.TempDir() // no home folder, as in a minimal container
	}
	cache, err := wazero.NewCompilationCacheWithDir(filepath.Join(dir, "shadewright-readback"))
	if err != nil {
		return nil, err
	}
	pool, err := webassembly.Init(webassembly.Config{
		Context:  context.Background(),
		MaxTotal: 1,
		FSConfig: wazero.NewFSConfig(), // PDFium sees no files
		// PDFium's module needs exception handling; all other features are
		// wazero's default.
		RuntimeConfig: wazero.NewRuntimeConfig().WithCompilationCache(cache).
			WithCoreFeatures(api.CoreFeaturesV2 | experimental.CoreFeaturesExceptionHandling),
	})
	if err != nil {
		return nil, err
	}
	return pool.GetInstance(time.Minute)
})

// A Document is an open PDF.
type Document struct {
	t   testing.TB
	lib pdfium.Pdfium
	ref references.FPDF_DOCUMENT
}

// A drawing is a document before it becomes a PDF.
type drawing interface {
	Missing() []rune
	Bytes() ([]byte, error)
}

// Bytes returns the PDF of a drawn document. It takes the error of drawing it,
// so that a call can be passed on whole. A rune without a glyph fails the test.
func Bytes(t testing.TB, d drawing, err error) []byte {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	if m := d.Missing(); len(m) > 0 {
		t.Errorf("no glyph for %q", m)
	}
	b, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// Open opens a PDF. It closes at the end of the test.
func Open(t testing.TB, pdf []byte) *Document {
	t.Helper()
	lib, err := start()
	if err != nil {
		t.Fatalf("start PDFium: %v", err)
	}
	d := &Document{t: t, lib: lib}
	doc, err := lib.OpenDocument(&requests.OpenDocument{File: &pdf})
	d.must(err)
	d.ref = doc.Document
	t.Cleanup(func() {
		_, err := lib.FPDF_CloseDocument(&requests.FPDF_CloseDocument{Document: d.ref})
		if err != nil {
			t.Errorf("close document: %v", err)
		}
	})
	return d
}

func (d *Document) must(err error) {
	d.t.Helper()
	if err != nil {
		d.t.Fatalf("PDFium: %v", err)
	}
}

func (d *Document) page(i int) requests.Page {
	return requests.Page{ByIndex: &requests.PageByIndex{Document: d.ref, Index: i}}
}

// Pages returns the number of pages.
func (d *Document) Pages() int {
	d.t.Helper()
	r, err := d.lib.FPDF_GetPageCount(&requests.FPDF_GetPageCount{Document: d.ref})
	d.must(err)
	return r.PageCount
}

// mm converts PDF units of 1/72 in.
func mm(points float64) float64 { return points * 25.4 / 72 }

// Size returns the size of a page.
func (d *Document) Size(page int) (width, height float64) {
	d.t.Helper()
	r, err := d.lib.FPDF_GetPageSizeByIndex(&requests.FPDF_GetPageSizeByIndex{Document: d.ref, Index: page})
	d.must(err)
	return mm(r.Width), mm(r.Height)
}

// AsksForScale reports whether the document lets the viewer scale it; false
// means that it asks to be printed at its own size.
func (d *Document) AsksForScale() bool {
	d.t.Helper()
	r, err := d.lib.FPDF_VIEWERREF_GetPrintScaling(&requests.FPDF_VIEWERREF_GetPrintScaling{Document: d.ref})
	d.must(err)
	return r.PreferPrintScaling
}

// Title returns the document's title.
func (d *Document) Title() string {
	d.t.Helper()
	r, err := d.lib.FPDF_GetMetaText(&requests.FPDF_GetMetaText{Document: d.ref, Tag: "Title"})
	d.must(err)
	return r.Value
}

// Render returns the page in shades of grey, as a scanner would see it.
func (d *Document) Render(page, dpi int) *image.Gray {
	d.t.Helper()
	r, err := d.lib.RenderPageInDPI(&requests.RenderPageInDPI{
		Page: d.page(page), DPI: dpi, ImageFormat: requests.RenderImageFormatGrayscale})
	d.must(err)
	defer r.Cleanup()
	shared, ok := r.Result.RenderedImage.(*image.Gray)
	if !ok {
		d.t.Fatalf("PDFium rendered a %T", r.Result.RenderedImage)
	}
	own := *shared // Cleanup frees the pixels of shared
	own.Pix = append([]byte(nil), shared.Pix...)
	return &own
}

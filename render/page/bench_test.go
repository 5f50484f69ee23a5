package page_test

import (
	"fmt"
	"io"
	"runtime"
	"testing"

	"github.com/signintech/gopdf"

	"shadewright/fonts"
	"shadewright/render/page"
	"shadewright/render/symbol"
	"shadewright/ticket/measure"
)

// Each benchmark draws pages as dense as a ticket: 90 strings, 120 lines with
// three pens, and a QR symbol of 25 × 25 modules.
const (
	benchTexts = 90
	benchLines = 120
	benchPages = 100 // in each document
)

func benchText(i int) (at page.Point, s string, weight fonts.Weight, size measure.Length) {
	at = page.Point{X: (15 + 60*measure.Length(i%3)) * mm, Y: (20 + 8*measure.Length(i/3)) * mm}
	return at, fmt.Sprintf("fold raw edge up to line %d", i), fonts.Weight(i % 3), measure.Length(8+i%5) * page.Pt
}

func benchLine(i int) (from, to page.Point, dash int) {
	y := (10 + 2*measure.Length(i)) * mm
	return page.Point{X: 10 * mm, Y: y}, page.Point{X: 200 * mm, Y: y}, i / 40
}

var benchDash = [3][]measure.Length{nil, {4 * mm, 2 * mm}, {8 * mm, 2 * mm, mm, 2 * mm}}

func benchSymbol(b *testing.B) symbol.Symbol {
	s, err := symbol.QR("HTTP://192.168.1.20:8080/T/ABCD-EFGH", symbol.Medium)
	if err != nil {
		b.Fatal(err)
	}
	return s
}

// BenchmarkPage measures drawing one page with this package, including its
// share of writing the document.
func BenchmarkPage(b *testing.B) {
	code := benchSymbol(b)
	b.ReportAllocs()
	var d *page.Document
	n := 0
	finish := func() {
		if d != nil {
			if _, err := d.WriteTo(io.Discard); err != nil {
				b.Fatal(err)
			}
		}
	}
	for b.Loop() {
		if n%benchPages == 0 {
			finish()
			d = page.New(page.Info{Title: "bench"})
		}
		n++
		drawBench(d.Add(a4), &code)
	}
	finish()
}

func drawBench(p *page.Page, code *symbol.Symbol) {
	for i := range benchLines {
		from, to, dash := benchLine(i)
		p.Line(from, to, page.Pen{Width: mm / 4, Dash: benchDash[dash]})
	}
	for i := range benchTexts {
		at, s, weight, size := benchText(i)
		p.Text(at, s, page.Face{Weight: weight, Size: size})
	}
	if code != nil {
		code.Draw(p, page.Point{X: 180 * mm, Y: 10 * mm}, mm/2)
	}
}

// BenchmarkPageBare draws the same page with the PDF library alone.
func BenchmarkPageBare(b *testing.B) {
	code := benchSymbol(b)
	pt := func(l measure.Length) float64 { return float64(l) * 72 / 25.4e6 }
	b.ReportAllocs()
	var pdf *gopdf.GoPdf
	n := 0
	finish := func() {
		if pdf != nil {
			if _, err := pdf.WriteTo(io.Discard); err != nil {
				b.Fatal(err)
			}
		}
	}
	for b.Loop() {
		if n%benchPages == 0 {
			finish()
			pdf = new(gopdf.GoPdf)
			pdf.Start(gopdf.Config{Unit: gopdf.UnitPT, PageSize: gopdf.Rect{W: pt(a4.Width), H: pt(a4.Length)}})
			for _, w := range fonts.Weights() {
				if err := pdf.AddTTFFontData(w.String(), w.Data()); err != nil {
					b.Fatal(err)
				}
			}
		}
		n++
		pdf.AddPage()
		pdf.SetLineWidth(pt(mm / 4))
		last := 0
		for i := range benchLines {
			from, to, dash := benchLine(i)
			if dash != last {
				last = dash
				var d []float64
				for _, l := range benchDash[dash] {
					d = append(d, pt(l))
				}
				pdf.SetCustomLineType(d, 0)
			}
			pdf.Line(pt(from.X), pt(from.Y), pt(to.X), pt(to.Y))
		}
		for i := range benchTexts {
			at, s, weight, size := benchText(i)
			if err := pdf.SetFont(weight.String(), "", pt(size)); err != nil {
				b.Fatal(err)
			}
			pdf.SetXY(pt(at.X), pt(at.Y))
			if err := pdf.Text(s); err != nil {
				b.Fatal(err)
			}
		}
		for _, r := range code.Bars {
			pdf.RectFromUpperLeftWithStyle(pt(184*mm+measure.Length(r.X)*mm/2), pt(14*mm+measure.Length(r.Y)*mm/2),
				pt(measure.Length(r.Width)*mm/2), pt(measure.Length(r.Height)*mm/2), "F")
		}
	}
	finish()
}

// BenchmarkDocument measures how time and memory grow with the number of pages:
// ns/page, and the bytes held for each page once the last one is drawn.
func BenchmarkDocument(b *testing.B) {
	for _, pages := range []int{100, 1000, 10000} {
		b.Run(fmt.Sprint(pages), func(b *testing.B) {
			for b.Loop() {
				var before, after runtime.MemStats
				runtime.GC()
				runtime.ReadMemStats(&before)
				d := page.New(page.Info{Title: "bench"})
				for range pages {
					drawBench(d.Add(a4), nil)
				}
				runtime.GC()
				runtime.ReadMemStats(&after)
				n, err := d.WriteTo(io.Discard)
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(after.HeapAlloc-before.HeapAlloc)/float64(pages), "held-B/page")
				b.ReportMetric(float64(n)/float64(pages), "file-B/page")
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*pages), "ns/page")
		})
	}
}

// BenchmarkText measures setting one line of text, with and without a fraction;
// BenchmarkWrap measures wrapping a paragraph.
func BenchmarkText(b *testing.B) {
	for _, s := range []string{"fold raw edge up to line 12", "31\u20095\u20448\u00a0in × 27\u20091\u20442\u00a0in"} {
		b.Run(s, func(b *testing.B) {
			b.ReportAllocs()
			p := page.New(page.Info{}).Add(a4)
			for n := 0; b.Loop(); n++ {
				if n%1000 == 0 { // a new page keeps memory flat
					p = page.New(page.Info{}).Add(a4)
				}
				p.Text(page.Point{X: 10 * mm, Y: 10 * mm}, s, page.Face{Size: 10 * page.Pt})
			}
		})
	}
}

func BenchmarkWrap(b *testing.B) {
	const s = "Rotary blade: cut away from yourself, keep the free hand behind the straightedge, and close the blade each time it is put down."
	b.ReportAllocs()
	for b.Loop() {
		page.Wrap(s, page.Face{Size: 9 * page.Pt}, 60*mm)
	}
}

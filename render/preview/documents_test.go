package preview

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/google/uuid"

	"shadewright/render/buylist"
	"shadewright/render/card"
	"shadewright/render/flow"
	"shadewright/render/fullscale"
	"shadewright/render/internal/readback"
	"shadewright/render/page"
	"shadewright/render/plan"
	"shadewright/render/sheet"
	"shadewright/render/template"
	"shadewright/ticket"
	"shadewright/ticket/buying"
	"shadewright/ticket/cutplan"
	"shadewright/ticket/goods"
	"shadewright/ticket/measure"
	"shadewright/ticket/nest"
	"shadewright/ticket/route"
)

// documents returns the documents printed for two invented shades on one paper.
func documents(t testing.TB, paper string) []*page.Document {
	t.Helper()
	shade := ticket.Shade{
		ID: "bunk", Place: "lower bunk, lake side", Quantity: 2, Note: "Mind the lamp.",
		Finished: measure.Size{Width: 27*inch + inch/2, Length: 40 * inch},
		Goods:    ticket.Goods{Name: "reed-mesh", Kind: goods.CoatedMesh, Width: 58 * inch, Selvage: [2]measure.Length{inch / 2, inch / 2}, Thickness: 600 * measure.Micrometre, Lay: ticket.AnyWay},
		Roller:   ticket.Roller{Name: "donor", Tube: inch * 9 / 8, Shortest: 20 * inch, Longest: 36 * inch},
		Slat:     ticket.Slat{Name: "flat", Width: inch, Thickness: inch * 3 / 32},
		Allow:    ticket.Allow{Wrap: 9 * inch, Hem: inch * 3 / 8, Pocket: inch * 21 / 16, StitchInset: inch / 8, TubeOver: inch / 8, SlatGap: inch / 8},
		Sewing:   ticket.Sewing{StitchLength: 5 * mm, Thread: 69, BackTack: inch / 2, Waste: 15},
	}
	job := &ticket.Job{Name: "Heron Landing", ID: uuid.MustParse("5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31"), Style: measure.Usual(measure.Inches), Shades: []ticket.Shade{shade}}
	tickets, err := ticket.Make(job, ticket.Options{Limits: ticket.Limits{Snug: inch / 16, TrimMargin: inch / 2}, Route: route.Usual()})
	if err != nil {
		t.Fatal(err)
	}
	on, err := sheet.Named(paper)
	if err != nil {
		t.Fatal(err)
	}
	margins := sheet.Margins{Left: 7 * mm, Top: 7 * mm, Right: 7 * mm, Bottom: 7 * mm}
	grid, err := on.Grid(5, 2, margins, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	plans, laid, err := cutplan.Make(context.Background(), tickets, cutplan.Options{KeepWidth: 12 * inch, KeepLength: 12 * inch, Effort: nest.Seconds(0)})
	if err != nil {
		t.Fatal(err)
	}
	ticket.Seal(tickets, laid)
	cards := card.Options{Info: page.Info{Title: "Tickets"}, Paper: on, Margins: margins, Address: "HTTP://192.168.1.20:8080", Code128: true}
	// The printer is off by 1 %: the preview shows the corrected page.
	full := fullscale.Options{Paper: on, Margins: margins, Overlap: 20 * mm, Style: job.Style, Job: job.Name, Printer: "office", Correction: page.Correction{X: 1_010_000, Y: 990_000}}
	var all []*page.Document
	for _, draw := range []func() (*page.Document, error){
		func() (*page.Document, error) { return template.Document(tickets, template.Both, full) },
		func() (*page.Document, error) { return card.Tickets(tickets, cards) },
		func() (*page.Document, error) { return card.Tags(tickets, grid, cards) },
		func() (*page.Document, error) {
			lay, err := plan.On(flow.Options{Paper: on, Margins: margins, Style: job.Style, Job: job.Name})
			if err != nil {
				return nil, err
			}
			return flow.Document("Cut plan", slices.Concat(plan.Sheets(lay, plans, 0), buylist.Sheets(lay, buying.List{}), plan.Labels(lay, plans))), nil
		},
	} {
		d, err := draw()
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, d)
	}
	return all
}

// Every page of the printed documents looks like the PDF as rendered by PDFium,
// both on paper whose sides are whole dots and on paper whose sides are not.
func TestDocumentsLookLikeThePDF(t *testing.T) {
	for _, paper := range readback.Few([]string{"letter", "a4"}, 1) {
		for _, d := range documents(t, paper) {
			pdf, err := d.Bytes()
			if err != nil {
				t.Fatal(err)
			}
			read := readback.Open(t, pdf)
			for number := 1; number <= d.Pages(); number++ {
				want := read.Render(number-1, proofDPI)
				shades, where := farthest(dotted(t, d, number, want.Rect), want)
				t.Logf("%s, %s, page %d: at most %.1f shades apart, at %s", paper, d.Info().Title, number, shades, where)
				if shades > most {
					t.Errorf("%s, %s: page %d is %.1f shades off at %s; want at most %d", paper, d.Info().Title, number, shades, where, most)
				}
			}
		}
	}
}

// rendered returns an SVG as drawn by a browser, an independent program.
func rendered(t *testing.T, svg []byte, size image.Rectangle) *image.Gray {
	t.Helper()
	var browser string
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if p, err := exec.LookPath(name); err == nil {
			browser = p
			break
		}
	}
	if browser == "" {
		t.Skip("Chromium is not installed: the look of the SVG is not tested")
	}
	dir := t.TempDir()
	from, to := filepath.Join(dir, "page.svg"), filepath.Join(dir, "page.png")
	if err := os.WriteFile(from, svg, 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(t.Context(), 3*time.Minute)
	defer cancel()
	const css = 96 // CSS units to the inch (CSS Values and Units, 6.2)
	out, err := exec.CommandContext(ctx, browser, "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--no-first-run",
		"--user-data-dir="+filepath.Join(dir, "profile"), fmt.Sprintf("--force-device-scale-factor=%.6f", float64(proofDPI)/css),
		fmt.Sprintf("--window-size=%d,%d", size.Dx()*css/proofDPI, size.Dy()*css/proofDPI), "--screenshot="+to, from).CombinedOutput()
	if err != nil {
		t.Fatalf("the browser: %v\n%s", err, out)
	}
	data, err := os.ReadFile(to)
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if img.Bounds() != size {
		t.Fatalf("the browser draws %v; want %v", img.Bounds(), size)
	}
	gray := image.NewGray(size)
	for y := range size.Dy() {
		for x := range size.Dx() {
			gray.Set(x, y, color.GrayModel.Convert(img.At(x, y)))
		}
	}
	return gray
}

// An SVG in a browser looks like the PDF as rendered by PDFium, and like the
// PNG.
func TestSVGLooksLikeThePDF(t *testing.T) {
	d, pdf := drawn(t, "")
	whole := image.Rect(0, 0, 17*proofDPI/2, 11*proofDPI)
	svg, err := SVG(d, 1)
	if err != nil {
		t.Fatal(err)
	}
	got := rendered(t, svg, whole)
	shades, where := farthest(got, readback.Open(t, pdf).Render(0, proofDPI))
	t.Logf("the SVG and the PDF are at most %.1f shades apart, at %s", shades, where)
	if shades > most {
		t.Errorf("the SVG is %.1f shades off the PDF at %s; want at most %d", shades, where, most)
	}
	// A browser does not move letters to whole dots, so only differences within
	// a dot remain.
	const close = 4
	shades, where = farthest(got, dotted(t, d, 1, whole))
	t.Logf("the SVG and the PNG are at most %.1f shades apart, at %s", shades, where)
	if shades > close {
		t.Errorf("the SVG is %.1f shades off the PNG at %s; want at most %d", shades, where, close)
	}
}

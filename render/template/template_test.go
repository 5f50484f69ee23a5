package template

import (
	"bytes"
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/uuid"

	"shadewright/render/fullscale"
	"shadewright/render/internal/readback"
	"shadewright/render/language"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket"
	"shadewright/ticket/goods"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

const in = measure.Inch

// shadeOf returns a shade of the given finished size with the usual allowances:
// common practice, no source.
func shadeOf(id string, w, l measure.Length) ticket.Shade {
	return ticket.Shade{
		ID: id, Quantity: 1, Finished: measure.Size{Width: w, Length: l},
		Goods:  ticket.Goods{Name: "mesh", Kind: goods.CoatedMesh, Width: 200 * in, Thickness: 600 * measure.Micrometre},
		Slat:   ticket.Slat{Name: "flat", Width: in, Thickness: in * 3 / 32},
		Allow:  ticket.Allow{Wrap: 7 * in, Hem: in / 2, Pocket: in * 5 / 4, StitchInset: in / 8, TubeOver: in / 8, SlatGap: in / 8},
		Sewing: ticket.Sewing{StitchLength: 6 * mm, Thread: 92},
	}
}

// job returns tickets that exercise the template: the usual shade, one that
// shares its band, one with side hems and odd metric sizes, and one 120 in
// wide.
func job(t testing.TB) []*ticket.Ticket {
	t.Helper()
	odd := shadeOf("galley", 613*mm+137*measure.Micrometre, 900*mm)
	odd.Allow = ticket.Allow{Wrap: 180 * mm, Hem: 15 * mm, Pocket: 41 * mm, StitchInset: 4 * mm, SideHem: 12*mm + mm/3, SlatGap: 5 * mm}
	return tickets(t, shadeOf("bunk", 25*in, 37*in), shadeOf("bunk-2", 25*in, 40*in), odd, shadeOf("hall", 120*in, 60*in))
}

// tickets returns the tickets of a job with the given shades.
func tickets(t testing.TB, shades ...ticket.Shade) []*ticket.Ticket {
	t.Helper()
	j := &ticket.Job{
		Name: "Heron Landing", ID: uuid.MustParse("5f0c8f0e-2b0f-4a55-9f0b-6f1f7a2d9c31"), Style: measure.Usual(measure.Inches),
		Shades: shades,
	}
	all, err := ticket.Make(j, ticket.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func optionsFor(t testing.TB, paper string) Options {
	t.Helper()
	p, err := sheet.Named(paper)
	if err != nil {
		t.Fatal(err)
	}
	style := measure.Usual(measure.Inches)
	if paper == "a4" || paper == "a3" {
		style = measure.Usual(measure.Millimetres)
	}
	return Options{
		Paper: p, Overlap: 12 * mm, Style: style, Job: "Heron Landing",
		Margins: sheet.Margins{Left: in / 4, Right: in / 4, Top: in / 4, Bottom: in / 2},
	}
}

func pdf(t testing.TB, opt Options) []byte {
	t.Helper()
	return pdfOf(t, job(t), opt)
}

func pdfOf(t testing.TB, list []*ticket.Ticket, opt Options) []byte {
	t.Helper()
	doc, err := Document(list, Both, opt)
	return readback.Bytes(t, doc, err)
}

// Every line of every strip stands on the paper where exact arithmetic puts it,
// as read by PDFium. The expected places come only from the folds (h, 2h, h +
// p, h + 2p − s, h + 2p) and the panel's width; the layout provides only the
// corner of each strip.
func TestLinesOnPaper(t *testing.T) {
	for _, paper := range []string{"letter", "a4", "tabloid"} {
		opt := optionsFor(t, paper)
		doc := readback.Open(t, pdf(t, opt))
		sheets, err := lay(Both.of(bands(job(t))), opt)
		if err != nil {
			t.Fatal(err)
		}
		if doc.Pages() != len(sheets) || doc.AsksForScale() {
			t.Errorf("%s: %d pages for %d sheets; asks for scaling: %v", paper, doc.Pages(), len(sheets), doc.AsksForScale())
		}
		strips := 0
		for i, s := range sheets {
			marks := doc.Marks(i)
			for _, it := range s.items {
				if it.strip != nil {
					strips++
					checkStrip(t, fmt.Sprintf("%s sheet %d", paper, i+1), marks, it)
				}
			}
		}
		if strips < 12 {
			t.Errorf("%s: only %d strips were measured", paper, strips)
		}
	}
}

func checkStrip(t *testing.T, where string, marks readback.Marks, it item) {
	t.Helper()
	s, b := it.strip, it.strip.band
	x := func(l measure.Length) float64 { return (it.at.X + l - s.from).Millimetres() }
	raw := (it.at.Y + captionHeight + headroom + b.folds.PocketMark).Millimetres()
	h, p, r := 0.5*25.4, 1.25*25.4, 0.125*25.4 // the usual allowances, common practice, no source
	if b.sideHem > 0 {
		h, p, r = 15, 41, 4
	}
	left, right := max(s.from, -20*mm), min(s.to, b.width+20*mm)
	for name, y := range map[string]float64{"raw edge": 0, "hem fold": h, "hem mark": 2 * h, "pocket fold": h + p, "pocket mark": h + 2*p, "stitch row": h + 2*p - r} {
		if !marks.Level(raw-y, x(left), x(right)) {
			t.Errorf("%s, band %s strip %d: no %s at %.3f mm", where, b.name, s.index+1, name, y)
		}
	}
	sides := map[string]measure.Length{"left side": 0, "right side": b.width, "centre": b.width / 2}
	if b.sideHem > 0 {
		sides["left side hem"], sides["right side hem"] = b.sideHem, b.width-b.sideHem
	}
	for name, at := range sides {
		if s.from <= at && at <= s.to && !marks.Upright(x(at), raw-h-2*p, raw) {
			t.Errorf("%s, band %s strip %d: no %s at %s", where, b.name, s.index+1, name, at)
		}
	}
	gap := map[bool]measure.Length{false: in / 8, true: 12*mm + mm/3 + 5*mm}[b.sideHem > 0]
	for _, at := range []measure.Length{gap, b.width - gap} {
		if s.from <= at && at <= s.to && !marks.Upright(x(at), raw-h-2*p+r, raw-h-p) {
			t.Errorf("%s, band %s strip %d: no slat end at %s", where, b.name, s.index+1, at)
		}
	}
}

// If a person tapes the strips of the 120 in panel together, its sides are 120
// in apart. The test measures the paper from joint to joint and adds up.
func TestNothingDrifts(t *testing.T) {
	for _, paper := range []string{"letter", "a4"} {
		opt := optionsFor(t, paper)
		doc := readback.Open(t, pdf(t, opt))
		var sum, n float64
		for i := range doc.Pages() {
			m := doc.Marks(i)
			for _, s := range paperStrips(m) {
				if s.band == "C" {
					sum += s.right - s.left
					n++
				}
			}
		}
		// Each strip's two ends are read to a hundredth of a point at worst.
		if want := 120 * 25.4; n < 12 || math.Abs(sum-want) > n*0.0071 {
			t.Errorf("%s: %g strips taped together are %.4f mm wide; want %.1f (120 in)", paper, n, sum, want)
		}
	}
}

// A paperStrip is a strip as a person sees it: the band's letter, and the
// places of the side or joint at each end.
type paperStrip struct {
	band        string
	left, right float64
}

// paperStrips finds the strips of a page by their captions. The ends come from
// the lines below: the heavy line of a side, else the dotted line of a joint.
func paperStrips(m readback.Marks) []paperStrip {
	var list []paperStrip
	for _, t := range m.Texts {
		var name string
		var n, of int
		if k, _ := fmt.Sscanf(strings.ReplaceAll(t.Text, ",", " "), "Band %s strip %d of %d", &name, &n, &of); k != 3 {
			continue
		}
		var ends []float64
		for _, l := range m.Lines {
			tall := math.Abs(l.From.Y-l.To.Y) > 70 && math.Abs(l.From.X-l.To.X) < readback.Near
			below := min(l.From.Y, l.To.Y) > t.At.Y && min(l.From.Y, l.To.Y) < t.At.Y+12
			side, joint := l.Width > 0.6, len(l.Dash) > 0 && l.Dash[0] < 1.5
			if tall && below && (side || joint) {
				ends = append(ends, l.From.X)
			}
		}
		if len(ends) == 2 && t.At.X < min(ends[0], ends[1]) { // a long strip has its name at the right end, too
			list = append(list, paperStrip{name, min(ends[0], ends[1]), max(ends[0], ends[1])})
		}
	}
	return list
}

// A picture of the page at 600 dpi has the lines in the right place: the pocket
// mark 3 in above the raw edge, the stitch row 2-7/8 (common practice, no
// source).
func TestLinesInPicture(t *testing.T) {
	opt := optionsFor(t, "letter")
	doc := readback.Open(t, pdf(t, opt))
	sheets, err := lay(Both.of(bands(job(t))), opt)
	if err != nil {
		t.Fatal(err)
	}
	n, it := firstStrip(sheets)
	r := doc.Raster(n, 600)
	// Clear of the text, well inside the strip.
	x := (it.at.X + (it.strip.to - it.strip.from) - 30*mm).Millimetres()
	raw := (it.at.Y + captionHeight + headroom + it.strip.band.folds.PocketMark).Millimetres()
	edge, ok := r.Level(readback.Point{X: x, Y: raw}, 1.2, 0.5)
	if !ok {
		t.Fatal("no raw edge in the picture")
	}
	for name, up := range map[string]float64{"hem mark": 25.4, "pocket mark": 76.2} {
		l, ok := r.Level(readback.Point{X: x, Y: raw - up}, 1.2, 0.5)
		if !ok || math.Abs(edge.Centre-l.Centre-up) > readback.Near {
			t.Errorf("%s is %.3f mm above the raw edge; want %.3f", name, edge.Centre-l.Centre, up)
		}
	}
}

// firstStrip returns the first strip and its sheet.
func firstStrip(sheets []*leaf) (int, item) {
	for i, s := range sheets {
		for _, it := range s.items {
			if it.strip != nil {
				return i, it
			}
		}
	}
	return 0, item{}
}

func TestChecksOnPaper(t *testing.T) {
	for paper, side := range map[string]float64{"letter": 38.1, "a4": 40} {
		doc := readback.Open(t, pdf(t, optionsFor(t, paper)))
		for i := range doc.Pages() {
			m := doc.Marks(i)
			w, _ := doc.Size(i)
			right := w - 6.35
			top := 6.35 + 0.5
			ok := m.Level(top, right-side, right) && m.Level(top+side, right-side, right) &&
				m.Upright(right, top, top+side) && m.Upright(right-side, top, top+side)
			if !ok {
				t.Errorf("%s sheet %d: no check square of %g mm", paper, i+1, side)
			}
			if text := m.Words(); !strings.Contains(text, "Print at 100 %") {
				t.Errorf("%s sheet %d does not ask for printing at 100 %%", paper, i+1)
			}
		}
	}
}

// No texts overlap, and none is outside the printable part.
func TestWordsApart(t *testing.T) {
	for _, paper := range []string{"letter", "a4", "legal"} {
		doc := readback.Open(t, pdf(t, optionsFor(t, paper)))
		for i := range doc.Pages() {
			for _, c := range doc.Crowded(i, 6.3) {
				t.Errorf("%s sheet %d: %s", paper, i+1, c)
			}
		}
	}
}

// checkInside checks the texts on the cloth of one strip.
func checkInside(t *testing.T, where string, marks readback.Marks, it item, opt Options) {
	t.Helper()
	s := it.strip
	right := (it.at.X + s.band.width - s.from).Millimetres()
	top := it.at.Y.Millimetres()
	end := top + s.band.height().Millimetres()
	written := 0
	for _, m := range marks.Texts {
		if m.Min.Y < top || m.Max.Y > end {
			continue
		}
		if m.Min.X < right && m.Max.X > right && s.band.width <= s.to && m.Max.Y-m.Min.Y < 10 && len(m.Text) > 2 && !strings.HasPrefix(m.Text, "Band") && !strings.HasPrefix(m.Text, "Franja") {
			t.Errorf("%s, band %s strip %d: %q runs past the right side", where, s.band.name, s.index+1, m.Text)
		}
		for _, words := range []message.ID{"template.line-hem-mark", "template.line-pocket-mark", "template.line-stitch", "template.lay-raw-edge"} {
			if strings.HasPrefix(m.Text, opt.Say(words)) {
				written++
			}
		}
	}
	if s.index == 0 && written < 4 {
		t.Errorf("%s, band %s: %d of 4 instructions are written", where, s.band.name, written)
	}
}

func TestBandsAreShared(t *testing.T) {
	list := bands(job(t))
	var got []string
	for _, b := range list {
		got = append(got, b.name+": "+b.owners(language.Language{}))
	}
	want := "A: bunk, bunk-2; B: galley; C: hall"
	if s := strings.Join(got, "; "); s != want {
		t.Errorf("bands %q; want %q (bunk and bunk-2 differ only in length)", s, want)
	}
}

func TestSameBytes(t *testing.T) {
	opt := optionsFor(t, "letter")
	if !bytes.Equal(pdf(t, opt), pdf(t, opt)) {
		t.Error("two runs give different bytes")
	}
}

func TestPaperTooSmall(t *testing.T) {
	opt := optionsFor(t, "letter")
	p, err := sheet.Sized(100*mm, 120*mm)
	if err != nil {
		t.Fatal(err)
	}
	opt.Paper = p
	_, err = Document(job(t), Both, opt)
	if err == nil || !strings.Contains(err.Error(), "use ") {
		t.Errorf("paper of 100 × 120 mm: %v; want an error that names a remedy", err)
	}
}

// The drawing of one sheet, mark by mark. After a change, look at the page and
// then run: go test -run Golden -update
func TestGolden(t *testing.T) {
	opt := optionsFor(t, "letter")
	sheets, err := lay(Both.of(bands(job(t))[:1]), opt)
	if err != nil {
		t.Fatal(err)
	}
	rec := new(page.Recorder)
	for i, s := range sheets {
		rec.Note(fmt.Sprintf("sheet %d", i+1))
		d := &drawing{fullscale.Drawing{Canvas: rec, Options: opt}}
		d.sheet(s, i+1, len(sheets))
	}
	readback.Golden(t, filepath.Join("testdata", "bunk.letter.txt"), rec.String())
}

func BenchmarkTemplate(b *testing.B) {
	list, opt := job(b), optionsFor(b, "letter")
	b.ReportAllocs()
	pages := 0
	for b.Loop() {
		doc, err := Document(list, Both, opt)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := doc.Bytes(); err != nil {
			b.Fatal(err)
		}
		pages = doc.Pages()
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*pages), "µs/page")
}

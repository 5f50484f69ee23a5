package plan

import (
	"bytes"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/render/language"
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// printed is a row of the list of cuts, as a person reads it.
type printed struct {
	number, take, how, off, left string
}

// A reader follows the list in one language. Its texts for the cut end and the
// left edge identify where a cut is measured from.
type reader struct {
	language.Language
	end, left string // words for the cut end and for the left edge
}

func readers(t *testing.T) []reader {
	t.Helper()
	mexican, err := language.Named("es-MX") // Spanish, with a point as decimal mark
	if err != nil {
		t.Fatal(err)
	}
	return []reader{{end: "cut end", left: "left edge"}, {mexican, "extremo", "izq."}}
}

// list reads the rows of the list of cuts from the sheets, in order: down the
// first column of each sheet, then down the next.
func list(doc *readback.Document, in reader) []printed {
	var rows []printed
	for i := range doc.Pages() {
		texts := doc.Marks(i).Texts
		for _, h := range texts {
			if h.Text != in.Say("plan.cut") {
				continue
			}
			// Each column begins where its heading does.
			var cols []float64
			for _, w := range []message.ID{"plan.cut", "plan.take", "plan.cut-millimetres", "plan.this-comes-off", "plan.this-is-left"} {
				next := math.Inf(1)
				for _, q := range texts {
					if q.Text == in.Say(w) && math.Abs(q.At.Y-h.At.Y) < 0.1 && q.At.X >= h.At.X && q.At.X < next {
						next = q.At.X
					}
				}
				cols = append(cols, next)
			}
			rows = append(rows, below(texts, h, cols)...)
		}
	}
	return rows
}

func below(texts []readback.Text, head readback.Text, cols []float64) []printed {
	at := map[float64]*printed{}
	var ys []float64
	for _, q := range texts {
		if q.At.Y <= head.At.Y+1 || math.Abs(q.At.X-cols[0]) > 0.1 {
			continue
		}
		if _, err := strconv.Atoi(strings.Split(q.Text, "–")[0]); err != nil {
			continue
		}
		at[q.At.Y] = &printed{number: q.Text}
		ys = append(ys, q.At.Y)
	}
	slices.Sort(ys)
	var rows []printed
	for _, y := range ys {
		p := at[y]
		for _, q := range texts {
			if math.Abs(q.At.Y-y) > 0.1 {
				continue
			}
			for c, into := range []*string{nil, &p.take, &p.how, &p.off, &p.left} {
				if into != nil && math.Abs(q.At.X-cols[c]) < 0.1 {
					*into = q.Text
				}
			}
		}
		rows = append(rows, *p)
	}
	return rows
}

// A person who follows the list with cloth and ruler ends up with every panel
// in its size. The expected sizes come only from the tickets.
func TestFollowTheList(t *testing.T) {
	for name, o := range samples() {
		if o.system != measure.Millimetres {
			continue // PDFium splits fractions; the text is the same in millimetres
		}
		for _, in := range readers(t) {
			t.Run(name+", "+in.Tag(), func(t *testing.T) { o.follow(t, in) })
		}
	}
}

func (o order) follow(t *testing.T, in reader) {
	s := o.make(t)
	s.opt.Language = in.Language
	p := s.plans[0]
	held := map[string][2]float64{}
	for _, h := range o.onHand {
		held[in.Say("ticket.piece", h.Label)] = [2]float64{h.Width.Millimetres(), h.Length.Millimetres()}
	}
	next := 1
	for _, r := range list(s.open(t), in) {
		next = follow(t, r, next, held, p.Goods.Width.Millimetres(), in)
	}
	if next-1 != len(p.Cuts) {
		t.Errorf("the list has %d cuts; the plan has %d", next-1, len(p.Cuts))
	}
	for _, k := range s.tickets {
		want := [2]float64{k.Cut.Width.Millimetres(), k.Cut.Length.Millimetres()}
		if k.Plan.Turned {
			want[0], want[1] = want[1], want[0]
		}
		a := 2 * p.Goods.Allowance.Millimetres()
		if got, ok := held[in.Put(k.Called())]; !ok || math.Abs(got[0]-want[0]-a) > 1e-9 || math.Abs(got[1]-want[1]-a) > 1e-9 {
			t.Errorf("%s is %v; want %v plus the allowance", k.Name(), got, want)
		}
	}
}

// follow makes the cuts of one row and returns the number of the next cut.
func follow(t *testing.T, r printed, next int, held map[string][2]float64, rollWidth float64, in reader) int {
	t.Helper()
	first, last, two := strings.Cut(r.number, "–")
	if first != strconv.Itoa(next) || two && last != strconv.Itoa(next+1) {
		t.Errorf("row %+v; want cut %d", r, next)
	}
	across := strings.Contains(r.how, in.end)
	if across == strings.Contains(r.how, in.left) {
		t.Fatalf("cut %s does not say which edge to measure from: %q", r.number, r.how)
	}
	var dist []float64
	for _, w := range strings.FieldsFunc(r.how, func(c rune) bool { return c == ' ' || c == ',' }) {
		if v, err := strconv.ParseFloat(w, 64); err == nil {
			dist = append(dist, v)
		}
	}
	if two != (len(dist) == 2) || len(dist) == 0 {
		t.Fatalf("row %+v has the distances %v", r, dist)
	}
	size, ok := held[r.take]
	if r.take == in.Say("ticket.roll") {
		size, ok = [2]float64{rollWidth, math.Inf(1)}, true
	}
	if !ok {
		t.Fatalf("row %+v takes a part that does not exist", r)
	}
	delete(held, r.take)
	axis := 0
	if across {
		axis = 1
	}
	near, far := size, size
	near[axis], far[axis] = dist[0], size[axis]-dist[0]
	if two { // the selvages come off and the rest stays
		near = far
		near[0] = dist[1]
		hold(t, r.left, near, held, in)
		return next + 2
	}
	hold(t, r.off, near, held, in)
	if r.left != in.Say("ticket.roll") {
		hold(t, r.left, far, held, in)
	}
	return next + 1
}

// hold checks the printed size of a part and keeps the part under its name.
func hold(t *testing.T, words string, size [2]float64, held map[string][2]float64, in reader) {
	t.Helper()
	f := strings.Fields(words)
	if len(f) < 4 || f[len(f)-2] != "×" {
		t.Fatalf("%q is not a part with its size", words)
	}
	for i, w := range []string{f[len(f)-3], f[len(f)-1]} {
		if v, err := strconv.ParseFloat(w, 64); err != nil || math.Abs(v-size[i]) > 1e-9 || v <= 0 {
			t.Errorf("%q; by the distances cut, it is %v × %v", words, size[0], size[1])
		}
	}
	name := strings.Join(f[:len(f)-3], " ")
	if name == in.Say("ticket.scrap") || name == in.Say("ticket.selvage") {
		return
	}
	if _, twice := held[name]; twice {
		t.Errorf("two parts have the name %q at the same time", name)
	}
	held[name] = size
}

// Every panel is on the paper where the plan puts it, at the printed scale,
// measured from the line of the cut end.
func TestToScale(t *testing.T) {
	for i, name := range []string{"small, metric", "small, inches", "small, metric", "small, inches"} {
		s := samples()[name].make(t)
		if i > 1 {
			s = s.spanish(t)
		}
		scale := [...]string{"Scale 1 : ", "Escala 1 : "}[i/2]
		p := s.plans[0]
		m := s.open(t).Marks(0)
		var n int
		for _, q := range m.Texts {
			if i := strings.Index(q.Text, scale); i >= 0 {
				n, _ = strconv.Atoi(strings.TrimSuffix(q.Text[i+len(scale):], "."))
			}
		}
		var end *readback.Line // the first heavy upright line is the cut end
		for i, l := range m.Lines {
			if l.Width > 0.8 && l.From.X == l.To.X && (end == nil || l.From.X < end.From.X) {
				end = &m.Lines[i]
			}
		}
		if n == 0 || end == nil {
			t.Fatalf("%s: scale %d, cut end %v", name, n, end)
		}
		if end.To.Y-end.From.Y < p.Goods.Width.Millimetres()/float64(n) {
			end.From, end.To = end.To, end.From
		}
		x0, y0 := end.From.X, min(end.From.Y, end.To.Y)+5 // the line begins 5 mm above the cloth
		for _, k := range p.Panels {
			q := p.Parts[k.Part]
			x := func(l measure.Length) float64 { return x0 + l.Millimetres()/float64(n) }
			y := func(l measure.Length) float64 { return y0 + l.Millimetres()/float64(n) }
			l, r, a, b := x(q.Y), x(q.Y+q.Length), y(q.X), y(q.X+q.Width)
			for _, want := range [][4]float64{{l, a, l, b}, {r, a, r, b}, {l, a, r, a}, {l, b, r, b}} {
				if !drawn(m.Lines, want) {
					t.Errorf("%s: no edge of %s from %.2f,%.2f to %.2f,%.2f", name, k.Ticket.Name(), want[0], want[1], want[2], want[3])
				}
			}
		}
	}
}

func drawn(lines []readback.Line, w [4]float64) bool {
	const near = 0.02
	for _, l := range lines {
		a, b := l.From, l.To
		if a.X > b.X || a.Y > b.Y {
			a, b = b, a
		}
		if math.Abs(a.X-w[0]) < near && math.Abs(a.Y-w[1]) < near && math.Abs(b.X-w[2]) < near && math.Abs(b.Y-w[3]) < near {
			return true
		}
	}
	return false
}

// No texts overlap, and none is outside the printable part.
func TestWordsApart(t *testing.T) {
	for name, o := range samples() {
		doc := o.make(t).open(t)
		for i := range doc.Pages() {
			for _, bad := range doc.Crowded(i, 6.2) {
				t.Errorf("%s sheet %d: %s", name, i+1, bad)
			}
		}
	}
}

// The plan of up to ten panels fits one sheet. That of twenty has its drawing on sheets
// of its own, because its labels would be too small beside the list. Every panel is named in a drawing, and no text is cut off with an
// ellipsis.
func TestSheets(t *testing.T) {
	for name, o := range samples() {
		s := o.make(t)
		doc := s.open(t)
		var all []string
		plans := 0
		for i := range doc.Pages() {
			texts := doc.Marks(i).Texts
			for _, q := range texts {
				all = append(all, q.Text)
				if strings.HasPrefix(q.Text, "Cut plan: ") {
					plans++
				}
				if strings.HasSuffix(q.Text, "…") {
					t.Errorf("%s sheet %d: %q is cut off", name, i+1, q.Text)
				}
			}
		}
		if many := len(s.tickets) >= 20; many != (plans > 1) {
			t.Errorf("%s: the plan of %d panels takes %d sheets", name, len(s.tickets), plans)
		}
		for _, k := range s.tickets {
			if !slices.Contains(all, k.Name()) {
				t.Errorf("%s: %s is not named in the drawing", name, k.Name())
			}
		}
		for _, n := range s.plans[0].Keep {
			if !slices.ContainsFunc(all, func(w string) bool { return strings.HasPrefix(w, s.plans[0].Parts[n].Name.String()+", ") }) {
				t.Errorf("%s: no label for %s", name, s.plans[0].Parts[n].Name)
			}
		}
	}
}

func TestSameBytes(t *testing.T) {
	s := samples()["small, inches"].make(t)
	if !bytes.Equal(s.pdf(t), s.pdf(t)) {
		t.Error("two runs give different bytes")
	}
}

func TestPaperTooSmall(t *testing.T) {
	s := samples()["small, metric"].make(t)
	p, err := sheet.Sized(100*mm, 120*mm)
	if err != nil {
		t.Fatal(err)
	}
	s.opt.Paper = p
	_, err = s.sheets()
	// By hand: on its side 120 mm less 1/2 in twice, 100 mm less 1/4 in twice.
	if want := "paper 100 mm × 120 mm is too small for the cut plan: the margins leave 94.5 mm × 87.5 mm, but 170 mm × 120 mm is needed; use a5, letter, a4 or larger"; err == nil || err.Error() != want {
		t.Errorf("error %v; want %s", err, want)
	}
}

// A roll much longer than a sheet is broken only between sections; a section
// longer than the sheet continues on the next row. Nothing is lost.
func TestStrips(t *testing.T) {
	var list []piece
	var at measure.Length
	for i := range 17 {
		l := measure.Length(i+1) * 700 * mm
		list = append(list, piece{title: fmt.Sprint(i), from: at, to: at + l, across: 1800 * mm, onRoll: true})
		at += l
	}
	for _, n := range scales {
		var end measure.Length
		for _, r := range strips(list, n, 190*mm) {
			var x measure.Length
			for _, s := range r.spans {
				if s.from != end || s.at != x {
					t.Fatalf("1 : %d: a span begins at %v, %v on paper; want %v, %v", n, s.from, s.at, end, x)
				}
				end, x = s.to, x+(s.to-s.from)/measure.Length(n)
			}
			if x > 190*mm {
				t.Errorf("1 : %d: a strip is %v long", n, x)
			}
		}
		if end != at {
			t.Errorf("1 : %d: the strips end at %v of %v", n, end, at)
		}
	}
}

// The drawing of each sheet, mark by mark. After a change, look at the pages
// and then run: go test -run Golden -update
func TestGolden(t *testing.T) {
	for file, name := range map[string]string{"plain.letter.txt": "plain", "onhand.a4.txt": "plain, on hand"} {
		s := samples()[name].make(t)
		sheets, err := s.sheets()
		if err != nil {
			t.Fatal(err)
		}
		rec := new(page.Recorder)
		for i, l := range sheets {
			rec.Note(fmt.Sprintf("sheet %d", i+1))
			l.Draw(rec, i+1, len(sheets))
		}
		readback.Golden(t, filepath.Join("testdata", file), rec.String())
	}
}

func BenchmarkDocument(b *testing.B) {
	s := samples()["sixty, a table"].make(b)
	b.ReportAllocs()
	for b.Loop() {
		s.pdf(b)
	}
}

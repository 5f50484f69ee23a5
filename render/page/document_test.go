package page_test

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/render/page"
	"shadewright/ticket/measure"
)

func sample(t testing.TB) []byte {
	t.Helper()
	d := page.New(page.Info{Title: "Heron Landing: café, № 1", Subject: "Fold lines", Lang: "en", Creator: "Shadewright"})
	for i := range 3 {
		p := d.Add([]measure.Size{a4, letter, a4}[i])
		p.Line(page.Point{}, page.Point{X: 100 * mm, Y: 100 * mm}, page.Pen{})
		p.Text(page.Point{X: 20 * mm, Y: 30 * mm}, fmt.Sprintf("sheet %d of 3 日", p.Number()), page.Face{Size: 12 * page.Pt, Weight: page.Bold})
	}
	b, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestDocument(t *testing.T) {
	b := sample(t)
	doc := readback.Open(t, b)
	if n := doc.Pages(); n != 3 {
		t.Errorf("%d pages; want 3", n)
	}
	if w, h := doc.Size(1); !near(w, letter.Width, tolerance) || !near(h, letter.Length, tolerance) {
		t.Errorf("second page is %v × %v; want letter", w, h)
	}
	if doc.AsksForScale() {
		t.Error("the document lets the viewer scale it; want PrintScaling None (ISO 32000-1, table 150)")
	}
	if got := doc.Title(); got != "Heron Landing: café, № 1" {
		t.Errorf("title %q", got)
	}
	for i := range 3 {
		m := doc.Marks(i)
		if want := fmt.Sprintf("sheet %d of 3", i+1); len(m.Lines) != 1+4 || m.Texts[0].Text != want {
			t.Errorf("page %d has %d lines and begins %q; want 5 and %q", i, len(m.Lines), m.Texts[0].Text, want)
		}
	}
	if !bytes.Contains(b, []byte("/Lang(en)")) {
		t.Error("no language; want /Lang en")
	}
}

func TestSameBytes(t *testing.T) {
	if a, b := sample(t), sample(t); !bytes.Equal(a, b) {
		t.Error("two runs differ")
	}
	if bytes.Contains(sample(t), []byte("CreationDate")) {
		t.Error("the document carries a date")
	}
}

// Every entry of both cross-reference tables points at its object, and the
// second table points at the first (ISO 32000-1, 7.5.4 and 7.5.6).
func TestCrossReferences(t *testing.T) {
	b := sample(t)
	last := regexp.MustCompile(`startxref\n(\d+)\n%%EOF\n$`).FindSubmatch(b)
	if last == nil {
		t.Fatalf("the file ends %q", b[len(b)-40:])
	}
	at, _ := strconv.Atoi(string(last[1]))
	seen := 0
	for tables := 0; at > 0; tables++ {
		if tables == 2 {
			t.Fatal("more than two tables")
		}
		table, trailer, ok := strings.Cut(string(b[at:]), "trailer")
		if !ok || !strings.HasPrefix(table, "xref\n") {
			t.Fatalf("no table at %d: %.20q", at, table)
		}
		lines := strings.Split(strings.TrimPrefix(table, "xref\n"), "\n")
		for i := 0; i < len(lines)-1; {
			var first, n int
			if _, err := fmt.Sscanf(lines[i], "%d %d", &first, &n); err != nil {
				t.Fatalf("subsection %q: %v", lines[i], err)
			}
			for j := range n {
				entry := lines[i+1+j]
				if len(entry) != 19 { // 20 with its line feed
					t.Errorf("entry %q is %d bytes; want 19", entry, len(entry))
				}
				if entry[17] != 'n' {
					continue
				}
				offset, _ := strconv.Atoi(entry[:10])
				if want := fmt.Sprintf("%d 0 obj\n", first+j); !bytes.HasPrefix(b[offset:], []byte(want)) {
					t.Errorf("entry of object %d points at %.20q", first+j, b[offset:])
				}
				seen++
			}
			i += 1 + n
		}
		at = 0
		if m := regexp.MustCompile(`^\s*<<[^>]*/Prev (\d+)`).FindStringSubmatch(trailer); m != nil {
			at, _ = strconv.Atoi(m[1])
		}
	}
	if seen < 4+3*5+3*2+1+3+1 { // frame, faces, pages; catalogue, contents, information
		t.Errorf("%d objects in the tables", seen)
	}
}

func TestMisuse(t *testing.T) {
	for _, c := range []struct {
		name string
		use  func() error
		want string
	}{
		{"no page", func() error { _, err := page.New(page.Info{}).Bytes(); return err }, "the document has no page"},
		{"a page too long", func() error {
			d := page.New(page.Info{})
			d.Add(measure.Size{Width: 100 * mm, Length: 5081 * mm})
			_, err := d.Bytes()
			return err
		}, "page 1: paper of 100 mm × 5081 mm cannot be a page; the sides must be from 1.058333 mm to 5080 mm"},
		{"a page too small", func() error {
			d := page.New(page.Info{})
			d.Add(measure.Size{Width: mm, Length: 100 * mm})
			_, err := d.Bytes()
			return err
		}, "page 1: paper of 1 mm × 100 mm cannot be a page; the sides must be from 1.058333 mm to 5080 mm"},
		{"a finished page", func() error {
			d := page.New(page.Info{})
			p := d.Add(a4)
			d.Add(a4)
			p.Fill(page.Box(0, 0, mm, mm), page.Black)
			_, err := d.Bytes()
			return err
		}, "page 2: page 1 is finished and takes no more marks"},
		{"text without a size", func() error {
			d := page.New(page.Info{})
			d.Add(a4).Text(page.Point{}, "fold", page.Face{})
			_, err := d.Bytes()
			return err
		}, `page 1: text "fold" has the size 0 mm; use a size above zero`},
		{"written twice", func() error {
			d := page.New(page.Info{})
			d.Add(a4)
			if _, err := d.Bytes(); err != nil {
				return err
			}
			_, err := d.Bytes()
			return err
		}, "the document was already written; write it once"},
	} {
		if err := c.use(); err == nil || err.Error() != c.want {
			t.Errorf("%s: error %v; want %s", c.name, err, c.want)
		}
	}
}

var errFull = errors.New("disk full")

// full is a writer with room for left bytes.
type full struct{ left int }

func (f *full) Write(b []byte) (int, error) {
	n := min(len(b), f.left)
	f.left -= n
	if n < len(b) {
		return n, errFull
	}
	return n, nil
}

// A disk that fills up at any byte causes an error. The library itself reports
// none.
func TestDiskFull(t *testing.T) {
	size := len(sample(t))
	for left := 0; left < size; left += 1 + size/50 {
		d := page.New(page.Info{Title: "x"})
		for range 3 {
			d.Add(a4).Text(page.Point{X: 20 * mm, Y: 30 * mm}, "sheet", page.Face{Size: 12 * page.Pt})
		}
		b := bytes.Buffer{}
		if n, err := d.WriteTo(&full{left}); n < int64(size)/2 && !errors.Is(err, errFull) {
			t.Errorf("room for %d bytes: wrote %d, error %v, buffer %d", left, n, err, b.Len())
		}
	}
}

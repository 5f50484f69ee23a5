package vector

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"shadewright/fonts"
	"shadewright/render/page"
	"shadewright/ticket/measure"
)

const m = measure.Millimetre

func at(x, y measure.Length) page.Point { return page.Point{X: x, Y: y} }

// sample has one of every shape on 300 × 120 mm.
func sample() *Picture {
	p := New("Test & <marks>", measure.Size{Width: 300 * m, Length: 120 * m})
	p.Layer("fold-lines")
	p.Line(at(10*m, 20*m), at(10*m+measure.Inch*10, 20*m), page.Pen{Width: m / 2, Dash: []measure.Length{8 * m, 3 * m}, Phase: m})
	p.Rect(page.Box(50*m, 50*m, 30*m, 40*m), page.Pen{})
	p.Fill(page.Box(1*m, 1*m, 2*m, 2*m), page.Black)
	p.Circle(at(100*m, 60*m), 5*m, page.Pen{})
	p.Disc(at(200*m, 60*m), 2*m, page.Black)
	p.Text(at(20*m, 30*m), "left, 31\u2009⅝\u00a0in ≈ é", page.Face{Size: 10 * page.Pt, Weight: fonts.Bold})
	p.Text(at(150*m, 100*m), "upright", page.Face{Size: 10 * page.Pt, Align: page.Middle, Turn: 90})
	return p
}

// The SVG is well-formed, its unit is a millimetre and its layers are groups.
func TestSVG(t *testing.T) {
	type node struct {
		XMLName xml.Name
		Attrs   []xml.Attr `xml:",any,attr"`
		Text    string     `xml:",chardata"`
		Nodes   []node     `xml:",any"`
	}
	attr := func(n node, name string) string {
		for _, a := range n.Attrs {
			if a.Name.Local == name {
				return a.Value
			}
		}
		return ""
	}
	var root node
	if err := xml.Unmarshal(sample().SVG(), &root); err != nil {
		t.Fatal(err)
	}
	if root.XMLName.Space != "http://www.w3.org/2000/svg" || attr(root, "width") != "300mm" || attr(root, "height") != "120mm" || attr(root, "viewBox") != "0 0 300 120" {
		t.Errorf("the root is %v", root.Attrs)
	}
	layers := map[string][]node{}
	for _, n := range root.Nodes {
		if n.XMLName.Local == "g" {
			layers[attr(n, "id")] = n.Nodes[1:] // after the title
		}
	}
	if len(layers) != 2 || len(layers["fold-lines"]) != 4 || len(layers["words"]) != 3 {
		t.Fatalf("layers %v", layers)
	}
	for _, tt := range []struct {
		n          node
		name, want string
	}{
		{layers["fold-lines"][0], "d", "M10 20 L264 20"}, // 10 + 254
		{layers["fold-lines"][0], "stroke-dasharray", "8 3"},
		{layers["fold-lines"][0], "stroke-dashoffset", "1"},
		{layers["fold-lines"][1], "d", "M50 50 L80 50 L80 90 L50 90 Z"},
		{layers["fold-lines"][2], "fill", "#000000"},
		{layers["fold-lines"][3], "r", "5"},
		{layers["words"][1], "font-weight", "700"},
		{layers["words"][2], "transform", "rotate(-90 150 100)"},
		{layers["words"][2], "text-anchor", "middle"},
	} {
		if got := attr(tt.n, tt.name); got != tt.want {
			t.Errorf("%s of %s is %q; want %q", tt.name, tt.n.XMLName.Local, got, tt.want)
		}
	}
	if got := layers["words"][1].Text; got != "left, 31\u2009⅝\u00a0in ≈ é" {
		t.Errorf("the words are %q", got)
	}
}

// A pair is a group code and its value, as in the release 12 reference.
type pair struct {
	code  int
	value string
}

func pairs(t *testing.T, data []byte) []pair {
	t.Helper()
	lines := strings.Split(strings.TrimSuffix(string(data), "\r\n"), "\r\n")
	if len(lines)%2 != 0 {
		t.Fatalf("%d lines; want pairs", len(lines))
	}
	var all []pair
	for i := 0; i < len(lines); i += 2 {
		var p pair
		if _, err := fmt.Sscanf(lines[i], "%3d", &p.code); err != nil || len(lines[i]) != 3 {
			t.Fatalf("line %d: %q is not a group code", i+1, lines[i])
		}
		p.value = lines[i+1]
		all = append(all, p)
	}
	return all
}

// entities returns the drawn entities: the kind, then its codes and values.
func entities(t *testing.T, data []byte) []string {
	t.Helper()
	var out []string
	in := false
	all := pairs(t, data)
	for i, p := range all {
		switch {
		case p == (pair{2, "ENTITIES"}) && all[i-1] == (pair{0, "SECTION"}):
			in = true
		case in && p == (pair{0, "ENDSEC"}):
			in = false
		case in && p.code == 0:
			out = append(out, p.value)
		case in:
			out[len(out)-1] += fmt.Sprintf(" %d=%s", p.code, p.value)
		}
	}
	if last := all[len(all)-1]; last != (pair{0, "EOF"}) {
		t.Errorf("the file ends with %v", last)
	}
	return out
}

// By hand: y runs up, so 20 mm from the top of 120 becomes 100. Type of 10 pt
// has capitals of 0.656 em (the face's own table): 3.52778 × 0.656 = 2.314 mm.
func TestDXF(t *testing.T) {
	got := entities(t, sample().DXF())
	want := []string{
		"LINE 8=FOLD_LINES 6=DASHED 10=10 20=100 11=264 21=100",
		"POLYLINE 8=FOLD_LINES 6=CONTINUOUS 66=1 70=1",
		"VERTEX 8=FOLD_LINES 10=50 20=70", "VERTEX 8=FOLD_LINES 10=80 20=70", "VERTEX 8=FOLD_LINES 10=80 20=30", "VERTEX 8=FOLD_LINES 10=50 20=30",
		"SEQEND 8=FOLD_LINES",
		"POLYLINE 8=FOLD_LINES 6=CONTINUOUS 66=1 70=1",
		"VERTEX 8=FOLD_LINES 10=1 20=119", "VERTEX 8=FOLD_LINES 10=3 20=119", "VERTEX 8=FOLD_LINES 10=3 20=117", "VERTEX 8=FOLD_LINES 10=1 20=117",
		"SEQEND 8=FOLD_LINES",
		"CIRCLE 8=FOLD_LINES 10=100 20=60 40=5",
		"CIRCLE 8=WORDS 10=200 20=60 40=2",
		`TEXT 8=WORDS 10=20 20=90 40=2.314223 1=left, 31 5/8 in ~ \U+00E9`,
		"TEXT 8=WORDS 10=150 20=20 40=2.314223 1=upright 50=90 72=1 11=150 21=20",
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("drawn:\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	for _, b := range sample().DXF() {
		if b >= 128 {
			t.Fatal("the file is not ASCII")
		}
	}
}

// readBack is a script that prints a file as read by the independent library
// ezdxf.
const readBack = `
import sys
try:
    import ezdxf
except ImportError:
    sys.exit(77)
from ezdxf.lldxf.encoding import decode_dxf_unicode
d = ezdxf.readfile(sys.argv[1])
errors = d.audit().errors
print(d.dxfversion, len(errors), *errors)
for e in d.modelspace():
    if e.dxftype() == 'LINE':
        print('LINE', e.dxf.layer, e.dxf.linetype, *(round(v, 6) for v in (e.dxf.start.x, e.dxf.start.y, e.dxf.end.x, e.dxf.end.y)))
    if e.dxftype() == 'TEXT':
        print('TEXT', e.dxf.layer, decode_dxf_unicode(e.dxf.text).encode('unicode_escape').decode())
    if e.dxftype() == 'POLYLINE':
        print('POLYLINE', e.is_closed, *(round(v, 6) for p in e.points() for v in (p[0], p[1])))
`

func TestDXFReadBack(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.dxf")
	if err := os.WriteFile(path, sample().DXF(), 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("python3", "-c", readBack, path).CombinedOutput()
	var exit *exec.ExitError
	if errors.Is(err, exec.ErrNotFound) || errors.As(err, &exit) && exit.ExitCode() == 77 {
		t.Skip("python3 with ezdxf (package python3-ezdxf) is not installed")
	}
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	const want = `AC1009 0
LINE FOLD_LINES DASHED 10.0 100.0 264.0 100.0
POLYLINE True 50.0 70.0 80.0 70.0 80.0 30.0 50.0 30.0
POLYLINE True 1.0 119.0 3.0 119.0 3.0 117.0 1.0 117.0
TEXT WORDS left, 31 5/8 in ~ \xe9
TEXT WORDS upright
`
	if string(out) != want {
		t.Errorf("read back:\n%s\nwant\n%s", out, want)
	}
}

// A ready-made fraction becomes ASCII, with a space after the whole number.
func TestDXFFractions(t *testing.T) {
	for in, want := range map[string]string{"27½ by 31⅝": "27 1/2 by 31 5/8", "⅞": "7/8", "4\u2009¼": "4 1/4", "31\u20095\u20448": "31 5/8"} {
		p := New("fractions", measure.Size{Width: 100 * m, Length: 50 * m})
		p.Layer("words")
		p.Text(at(10*m, 10*m), in, page.Face{Size: 10 * page.Pt})
		if got := entities(t, p.DXF()); len(got) != 1 || !strings.HasSuffix(got[0], " 1="+want) {
			t.Errorf("%q is written as %q; want %q", in, got, want)
		}
	}
}

// The same picture gives the same bytes.
func TestSameBytes(t *testing.T) {
	if !bytes.Equal(sample().SVG(), sample().SVG()) || !bytes.Equal(sample().DXF(), sample().DXF()) {
		t.Error("two pictures of the same differ")
	}
	if _, err := io.Discard.Write(New("empty", measure.Size{}).SVG()); err != nil {
		t.Error(err)
	}
}

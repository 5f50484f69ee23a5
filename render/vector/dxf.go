package vector

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// DXF returns the picture as an ASCII drawing exchange file of release 12, for
// cutting machines: lines, outlines, circles and text by layer. One unit is a
// millimetre, and y runs up from the lower left corner. The group codes are
// those of the release 12 reference: 0 kind, 2 name, 8 layer, 6 line type,
// 10/20 point, 40 size, 50 turn.
func (p *Picture) DXF() []byte {
	d := &dxf{height: p.size.Length}
	d.put(0, "SECTION", 2, "HEADER", 9, "$ACADVER", 1, "AC1009",
		9, "$EXTMIN", 10, "0", 20, "0", 9, "$EXTMAX", 10, mm(p.size.Width), 20, mm(p.size.Length), 0, "ENDSEC")
	d.tables(p.layers)
	d.put(0, "SECTION", 2, "ENTITIES")
	for _, l := range p.layers {
		d.layer = upper(l.name)
		for _, s := range l.shapes {
			d.shape(s)
		}
	}
	d.put(0, "ENDSEC", 0, "EOF")
	return d.b.Bytes()
}

type dxf struct {
	b      bytes.Buffer
	height measure.Length
	layer  string
}

// put writes pairs of a group code and a value, one line each.
func (d *dxf) put(pairs ...any) {
	for i := 0; i < len(pairs); i += 2 {
		fmt.Fprintf(&d.b, "%3d\r\n%v\r\n", pairs[i], pairs[i+1])
	}
}

// lineTypes lists the dash patterns in millimetres: ink is positive, a gap
// negative.
var lineTypes = []struct {
	name, shows string
	dash        []float64
}{
	{"CONTINUOUS", "solid", nil},
	{"DASHED", "__ __", []float64{8, -3}},
	{"SHORT", "- - -", []float64{2, -2}},
	{"CENTRE", "__ . __", []float64{8, -2, 1, -2}},
}

func (d *dxf) tables(layers []layer) {
	d.put(0, "SECTION", 2, "TABLES", 0, "TABLE", 2, "LTYPE", 70, len(lineTypes))
	for _, t := range lineTypes {
		length := 0.0
		for _, v := range t.dash {
			length += math.Abs(v)
		}
		d.put(0, "LTYPE", 2, t.name, 70, 0, 3, t.shows, 72, 65, 73, len(t.dash), 40, length)
		for _, v := range t.dash {
			d.put(49, v)
		}
	}
	d.put(0, "ENDTAB", 0, "TABLE", 2, "LAYER", 70, len(layers))
	for _, l := range layers {
		d.put(0, "LAYER", 2, upper(l.name), 70, 0, 62, 7, 6, "CONTINUOUS")
	}
	d.put(0, "ENDTAB", 0, "TABLE", 2, "STYLE", 70, 1,
		0, "STYLE", 2, "STANDARD", 70, 0, 40, 0, 41, 1, 50, 0, 71, 0, 42, 2.5, 3, "txt", 4, "", 0, "ENDTAB", 0, "ENDSEC")
}

func upper(name string) string { return strings.ToUpper(strings.ReplaceAll(name, "-", "_")) }

// lineType returns the name of the pen's dash pattern.
func lineType(pen page.Pen) string {
	switch {
	case len(pen.Dash) == 0:
		return "CONTINUOUS"
	case len(pen.Dash) > 2:
		return "CENTRE"
	case pen.Dash[0] > 4*measure.Millimetre:
		return "DASHED"
	}
	return "SHORT"
}

func (d *dxf) point(code int, p page.Point) {
	d.put(code, mm(p.X), code+10, mm(d.height-p.Y))
}

func (d *dxf) shape(s shape) {
	switch s.what {
	case outline, filled:
		d.outline(s)
	case circle, disc:
		d.put(0, "CIRCLE", 8, d.layer)
		d.point(10, s.points[0])
		d.put(40, mm(s.radius))
	case letters:
		d.letters(s)
	}
}

func (d *dxf) outline(s shape) {
	if len(s.points) == 2 {
		d.put(0, "LINE", 8, d.layer, 6, lineType(s.pen))
		d.point(10, s.points[0])
		d.point(11, s.points[1])
		return
	}
	closed := 0
	if s.closed {
		closed = 1
	}
	d.put(0, "POLYLINE", 8, d.layer, 6, lineType(s.pen), 66, 1, 70, closed)
	for _, q := range s.points {
		d.put(0, "VERTEX", 8, d.layer)
		d.point(10, q)
	}
	d.put(0, "SEQEND", 8, d.layer)
}

func (d *dxf) letters(s shape) {
	at := s.points[0]
	d.put(0, "TEXT", 8, d.layer)
	d.point(10, at)
	d.put(40, mm(s.face.CapHeight()), 1, ascii(s.text))
	if s.face.Turn != 0 {
		d.put(50, s.face.Turn)
	}
	if s.face.Align != page.Start {
		d.put(72, int(s.face.Align))
		d.point(11, at)
	}
}

// plainer maps typographic characters to ASCII.
var plainer = strings.NewReplacer("’", "'", "‘", "'", "“", `"`, "”", `"`, "≈", "~", "×", "x", "⁄", "/",
	"\u2009", " ", "\u00a0", " ", "–", "-", "—", "-", "−", "-", "\n", " ")

// fractions maps ready-made fractions, which a job's note may have, to ASCII.
var fractions = map[rune]string{'½': "1/2", '¼': "1/4", '¾': "3/4", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8",
	'⅓': "1/3", '⅔': "2/3"}

// ascii returns s as release 12 can hold it: a character beyond ASCII becomes
// its number, as in \U+00E9, which readers of later releases show correctly. A
// space separates a fraction from the digit before it, because 27½ must not
// become 271/2.
func ascii(s string) string {
	var b strings.Builder
	var last rune
	for _, r := range plainer.Replace(s) {
		switch f, ok := fractions[r]; {
		case ok && '0' <= last && last <= '9':
			b.WriteString(" " + f)
		case ok:
			b.WriteString(f)
		case r < 128 && r >= ' ':
			b.WriteRune(r)
		default:
			fmt.Fprintf(&b, `\U+%04X`, r)
		}
		last = r
	}
	return b.String()
}

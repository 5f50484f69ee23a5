package vector

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"strings"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// SVG returns the picture as SVG 1.1. One user unit is a millimetre, and width
// and height are given in millimetres. Each layer is a group with the layer's
// name as id and title.
func (p *Picture) SVG() []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="%[1]smm" height="%[2]smm" viewBox="0 0 %[1]s %[2]s">
<title>%[3]s</title>
`, mm(p.size.Width), mm(p.size.Length), escaped(p.title))
	for _, l := range p.layers {
		if len(l.shapes) == 0 {
			continue
		}
		fmt.Fprintf(&b, "<g id=\"%s\" fill=\"none\" stroke=\"none\">\n<title>%s</title>\n", l.name, escaped(strings.ReplaceAll(l.name, "-", " ")))
		for _, s := range l.shapes {
			s.svg(&b)
		}
		b.WriteString("</g>\n")
	}
	b.WriteString("</svg>\n")
	return b.Bytes()
}

func (s shape) svg(b *bytes.Buffer) {
	at := s.points[0]
	switch s.what {
	case outline, filled:
		fmt.Fprintf(b, `<path d="%s" %s/>`, path(s.points, s.closed), s.paint())
	case circle, disc:
		fmt.Fprintf(b, `<circle cx="%s" cy="%s" r="%s" %s/>`, mm(at.X), mm(at.Y), mm(s.radius), s.paint())
	case letters:
		weight := [...]string{"400", "600", "700"}[s.face.Weight]
		anchor := [...]string{"start", "middle", "end"}[s.face.Align]
		turn := ""
		if s.face.Turn != 0 { // page angles are counter-clockwise, SVG angles clockwise
			turn = fmt.Sprintf(` transform="rotate(%d %s %s)"`, -s.face.Turn, mm(at.X), mm(at.Y))
		}
		fmt.Fprintf(b, `<text x="%s" y="%s" font-family="sans-serif" font-size="%s" font-weight="%s" text-anchor="%s" fill="%s"%s xml:space="preserve">%s</text>`,
			mm(at.X), mm(at.Y), mm(s.face.Size), weight, anchor, colour(s.face.Gray), turn, escaped(s.text))
	}
	b.WriteByte('\n')
}

// paint returns the stroke or fill attributes.
func (s shape) paint() string {
	if s.what == filled || s.what == disc {
		return `fill="` + colour(s.gray) + `"`
	}
	width := s.pen.Width
	if width <= 0 {
		width = page.Hairline
	}
	out := fmt.Sprintf(`stroke="%s" stroke-width="%s"`, colour(s.pen.Gray), mm(width))
	if len(s.pen.Dash) > 0 {
		dash := make([]string, len(s.pen.Dash))
		for i, d := range s.pen.Dash {
			dash[i] = mm(d)
		}
		out += fmt.Sprintf(` stroke-dasharray="%s" stroke-dashoffset="%s"`, strings.Join(dash, " "), mm(s.pen.Phase))
	}
	return out
}

// colour returns a grey as an SVG colour.
func colour(g page.Gray) string {
	v := int(g) * 255 / int(page.White)
	return fmt.Sprintf("#%02x%02x%02x", v, v, v)
}

func path(pts []page.Point, closed bool) string {
	var b strings.Builder
	for i, q := range pts {
		b.WriteString([...]string{"M", " L"}[min(i, 1)])
		b.WriteString(mm(q.X) + " " + mm(q.Y))
	}
	if closed {
		b.WriteString(" Z")
	}
	return b.String()
}

func escaped(s string) string {
	var b bytes.Buffer
	if err := xml.EscapeText(&b, []byte(s)); err != nil {
		return "" // writing to a buffer never fails
	}
	return b.String()
}

// Size returns the picture's size.
func (p *Picture) Size() measure.Size { return p.size }

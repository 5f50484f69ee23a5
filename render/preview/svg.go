package preview

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"slices"
	"strconv"

	"shadewright/fonts"
	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// SVG returns a page, numbered from 1, of a written document as SVG 1.1. One
// user unit is a millimetre. Letters are outlines, so they need no font and
// stand exactly where the PDF has them. Each glyph is defined once.
func SVG(d *page.Document, number int) ([]byte, error) {
	s := svg{shapes: map[glyph]*fonts.Shape{}}
	if err := d.Replay(number, &s); err != nil {
		return nil, err
	}
	if s.err != nil {
		return nil, s.err
	}
	var title bytes.Buffer
	words := fmt.Sprintf("%s, page %d of %d", d.Info().Title, number, d.Pages())
	if err := xml.EscapeText(&title, []byte(words)); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	size := d.Size(number)
	w, h := millimetres(size.Width), millimetres(size.Length)
	fmt.Fprintf(&b, `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" version="1.1" width="%[1]smm" height="%[2]smm" viewBox="0 0 %[1]s %[2]s">
<title>%[3]s</title>
<defs>
`, w, h, title.Bytes())
	s.define(&b)
	// A white page, shapes without a fill, and the miter limit of PDF (ISO 32000-1, table 52).
	fmt.Fprintf(&b, "</defs>\n<rect width=\"%s\" height=\"%s\" fill=\"#fff\"/>\n<g fill=\"none\" stroke-miterlimit=\"%d\">\n", w, h, miterLimit)
	b.Write(s.body.Bytes())
	b.WriteString("</g>\n</svg>\n")
	return b.Bytes(), nil
}

// A glyph is one shape of one face.
type glyph struct {
	weight fonts.Weight
	index  uint16
}

// name returns the glyph's id in the file.
func (g glyph) name() string { return "rsb"[g.weight:g.weight+1] + strconv.Itoa(int(g.index)) }

// An svg is a page being written as SVG.
type svg struct {
	body   bytes.Buffer
	shapes map[glyph]*fonts.Shape
	err    error
}

// Stroke writes the line along a path.
func (s *svg) Stroke(p page.Path, pen page.Pen) {
	s.path(p)
	fmt.Fprintf(&s.body, ` stroke="%s" stroke-width="%s"`, colour(pen.Gray), millimetres(pen.Width))
	if len(pen.Dash) > 0 {
		s.body.WriteString(` stroke-dasharray="`)
		for i, d := range pen.Dash {
			if i > 0 {
				s.body.WriteByte(' ')
			}
			s.body.WriteString(millimetres(d))
		}
		s.body.WriteByte('"')
		if pen.Phase != 0 {
			fmt.Fprintf(&s.body, ` stroke-dashoffset="%s"`, millimetres(pen.Phase))
		}
	}
	s.body.WriteString("/>\n")
}

// Fill writes a painted area.
func (s *svg) Fill(p page.Path, g page.Gray) {
	s.path(p)
	fmt.Fprintf(&s.body, " fill=\"%s\"/>\n", colour(g))
}

// path begins a path element.
func (s *svg) path(p page.Path) {
	b := &s.body
	b.WriteString(`<path d="`)
	point := func(q page.Point) { b.WriteString(millimetres(q.X) + " " + millimetres(q.Y)) }
	for _, g := range p {
		switch g.Kind {
		case page.Move:
			b.WriteByte('M')
			point(g.To)
		case page.Straight:
			b.WriteByte('L')
			point(g.To)
		case page.Curve:
			b.WriteByte('C')
			point(g.C1)
			b.WriteByte(' ')
			point(g.C2)
			b.WriteByte(' ')
			point(g.To)
		case page.Close:
			b.WriteByte('Z')
		}
	}
	b.WriteByte('"')
}

// Letters writes references to glyphs, with positions in thousandths of the
// type size.
func (s *svg) Letters(l page.Letters, g page.Gray) {
	scale := l.Size.Millimetres() / fonts.Em
	turned := func(v float64) string { return decimal(v*scale, 7) }
	fmt.Fprintf(&s.body, `<g fill="%s" transform="matrix(%s %s %s %s %s %s)">`, colour(g),
		turned(l.Cos), turned(-l.Sin), turned(-l.Sin), turned(-l.Cos), millimetres(l.At.X), millimetres(l.At.Y))
	for _, p := range l.Glyphs {
		k := glyph{l.Weight, p.Index}
		shape := s.shapes[k]
		if shape == nil {
			var err error
			if shape, err = l.Weight.Shape(p.Index); err != nil {
				s.err = err
				return
			}
			s.shapes[k] = shape
		}
		if len(shape.Segments) > 0 { // a space has none
			fmt.Fprintf(&s.body, `<use xlink:href="#%s" x="%d"/>`, k.name(), p.Along)
		}
	}
	s.body.WriteString("</g>\n")
}

// define writes the definition of every glyph of the page, in the order of
// their names.
func (s *svg) define(b *bytes.Buffer) {
	var all []glyph
	for k := range s.shapes {
		all = append(all, k)
	}
	slices.SortFunc(all, func(a, b glyph) int {
		return (int(a.weight)-int(b.weight))<<16 + int(a.index) - int(b.index)
	})
	point := func(p [2]int) string {
		return decimal(float64(p[0])/fonts.Fine, 6) + " " + decimal(float64(p[1])/fonts.Fine, 6)
	}
	for _, k := range all {
		if len(s.shapes[k].Segments) == 0 {
			continue
		}
		fmt.Fprintf(b, `<path id="%s" d="`, k.name())
		for _, g := range s.shapes[k].Segments {
			switch g.Kind {
			case fonts.Move:
				b.WriteString("M" + point(g.To))
			case fonts.Line:
				b.WriteString("L" + point(g.To))
			case fonts.Quad:
				b.WriteString("Q" + point(g.Control) + " " + point(g.To))
			}
		}
		b.WriteString("Z\"/>\n")
	}
}

// colour returns a grey as an SVG colour.
func colour(g page.Gray) string {
	v := shade(g)
	return fmt.Sprintf("#%02x%02x%02x", v, v, v)
}

// millimetres returns a length in millimetres to the micrometre.
func millimetres(l measure.Length) string { return decimal(l.Millimetres(), 3) }

// decimal returns v with at most the given number of decimals.
func decimal(v float64, decimals int) string {
	b := strconv.AppendFloat(nil, v, 'f', decimals, 64)
	for b[len(b)-1] == '0' {
		b = b[:len(b)-1]
	}
	if b[len(b)-1] == '.' {
		b = b[:len(b)-1]
	}
	if string(b) == "-0" {
		return "0"
	}
	return string(b)
}

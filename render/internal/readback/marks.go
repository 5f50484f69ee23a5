package readback

import (
	"slices"
	"strings"

	"github.com/klippa-app/go-pdfium/enums"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
)

// A Point is a place on a page.
type Point struct{ X, Y float64 }

// A Line is a stroked straight line.
type Line struct {
	From, To Point
	Width    float64
	Dash     []float64 // empty if solid
	Phase    float64
	Gray     float64 // 0 black, 1 white
}

// An Area is a painted upright rectangle.
type Area struct {
	Min, Max Point
	Gray     float64
}

// A Text is a piece of text as drawn, without the trailing spaces that PDFium
// adds. At is the start of its baseline.
type Text struct {
	At   Point
	Size float64 // of the type
	Turn Point   // direction of the baseline: (1, 0) is level, (0, -1) reads upward
	Text string
	// The box around the ink.
	Min, Max Point
}

// A Round is a stroked closed curve: the middle and the extent of the points
// where its pieces meet. For a circle in quarters or eighths these are its
// centre and its diameter both ways.
type Round struct {
	Centre        Point
	Width, Height float64
}

// Marks lists the marks on a page, in order. The outlines of rectangles and
// polygons count as lines. Other counts all other marks: filled polygons, open
// curves, pictures.
type Marks struct {
	Lines  []Line
	Areas  []Area
	Rounds []Round
	Texts  []Text
	Other  int
}

// Marks returns the marks on a page.
func (d *Document) Marks(page int) Marks {
	d.t.Helper()
	loaded, err := d.lib.FPDF_LoadPage(&requests.FPDF_LoadPage{Document: d.ref, Index: page})
	d.must(err)
	text, err := d.lib.FPDFText_LoadPage(&requests.FPDFText_LoadPage{Page: requests.Page{ByReference: &loaded.Page}})
	d.must(err)
	r := reader{Document: d, text: text.TextPage}
	_, r.height = d.Size(page)
	count, err := d.lib.FPDFPage_CountObjects(&requests.FPDFPage_CountObjects{Page: requests.Page{ByReference: &loaded.Page}})
	d.must(err)
	for i := range count.Count {
		obj, err := d.lib.FPDFPage_GetObject(&requests.FPDFPage_GetObject{Page: requests.Page{ByReference: &loaded.Page}, Index: i})
		d.must(err)
		r.object(obj.PageObject)
	}
	_, err = d.lib.FPDFText_ClosePage(&requests.FPDFText_ClosePage{TextPage: text.TextPage})
	d.must(err)
	_, err = d.lib.FPDF_ClosePage(&requests.FPDF_ClosePage{Page: loaded.Page})
	d.must(err)
	return r.marks
}

// A reader collects the marks of one page.
type reader struct {
	*Document
	text   references.FPDF_TEXTPAGE
	height float64
	marks  Marks
}

func (r *reader) at(x, y float64) Point { return Point{mm(x), r.height - mm(y)} }

func (r *reader) object(obj references.FPDF_PAGEOBJECT) {
	r.t.Helper()
	kind, err := r.lib.FPDFPageObj_GetType(&requests.FPDFPageObj_GetType{PageObject: obj})
	r.must(err)
	switch kind.Type {
	case enums.FPDF_PAGEOBJ_PATH:
		r.path(obj)
	case enums.FPDF_PAGEOBJ_TEXT:
		r.words(obj)
	default:
		r.marks.Other++
	}
}

// A matrix maps an object's coordinates to the page.
type matrix struct{ a, b, c, d, e, f float64 }

func (r *reader) matrix(obj references.FPDF_PAGEOBJECT) matrix {
	r.t.Helper()
	m, err := r.lib.FPDFPageObj_GetMatrix(&requests.FPDFPageObj_GetMatrix{PageObject: obj})
	r.must(err)
	v := m.Matrix
	return matrix{float64(v.A), float64(v.B), float64(v.C), float64(v.D), float64(v.E), float64(v.F)}
}

func (r *reader) words(obj references.FPDF_PAGEOBJECT) {
	r.t.Helper()
	m := r.matrix(obj)
	s, err := r.lib.FPDFTextObj_GetText(&requests.FPDFTextObj_GetText{PageObject: obj, TextPage: r.text})
	r.must(err)
	size, err := r.lib.FPDFTextObj_GetFontSize(&requests.FPDFTextObj_GetFontSize{PageObject: obj})
	r.must(err)
	b, err := r.lib.FPDFPageObj_GetBounds(&requests.FPDFPageObj_GetBounds{PageObject: obj})
	r.must(err)
	r.marks.Texts = append(r.marks.Texts, Text{
		At: r.at(m.e, m.f), Size: mm(float64(size.FontSize)), Turn: Point{m.a, -m.b}, Text: strings.TrimRight(s.Text, " "),
		Min: r.at(float64(b.Left), float64(b.Top)), Max: r.at(float64(b.Right), float64(b.Bottom)),
	})
}

func (r *reader) path(obj references.FPDF_PAGEOBJECT) {
	r.t.Helper()
	mode, err := r.lib.FPDFPath_GetDrawMode(&requests.FPDFPath_GetDrawMode{PageObject: obj})
	r.must(err)
	outlines, straight := r.outlines(obj)
	switch filled := mode.FillMode != enums.FPDF_FILLMODE_NONE; {
	case !straight && mode.Stroke && !filled:
		r.round(obj)
	case !straight, mode.Stroke && filled:
		r.marks.Other++
	case mode.Stroke:
		r.stroke(obj, slices.Concat(outlines...))
	case filled:
		for _, o := range outlines {
			r.area(obj, o)
		}
	}
}

// round records a path that is one closed curve.
func (r *reader) round(obj references.FPDF_PAGEOBJECT) {
	r.t.Helper()
	m := r.matrix(obj)
	n, err := r.lib.FPDFPath_CountSegments(&requests.FPDFPath_CountSegments{PageObject: obj})
	r.must(err)
	var xs, ys []float64
	curves, closed := 0, false
	for i := range n.Count {
		kind, p, end := r.segment(obj, i, m)
		switch {
		case i == 0: // the start
		case kind == enums.FPDF_SEGMENT_BEZIERTO:
			curves++
			if curves%3 != 0 { // a control point
				continue
			}
		default:
			r.marks.Other++
			return
		}
		xs, ys = append(xs, p.X), append(ys, p.Y)
		closed = end
	}
	if !closed {
		r.marks.Other++
		return
	}
	left, right, top, bottom := slices.Min(xs), slices.Max(xs), slices.Min(ys), slices.Max(ys)
	r.marks.Rounds = append(r.marks.Rounds, Round{Point{(left + right) / 2, (top + bottom) / 2}, right - left, bottom - top})
}

// outlines returns the straight lines of each part of the path, or false if the
// path has a curve.
func (r *reader) outlines(obj references.FPDF_PAGEOBJECT) (parts [][][2]Point, straight bool) {
	r.t.Helper()
	m := r.matrix(obj)
	n, err := r.lib.FPDFPath_CountSegments(&requests.FPDFPath_CountSegments{PageObject: obj})
	r.must(err)
	var first, last Point
	add := func(a, b Point) {
		if a != b {
			parts[len(parts)-1] = append(parts[len(parts)-1], [2]Point{a, b})
		}
	}
	for i := range n.Count {
		kind, p, end := r.segment(obj, i, m)
		switch kind {
		case enums.FPDF_SEGMENT_MOVETO:
			parts = append(parts, nil)
			first = p
		case enums.FPDF_SEGMENT_LINETO:
			add(last, p)
		default:
			return nil, false
		}
		last = p
		if end {
			add(last, first)
			last = first
		}
	}
	return parts, true
}

// segment returns a segment's kind, its end on the page, and whether it closes
// its outline.
func (r *reader) segment(obj references.FPDF_PAGEOBJECT, i int, m matrix) (enums.FPDF_SEGMENT, Point, bool) {
	r.t.Helper()
	seg, err := r.lib.FPDFPath_GetPathSegment(&requests.FPDFPath_GetPathSegment{PageObject: obj, Index: i})
	r.must(err)
	kind, err := r.lib.FPDFPathSegment_GetType(&requests.FPDFPathSegment_GetType{PathSegment: seg.PathSegment})
	r.must(err)
	v, err := r.lib.FPDFPathSegment_GetPoint(&requests.FPDFPathSegment_GetPoint{PathSegment: seg.PathSegment})
	r.must(err)
	end, err := r.lib.FPDFPathSegment_GetClose(&requests.FPDFPathSegment_GetClose{PathSegment: seg.PathSegment})
	r.must(err)
	x, y := float64(v.X), float64(v.Y)
	return kind.Type, r.at(m.a*x+m.c*y+m.e, m.b*x+m.d*y+m.f), end.IsClose
}

func (r *reader) stroke(obj references.FPDF_PAGEOBJECT, outline [][2]Point) {
	r.t.Helper()
	width, err := r.lib.FPDFPageObj_GetStrokeWidth(&requests.FPDFPageObj_GetStrokeWidth{PageObject: obj})
	r.must(err)
	colour, err := r.lib.FPDFPageObj_GetStrokeColor(&requests.FPDFPageObj_GetStrokeColor{PageObject: obj})
	r.must(err)
	l := Line{Width: mm(float64(width.StrokeWidth)), Gray: float64(colour.StrokeColor.R) / 255}
	count, err := r.lib.FPDFPageObj_GetDashCount(&requests.FPDFPageObj_GetDashCount{PageObject: obj})
	r.must(err)
	if count.DashCount > 0 {
		dash, err := r.lib.FPDFPageObj_GetDashArray(&requests.FPDFPageObj_GetDashArray{PageObject: obj})
		r.must(err)
		for _, v := range dash.DashArray {
			l.Dash = append(l.Dash, mm(float64(v)))
		}
		phase, err := r.lib.FPDFPageObj_GetDashPhase(&requests.FPDFPageObj_GetDashPhase{PageObject: obj})
		r.must(err)
		l.Phase = mm(float64(phase.DashPhase))
	}
	for _, ends := range outline {
		l.From, l.To = ends[0], ends[1]
		r.marks.Lines = append(r.marks.Lines, l)
	}
}

// area records a filled path that is an upright rectangle.
func (r *reader) area(obj references.FPDF_PAGEOBJECT, outline [][2]Point) {
	r.t.Helper()
	if len(outline) != 4 {
		r.marks.Other++
		return
	}
	var xs, ys []float64
	for _, l := range outline {
		if l[0].X != l[1].X && l[0].Y != l[1].Y {
			r.marks.Other++
			return
		}
		xs, ys = append(xs, l[0].X), append(ys, l[0].Y)
	}
	colour, err := r.lib.FPDFPageObj_GetFillColor(&requests.FPDFPageObj_GetFillColor{PageObject: obj})
	r.must(err)
	r.marks.Areas = append(r.marks.Areas, Area{
		Min: Point{slices.Min(xs), slices.Min(ys)}, Max: Point{slices.Max(xs), slices.Max(ys)},
		Gray: float64(colour.FillColor.R) / 255,
	})
}

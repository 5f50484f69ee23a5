package fonts

import (
	"fmt"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Fine is the number of parts of a font unit in outline coordinates: TrueType
// curves have points half-way between two others.
const Fine = 64

// A Shape is the outline of a glyph from the start of its baseline, and its
// advance in font units. Do not change a shape.
type Shape struct {
	Advance  int
	Segments []Segment
}

// A Segment is a piece of an outline: a move to the start of a contour, a line,
// or a quadratic curve with one control point. Contours are closed and filled
// by the non-zero winding rule.
type Segment struct {
	Kind        SegmentKind
	Control, To [2]int // x to the right and y up, in 1/64 of a font unit
}

// A SegmentKind says how a segment is drawn.
type SegmentKind uint8

// The kinds of segments.
const (
	Move SegmentKind = iota
	Line
	Quad
)

// Shape returns the shape of the glyph with the given index. An index that the
// face does not have is an error.
func (w Weight) Shape(index uint16) (*Shape, error) {
	t := tables[w]()
	if s, ok := t.shapes.Load(index); ok {
		return s.(*Shape), nil
	}
	s, err := shapeOf(t.face, sfnt.GlyphIndex(index))
	if err != nil {
		return nil, fmt.Errorf("glyph %d of %v: %w", index, w, err)
	}
	t.shapes.Store(index, s)
	return s, nil
}

func shapeOf(f *sfnt.Font, index sfnt.GlyphIndex) (*Shape, error) {
	var buf sfnt.Buffer
	a, err := f.GlyphAdvance(&buf, index, fixed.I(Em), font.HintingNone)
	if err != nil {
		return nil, err
	}
	list, err := f.LoadGlyph(&buf, index, fixed.I(Em), nil)
	if err != nil {
		return nil, err
	}
	s := &Shape{Advance: a.Round(), Segments: make([]Segment, len(list))}
	at := func(p fixed.Point26_6) [2]int { return [2]int{int(p.X), -int(p.Y)} } // the library's y runs down
	for i, g := range list {
		switch g.Op {
		case sfnt.SegmentOpMoveTo:
			s.Segments[i] = Segment{Kind: Move, To: at(g.Args[0])}
		case sfnt.SegmentOpLineTo:
			s.Segments[i] = Segment{Kind: Line, To: at(g.Args[0])}
		case sfnt.SegmentOpQuadTo:
			s.Segments[i] = Segment{Kind: Quad, Control: at(g.Args[0]), To: at(g.Args[1])}
		default: // TrueType faces have no cubic curves
			return nil, fmt.Errorf("the outline has a segment of unknown kind %d", g.Op)
		}
	}
	return s, nil
}

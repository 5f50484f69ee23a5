package fonts

import (
	"fmt"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Fine is how many parts of a font unit an outline is drawn in: a TrueType curve
// has points that lie half-way between two others.
const Fine = 64

// A Shape is what a glyph looks like: its outline around the beginning of its
// baseline, and its advance in font units. A shape must not be changed.
type Shape struct {
	Advance  int
	Segments []Segment
}

// A Segment is a piece of an outline: a move to where a contour begins (no
// control point), a line (none) or a quadratic curve (one). Contours are closed
// and filled by the non-zero rule.
type Segment struct {
	Kind        SegmentKind
	Control, To [2]int // x to the right and y up, in 1/64 of a font unit
}

// A SegmentKind says what a segment does.
type SegmentKind uint8

// The kinds of segments.
const (
	Move SegmentKind = iota
	Line
	Quad
)

// Shape returns the glyph of the given number in the font; a number that the face
// does not have is an error.
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
	at := func(p fixed.Point26_6) [2]int { return [2]int{int(p.X), -int(p.Y)} } // the library counts y down
	for i, g := range list {
		switch g.Op {
		case sfnt.SegmentOpMoveTo:
			s.Segments[i] = Segment{Kind: Move, To: at(g.Args[0])}
		case sfnt.SegmentOpLineTo:
			s.Segments[i] = Segment{Kind: Line, To: at(g.Args[0])}
		case sfnt.SegmentOpQuadTo:
			s.Segments[i] = Segment{Kind: Quad, Control: at(g.Args[0]), To: at(g.Args[1])}
		default: // a TrueType face has no cubic curves
			return nil, fmt.Errorf("has a segment of kind %d", g.Op)
		}
	}
	return s, nil
}

package page

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"io"

	"shadewright/fonts"
	"shadewright/ticket/measure"
)

// A Surface receives the marks of a finished page, in the order in which they
// lie on the paper. Paths, dashes and glyphs are reused: copy them to keep them
// after the method returns.
type Surface interface {
	Stroke(p Path, pen Pen)    // flat ends; mitred corners, cut off beyond 10 pen widths
	Fill(p Path, g Gray)       // non-zero winding rule
	Letters(l Letters, g Gray) // filled
}

// A Path is one or more outlines. Each starts with a Move.
type Path []Segment

// A Segment is one piece of a path. To is its end; C1 and C2 are the control
// points of a cubic curve.
type Segment struct {
	Kind       SegmentKind
	C1, C2, To Point
}

// A SegmentKind says how a segment is drawn.
type SegmentKind uint8

// The kinds of segments.
const (
	Move SegmentKind = iota
	Straight
	Curve
	Close // a line back to the last Move, whose point is To
)

// Letters is a stretch of text in one face on one baseline, already kerned.
type Letters struct {
	Weight   fonts.Weight
	Size     measure.Length // of the type
	At       Point          // start of the baseline
	Sin, Cos float64        // of the baseline's direction, counter-clockwise as the reader sees it
	Glyphs   []Placed
}

// A Placed glyph is its index in the face and its start along the baseline, in
// thousandths of the type size.
type Placed struct {
	Index uint16
	Along int
}

// Replay draws a finished page, numbered from 1, on another surface. It reads
// the content written to the PDF, so the surface gets exactly what the PDF
// shows. A page is finished once another is added or the document is written.
// After writing, several goroutines may replay pages at once.
func (d *Document) Replay(number int, on Surface) error {
	if number < 1 || number > d.pages || number == d.pages && !d.written {
		return fmt.Errorf("page %d of %d is not finished; add the next page or write the document first", number, d.pages)
	}
	b := d.done[number-1]
	z, err := zlib.NewReader(bytes.NewReader(b.stream))
	if err != nil {
		return fmt.Errorf("page %d: %w", number, err)
	}
	stream, err := io.ReadAll(z)
	if err != nil {
		return fmt.Errorf("page %d: %w", number, err)
	}
	r := replay{rest: stream, on: on, height: boxMils(b.size.Length)}
	if err := r.all(); err != nil {
		return fmt.Errorf("page %d: %w", number, err)
	}
	return nil
}

// Size returns the size of a page, numbered from 1.
func (d *Document) Size(number int) measure.Size { return d.done[number-1].size }

// A replay reads the stream that a content wrote. It knows only the operators,
// and the forms of them, that content writes.
type replay struct {
	rest   []byte
	on     Surface
	height mil

	operands []int64 // in millionths
	path     Path
	from     Point // start of its current outline
	pen      Pen
	fill     Gray
	text     Letters
	inGlyphs bool // glyphs came before: a number is kerning
	along    int  // where the next glyph begins, in thousandths of the type size
}

func (r *replay) all() error {
	for len(r.rest) > 0 {
		var err error
		switch c := r.rest[0]; {
		case c <= ' ' || c == '[' || c == ']':
			r.rest = r.rest[1:]
		case numeral(c):
			r.number()
		case c == '<':
			err = r.glyphs()
		case c == '/':
			r.text.Weight = fonts.Weight(r.word()[2] - '1') // F1, F2, F3
		default:
			err = r.operator(string(r.word()))
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// word reads up to the next space or line break.
func (r *replay) word() []byte {
	w, rest := r.rest, []byte(nil)
	if n := bytes.IndexAny(w, " \n"); n >= 0 {
		w, rest = w[:n], w[n:]
	}
	r.rest = rest
	return w
}

func numeral(c byte) bool { return c == '-' || c == '.' || '0' <= c && c <= '9' }

// number reads a number with at most six decimals.
func (r *replay) number() {
	var v int64
	minus, scale, fraction := false, int64(1_000_000), false
	i := 0
	for ; i < len(r.rest) && numeral(r.rest[i]); i++ {
		switch c := r.rest[i]; c {
		case '-':
			minus = true
		case '.':
			fraction = true
		default:
			v = v*10 + int64(c-'0')
			if fraction {
				scale /= 10
			}
		}
	}
	r.rest = r.rest[i:]
	if v *= scale; minus {
		v = -v
	}
	if r.inGlyphs {
		r.along -= int(v / 1_000_000)
		return
	}
	r.operands = append(r.operands, v)
}

// glyphs reads glyph indexes in hexadecimal, four digits each. A number after
// them is kerning, and more glyphs may follow.
func (r *replay) glyphs() error {
	end := bytes.IndexByte(r.rest, '>')
	if end < 0 {
		return errors.New("the glyph string is not closed by >")
	}
	var codes [2]byte
	for hexed := r.rest[1:end]; len(hexed) > 0; hexed = hexed[4:] {
		if _, err := hex.Decode(codes[:], hexed[:4]); err != nil {
			return err
		}
		index := binary.BigEndian.Uint16(codes[:])
		shape, err := r.text.Weight.Shape(index)
		if err != nil {
			return err
		}
		r.text.Glyphs = append(r.text.Glyphs, Placed{Index: index, Along: r.along})
		r.along += shape.Advance
	}
	r.rest, r.inGlyphs = r.rest[end+1:], true
	return nil
}

// mil returns the i-th operand as a distance.
func (r *replay) mil(i int) mil { return mil(r.operands[i] / 1000) }

// point returns the i-th and next operand as a point on the page.
func (r *replay) point(i int) Point {
	return Point{fromMils(r.mil(i)), fromMils(r.height - r.mil(i+1))}
}

// operandCount is the number of operands of each operator; for d it is the
// minimum.
var operandCount = map[string]int{"g": 1, "G": 1, "w": 1, "d": 1, "m": 2, "l": 2, "c": 6, "re": 4, "h": 0, "S": 0, "f": 0,
	"BT": 0, "ET": 0, "Tf": 1, "Td": 2, "Tm": 6, "TJ": 0}

// operator carries out one operator and clears the operands.
func (r *replay) operator(op string) error {
	n, known := operandCount[op]
	if !known || len(r.operands) < n || len(r.operands) > n && op != "d" {
		return fmt.Errorf("operator %q with %d operands is not one that this package writes", op, len(r.operands))
	}
	switch op {
	case "g":
		r.fill = Gray(r.operands[0] / 10_000)
	case "G":
		r.pen.Gray = Gray(r.operands[0] / 10_000)
	case "w":
		r.pen.Width = fromMils(r.mil(0))
	case "d":
		r.dashes()
	case "S":
		r.on.Stroke(r.path, r.pen)
		r.path = r.path[:0]
	case "f":
		r.on.Fill(r.path, r.fill)
		r.path = r.path[:0]
	case "m", "l", "c", "re", "h":
		r.segment(op)
	default:
		r.letters(op)
	}
	r.operands = r.operands[:0]
	return nil
}

func (r *replay) dashes() {
	last := len(r.operands) - 1
	r.pen.Dash = nil // the surface may have kept the previous slice
	for i := range last {
		r.pen.Dash = append(r.pen.Dash, fromMils(r.mil(i)))
	}
	r.pen.Phase = fromMils(r.mil(last))
}

// segment adds to the path.
func (r *replay) segment(op string) {
	add := func(k SegmentKind, to Point) { r.path = append(r.path, Segment{Kind: k, To: to}) }
	switch op {
	case "m":
		r.from = r.point(0)
		add(Move, r.from)
	case "l":
		add(Straight, r.point(0))
	case "c":
		r.path = append(r.path, Segment{Kind: Curve, C1: r.point(0), C2: r.point(2), To: r.point(4)})
	case "h":
		add(Close, r.from)
	case "re": // counter-clockwise from the lower left corner
		x, y := r.mil(0), r.mil(1)
		left, right := fromMils(x), fromMils(x+r.mil(2))
		low, high := fromMils(r.height-y), fromMils(r.height-y-r.mil(3))
		r.from = Point{left, low}
		add(Move, r.from)
		add(Straight, Point{right, low})
		add(Straight, Point{right, high})
		add(Straight, Point{left, high})
		add(Close, r.from)
	}
}

// letters carries out a text operator.
func (r *replay) letters(op string) {
	switch op {
	case "BT":
		r.text.Sin, r.text.Cos = 0, 1
	case "Tf":
		r.text.Size = fromMils(r.mil(0))
	case "Td":
		r.text.At = r.point(0)
	case "Tm":
		r.text.Cos, r.text.Sin = float64(r.operands[0])/1e6, float64(r.operands[1])/1e6
		r.text.At = r.point(4)
	case "TJ":
		r.on.Letters(r.text, r.fill)
		r.text.Glyphs, r.along, r.inGlyphs = r.text.Glyphs[:0], 0, false
	}
}

package preview

import (
	"math"
	"slices"

	"shadewright/fonts"
	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// A curve becomes straight pieces whose corners lie on it; in between, the
// pieces stray from it by at most the tolerance.

// A line is an outline as straight pieces: its points, and whether it closes.
type line struct {
	points []page.Point
	closed bool
}

// lines returns the outlines of a path as straight pieces.
func lines(p page.Path, tolerance measure.Length) []line {
	var all []line
	for _, s := range p {
		if s.Kind == page.Move {
			all = append(all, line{points: []page.Point{s.To}})
			continue
		}
		l := &all[len(all)-1]
		from := l.points[len(l.points)-1]
		switch s.Kind {
		case page.Straight:
			l.to(s.To)
		case page.Curve:
			l.curve([4]page.Point{from, s.C1, s.C2, s.To}, tolerance)
		case page.Close:
			l.closed = true
			if len(l.points) > 1 && from == l.points[0] {
				l.points = l.points[:len(l.points)-1]
			}
		}
	}
	return all
}

// to continues the line to q, unless the line already ends there.
func (l *line) to(q page.Point) {
	if q != l.points[len(l.points)-1] {
		l.points = append(l.points, q)
	}
}

// mostPieces limits the pieces of one curve: a circle of 1 m at 600 dots to the
// inch takes 275.
const mostPieces = 512

// pieces returns the number of parts of equal parameter for a curve. The
// distance of a part from its chord is at most stray / parts².
func pieces(stray float64, tolerance measure.Length) int64 {
	return min(int64(math.Sqrt(stray/float64(tolerance)))+1, mostPieces)
}

// bend returns twice the distance of b from the middle between a and c.
func bend(a, b, c page.Point) float64 {
	return math.Sqrt(square(a.X-2*b.X+c.X) + square(a.Y-2*b.Y+c.Y))
}

// square rounds its product: the conversion keeps the compiler from fusing it
// with a sum.
func square(l measure.Length) float64 { return float64(float64(l) * float64(l)) }

// curve continues the line along a cubic curve. The curve strays from its chord
// by at most 6/8 of the larger second difference (the error of linear
// interpolation is M/8 · h², and the second derivative is at most 6 times a
// second difference).
func (l *line) curve(q [4]page.Point, tolerance measure.Length) {
	n := pieces(0.75*max(bend(q[0], q[1], q[2]), bend(q[1], q[2], q[3])), tolerance)
	for i := int64(1); i <= n; i++ {
		j := n - i
		a, b, c := j*j*j, 3*j*j*i, 3*j*i*i
		at := func(v [4]measure.Length) measure.Length {
			return ratio(a*int64(v[0]-v[3])+b*int64(v[1]-v[3])+c*int64(v[2]-v[3]), n*n*n) + v[3]
		}
		l.to(page.Point{
			X: at([4]measure.Length{q[0].X, q[1].X, q[2].X, q[3].X}),
			Y: at([4]measure.Length{q[0].Y, q[1].Y, q[2].Y, q[3].Y}),
		})
	}
}

// ratio returns a/b to the nearest whole number, halves upward. b must be
// positive.
func ratio(a, b int64) measure.Length {
	q, r := (2*a+b)/(2*b), (2*a+b)%(2*b)
	if r < 0 {
		q--
	}
	return measure.Length(q)
}

// dashed splits a line into the open parts that the pen's dashes ink.
func dashed(l line, pen page.Pen) []line {
	dash, period := pen.Dash, measure.Length(0)
	if len(dash)%2 == 1 {
		dash = append(dash[:len(dash):len(dash)], dash...)
	}
	for _, d := range dash {
		period += d
	}
	if period <= 0 {
		return []line{l}
	}
	points := l.points
	if l.closed {
		points = append(points[:len(points):len(points)], points[0])
	}
	// The pen is in part i of the pattern, and left is the rest of that part.
	i, left := 0, -(pen.Phase % period)
	for left += dash[0]; left <= 0; left += dash[i] {
		i = (i + 1) % len(dash)
	}
	inked := []line{{points: points[:1:1]}}
	for k := 1; k < len(points); k++ {
		from, to := points[k-1], points[k]
		length := measure.Length(math.Round(distance(from, to)))
		for gone := measure.Length(0); ; {
			if length-gone < left {
				left -= length - gone
				break
			}
			gone += left
			q := along(from, to, gone, length)
			if i%2 == 0 {
				inked[len(inked)-1].to(q)
			}
			i = (i + 1) % len(dash)
			left = dash[i]
			if i%2 == 0 {
				inked = append(inked, line{points: []page.Point{q}})
			}
		}
		if i%2 == 0 {
			inked[len(inked)-1].to(to)
		}
	}
	return inked
}

// along returns the point on the way from one point to another, after gone of
// length.
func along(from, to page.Point, gone, length measure.Length) page.Point {
	part := func(a, b measure.Length) measure.Length {
		return a + measure.Length(math.Round(float64(b-a)*(float64(gone)/float64(length))))
	}
	return page.Point{X: part(from.X, to.X), Y: part(from.Y, to.Y)}
}

func distance(a, b page.Point) float64 { return math.Sqrt(square(b.X-a.X) + square(b.Y-a.Y)) }

// stroked returns the areas that a pen inks along a line: one for each straight
// part, and the corners that no part covers. The ends are flat.
func stroked(l line, width measure.Length) [][]page.Point {
	n := len(l.points)
	parts := n - 1
	if l.closed && n > 1 {
		parts = n
	}
	var areas [][]page.Point
	side := make([]page.Point, parts) // the offset from each part to its edge, half the width
	for i := range side {
		side[i] = beside(l.points[i], l.points[(i+1)%n], width)
	}
	first, last := slices.Clone(side), slices.Clone(side) // that offset at the two ends of the part
	for i := range side {
		before := i - 1
		if i == 0 {
			if !l.closed {
				continue
			}
			before = parts - 1
		}
		p := l.points[i]
		room := min(distance(l.points[before], p), distance(p, l.points[(i+1)%n]))
		if m, reach, ok := mitre(side[before], side[i]); ok && reach <= room {
			last[before], first[i] = m, m
		} else {
			areas = append(areas, corner(p, side[before], side[i]))
		}
	}
	for i := range side {
		a, b := l.points[i], l.points[(i+1)%n]
		areas = append(areas, []page.Point{a.Add(first[i]), b.Add(last[i]), b.Sub(last[i]), a.Sub(first[i])})
	}
	return areas
}

// beside returns the offset of half the width, at a right angle to the way from
// a to b.
func beside(a, b page.Point, width measure.Length) page.Point {
	d := b.Sub(a)
	length := 2 * distance(a, b)
	part := func(v measure.Length) measure.Length {
		return measure.Length(math.Round(float64(width) * (float64(v) / length)))
	}
	return page.Point{X: part(-d.Y), Y: part(d.X)}
}

// miterLimit is how many pen widths a corner may reach before it is cut off. It
// is the PDF default, which no page changes (ISO 32000-1, table 52).
const miterLimit = 10

// mitre takes the offsets of the two parts that meet in a corner. It returns
// the offset of the corner's tip, how far the tip reaches along the parts, and
// whether it is within the miter limit.
func mitre(before, after page.Point) (tip page.Point, reach float64, ok bool) {
	half := square(before.X) + square(before.Y)
	both := half + product(before.X, after.X) + product(before.Y, after.Y)
	if both*miterLimit*miterLimit < 2*half {
		return tip, 0, false
	}
	far, sum := half/both, before.Add(after)
	tip = page.Point{X: scaled(sum.X, far), Y: scaled(sum.Y, far)}
	return tip, math.Abs(turn(before, after)) / both * math.Sqrt(half), true
}

// turn is positive where the line turns toward the side of the offsets.
func turn(before, after page.Point) float64 {
	return product(before.X, after.Y) - product(before.Y, after.X)
}

// corner returns the area on the outer side of the corner at p.
func corner(p, before, after page.Point) []page.Point {
	if turn(before, after) > 0 {
		before, after = page.Point{}.Sub(before), page.Point{}.Sub(after)
	}
	area := []page.Point{p, p.Add(before)}
	if tip, _, ok := mitre(before, after); ok {
		area = append(area, p.Add(tip))
	}
	return append(area, p.Add(after))
}

func product(a, b measure.Length) float64 { return float64(float64(a) * float64(b)) }

func scaled(l measure.Length, by float64) measure.Length {
	return measure.Length(math.Round(float64(l) * by))
}

// contours returns the outlines of letters as straight pieces.
func contours(l page.Letters, tolerance measure.Length) ([]line, error) {
	var all []line
	scale := float64(l.Size) / (fonts.Em * fonts.Fine)
	for _, g := range l.Glyphs {
		shape, err := l.Weight.Shape(g.Index)
		if err != nil {
			return nil, err
		}
		start := g.Along * fonts.Fine
		at := func(q [2]int) page.Point {
			x, y := float64(q[0]+start)*scale, float64(q[1])*scale
			return page.Point{
				X: l.At.X + measure.Length(math.Round(float64(x*l.Cos)-float64(y*l.Sin))),
				Y: l.At.Y - measure.Length(math.Round(float64(x*l.Sin)+float64(y*l.Cos))),
			}
		}
		for _, s := range shape.Segments {
			switch s.Kind {
			case fonts.Move:
				all = append(all, line{points: []page.Point{at(s.To)}, closed: true})
			case fonts.Line:
				all[len(all)-1].to(at(s.To))
			case fonts.Quad:
				all[len(all)-1].quad(at(s.Control), at(s.To), tolerance)
			}
		}
	}
	return all, nil
}

// quad continues the line along a quadratic curve. The curve strays from its
// chord by at most a quarter of its second difference.
func (l *line) quad(c, to page.Point, tolerance measure.Length) {
	from := l.points[len(l.points)-1]
	n := pieces(bend(from, c, to)/4, tolerance)
	for i := int64(1); i <= n; i++ {
		j := n - i
		at := func(a, b, c measure.Length) measure.Length {
			return c + ratio(j*j*int64(a-c)+2*i*j*int64(b-c), n*n)
		}
		l.to(page.Point{X: at(from.X, c.X, to.X), Y: at(from.Y, c.Y, to.Y)})
	}
}

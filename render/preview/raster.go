package preview

import (
	"image"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// A raster is a page being drawn in dots. It counts the coverage of a dot
// exactly for straight edges: each edge adds to each dot it crosses the height
// it spans there, and the area to its left. Summing a row from the left gives
// the inside.
type raster struct {
	*image.Gray
	size      measure.Size
	tolerance measure.Length // of a curve: a thirty-second of a dot
	edges     []edge         // of the current shape
	cells     [bandRows][]cell
	touched   [bandRows]struct{ from, to int } // the dots of each row that edges crossed
	inks      [256]bool                        // the shades painted so far
	err       error
}

// Edges have their ends on a grid of 256 parts to a dot.
const (
	part  = 256
	whole = 2 * part * part // twice the area of a dot, in square parts
)

// bandRows is how many rows of dots are painted at once.
const bandRows = 64

// An edge runs downward from y0 to y1, in parts. down is 1 if the outline also
// runs downward there, else -1.
type edge struct{ x0, y0, x1, y1, down int }

// A cell sums what the edges add to one dot.
type cell struct{ cover, area int }

func newRaster(size measure.Size, width, height int) *raster {
	r := &raster{Gray: image.NewGray(image.Rect(0, 0, width, height)), size: size}
	for i := range r.Pix {
		r.Pix[i] = 255
	}
	r.tolerance = max(size.Width/measure.Length(32*width), 1)
	for i := range r.cells {
		r.cells[i] = make([]cell, width+1) // the last one collects edges past the right side
		r.touched[i].from = width + 1
	}
	return r
}

// Stroke draws along a path.
func (r *raster) Stroke(p page.Path, pen page.Pen) {
	for _, l := range lines(p, r.tolerance) {
		for _, d := range dashed(l, pen) {
			for _, area := range stroked(d, pen.Width) {
				r.outline(area, true)
			}
		}
	}
	r.paint(pen.Gray)
}

// Fill paints the inside of a path.
func (r *raster) Fill(p page.Path, g page.Gray) {
	for _, l := range lines(p, r.tolerance) {
		r.outline(l.points, false)
	}
	r.paint(g)
}

// Letters paints letters.
func (r *raster) Letters(l page.Letters, g page.Gray) {
	list, err := contours(l, r.tolerance)
	if err != nil && r.err == nil {
		r.err = err
	}
	for _, c := range list {
		r.outline(c.points, false)
	}
	r.paint(g)
}

// outline adds a closed outline to the shape. With area set, it makes the
// outline turn the same way as all other areas of a stroke, so that overlapping
// areas cut no holes.
func (r *raster) outline(points []page.Point, area bool) {
	first := len(r.edges)
	twice := int64(0)
	for i, q := range points {
		p := points[(i+len(points)-1)%len(points)]
		x0, y0 := r.dot(p)
		x1, y1 := r.dot(q)
		twice += int64(x0)*int64(y1) - int64(x1)*int64(y0)
		switch {
		case y0 < y1:
			r.edges = append(r.edges, edge{x0, y0, x1, y1, 1})
		case y0 > y1:
			r.edges = append(r.edges, edge{x1, y1, x0, y0, -1})
		}
	}
	if area && twice < 0 {
		for i := range r.edges[first:] {
			r.edges[first+i].down *= -1
		}
	}
}

// dot returns the position of a point in parts. The page is stretched to whole
// dots.
func (r *raster) dot(q page.Point) (x, y int) {
	at := func(v, extent measure.Length, dots int) int {
		return int(ratio(int64(v)*int64(dots*part), int64(extent)))
	}
	return at(q.X, r.size.Width, r.Rect.Dx()), at(q.Y, r.size.Length, r.Rect.Dy())
}

// paint paints the current shape and clears it.
func (r *raster) paint(g page.Gray) {
	top, bottom := r.Rect.Dy()*part, 0
	for _, e := range r.edges {
		top, bottom = min(top, e.y0), max(bottom, e.y1)
	}
	bottom = min(bottom, r.Rect.Dy()*part)
	for row := max(top, 0) / part; row*part < bottom; row += bandRows {
		from, to := row*part, min((row+bandRows)*part, bottom)
		for _, e := range r.edges {
			if e.y0 < to && e.y1 > from {
				r.cross(e, row, from, to)
			}
		}
		r.sweep(row, shade(g))
	}
	r.inks[shade(g)] = true
	r.edges = r.edges[:0]
}

// shade converts a grey to the value of a dot.
func shade(g page.Gray) uint8 { return uint8((int(g)*255 + 50) / 100) }

// cross adds the part of an edge between two heights to the cells, whose first
// row is row.
func (r *raster) cross(e edge, row, from, to int) {
	at := func(y int) int { // x at height y, the same for the rows above and below
		return e.x0 + int(ratio(int64(y-e.y0)*int64(e.x1-e.x0), int64(e.y1-e.y0)))
	}
	y := max(e.y0, from)
	x := at(y)
	for end := min(e.y1, to); y < end; {
		next := min((y/part+1)*part, end)
		beyond := at(next)
		r.step(y/part-row, x, beyond, (next-y)*e.down)
		x, y = beyond, next
	}
}

// step adds a part of an edge within one row, from x0 to x1, that spans the
// given height.
func (r *raster) step(row, x0, x1, height int) {
	right := r.Rect.Dx() * part
	x0, x1 = min(max(min(x0, x1), 0), right), min(max(x0, x1, 0), right)
	cells, t := r.cells[row], &r.touched[row]
	t.from, t.to = min(t.from, x0/part), max(t.to, x1/part+1)
	if x0/part == x1/part {
		c := &cells[x0/part]
		c.cover += height
		c.area += height * (x0%part + x1%part)
		return
	}
	gone, x := 0, x0
	for i := x0 / part; x < x1; i++ {
		end := min((i+1)*part, x1)
		reached := int(ratio(int64(height)*int64(end-x0), int64(x1-x0)))
		cells[i].cover += reached - gone
		cells[i].area += (reached - gone) * (x - i*part + end - i*part)
		gone, x = reached, end
	}
}

// sweep paints the rows of a band and clears their cells for the next band.
func (r *raster) sweep(row int, ink uint8) {
	for i := range r.cells {
		t := &r.touched[i]
		if t.from >= t.to {
			continue
		}
		pix := r.Pix[(row+i)*r.Stride:][:r.Rect.Dx()]
		cells := r.cells[i][t.from:t.to]
		cover := 0
		for k, c := range cells {
			cells[k] = cell{}
			cover += c.cover
			v := cover*2*part - c.area
			if v < 0 {
				v = -v
			}
			if x := t.from + k; v > 0 && x < len(pix) {
				v = min(v, whole)
				pix[x] = uint8((int(pix[x])*(whole-v) + int(ink)*v + whole/2) / whole)
			}
		}
		t.from, t.to = len(r.cells[i]), 0
	}
}

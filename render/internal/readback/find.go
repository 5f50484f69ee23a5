package readback

import (
	"fmt"
	"math"
	"strings"
)

// Near is the largest error allowed for a mark on paper, in millimetres.
const Near = 0.02

// Level reports whether a level line at y covers x1 to x2.
func (m Marks) Level(y, x1, x2 float64) bool {
	for _, l := range m.Lines {
		a, b := min(l.From.X, l.To.X), max(l.From.X, l.To.X)
		if math.Abs(l.From.Y-y) <= Near && math.Abs(l.To.Y-y) <= Near && a <= x1+Near && b >= x2-Near {
			return true
		}
	}
	return false
}

// Upright reports whether an upright line at x covers y1 to y2.
func (m Marks) Upright(x, y1, y2 float64) bool {
	for _, l := range m.Lines {
		a, b := min(l.From.Y, l.To.Y), max(l.From.Y, l.To.Y)
		if math.Abs(l.From.X-x) <= Near && math.Abs(l.To.X-x) <= Near && a <= y1+Near && b >= y2-Near {
			return true
		}
	}
	return false
}

// Circle reports whether a circle with the given width and height is drawn
// around (x, y).
func (m Marks) Circle(x, y, width, height float64) bool {
	for _, r := range m.Rounds {
		if math.Abs(r.Centre.X-x) <= Near && math.Abs(r.Centre.Y-y) <= Near && math.Abs(r.Width-width) <= Near && math.Abs(r.Height-height) <= Near {
			return true
		}
	}
	return false
}

// Words returns all texts, one on each line.
func (m Marks) Words() string {
	var b strings.Builder
	for _, t := range m.Texts {
		b.WriteString(t.Text + "\n")
	}
	return b.String()
}

// Crowded lists the texts of a page that overlap other texts or are closer than
// margin to the edge.
func (d *Document) Crowded(page int, margin float64) []string {
	d.t.Helper()
	var list []string
	w, h := d.Size(page)
	texts := d.Marks(page).Texts
	for i, a := range texts {
		if a.Min.X < margin || a.Min.Y < margin || a.Max.X > w-margin || a.Max.Y > h-margin {
			list = append(list, fmt.Sprintf("%q is in the margin", a.Text))
		}
		for _, b := range texts[i+1:] {
			if a.Text == "⁄" || b.Text == "⁄" { // part of one fraction
				continue
			}
			if a.Min.X < b.Max.X && b.Min.X < a.Max.X && a.Min.Y < b.Max.Y && b.Min.Y < a.Max.Y {
				list = append(list, fmt.Sprintf("%q overlaps %q", a.Text, b.Text))
			}
		}
	}
	return list
}

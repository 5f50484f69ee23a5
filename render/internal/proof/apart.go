package proof

import "fmt"

// Crowded returns what cannot be read on a page: words over other words, and
// words nearer to an edge than the given margins.
func (d *Document) Crowded(page int, left, top, right, bottom float64) []string {
	d.t.Helper()
	var bad []string
	m := d.Marks(page)
	w, h := d.Size(page)
	for i, a := range m.Texts {
		if a.Min.X < left || a.Min.Y < top || a.Max.X > w-right || a.Max.Y > h-bottom {
			bad = append(bad, fmt.Sprintf("%q lies in the margin", a.Text))
		}
		for _, b := range m.Texts[i+1:] {
			if a.Text == "⁄" || b.Text == "⁄" { // a fraction's own parts
				continue
			}
			if a.Min.X < b.Max.X && b.Min.X < a.Max.X && a.Min.Y < b.Max.Y && b.Min.Y < a.Max.Y {
				bad = append(bad, fmt.Sprintf("%q lies over %q", a.Text, b.Text))
			}
		}
	}
	return bad
}

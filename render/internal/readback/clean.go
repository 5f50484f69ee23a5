package readback

import (
	"testing"

	"shadewright/render/sheet"
)

// smallest is the smallest type that survives a poor copier, 7.5 pt, in mm.
const smallest = 7.5 * 25.4 / 72

// Clean checks a page, by its index. Everything must be within the margins,
// texts must not overlap or be crossed by lines, and all of it must survive a
// copier. The boxes of texts are around the ink, so they may touch by a hair.
func (m Marks) Clean(t *testing.T, i int, p sheet.Paper, margins sheet.Margins) {
	t.Helper()
	const hair = 0.1
	for a, x := range m.Texts {
		if x.Min.X < margins.Left.Millimetres() || x.Min.Y < margins.Top.Millimetres() ||
			x.Max.X > (p.Width-margins.Right).Millimetres() || x.Max.Y > (p.Length-margins.Bottom).Millimetres() {
			t.Errorf("page %d: %q at %.1f is outside the printable part", i+1, x.Text, x.Min)
		}
		if x.Size < smallest-0.01 {
			t.Errorf("page %d: %q is set in %.2f mm, smaller than 7.5 pt", i+1, x.Text, x.Size)
		}
		for _, y := range m.Texts[a+1:] {
			if x.Text == "⁄" || y.Text == "⁄" { // the slash leans over the figures
				continue
			}
			if min(x.Max.X, y.Max.X)-max(x.Min.X, y.Min.X) > hair && min(x.Max.Y, y.Max.Y)-max(x.Min.Y, y.Min.Y) > hair {
				t.Errorf("page %d: %q and %q overlap at %.1f", i+1, x.Text, y.Text, y.Min)
			}
		}
		for _, l := range m.Lines {
			if crosses(l, x, hair) {
				t.Errorf("page %d: a line from %.1f to %.1f crosses %q", i+1, l.From, l.To, x.Text)
			}
		}
	}
	for _, l := range m.Lines {
		if l.Width < 0.249 || l.Gray != 0 {
			t.Errorf("page %d: a line at %.1f of %.3f mm and grey %.2f does not survive a copier", i+1, l.From, l.Width, l.Gray)
		}
	}
}

// crosses reports whether a line enters the box around a text.
func crosses(l Line, x Text, hair float64) bool {
	const steps = 60
	for i := range steps + 1 {
		f := float64(i) / steps
		px, py := l.From.X+f*(l.To.X-l.From.X), l.From.Y+f*(l.To.Y-l.From.Y)
		if px > x.Min.X+hair && px < x.Max.X-hair && py > x.Min.Y+hair && py < x.Max.Y-hair {
			return true
		}
	}
	return false
}

// Package sheet describes paper: its sizes, the margins a printer leaves, how a
// long band is cut into tiles, and how labels and strips lie on a sheet. It
// draws nothing.
//
// All lengths are exact. Positions are measured from the origin of the whole
// band, never from a neighbour, so errors cannot add up.
package sheet

import (
	"fmt"
	"slices"
	"strings"

	"shadewright/ticket/measure"
)

const (
	mm   = measure.Millimetre
	inch = measure.Inch
)

// A Paper is an upright paper size: Width across, Length down. Name is empty
// for a size without a name. For roll paper, Width is the width of the roll and
// Length the longest sheet allowed; see [OnRoll].
type Paper struct {
	Name string
	measure.Size
	Roll bool
}

// papers lists the named sizes. The A series is ISO 216. Letter is ANSI/ASME
// Y14.1 size A, tabloid is size B, and legal is 8.5 × 14 in.
var papers = []Paper{
	{Name: "a3", Size: measure.Size{Width: 297 * mm, Length: 420 * mm}},
	{Name: "a4", Size: measure.Size{Width: 210 * mm, Length: 297 * mm}},
	{Name: "a5", Size: measure.Size{Width: 148 * mm, Length: 210 * mm}},
	{Name: "legal", Size: measure.Size{Width: 17 * inch / 2, Length: 14 * inch}},
	{Name: "letter", Size: measure.Size{Width: 17 * inch / 2, Length: 11 * inch}},
	{Name: "tabloid", Size: measure.Size{Width: 11 * inch, Length: 17 * inch}},
	{Name: "label-4x6", Size: measure.Size{Width: 4 * inch, Length: 6 * inch}},
	{Name: "label-100x150", Size: measure.Size{Width: 100 * mm, Length: 150 * mm}},
}

// Names returns, in alphabetical order, the names that [Named] accepts.
func Names() []string {
	var names []string
	for _, p := range papers {
		names = append(names, p.Name)
	}
	slices.Sort(names)
	return names
}

// Named returns the paper with the given name; upper and lower case are the
// same.
func Named(name string) (Paper, error) {
	for _, p := range papers {
		if strings.EqualFold(p.Name, name) {
			return p, nil
		}
	}
	return Paper{}, fmt.Errorf("unknown paper %q; use %s, or a width and a height", name, strings.Join(Names(), ", "))
}

// The limits of [Sized]. A sheet below 50 mm has no room for anything useful,
// and no PDF page is longer than 200 in (Adobe PDF Reference 1.7, Appendix C).
const (
	Smallest = 50 * mm
	Largest  = 200 * inch
)

// Sized returns paper of any size between [Smallest] and [Largest].
func Sized(width, height measure.Length) (Paper, error) {
	for _, side := range []struct {
		name string
		l    measure.Length
	}{{"width", width}, {"height", height}} {
		if side.l < Smallest || side.l > Largest {
			return Paper{}, fmt.Errorf("paper %s %q is out of range; use %v to %v", side.name, side.l, Smallest, Largest)
		}
	}
	return Paper{Size: measure.Size{Width: width, Length: height}}, nil
}

// Landscape returns the paper with its longer side across.
func (p Paper) Landscape() Paper {
	if p.Width < p.Length {
		p.Width, p.Length = p.Length, p.Width
	}
	return p
}

// Portrait returns the paper with its longer side upright.
func (p Paper) Portrait() Paper {
	if p.Width > p.Length {
		p.Width, p.Length = p.Length, p.Width
	}
	return p
}

// Margins are the strips that the printer cannot print on, by side of the sheet
// as it is read.
type Margins struct{ Left, Right, Top, Bottom measure.Length }

// Even returns the same margin for every side.
func Even(l measure.Length) Margins { return Margins{l, l, l, l} }

// Turned returns the margins of the sheet on its side. Printers turn a drawing
// either way, so each side gets the larger of its two possible margins.
func (m Margins) Turned() Margins {
	long, short := max(m.Top, m.Bottom), max(m.Left, m.Right)
	return Margins{Left: long, Right: long, Top: short, Bottom: short}
}

// A Field is the printable part of a sheet: its top left corner and its size.
type Field struct {
	X, Y measure.Length
	measure.Size
}

// Within returns the field that the margins leave on p.
func (m Margins) Within(p Paper) (Field, error) {
	for _, side := range []struct {
		name string
		l    measure.Length
	}{{"left", m.Left}, {"right", m.Right}, {"top", m.Top}, {"bottom", m.Bottom}} {
		if side.l < 0 {
			return Field{}, fmt.Errorf("%s margin %q is negative; use zero or more", side.name, side.l)
		}
	}
	f := Field{X: m.Left, Y: m.Top, Size: measure.Size{
		Width: p.Width - m.Left - m.Right, Length: p.Length - m.Top - m.Bottom}}
	if f.Width <= 0 || f.Length <= 0 {
		return Field{}, fmt.Errorf("margins of %v, %v, %v and %v leave nothing of paper %v × %v; make them smaller",
			m.Left, m.Right, m.Top, m.Bottom, p.Width, p.Length)
	}
	return f, nil
}

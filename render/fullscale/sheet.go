package fullscale

import (
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/measure"
)

// HeadHeight and ColumnWidth are what heading and check rulers take of the
// paper, at its top and at its left.
const (
	HeadHeight  = 50 * mm
	ColumnWidth = 11 * mm
)

// A Sheet is one page: what the printer can print of it, and the Body that
// heading and check rulers leave.
type Sheet struct {
	Size        measure.Size
	Frame, Body page.Rect
}

// On returns the sheet of a paper as it lies, with margins as it lies.
func On(p sheet.Paper, m sheet.Margins) (Sheet, error) {
	f, err := m.Within(p)
	if err != nil {
		return Sheet{}, err
	}
	room, err := Room(m).Within(p)
	if err != nil {
		return Sheet{}, err
	}
	return Sheet{Size: p.Size, Frame: box(f), Body: box(room)}, nil
}

// Room returns margins with what heading and check rulers take added.
func Room(m sheet.Margins) sheet.Margins {
	m.Left += ColumnWidth
	m.Top += HeadHeight
	return m
}

func box(f sheet.Field) page.Rect { return page.Box(f.X, f.Y, f.Width, f.Length) }

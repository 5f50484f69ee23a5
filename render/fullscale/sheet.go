package fullscale

import (
	"shadewright/render/page"
	"shadewright/render/sheet"
	"shadewright/ticket/measure"
)

// HeadHeight and ColumnWidth are the room for the heading at the top and for
// the check ruler at the left.
const (
	HeadHeight  = 50 * mm
	ColumnWidth = 11 * mm
)

// A Sheet is one page. Frame is the printable part; Body is the part of it
// without the heading and the check rulers.
type Sheet struct {
	Size        measure.Size
	Frame, Body page.Rect
}

// On returns the sheet for paper and margins, both given the way the sheet
// lies.
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

// Room returns margins enlarged by the heading and the check ruler.
func Room(m sheet.Margins) sheet.Margins {
	m.Left += ColumnWidth
	m.Top += HeadHeight
	return m
}

func box(f sheet.Field) page.Rect { return page.Box(f.X, f.Y, f.Width, f.Length) }

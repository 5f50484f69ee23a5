package calibration

import (
	"testing"

	"shadewright/render/fullscale"
	"shadewright/render/internal/readback"
	"shadewright/render/page"
	"shadewright/ticket/measure"
)

func sheetIn(t *testing.T, o fullscale.Options) *readback.Document {
	t.Helper()
	doc, err := Document(o, "shadewright calibrate")
	return readback.Open(t, readback.Bytes(t, doc, err))
}

func TestMarked(t *testing.T) {
	for _, printer := range []string{"", "office"} {
		o := optionsFor(t, "letter", measure.Inches)
		o.Language, o.Printer, o.Job = readback.Marked(), printer, ""
		// The reader types the command as printed, so it is not translated.
		sheetIn(t, o).CheckMarked("office shadewright calibrate rulers printer across down")
	}
}

// In Spanish the texts fit and nothing else changes: both rulers and the square
// stand where they stand in English.
func TestSpanish(t *testing.T) {
	for _, paper := range []string{"letter", "a4", "a5", "tabloid"} {
		for _, u := range []measure.System{measure.Inches, measure.Millimetres} {
			o := optionsFor(t, paper, u)
			o.Correction = page.Correction{}
			en := sheetIn(t, o).Marks(0)
			o.Language = readback.Spanish(t)
			o.Style.Comma = true
			doc := sheetIn(t, o)
			doc.CheckFits(6.3, "down …")
			es := doc.Marks(0)
			if len(en.Lines) != len(es.Lines) {
				t.Fatalf("%s: %d lines in English, %d in Spanish", paper, len(en.Lines), len(es.Lines))
			}
			for i, l := range en.Lines {
				if l.From != es.Lines[i].From || l.To != es.Lines[i].To {
					t.Errorf("%s: line %v to %v is %v to %v in Spanish", paper, l.From, l.To, es.Lines[i].From, es.Lines[i].To)
				}
			}
		}
	}
}

package measuring

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"testing"

	"shadewright/render/internal/readback"
	"shadewright/render/language"
	"shadewright/render/sheet"
	"shadewright/ticket/code"
	"shadewright/ticket/hang"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

// known returns what a job may know of an opening, with the longest names it may have.
func known() Opening {
	mount := hang.Outside
	return Opening{
		Job: "Heron Landing bunkhouse, the north wing and both of its landings", Shade: message.Verbatim("sleeping-loft-window-left, unit 12"),
		Room: "sleeping loft above the boathouse", Place: "skylight end, over the ladder, left of the two",
		Code: code.Derive(code.Identity([16]byte{1}, "loft", 12, 0)), Content: "HTTP://192.168.100.200:8080/T/23456789AB",
		Mount: &mount, Units: measure.Inches,
	}
}

func printed(t *testing.T, paper string, lang language.Language, list ...Opening) *readback.Document {
	t.Helper()
	p, err := sheet.Named(paper)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := Document(list, Options{Paper: p, Language: lang, Margins: sheet.Even(6 * mm)})
	return readback.Open(t, readback.Bytes(t, doc, err))
}

// Each reading has one box. A number that is on the drawing and at a box is on the page
// twice. 10 to 13 are the overlaps, 14 is how far a thing stands out.
func TestNumbers(t *testing.T) {
	for _, paper := range []string{"letter", "a4"} {
		found := map[string]int{}
		for _, text := range printed(t, paper, language.Language{}, known()).Marks(0).Texts {
			if _, err := strconv.Atoi(text.Text); err == nil {
				found[text.Text]++
			}
		}
		for n := 1; n <= 25; n++ {
			want := 1
			if n <= 14 {
				want = 2
			}
			if found[strconv.Itoa(n)] != want {
				t.Errorf("%s: %d stands on the page %d times; want %d", paper, n, found[strconv.Itoa(n)], want)
			}
			delete(found, strconv.Itoa(n))
		}
		if len(found) > 0 {
			t.Errorf("%s: numbers without a box: %v", paper, found)
		}
	}
}

// A thick pencil writes figures about 7 mm high, and "27 15/16" about 26 mm long: common
// practice, no source. A box holds one at least.
func TestRoomToWrite(t *testing.T) {
	const high, wide = 7, 26
	for _, paper := range []string{"letter", "a4"} {
		for _, lang := range []language.Language{{}, readback.Spanish(t)} {
			marks := printed(t, paper, lang, known()).Marks(0)
			boxes := 0
			for i := 0; i+3 < len(marks.Lines); i++ {
				w, h, ok := box(marks.Lines[i : i+4])
				at := marks.Lines[i].From
				drawn := at.X < (sideMargin+lookWidth).Millimetres() && at.Y < (endMargin+headHeight+choiceHeight+lookHeight).Millimetres()
				if !ok || drawn || math.Abs(w-h) < 0.01 && w < high { // a box to tick is a small square
					continue
				}
				boxes++
				if w < wide || h < high {
					t.Errorf("%s, %s: a box is %.1f × %.1f mm; want at least %d × %d", paper, lang.Tag(), w, h, wide, high)
				}
			}
			// Nine readings, four overlaps, three rows of three, the bracket, five of the
			// roller, four of cloth and slat.
			if boxes != 9+4+9+1+5+4 {
				t.Errorf("%s, %s: %d boxes; want 32", paper, lang.Tag(), boxes)
			}
		}
	}
}

// box returns the sides of the rectangle that four lines draw.
func box(l []readback.Line) (width, height float64, ok bool) {
	for i := range l {
		if next := l[(i+1)%4]; l[i].To != next.From || len(l[i].Dash) > 0 {
			return 0, 0, false
		}
	}
	return math.Abs(l[0].To.X - l[2].To.X), math.Abs(l[1].To.Y - l[0].From.Y), l[0].From.Y == l[0].To.Y || l[0].From.X == l[0].To.X
}

// Another library reads the code of the ticket from the paper.
func TestCode(t *testing.T) {
	o := known()
	for _, paper := range []string{"letter", "a4"} {
		doc := printed(t, paper, language.Language{}, o, Opening{})
		if codes := doc.Codes(0, 150); len(codes) != 1 || codes[0].Text != o.Content {
			t.Errorf("%s: read %v; want %q", paper, codes, o.Content)
		}
		if codes := doc.Codes(1, 150); len(codes) != 0 {
			t.Errorf("%s: a blank sheet has the code %v", paper, codes)
		}
	}
}

// All texts fit in both languages, and each has passed through the language.
func TestLanguages(t *testing.T) {
	short := known()
	short.Shade, short.Job, short.Room, short.Place = message.Verbatim("loft"), "Heron Landing", "loft", "skylight end"
	for _, paper := range []string{"letter", "a4"} {
		printed(t, paper, readback.Spanish(t), short, Opening{}).CheckFits(6)
		printed(t, paper, language.Language{}, short, Opening{}).CheckFits(6)
		printed(t, paper, readback.Marked(), short, Opening{}).CheckMarked("loft heron landing skylight end " + string(short.Code[:3]) + " " + short.Code.Grouped())
		if crowded := printed(t, paper, readback.Spanish(t), known()).Crowded(0, 6); len(crowded) > 0 {
			t.Errorf("%s: with long names: %v", paper, crowded)
		}
	}
}

func TestSmallPaper(t *testing.T) {
	p, err := sheet.Named("a5")
	if err != nil {
		t.Fatal(err)
	}
	_, err = Document([]Opening{{}}, Options{Paper: p, Style: measure.Style{System: measure.Millimetres}})
	if _, ok := errors.AsType[*sheet.SmallError](err); !ok {
		t.Errorf("Document on A5: %v; want an error that asks for larger paper", err)
	}
}

func BenchmarkDocument(b *testing.B) {
	p, err := sheet.Named("letter")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		doc, err := Document([]Opening{known()}, Options{Paper: p})
		if err == nil {
			_, err = doc.Bytes()
		}
		if err != nil {
			b.Fatal(fmt.Errorf("%w", err))
		}
	}
}

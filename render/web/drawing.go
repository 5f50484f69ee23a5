package web

import (
	"strings"
	"unicode/utf8"

	"shadewright/render/language"
	"shadewright/ticket/mark"
)

// A drawing is the bottom of the flat panel with its lines: heights to scale,
// text beside them. Its numbers are units of the picture.
type drawing struct {
	Wide   int
	High   int
	Bottom int
	Marks  []drawnLine
	Says   string // for readers who cannot see it
}

type drawnLine struct {
	Y    int // height of the line
	Word int // baseline of its text
	Kind string
	Text string
}

const (
	drawnBand  = 240 // height of the area with lines
	drawnLeast = 360 // smallest width; longer texts need more
	drawnWords = 154 // start of the text, as in the page template
	drawnRune  = 10  // approximate width of a letter
	drawnTop   = 34
	drawnPitch = 34 // between texts, so that they stay apart
)

// drawingOf draws the lines of a summary. It returns nil if there are none.
func drawingOf(sum mark.Summary, lang language.Language) *drawing {
	most := int64(0)
	for _, l := range sum.Lines {
		most = max(most, int64(l.At))
	}
	if most <= 0 {
		return nil
	}
	d := &drawing{Wide: drawnLeast, Bottom: drawnTop + drawnBand, High: drawnTop + drawnBand + 50}
	lowest := d.Bottom + drawnPitch
	says := []string{lang.Say("web.lines")}
	for _, l := range sum.Lines {
		y := d.Bottom - int(int64(l.At)*drawnBand/most)
		lowest = min(y+7, lowest-drawnPitch)
		kind := "mark"
		switch {
		case l.Fold:
			kind = "fold"
		case l.Sewn:
			kind = "sewn"
		}
		name := lang.Put(l.Name.Message)
		d.Marks = append(d.Marks, drawnLine{Y: y, Word: lowest, Kind: kind, Text: l.Says.Own + " " + name})
		d.Wide = max(d.Wide, drawnWords+drawnRune*utf8.RuneCountInString(d.Marks[len(d.Marks)-1].Text))
		says = append(says, name+" "+l.Says.Own)
	}
	// If texts were pushed above the top of the picture, move all of them down.
	if over := 24 - lowest; over > 0 {
		for i := range d.Marks {
			d.Marks[i].Word += over
		}
	}
	d.Says = strings.Join(says, ", ")
	return d
}

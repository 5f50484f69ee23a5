// Package symbol makes scannable codes and draws them as rectangles of exact
// size: QR (ISO/IEC 18004) for cameras and Code 128 (ISO/IEC 15417) for laser
// scanners. No other package uses the code library.
//
// A symbol is a grid of square modules; the caller chooses the module size.
// Sizes include the quiet zone that a reader needs around the symbol. The tests
// read the codes back with another library.
package symbol

import (
	"errors"
	"fmt"
	"image"
	"strings"
	"unicode/utf8"

	"github.com/boombuler/barcode"
	"github.com/boombuler/barcode/code128"
	"github.com/boombuler/barcode/qr"

	"shadewright/render/page"
	"shadewright/ticket/measure"
)

// Quiet zones, in modules.
const (
	QuietQR      = 4  // on every side: ISO/IEC 18004
	QuietCode128 = 10 // at each end: GS1 General Specifications 5.4.4.2, ISO/IEC 15417
)

// A Level is how much of a QR symbol may be damaged before it becomes
// unreadable.
type Level uint8

// The levels of ISO/IEC 18004.
const (
	Medium   Level = iota // 15 % of the codewords
	Low                   // 7 %
	Quartile              // 25 %
	High                  // 30 %
)

// library returns the code library's name for the level.
func (l Level) library() qr.ErrorCorrectionLevel {
	return [...]qr.ErrorCorrectionLevel{qr.M, qr.L, qr.Q, qr.H}[l]
}

// A Bar is a dark rectangle of a symbol, in modules from the symbol's top left
// corner, excluding the quiet zone.
type Bar struct{ X, Y, Width, Height int }

// A Symbol is a code ready to draw.
type Symbol struct {
	Content string
	Wide    int   // modules across, excluding the quiet zone
	High    int   // modules down; 1 for Code 128, where the caller chooses the height of the bars
	Quiet   int   // modules of quiet zone; Code 128 needs it only at its ends
	Bars    []Bar // no two overlap
}

// QR returns the smallest QR symbol that holds content at the given level.
// Digits, capitals, spaces and $%*+-./: take the least room.
func QR(content string, level Level) (Symbol, error) {
	mode := qr.Unicode
	switch {
	case content == "":
		return Symbol{}, errors.New("a QR code cannot be empty; give it text")
	case only(content, "0123456789"):
		mode = qr.Numeric
	case only(content, alphanumeric):
		mode = qr.AlphaNumeric
	}
	code, err := qr.Encode(content, level.library(), mode)
	if err != nil {
		// The library's only error here is that content is too long, and it
		// repeats all of it.
		return Symbol{}, fmt.Errorf("content of %d bytes (%.30q…) does not fit a QR code; shorten it to at most %d characters",
			len(content), content, largest[mode][level])
	}
	b := code.Bounds()
	s := Symbol{Content: content, Wide: b.Dx(), High: b.Dy(), Quiet: QuietQR}
	s.Bars = bars(s.Wide, s.High, dark(code))
	return s, nil
}

// largest is the most characters that fit the largest symbol, by mode and
// level: ISO/IEC 18004, table 7, version 40.
var largest = map[qr.Encoding][4]int{
	qr.Numeric:      {Low: 7089, Medium: 5596, Quartile: 3993, High: 3057},
	qr.AlphaNumeric: {Low: 4296, Medium: 3391, Quartile: 2420, High: 1852},
	qr.Unicode:      {Low: 2953, Medium: 2331, Quartile: 1663, High: 1273},
}

// alphanumeric is the character set of ISO/IEC 18004, table 5.
const alphanumeric = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"

func only(s, set string) bool {
	return strings.Trim(s, set) == ""
}

// longestCode128 is the library's limit; a code that long is 300 mm wide.
const longestCode128 = 80

// Code128 returns a Code 128 symbol of at most 80 ASCII characters.
func Code128(content string) (Symbol, error) {
	if content == "" {
		return Symbol{}, errors.New("a Code 128 cannot be empty; give it text")
	}
	if n := utf8.RuneCountInString(content); n > longestCode128 {
		return Symbol{}, fmt.Errorf("content of %d characters does not fit a Code 128; shorten it to at most %d", n, longestCode128)
	}
	for _, r := range content {
		if r > 127 {
			return Symbol{}, fmt.Errorf("content %q has %q, which Code 128 cannot hold; use unaccented letters, digits and signs", content, r)
		}
	}
	code, err := code128.Encode(content)
	if err != nil {
		return Symbol{}, fmt.Errorf("content %q does not fit a Code 128: %w", content, err)
	}
	s := Symbol{Content: content, Wide: code.Bounds().Dx(), High: 1, Quiet: QuietCode128}
	s.Bars = bars(s.Wide, 1, dark(code))
	return s, nil
}

// dark returns a function that tells whether a module is dark.
func dark(code barcode.Barcode) func(x, y int) bool {
	min := code.Bounds().Min
	return func(x, y int) bool {
		r, _, _, _ := code.At(min.X+x, min.Y+y).RGBA()
		return r < 0x8000
	}
}

// bars covers the dark modules with few rectangles. Starting from the top left,
// each rectangle is the larger of two: the widest run extended down, or the
// highest run extended right.
func bars(wide, high int, dark func(x, y int) bool) []Bar {
	left := make([]bool, wide*high) // dark and not covered yet
	for y := range high {
		for x := range wide {
			left[y*wide+x] = dark(x, y)
		}
	}
	all := func(r image.Rectangle) bool {
		if !r.In(image.Rect(0, 0, wide, high)) {
			return false
		}
		for y := r.Min.Y; y < r.Max.Y; y++ {
			for x := r.Min.X; x < r.Max.X; x++ {
				if !left[y*wide+x] {
					return false
				}
			}
		}
		return true
	}
	var bs []Bar
	for y := range high {
		for x := range wide {
			if !left[y*wide+x] {
				continue
			}
			across := grow(image.Rect(x, y, x+1, y+1), all, image.Pt(1, 0), image.Pt(0, 1))
			down := grow(image.Rect(x, y, x+1, y+1), all, image.Pt(0, 1), image.Pt(1, 0))
			r := across
			if down.Dx()*down.Dy() > across.Dx()*across.Dy() {
				r = down
			}
			for v := r.Min.Y; v < r.Max.Y; v++ {
				for u := r.Min.X; u < r.Max.X; u++ {
					left[v*wide+u] = false
				}
			}
			bs = append(bs, Bar{r.Min.X, r.Min.Y, r.Dx(), r.Dy()})
		}
	}
	return bs
}

// grow extends r as far as ok allows, first in one direction, then in the
// other.
func grow(r image.Rectangle, ok func(image.Rectangle) bool, first, then image.Point) image.Rectangle {
	for _, d := range []image.Point{first, then} {
		for {
			next := image.Rectangle{Min: r.Min, Max: r.Max.Add(d)}
			if !ok(next) {
				break
			}
			r = next
		}
	}
	return r
}

// Size returns the size of a QR symbol with its quiet zone.
func (s Symbol) Size(module measure.Length) measure.Size {
	return measure.Size{
		Width:  measure.Length(s.Wide+2*s.Quiet) * module,
		Length: measure.Length(s.High+2*s.Quiet) * module,
	}
}

// Width returns the width of the symbol with its quiet zone.
func (s Symbol) Width(module measure.Length) measure.Length { return s.Size(module).Width }

// canvas is the part of a page that a symbol draws on.
type canvas interface {
	Fill(r page.Rect, g page.Gray)
}

// Draw draws a QR symbol with the top left corner of its quiet zone at at.
func (s Symbol) Draw(c canvas, at page.Point, module measure.Length) {
	at = at.Add(page.Point{X: measure.Length(s.Quiet) * module, Y: measure.Length(s.Quiet) * module})
	for _, b := range s.Bars {
		c.Fill(page.Box(at.X+measure.Length(b.X)*module, at.Y+measure.Length(b.Y)*module,
			measure.Length(b.Width)*module, measure.Length(b.Height)*module), page.Black)
	}
}

// DrawBars draws a Code 128 symbol with bars of the given height and the top
// left corner of its quiet zone at at.
func (s Symbol) DrawBars(c canvas, at page.Point, module, height measure.Length) {
	at.X += measure.Length(s.Quiet) * module
	for _, b := range s.Bars {
		c.Fill(page.Box(at.X+measure.Length(b.X)*module, at.Y, measure.Length(b.Width)*module, height), page.Black)
	}
}

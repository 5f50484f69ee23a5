package card

import (
	"regexp"
	"strings"

	"shadewright/render/language"
	"shadewright/render/page"
	"shadewright/ticket/measure"
	"shadewright/ticket/message"
)

const (
	mm = measure.Millimetre
	pt = page.Pt

	// smallest is the smallest type that survives a poor copier.
	smallest = 15 * pt / 2
)

// The pens. None is thinner than 0.25 mm.
var thin, line, heavy = page.Fine(), page.Solid(), page.Heavy()

func regular(size measure.Length) page.Face { return page.Face{Weight: page.Regular, Size: size} }

func semibold(size measure.Length) page.Face { return page.Face{Weight: page.Semibold, Size: size} }

func bold(size measure.Length) page.Face { return page.Face{Weight: page.Bold, Size: size} }

// ending returns f aligned to its end.
func ending(f page.Face) page.Face { f.Align = page.End; return f }

// legible returns s as it is set in f. If a copier would lose the small figures
// of a fraction, legible writes the fraction as people do by hand: 31-5/8 in.
func legible(s string, f page.Face) string {
	const smallFigures = 64 // per cent of the type size
	if f.Size*smallFigures/100 >= smallest || !strings.Contains(s, "\u2044") {
		return s
	}
	s = setFractions.ReplaceAllString(s, "$1-$2/$3")
	return strings.ReplaceAll(s, "\u2044", "/")
}

var setFractions = regexp.MustCompile("(\\d)\u2009(\\d+)\u2044(\\d)")

// A setter writes text in the shop's language, and wraps and fits it. It
// remembers its results, because most of the text on one ticket is also on the
// next.
type setter struct {
	lang   language.Language
	paras  map[paraKey]para
	fits   map[fitKey]fitted
	routes map[routeKey]routeSet
}

func newSetter(l language.Language) *setter {
	return &setter{l, map[paraKey]para{}, map[fitKey]fitted{}, map[routeKey]routeSet{}}
}

// say returns a text in the shop's language.
func (st *setter) say(e message.ID, args ...any) string { return st.lang.Say(e, args...) }

type paraKey struct {
	head, text string
	face       page.Face
	width      measure.Length
	most       int
}

type fitKey struct {
	text         string
	face         page.Face
	width, least measure.Length
}

type fitted struct {
	text string
	face page.Face
}

// remembered limits the setter's memory.
const remembered = 4096

// recall returns the remembered value of a key, or makes and remembers it.
func recall[K comparable, V any](seen map[K]V, k K, make func() V) V {
	v, ok := seen[k]
	if !ok {
		if len(seen) >= remembered {
			clear(seen)
		}
		v = make()
		seen[k] = v
	}
	return v
}

// fit is [page.Fit] for text that may have fractions.
func (st *setter) fit(s string, f page.Face, width, least measure.Length) (string, page.Face) {
	r := recall(st.fits, fitKey{s, f, width, least}, func() fitted {
		t, g := page.Fit(s, f, width, least)
		if plain := legible(s, g); plain != s {
			t, g = page.Fit(plain, f, width, least)
		}
		return fitted{t, g}
	})
	return r.text, r.face
}

// A run is a piece of a line that starts x from the line's start.
type run struct {
	x    measure.Length
	text string
	face page.Face
}

// A para is a paragraph, wrapped and ready to draw.
type para struct {
	lines   [][]run
	leading measure.Length
	rise    measure.Length // from the top to the first baseline
}

func (p para) height() measure.Length { return measure.Length(len(p.lines)) * p.leading }

// paragraph wraps text to a width. A head, if there is one, comes first on the
// same line in bold. Text that needs more than most lines is cut off with an
// ellipsis.
func (st *setter) paragraph(head, text string, f page.Face, width measure.Length, most int) para {
	f.Align = page.Start
	return recall(st.paras, paraKey{head, text, f, width, most}, func() para {
		return paragraph(head, text, f, width, most)
	})
}

// spacing returns the distance of two lines in hundredths of the type size. The smallest
// type stands on crowded pages.
func spacing(size measure.Length) measure.Length {
	if size <= smallest {
		return 109
	}
	return 118
}

func paragraph(head, text string, f page.Face, width measure.Length, most int) para {
	p := para{leading: f.Size * spacing(f.Size) / 100, rise: f.Size * 88 / 100}
	text = strings.TrimSpace(legible(text, f))
	if head != "" {
		b := f
		b.Weight = page.Bold
		head, b = page.Fit(head, b, width, smallest)
		x := page.Width(head, b) + f.Size*2/5
		p.lines = [][]run{{{0, head, b}}}
		if room := width - x; room >= width/4 {
			s := page.Wrap(text, f, room)[0]
			text = strings.TrimSpace(strings.TrimPrefix(text, s))
			p.lines[0] = append(p.lines[0], run{x, s, f})
		}
	}
	if text == "" {
		return p
	}
	for _, s := range page.Wrap(text, f, width) {
		p.lines = append(p.lines, []run{{0, s, f}})
	}
	if len(p.lines) > most {
		p.lines = p.lines[:most]
		end := &p.lines[most-1][len(p.lines[most-1])-1]
		end.text = page.Cut(end.text+" …", f, width-end.x)
	}
	return p
}

// cap returns the height of capitals on the first line.
func (p para) cap() measure.Length { return p.lines[0][0].face.CapHeight() }

// draw draws the paragraph with its top left corner at at.
func (p para) draw(on canvas, at page.Point) {
	y := at.Y + p.rise
	for _, l := range p.lines {
		for _, r := range l {
			on.Text(page.Point{X: at.X + r.x, Y: y}, r.text, r.face)
		}
		y += p.leading
	}
}

// shrunk returns the paragraph in the largest size, from f.Size down to least,
// that needs at most the given lines. If even the smallest needs more, the
// paragraph is cut off.
func (st *setter) shrunk(text string, f page.Face, width, least measure.Length, most int) para {
	for {
		p := st.paragraph("", text, f, width, most+1)
		if len(p.lines) <= most {
			return p
		}
		if f.Size -= pt / 2; f.Size < least {
			f.Size = least
			return st.paragraph("", text, f, width, most)
		}
	}
}

// columns divides a row of heights into at most n columns, in order, so that
// the highest column is as low as possible. It returns the start of each
// column.
func columns(heights []measure.Length, n int) (starts []int, height measure.Length) {
	var low, high measure.Length
	for _, h := range heights {
		low, high = max(low, h), high+h
	}
	for low < high {
		if half := low + (high-low)/2; len(begin(heights, half)) <= n {
			high = half
		} else {
			low = half + 1
		}
	}
	return begin(heights, high), high
}

// split divides items at the starts of columns.
func split[T any](items []T, starts []int) [][]T {
	var parts [][]T
	for i, from := range starts {
		to := len(items)
		if i+1 < len(starts) {
			to = starts[i+1]
		}
		parts = append(parts, items[from:to])
	}
	return parts
}

// begin starts a new column whenever the next height does not fit the current
// one.
func begin(heights []measure.Length, most measure.Length) []int {
	starts := []int{0}
	var sum measure.Length
	for i, h := range heights {
		if sum+h > most && i > 0 {
			starts, sum = append(starts, i), 0
		}
		sum += h
	}
	return starts
}

package page

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"shadewright/fonts"
)

// A run is a stretch of text in one weight and size. Its distances are in
// points: dx along the baseline from the start of the line, dy above the
// baseline.
type run struct {
	text          string
	weight        fonts.Weight
	size          float64
	dx, dy, width float64
	missing       rune // a rune without a glyph; text is then empty
}

// A line is text laid out for drawing or only measured.
type line struct {
	runs  []run
	width float64 // in points
	bare  bool    // measure the width only, keep no runs
}

// before returns how much of the line lies before its alignment point.
func (l line) before(a Align) float64 { return l.width * float64(a) / 2 }

// fractionSlash joins the digits of a fraction.
const fractionSlash = '⁄'

// The proportions of a fraction, in thousandths of the type size: the size of
// the figures, how far the numerator is raised to end level with the top of the
// slash, and the room between figures and slash.
const (
	smallFigure = 640
	raise       = fonts.Slash - fonts.Figure*smallFigure/1000
	slashRoom   = 25
)

// set lays out s at the end of the line.
func (l *line) set(s string, f Face) {
	rest := clean(s)
	for {
		before, num, den, after, ok := cutFraction(rest)
		l.words(before, f)
		if !ok {
			return
		}
		l.fraction(num, den, f)
		rest = after
	}
}

// words lays out text without fractions, with a box for each missing glyph.
func (l *line) words(s string, f Face) {
	for s != "" {
		n := l.add(s, f.Weight, points(f.Size), 0)
		if s = s[n:]; s != "" {
			r, size := utf8.DecodeRuneInString(s)
			l.box(r, f)
			s = s[size:]
		}
	}
}

// add lays out text at the end of the line, raised by dy, up to the first rune
// without a glyph. It returns the number of bytes laid out.
func (l *line) add(text string, w fonts.Weight, size, dy float64) int {
	units, n := w.Measure(text)
	if n > 0 {
		l.put(run{text: text[:n], weight: w, size: size, dy: dy, width: float64(units) * size / fonts.Em})
	}
	return n
}

// put appends a run to the line.
func (l *line) put(r run) {
	if !l.bare {
		r.dx = l.width
		l.runs = append(l.runs, r)
	}
	l.width += r.width
}

// box leaves room for the box that stands for r.
func (l *line) box(r rune, f Face) {
	size := points(f.Size)
	l.put(run{weight: f.Weight, size: size, missing: r, width: size * (600 + 2*boxGap) / fonts.Em})
}

// fraction lays out num over den.
func (l *line) fraction(num, den string, f Face) {
	size, w := points(f.Size), f.Weight.Heavier()
	small := size * smallFigure / fonts.Em
	room := size * slashRoom / fonts.Em
	l.add(num, w, small, size*raise/fonts.Em)
	l.width += room
	l.add(string(fractionSlash), f.Weight, size, 0)
	l.width += room
	l.add(den, w, small, 0)
}

// cutFraction splits s around its first fraction. If there is none, before is
// all of s.
func cutFraction(s string) (before, num, den, after string, ok bool) {
	for from := 0; ; {
		i := strings.IndexRune(s[from:], fractionSlash)
		if i < 0 {
			return s, "", "", "", false
		}
		i += from
		j := i + len(string(fractionSlash))
		n, d := i, j
		for n > 0 && isDigit(s[n-1]) {
			n--
		}
		for d < len(s) && isDigit(s[d]) {
			d++
		}
		if n < i && d > j {
			return s[:n], s[n:i], s[j:d], s[d:], true
		}
		from = j
	}
}

func isDigit(b byte) bool { return '0' <= b && b <= '9' }

// clean prepares s for drawing. It composes letters and their marks (NFC),
// turns tabs and line breaks into spaces, and drops characters without a shape.
// It splits ready-made fractions so that all fractions look alike, and replaces
// runes that the faces lack with similar ones where they exist.
func clean(s string) string {
	if isPlain(s) {
		return s
	}
	var b strings.Builder
	var last rune
	for _, r := range norm.NFC.String(strings.ToValidUTF8(s, "\uFFFD")) {
		switch _, ok := fonts.Regular.Glyph(r); {
		case unicode.IsControl(r) || r == '\u2028' || r == '\u2029':
			b.WriteByte(' ')
		case unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Variation_Selector, r):
			continue
		case isFraction(r):
			if unicode.IsDigit(last) || isFraction(last) {
				b.WriteRune(thinSpace)
			}
			b.WriteString(norm.NFKC.String(string(r)))
		case ok:
			if unicode.IsDigit(r) && isFraction(last) {
				b.WriteRune(thinSpace)
			}
			b.WriteRune(r)
		default:
			b.WriteString(alike(r))
		}
		last = r
	}
	return b.String()
}

// thinSpace stands between a whole number and its fraction.
const thinSpace = '\u2009'

// isFraction reports whether r is a ready-made fraction such as ½.
func isFraction(r rune) bool { return '¼' <= r && r <= '¾' || '⅐' <= r && r <= '⅞' }

// alike returns what to draw for a rune that the faces lack: a letter of the
// same shape for the diameter sign and the empty set, the parts (NFKC) of
// ligatures and wide spaces, and any other rune itself, which becomes a box.
func alike(r rune) string {
	if r == '⌀' || r == '∅' {
		return "Ø"
	}
	parts := norm.NFKC.String(string(r))
	for _, p := range parts {
		if _, ok := fonts.Regular.Glyph(p); !ok {
			return string(r)
		}
	}
	return parts
}

// isPlain reports whether s needs no cleaning, as nearly all text does. It
// accepts ASCII, Latin letters with their marks, and the punctuation of lengths
// and sentences. The faces have glyphs for all of these.
func isPlain(s string) bool {
	for _, r := range s {
		switch {
		case ' ' <= r && r <= '~':
		case '\u00a0' <= r && r <= '\u017f' && r != '\u00ad' && !isFraction(r):
		case r == thinSpace, r == fractionSlash, '\u2013' <= r && r <= '\u201d', r == '…', r == '−':
		default:
			return false
		}
	}
	return true
}

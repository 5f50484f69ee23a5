package page

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"shadewright/fonts"
)

// A run is a stretch of text in one weight and size. Distances are in points:
// dx along the baseline from the start of the line, dy above it.
type run struct {
	text          string
	weight        fonts.Weight
	size          float64
	dx, dy, width float64
	missing       rune // the rune that has no glyph; then text is empty
}

// A line is text ready to be drawn, or only measured.
type line struct {
	runs  []run
	width float64 // in points
	bare  bool    // only the width is wanted
}

// before returns how much of the line lies before the point it is aligned to.
func (l line) before(a Align) float64 { return l.width * float64(a) / 2 }

// fractionSlash joins the digits of a fraction.
const fractionSlash = '⁄'

// The proportions of a fraction, in thousandths of the type size: the figures'
// size, how far the upper ones are raised so that they end at the top of the
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

// words sets text that holds no fraction, with a box for each missing glyph.
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

// add sets text at the end of the line, raised by dy, up to the first rune
// without a glyph, and returns how many bytes that is.
func (l *line) add(text string, w fonts.Weight, size, dy float64) int {
	units, n := w.Measure(text)
	if n > 0 {
		l.put(run{text: text[:n], weight: w, size: size, dy: dy, width: float64(units) * size / fonts.Em})
	}
	return n
}

// put sets a run at the end of the line.
func (l *line) put(r run) {
	if !l.bare {
		r.dx = l.width
		l.runs = append(l.runs, r)
	}
	l.width += r.width
}

// box leaves room for the substitute of r.
func (l *line) box(r rune, f Face) {
	size := points(f.Size)
	l.put(run{weight: f.Weight, size: size, missing: r, width: size * (600 + 2*boxGap) / fonts.Em})
}

// fraction sets num over den.
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

// cutFraction cuts s around its first fraction. Without one, before is all of s.
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

// clean composes letters and their marks (NFC), makes spaces of tabs and line
// breaks, leaves out what has no shape of its own, takes ready-made fractions
// apart so that all are set alike, and writes a rune that the faces lack with
// ones that look alike, where there are such.
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

// isFraction reports whether r is a fraction in one rune: ½ and the like.
func isFraction(r rune) bool { return '¼' <= r && r <= '¾' || '⅐' <= r && r <= '⅞' }

// alike returns what is drawn for a rune that the faces lack: the diameter and
// the empty set as the letter they resemble, ligatures and wide spaces as what
// they are made of (NFKC), any other rune as itself, which becomes a box.
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

// isPlain reports whether s needs no cleaning, as nearly all text does: ASCII,
// Latin letters with their marks, and what lengths and sentences are set with.
// The faces have all of these.
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

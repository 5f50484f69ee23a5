package page

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"shadewright/ticket/measure"
)

// Wrap cuts s into lines of at most the given width, at spaces and after
// hyphens, and at line breaks that s has. A word that is longer than a line is
// cut where it must be. At least one rune goes on each line.
func Wrap(s string, f Face, width measure.Length) []string {
	var lines []string
	for para := range strings.Lines(s + "\n") {
		lines = append(lines, wrapOne(clean(strings.TrimRight(para, "\r\n")), f, width)...)
	}
	return lines
}

func wrapOne(s string, f Face, width measure.Length) []string {
	var lines []string
	var from, to int        // the line begun is s[from:to]
	var used measure.Length // about its width, kerning between words aside
	for _, word := range words(s) {
		end := to + len(word)
		more := Width(word, f)
		if from < to && fits(s[from:end], used+more, f, width) {
			to, used = end, used+more
			continue
		}
		if from < to {
			lines = append(lines, trimEnd(s[from:to]))
		}
		from, to = end-len(strings.TrimLeftFunc(word, breakable)), end
		for used = Width(s[from:to], f); used > width; used = Width(s[from:to], f) {
			head := headWithin(s[from:to], f, width)
			if from+len(head) == to {
				break
			}
			lines = append(lines, head)
			from += len(head)
		}
	}
	return append(lines, trimEnd(s[from:to]))
}

// fits reports whether s is within width, given about how wide it is: only where
// it is close is it measured.
func fits(s string, about measure.Length, f Face, width measure.Length) bool {
	if about > width+f.Size || about < width-f.Size {
		return about < width
	}
	return Width(trimEnd(s), f) <= width
}

func trimEnd(s string) string { return strings.TrimRightFunc(s, breakable) }

// breakable reports whether a line may end at r: at spaces, but not at those
// that hold a number and its unit together.
func breakable(r rune) bool {
	switch r {
	case '\u00a0', '\u2007', '\u202f', '\u2009':
		return false
	}
	return unicode.IsSpace(r)
}

// words cuts s into words, each with the space before it; a hyphen ends a word.
func words(s string) []string {
	var ws []string
	from, inWord := 0, false
	for i, r := range s {
		switch {
		case breakable(r):
			if inWord {
				ws = append(ws, s[from:i])
				from, inWord = i, false
			}
		case (r == '-' || r == '–' || r == '/') && inWord && joins(s[i+utf8.RuneLen(r):]):
			end := i + utf8.RuneLen(r)
			ws = append(ws, s[from:end])
			from, inWord = end, false
		default:
			inWord = true
		}
	}
	if from < len(s) {
		ws = append(ws, s[from:])
	}
	return ws
}

// joins reports whether a hyphen before rest joins two words, as in
// "side-hem", and is no part of a number, as in "43-3/4".
func joins(rest string) bool {
	r, _ := utf8.DecodeRuneInString(rest)
	return unicode.IsLetter(r)
}

// headWithin returns the longest head of s within width, at least one rune.
func headWithin(s string, f Face, width measure.Length) string {
	end := 0
	for i, r := range s {
		next := i + utf8.RuneLen(r)
		if end > 0 && Width(s[:next], f) > width {
			break
		}
		end = next
	}
	return s[:end]
}

// Fit returns s set so that it takes at most width: as it is, else in a smaller
// size, no smaller than smallest, else also cut short with an ellipsis.
func Fit(s string, f Face, width, smallest measure.Length) (string, Face) {
	w := Width(s, f)
	if w <= width {
		return s, f
	}
	// Widths are proportional to the size; the step down leaves room for rounding.
	f.Size = max(measure.Length(float64(f.Size)*float64(width)/float64(w))-measure.Micrometre, min(smallest, f.Size))
	if Width(s, f) <= width {
		return s, f
	}
	return Cut(s, f, width), f
}

// Cut returns the longest head of s that takes at most width together with an
// ellipsis, or s itself where it fits.
func Cut(s string, f Face, width measure.Length) string {
	s = clean(s)
	if Width(s, f) <= width {
		return s
	}
	room := width - Width("…", f)
	if room <= 0 {
		return "…"
	}
	// Cut by widths of heads, which grow: search by halves.
	ends := []int{0}
	for i, r := range s {
		ends = append(ends, i+utf8.RuneLen(r))
	}
	lo, hi := 0, len(ends)-1
	for lo < hi {
		mid := (lo + hi + 1) / 2
		if Width(s[:ends[mid]], f) <= room {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	return strings.TrimRightFunc(s[:ends[lo]], unicode.IsSpace) + "…"
}

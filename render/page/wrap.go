package page

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"shadewright/ticket/measure"
)

// Wrap breaks s into lines of at most the given width: at spaces, after
// hyphens, and at the line breaks in s. It breaks a word longer than a line
// wherever the line is full. Every line holds at least one rune.
func Wrap(s string, f Face, width measure.Length) []string {
	var lines []string
	for para := range strings.Lines(s + "\n") {
		lines = append(lines, wrapOne(clean(strings.TrimRight(para, "\r\n")), f, width)...)
	}
	return lines
}

func wrapOne(s string, f Face, width measure.Length) []string {
	var lines []string
	var from, to int        // s[from:to] is the current line
	var used measure.Length // its approximate width: kerning between words is ignored
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

// fits reports whether s is at most width wide. It measures s only where the
// approximate width is close to the limit.
func fits(s string, about measure.Length, f Face, width measure.Length) bool {
	if about > width+f.Size || about < width-f.Size {
		return about < width
	}
	return Width(trimEnd(s), f) <= width
}

func trimEnd(s string) string { return strings.TrimRightFunc(s, breakable) }

// breakable reports whether a line may end at r: at any space except those that
// keep a number and its unit together.
func breakable(r rune) bool {
	switch r {
	case '\u00a0', '\u2007', '\u202f', '\u2009':
		return false
	}
	return unicode.IsSpace(r)
}

// words splits s into words, each with the space before it. A hyphen ends a
// word.
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

// joins reports whether the hyphen before rest joins two words, as in
// "side-hem", rather than being part of a number, as in "31-5/8".
func joins(rest string) bool {
	r, _ := utf8.DecodeRuneInString(rest)
	return unicode.IsLetter(r)
}

// headWithin returns the longest prefix of s within width, at least one rune.
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

// Fit makes s at most width wide. It reduces the type size, down to smallest if
// needed, and then cuts s short with an ellipsis.
func Fit(s string, f Face, width, smallest measure.Length) (string, Face) {
	w := Width(s, f)
	if w <= width {
		return s, f
	}
	// Width is proportional to size; the small reduction leaves room for
	// rounding.
	f.Size = max(measure.Length(float64(f.Size)*float64(width)/float64(w))-measure.Micrometre, min(smallest, f.Size))
	if Width(s, f) <= width {
		return s, f
	}
	return Cut(s, f, width), f
}

// Shrink wraps s in the largest size that needs at most the given lines, from
// the size of f down to least in steps of half a point. If even the smallest
// size needs more lines, the last one ends in an ellipsis.
func Shrink(s string, f Face, width, least measure.Length, most int) ([]string, Face) {
	for {
		lines := Wrap(s, f, width)
		if len(lines) <= most {
			return lines, f
		}
		if f.Size == least {
			lines = lines[:most]
			lines[most-1] = Cut(lines[most-1]+" …", f, width)
			return lines, f
		}
		f.Size = max(f.Size-Pt/2, least)
	}
}

// Cut returns the longest prefix of s that fits within width together with an
// ellipsis, or s itself if it fits.
func Cut(s string, f Face, width measure.Length) string {
	s = clean(s)
	if Width(s, f) <= width {
		return s
	}
	room := width - Width("…", f)
	if room <= 0 {
		return "…"
	}
	// The width grows with the prefix, so a binary search finds the longest.
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

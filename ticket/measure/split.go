package measure

import (
	"regexp"
	"strings"
)

var (
	wholeToken    = regexp.MustCompile(`^[0-9]+$`)
	fractionToken = regexp.MustCompile(`^[0-9]+/[0-9]+`)
	feetToken     = regexp.MustCompile(`^[0-9.,]*('|ft\.?|foot|feet)$`)
	twoOrOne      = regexp.MustCompile(`^[0-9]+,[0-9]+$`)
)

// Split takes a line of several lengths apart: 27 1/2 27 1/2 27 5/8, or with commas,
// semicolons, x or and between them. It returns the text of each length, for [Parse]. A
// fraction belongs to the whole number before it, and inches to the feet before them. A
// comma inside a number is a decimal comma; where a comma could be either, the error
// is a [*ParseError] that says what to write.
func Split(text string) ([]string, error) {
	const fix = "put a space or a semicolon between two readings, and write a decimal with a point"
	if len(text) > 8*longestText {
		return nil, parseError("list of lengths", text, "is too long", fix)
	}
	line := strings.ToLower(strings.TrimSpace(tidy.Replace(level(text))))
	if twoOrOne.MatchString(line) {
		return nil, parseError("list of lengths", text, "could be one length or two",
			"write "+strings.Replace(line, ",", ".", 1)+" for one, or "+strings.Replace(line, ",", " ", 1)+" for two")
	}
	var out []string
	for _, part := range strings.Split(line, ";") {
		for _, group := range strings.Split(part+" ", ", ") {
			group = strings.TrimSpace(group)
			if group == "" {
				if strings.TrimSpace(part) == "" && strings.Contains(line, ";") {
					return nil, parseError("list of lengths", text, "has nothing between two semicolons", fix)
				}
				continue
			}
			more, ok := splitAtSpaces(group)
			if !ok {
				return nil, parseError("list of lengths", text, "has commas that could part numbers or decimals", fix)
			}
			out = append(out, more...)
		}
	}
	return out, nil
}

// splitAtSpaces takes apart lengths with nothing but spaces, x or and between them. It
// returns false for a word with several commas.
func splitAtSpaces(text string) ([]string, bool) {
	words := strings.Fields(text)
	var out []string
	last := "" // the last word of the reading that is open; empty if none is
	for i, w := range words {
		if w == "x" || w == "×" || w == "by" || w == "and" || w == "&" {
			last = ""
			continue
		}
		if strings.Count(w, ",") > 1 {
			return nil, false
		}
		feetNext := i+1 < len(words) && feetToken.MatchString(words[i+1]) && !startsWithDigit(words[i+1])
		switch {
		case last == "":
			out = append(out, w)
		case !startsWithDigit(w), // a unit
			fractionToken.MatchString(w) && wholeToken.MatchString(last),
			feetToken.MatchString(last) && !feetToken.MatchString(w) && !feetNext:
			out[len(out)-1] += " " + w
		default:
			out = append(out, w)
		}
		last = w
	}
	return out, true
}

func startsWithDigit(w string) bool { return w != "" && ('0' <= w[0] && w[0] <= '9' || w[0] == '.') }

package main

import (
	"strings"

	"shadewright/ticket/measure"
)

// The territories that measure in inches and print on letter paper (Unicode CLDR
// supplemental data, measurementSystem US and paperSize US-Letter; from memory).
const (
	inchLands   = "US LR MM"
	letterLands = "BZ CA CL CO CR GT MX NI PA PH PR SV US VE"
)

// local returns the value of the first of the environment's variables that is
// set; those are the ones that POSIX.1 gives to the category.
func local(environ []string, names ...string) string {
	for _, n := range names {
		for _, e := range environ {
			if v, ok := strings.CutPrefix(e, n+"="); ok && v != "" {
				return v
			}
		}
	}
	return ""
}

// land returns the territory of a locale such as en_US.UTF-8, or "".
func land(locale string) string {
	name, _, _ := strings.Cut(locale, ".")
	name, _, _ = strings.Cut(name, "@")
	_, land, _ := strings.Cut(strings.ReplaceAll(name, "-", "_"), "_")
	return strings.ToUpper(land)
}

// localUnits guesses what a person measures in. Where the environment says
// nothing it is millimetres, as in most of the world.
func localUnits(environ []string) measure.System {
	if l := land(local(environ, "LC_ALL", "LC_MEASUREMENT", "LANG")); l != "" && strings.Contains(inchLands, l) {
		return measure.Inches
	}
	return measure.Millimetres
}

// localPaper guesses what paper is in the printer.
func localPaper(environ []string) string {
	if l := land(local(environ, "LC_ALL", "LC_PAPER", "LANG")); l != "" && strings.Contains(letterLands, l) {
		return "letter"
	}
	return "a4"
}

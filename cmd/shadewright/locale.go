package main

import (
	"strings"

	"shadewright/ticket/measure"
)

// Territories that measure in inches, and territories that print on letter paper
// (Unicode CLDR supplemental data, measurementSystem US and paperSize US-Letter; from
// memory).
const (
	inchLands   = "US LR MM"
	letterLands = "BZ CA CL CO CR GT MX NI PA PH PR SV US VE"
)

// local returns the value of the first variable in names that the environment sets.
// POSIX.1 gives the names for each locale category, and their order.
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

// localUnits guesses the units from the locale. Without a locale it returns millimetres,
// as in most of the world.
func localUnits(environ []string) measure.System {
	if l := land(local(environ, "LC_ALL", "LC_MEASUREMENT", "LANG")); l != "" && strings.Contains(inchLands, l) {
		return measure.Inches
	}
	return measure.Millimetres
}

// localPaper guesses the paper in the printer from the locale.
func localPaper(environ []string) string {
	if l := land(local(environ, "LC_ALL", "LC_PAPER", "LANG")); l != "" && strings.Contains(letterLands, l) {
		return "letter"
	}
	return "a4"
}

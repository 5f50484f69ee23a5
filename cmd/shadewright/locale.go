package main

import (
	"os"
	"slices"
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

// Time zones whose clocks only places in one territory use (IANA time zone database,
// zone1970.tab; from memory). A computer without a locale often has its zone set.
var zones = map[string]string{
	"New_York": "US", "Chicago": "US", "Denver": "US", "Phoenix": "US", "Los_Angeles": "US", "Anchorage": "US", "Honolulu": "US", "Detroit": "US", "Boise": "US",
	"Toronto": "CA", "Vancouver": "CA", "Edmonton": "CA", "Winnipeg": "CA", "Halifax": "CA", "St_Johns": "CA", "Regina": "CA",
	"Mexico_City": "MX", "Monterrey": "MX", "Tijuana": "MX", "Merida": "MX", "Cancun": "MX", "Bogota": "CO", "Caracas": "VE", "Santiago": "CL",
	"Costa_Rica": "CR", "Guatemala": "GT", "Panama": "PA", "El_Salvador": "SV", "Puerto_Rico": "PR", "Manila": "PH",
}

// withZone adds the computer's time zone to an environment that does not name one. Linux
// and macOS link /etc/localtime to it; without the link the zone stays unknown.
func withZone(environ []string) []string {
	zone, err := os.Readlink("/etc/localtime")
	if err != nil || local(environ, "TZ") != "" {
		return environ
	}
	return append(slices.Clip(environ), "TZ="+zone)
}

// zoneLand returns the territory of the computer's time zone, or "".
func zoneLand(environ []string) string {
	zone := strings.TrimPrefix(local(environ, "TZ"), ":")
	_, city, _ := strings.Cut(zone, "America/")
	if city == "" {
		_, city, _ = strings.Cut(zone, "Pacific/")
	}
	if city == "" {
		_, city, _ = strings.Cut(zone, "Asia/")
	}
	if state, _, within := strings.Cut(city, "/"); within {
		return map[string]string{"Indiana": "US", "Kentucky": "US", "North_Dakota": "US"}[state]
	}
	return zones[city]
}

// landOf returns the territory of the first of the locale variables that is set, else
// that of the time zone.
func landOf(environ []string, names ...string) string {
	if l := land(local(environ, names...)); l != "" {
		return l
	}
	return zoneLand(environ)
}

// localUnits guesses the units from the locale, else from the time zone. Without either it
// returns millimetres, as in most of the world.
func localUnits(environ []string) measure.System {
	if l := landOf(environ, "LC_ALL", "LC_MEASUREMENT", "LANG"); l != "" && strings.Contains(inchLands, l) {
		return measure.Inches
	}
	return measure.Millimetres
}

// localPaper guesses the paper in the printer from the locale, else from the time zone.
func localPaper(environ []string) string {
	if l := landOf(environ, "LC_ALL", "LC_PAPER", "LANG"); l != "" && strings.Contains(letterLands, l) {
		return "letter"
	}
	return "a4"
}

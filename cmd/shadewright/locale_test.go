package main

import (
	"testing"

	"shadewright/ticket/measure"
)

// POSIX.1-2017, 8.2, gives the order of the variables: LC_ALL, the category, LANG. The
// territories and their measures are from Unicode CLDR, from memory.
func TestLocale(t *testing.T) {
	for _, tt := range []struct {
		environ []string
		units   measure.System
		paper   string
	}{
		{nil, measure.Millimetres, "a4"},
		{[]string{"LANG=C"}, measure.Millimetres, "a4"},
		{[]string{"LANG=en_US.UTF-8"}, measure.Inches, "letter"},
		{[]string{"LANG=en_CA.UTF-8"}, measure.Millimetres, "letter"},
		{[]string{"LANG=en_GB.UTF-8"}, measure.Millimetres, "a4"},
		{[]string{"LANG=en_US.UTF-8", "LC_MEASUREMENT=de_DE.UTF-8"}, measure.Millimetres, "letter"},
		{[]string{"LANG=de_DE", "LC_ALL=es_US@euro"}, measure.Inches, "letter"},
		{[]string{"LC_ALL=", "LANG=en-US"}, measure.Inches, "letter"},
		// Without a territory in the locale, the time zone's counts: where New York, Toronto
		// and London lie is in any atlas.
		{[]string{"LANG=C.UTF-8", "TZ=America/New_York"}, measure.Inches, "letter"},
		{[]string{"TZ=/usr/share/zoneinfo/America/Indiana/Knox"}, measure.Inches, "letter"},
		{[]string{"TZ=:America/Toronto"}, measure.Millimetres, "letter"},
		{[]string{"TZ=Europe/London"}, measure.Millimetres, "a4"},
		{[]string{"LANG=de_DE.UTF-8", "TZ=America/New_York"}, measure.Millimetres, "a4"},
	} {
		if got := localUnits(tt.environ); got != tt.units {
			t.Errorf("localUnits(%q) = %v; want %v", tt.environ, got, tt.units)
		}
		if got := localPaper(tt.environ); got != tt.paper {
			t.Errorf("localPaper(%q) = %v; want %v", tt.environ, got, tt.paper)
		}
	}
}

package hang

import (
	"strings"
	"testing"

	"shadewright/ticket/measure"
	"shadewright/ticket/square"
)

// The pages that the usual rules come from.
const (
	bracket   = "topwindowblinds.com, shade measuring: inside mount of a spring roller, at any width"
	clearance = "curtainandbathoutlet.com, how to measure: 1/8 in off the opening"
	hideaway  = "windowshadeshideaway.com, roller shade measuring"
	touch     = "designers-touch.com, measuring"
	payless   = "paylessdecor.com, measuring"
	bright    = "brightwindowcoverings.com, measuring: at least 3/4 in at each side"
	newYork   = "shadesny.com, measuring"
	philly    = "phillyblinds.com, measuring: 1 to 2 in at each side"
	maker     = "manualshelf.com JPG006, a window maker's dimensions guide, p. 8"
	fitter    = "windowinstallusa.com, measurement guide: three readings agree within 1/8 in"
	shop      = "theshadeshop.blogspot.com, April 2011: wider than 48 in, a roller thicker than 1-1/8 in"
)

const noSource = "common practice, no source"

// usual returns the usual value of a setting: a length, or a plain number.
func usual(s measure.System, setting string) (measure.Length, float64) {
	r, l := UsualRules(s), UsualLimits(s)
	switch setting {
	case "overlap":
		return r.Overlap.Left, 0
	case "play":
		return r.Play, 0
	case "square":
		return square.Usual(s).Small, 0
	case "height":
		return 0, float64(r.Height)
	case "pull_step":
		return l.PullStep, 0
	case "gap", "sag", "wide_shade", "wide_tube":
		return measure.Length(l.named(setting)), 0
	case "lift", "fly", "wraps_caution", "wraps_stop", "rate_error":
		return 0, l.named(setting)
	}
	return r.named(setting), 0
}

// Every rule and limit has a page that says it, or itself says that there is none.
func TestUsualRules(t *testing.T) {
	const is, least, most = "is", "is at least", "is at most"
	tests := []struct {
		setting string
		how     string
		length  measure.Length
		number  float64
		src     string
	}{
		{"width_step", is, in / 8, 0, payless + ": round an inside width down to 1/8 in"},
		{"width_step", is, in / 8, 0, touch + ": to 1/8 in"},
		{"length_step", is, in / 8, 0, noSource},
		{"height", is, 0, float64(Longest), touch + ": the longest of three"},
		{"height", is, 0, float64(Longest), newYork + ": the longest for what hangs from the top"},
		{"tip_off", is, in / 8, 0, bracket},
		{"tip_off", is, in / 8, 0, clearance},
		{"barrel_off", is, 5 * in / 8, 0, bracket},
		{"cloth_off", is, 9 * in / 8, 0, bracket},
		{"cloth_off", is, 9 * in / 8, 0, hideaway + ": a gap of 9/16 in at each side"},
		{"height_off", is, 0, 0, noSource},
		{"play", is, in / 16, 0, noSource},
		{"overlap", is, 3 * in / 2, 0, touch + ": 1-1/2 in at each side"},
		{"overlap", is, 3 * in / 2, 0, hideaway + ": 1-1/2 in at each side"},
		{"overlap", least, 3 * in / 4, 0, bright},
		{"overlap", least, in, 0, philly},
		{"overlap", most, 2 * in, 0, philly},
		{"overlap", most, 2 * in, 0, newYork + ": 2 in at each side"},
		{"agree", is, in / 16, 0, maker + ": two of three readings within 1/16 in"},
		{"differ", is, in / 8, 0, fitter},
		{"slip", is, in / 2, 0, noSource},
		{"smallest", is, 6 * in, 0, noSource},
		{"largest", is, 20 * measure.Foot, 0, noSource},
		{"square", is, in / 8, 0, maker + ": diagonals within 1/8 in up to 20 square feet"},
		{"wraps_caution", is, 0, 1, noSource},
		{"wraps_stop", is, 0, 0.5, noSource},
		{"gap", is, in / 8, 0, noSource},
		{"lift", is, 0, 1.15, noSource},
		{"fly", is, 0, 2, noSource},
		{"pull_step", is, in / 2, 0, noSource},
		{"sag", is, in / 8, 0, noSource},
		{"wide_shade", is, 48 * in, 0, shop},
		{"wide_tube", is, 9 * in / 8, 0, shop},
		{"rate_error", is, 0, 0.25, noSource},
	}
	sourced := map[string]bool{}
	for _, tt := range tests {
		length, number := usual(measure.Inches, tt.setting)
		ok := length == tt.length && number == tt.number
		switch tt.how {
		case least:
			ok = length >= tt.length
		case most:
			ok = length <= tt.length
		}
		if !ok {
			t.Errorf("%s is %s, %v; want that it %s %s, %v (%s)", tt.setting, inches.Format(length), number, tt.how, inches.Format(tt.length), tt.number, tt.src)
		}
		sourced[tt.setting] = sourced[tt.setting] || tt.src != noSource
	}
	for _, r := range Reasons() {
		has, tested := sourced[r.Setting]
		if !tested {
			t.Errorf("%s has no check value", r.Setting)
		}
		if says := strings.HasPrefix(r.Why, noSource); says == has {
			t.Errorf("%s: %q; want %q there exactly if no page is beside its check value", r.Setting, r.Why, noSource)
		}
	}
}

// In millimetres a deduction is never less than in inches, and at most 2 mm more; a
// tolerance is never more. By hand: in × 25.4.
func TestUsualRulesInMillimetres(t *testing.T) {
	for _, setting := range []string{"tip_off", "barrel_off", "cloth_off", "overlap"} {
		inch, _ := usual(measure.Inches, setting)
		got, _ := usual(measure.Millimetres, setting)
		if got < inch || got > inch+2*mm {
			t.Errorf("%s is %s; want %s, rounded up", setting, got, inch)
		}
	}
	for _, setting := range []string{"agree", "differ", "square", "gap", "sag", "wide_shade", "wide_tube"} {
		inch, _ := usual(measure.Inches, setting)
		got, _ := usual(measure.Millimetres, setting)
		if got > inch || got < inch*9/10 {
			t.Errorf("%s is %s; want %s, rounded down", setting, got, inch)
		}
	}
}

package web

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// luminance and contrast are the relative luminance and the contrast ratio that WCAG
// 2.2 defines.
func luminance(t *testing.T, colour string) float64 {
	t.Helper()
	n, err := strconv.ParseUint(strings.TrimPrefix(colour, "#"), 16, 24)
	if err != nil || len(colour) != 7 {
		t.Fatalf("%q is not a colour of six digits", colour)
	}
	linear := func(shift uint) float64 {
		if v := float64(n>>shift&0xff) / 255; v <= 0.04045 {
			return v / 12.92
		} else {
			return math.Pow((v+0.055)/1.055, 2.4)
		}
	}
	return 0.2126*linear(16) + 0.7152*linear(8) + 0.0722*linear(0)
}

func contrast(t *testing.T, a, b string) float64 {
	t.Helper()
	x, y := luminance(t, a), luminance(t, b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func TestContrast(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want float64
		src  string
	}{
		{"#000000", "#ffffff", 21, "WCAG 2.2, contrast ratio: from 1 to 21"},
		{"#777777", "#ffffff", 4.4781, "Python 3; Understanding SC 1.4.3 cuts it to 4.47, from memory"},
		{"#1c4b66", "#fdfbf6", 9.03, "Python 3"},
	} {
		if got := contrast(t, c.a, c.b); math.Abs(got-c.want) > 0.005 {
			t.Errorf("contrast of %s on %s = %.4f; want %.4f (%s)", c.a, c.b, got, c.want, c.src)
		}
	}
}

// pairs lists what stands on what: text by 4.5 to 1 (WCAG 2.2, 1.4.3), borders and the
// ring around what has the focus by 3 to 1 (1.4.11).
var pairs = []struct {
	fore, ground string
	least        float64
}{
	{"ink", "paper", 4.5}, {"ink", "face", 4.5}, {"link", "paper", 4.5}, {"on-act", "act", 4.5}, {"on-off", "off", 4.5},
	{"edge", "paper", 3}, {"edge", "face", 3}, {"edge", "off", 3}, {"act", "paper", 3}, {"rule", "paper", 3},
	{"good", "paper", 3}, {"bad", "paper", 3}, {"focus", "paper", 3},
}

// Every colour of the pages stands at the head of the style sheet, once for light and
// once for dark, and can be told from what it stands on.
func TestColours(t *testing.T) {
	data, err := assetFiles.ReadFile("assets/style.css")
	if err != nil {
		t.Fatal(err)
	}
	blocks := regexp.MustCompile(`:root \{([^}]*)\}`)
	palettes := blocks.FindAllStringSubmatch(string(data), -1)
	if len(palettes) != 2 {
		t.Fatalf("%d lists of colours; want one for light and one for dark", len(palettes))
	}
	rest := blocks.ReplaceAllString(string(data), "")
	if stray := regexp.MustCompile(`#[0-9a-fA-F]{3,8}\b|\b(?:rgb|hsl|lab|lch|oklab|oklch|color)a?\(`).FindAllString(rest, -1); stray != nil {
		t.Errorf("colours outside the lists, with no ratio of their own: %q", stray)
	}
	for i, name := range []string{"light", "dark"} {
		colours := map[string]string{}
		for _, m := range regexp.MustCompile(`--([a-z-]+): (#[0-9a-f]{6});`).FindAllStringSubmatch(palettes[i][1], -1) {
			colours[m[1]] = m[2]
			if !strings.Contains(rest, fmt.Sprintf("var(--%s)", m[1])) {
				t.Errorf("%s: nothing uses --%s", name, m[1])
			}
		}
		if n := strings.Count(palettes[i][1], "--"); n != len(colours) {
			t.Errorf("%s: %d colours of %d are read", name, len(colours), n)
		}
		for _, m := range regexp.MustCompile(`var\(--([a-z-]+)\)`).FindAllStringSubmatch(rest, -1) {
			if colours[m[1]] == "" {
				t.Errorf("%s: --%s has no colour", name, m[1])
			}
		}
		paired := map[string]bool{}
		for _, p := range pairs {
			paired[p.fore], paired[p.ground] = true, true
			if got := contrast(t, colours[p.fore], colours[p.ground]); got < p.least {
				t.Errorf("%s: --%s on --%s has %.2f to 1; want at least %.1f", name, p.fore, p.ground, got, p.least)
			}
		}
		for c := range colours {
			if !paired[c] {
				t.Errorf("%s: no pair holds --%s", name, c)
			}
		}
	}
}

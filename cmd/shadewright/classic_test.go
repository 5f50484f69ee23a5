package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// classic finds the figures of one job that everybody in the trade knows, in every
// spelling: its finished size, its panel, its diagonal, its allowances.
var classic = regexp.MustCompile(strings.Join([]string{
	// Common practice, no source: 43-3/4 in, in code, in feet and in metric; the diagonal.
	`\b43[ -]3/4|\b43\s?¾|\b43[.,]75\b|43(?:\\u2009)?3(?:\\u2044|⁄)4|\b43 ?\* ?(?:in|inch|Inch|measure\.Inch) ?\+`,
	`\b3' ?-? ?7[ -]?(?:3/4|¾)|\b3 ?ft 7 3/4|\b1,?111(?:[.,][0-9]+)? ?mm|\b111[.,]1 ?cm|\b1_111_250\b`,
	`\b50[ -]3/8|\b50\s?⅜|\b50 ?\* ?in ?\+ ?(?:in ?\* ?3|3 ?\* ?in) ?/ ?8`,
	// Common practice, no source: the two sizes.
	`\b25(?: ?in)? ?[×x] ?(?:35|43)\b|\b25 ?\* ?(?:in|measure\.Inch), (?:Length: )?35 ?\*|width: 25, length: 35\b|(?m:(?:^|,)25,35(?:,|$))`,
	`wrap: 7(?: in)?, hem: 1/2`,
}, "|"))

// leads is how every classic figure begins; it spares most lines the slow search.
var leads = regexp.MustCompile(`43|3'|3 ?ft|111|50|25|wrap`)

// classicMark says on the line of a figure, or on the line above, why it may stand there.
const classicMark = "common practice, no source"

// The classic figures check our arithmetic in tests, where they say so. Samples, help,
// errors and comments have sizes of our own invention.
func TestClassicFigures(t *testing.T) {
	kinds := []string{".go", ".md", ".yaml", ".csv", ".tsv", ".txt", ".txtar", ".json", ".html", ".js", ".css"}
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (d.Name() == ".git" || d.Name() == "packing"):
			return filepath.SkipDir
		case d.IsDir() || !slices.Contains(kinds, filepath.Ext(path)):
			return nil
		case filepath.Ext(path) == ".txt" && filepath.Base(filepath.Dir(path)) == "testdata":
			return nil // a golden drawing: its numbers are places on paper
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		for _, fault := range unmarked(path, string(text)) {
			t.Error(fault)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// unmarked returns the lines with a classic figure that lack the mark, or that stand
// in a file which is not a test.
func unmarked(path, text string) []string {
	isTest := strings.HasSuffix(path, "_test.go") || filepath.Ext(path) == ".txtar"
	var out []string
	above := ""
	for i, line := range strings.Split(text, "\n") {
		found := ""
		if leads.MatchString(line) {
			found = classic.FindString(line)
		}
		marked := isTest && strings.Contains(strings.ToLower(above+"\n"+line), classicMark)
		above = line
		if found == "" || marked {
			continue
		}
		remedy := "take a size of our own"
		if isTest {
			remedy += ", or write “" + classicMark + "” beside it"
		}
		out = append(out, fmt.Sprintf("%s:%d: has the classic figure %q; %s", path, i+1, found, remedy))
	}
	return out
}

// What the test above looks for, and where it may stand.
func TestClassicFiguresAreFound(t *testing.T) {
	for _, line := range []string{
		// Common practice, no source: one spelling each.
		"43 3/4", "43-3/4 in", "43¾", "43.75", "43,75", `43\u20093\u20444`, "43*in + in*3/4", "43*measure.Inch + 3*measure.Inch/4", // common practice, no source
		`3' 7 3/4"`, "3 ft 7 3/4 in", "1111 mm", "1111.25 mm", "111.1 cm", "50 3/8", "50-3/8", "50*in + in*3/8", // common practice, no source
		"25 × 35", "25x43", "Width: 25 * in, Length: 35 * in", "{width: 25, length: 35}", "a,25,35,1", "wrap: 7, hem: 1/2", // common practice, no source
	} {
		if len(unmarked("a.md", line)) == 0 || len(unmarked("a_test.go", line)) == 0 {
			t.Errorf("%q is not found", line)
		}
		why := "// Common practice, no source.\n"
		if len(unmarked("a_test.go", why+line)) > 0 || len(unmarked("a.txtar", "# "+why+line)) > 0 || len(unmarked("a.go", why+line)) == 0 {
			t.Errorf("%q may stand in a marked test, and only there", line)
		}
		if len(unmarked("a_test.go", why+"\n"+line)) == 0 {
			t.Errorf("%q is two lines below the mark", line)
		}
	}
	// Near the figures, not of the set (common practice, no source).
	for _, line := range []string{"31 5/8", "143-3/4", "43 3/8", "43.7", "25 × 36", "25,350", "125,35", "43*inch/16", "wrap: 9, hem: 1/2", "150-3/8", "11111 mm"} {
		if found := unmarked("a.md", line); len(found) > 0 {
			t.Errorf("%q is taken for a classic figure: %s", line, found)
		}
	}
}

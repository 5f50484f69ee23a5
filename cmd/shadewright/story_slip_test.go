package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// messyList is a list of sizes as people keep them: a title, sections that each count from one,
// mixed units and capitals, an empty row and a total. It has 24 shades.
func messyList() string {
	var b strings.Builder
	b.WriteString("Lakeside cottages, spring\n\nWindow;Width;Drop;Qty;Cloth;Roller;Slat\nNorth cottage;;;;;;\n")
	for i := 1; i <= 24; i++ {
		if i == 13 {
			b.WriteString(";;;;;;\nSouth cottage;;;;;;\n")
		}
		width := [...]string{"24½", "615 mm", `2' 1"`, "26-3/8 in"}[i%4]
		length := [...]string{"37", "94 cm", `38 1/2"`}[i%3]
		fmt.Fprintf(&b, "%d;%s;%s;1;Reed-Mesh;donor;flat\n", (i-1)%12+1, width, length)
	}
	b.WriteString("Total;;;24;;;\n")
	return b.String()
}

// A messy list of 24 shades becomes a job. Twelve panels are cut, one of those is spoilt, and
// one that is not cut gets another width. The second plan has exactly what is missing: twelve
// panels and the spoilt one, by the names on the paper as another program reads them.
func TestSlipHalfway(t *testing.T) {
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("needs pdftotext of poppler-utils to read the plan")
	}
	dir := t.TempDir()
	list, job, rec := filepath.Join(dir, "sizes.csv"), filepath.Join(dir, "job.yaml"), "record.at="+filepath.Join(dir, "marks.db")
	write(t, list, messyList())
	do := func(want int, args ...string) string {
		t.Helper()
		code, out, errs := shadewright(t, args...)
		if code != want {
			t.Fatalf("%q: exit %d; want %d\n%s%s", args, code, want, out, errs)
		}
		return out + errs
	}
	said := do(exitDone, "import", "--units", "in", "--like", "../../testdata/jobs/bunkhouse.yaml", "--name", "Lakeside cottages", "--out", job, list)
	if !strings.Contains(said, "24 rows") {
		t.Fatalf("import: %s", said)
	}
	out := filepath.Join(dir, "paper")
	do(exitPart, "print", "--set", rec, "--out", out, job) // the openings are not measured
	if first := panelsOn(t, filepath.Join(out, "cutplan.pdf")); len(first) != 24 {
		t.Fatalf("the first plan has %d panels: %q", len(first), first)
	}

	var report struct {
		Shades []struct{ ID, Code string } `json:"shades"`
	}
	_, text, _ := shadewright(t, "check", "--json", "--set", rec, job)
	if err := json.Unmarshal([]byte(text), &report); err != nil {
		t.Fatal(err)
	}
	scan := "STEP:CUT:93\n" // the bench sheet's code, its check computed with Python 3
	for _, s := range report.Shades[:12] {
		scan += s.Code + "\n"
	}
	scan += "REMADE:CUT%20WRONG:SS\n" + report.Shades[4].Code + "\n"
	var o, e bytes.Buffer
	if code := runReading(scan, &o, &e, "scan", "--set", rec); code != exitPart || strings.Count(o.String(), "DONE, BUT") != 12 || strings.Count(o.String(), "REMADE") != 1 {
		t.Fatalf("scan: exit %d\n%s%s", code, o.String(), e.String()) // the steps before cutting are not marked
	}

	// The eighth of the second cottage, the twentieth of all, is 24-1/2 in wide on the list (20
	// leaves no rest by four), and 25 in now.
	before := read(t, job)
	after := regexp.MustCompile(`(?s)(id: south-cottage-8\n.*?width: )24-1/2`).ReplaceAllString(before, "${1}25")
	if after == before {
		t.Fatalf("south-cottage-8 is not in the job as expected:\n%s", before)
	}
	write(t, job, after)
	said = do(exitPart, "print", "--set", rec, "--out", out, job)
	var want []string
	for _, s := range report.Shades[12:] {
		want = append(want, s.ID)
	}
	want = append(want, report.Shades[4].ID)
	slices.Sort(want)
	got := panelsOn(t, filepath.Join(out, "cutplan.pdf"))
	if !slices.Equal(got, want) {
		t.Errorf("the second plan has %q; want %q\n%s", got, want, said)
	}
	for _, words := range []string{"tickets of 13 shades", "1 new ticket", "12 changed tickets", "south-cottage-8\tpanel width 24-1/2 → 25 in", "11 panels are cut already"} {
		if !strings.Contains(said, words) {
			t.Errorf("print does not say %q:\n%s", words, said)
		}
	}
}

// runReading runs the program with a text on its standard input.
func runReading(in string, out, errs *bytes.Buffer, args ...string) int {
	return run(context.Background(), args, environment{in: strings.NewReader(in), out: out, err: errs})
}

// panelsOn returns the names of the panels in the table of cuts of a plan, each once.
func panelsOn(t *testing.T, pdf string) []string {
	t.Helper()
	text, err := exec.Command("pdftotext", "-layout", pdf, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	names := regexp.MustCompile(`\b(north|south)-cottage-[0-9]+\b`).FindAllString(string(text), -1)
	slices.Sort(names)
	return slices.Compact(names)
}

func write(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func read(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}
